// core/verbs/voice/tune.cpp -- which notes of a flute a tune has.
#include <cmath>
#include <cstddef>

#include "core/flute/resonance.hpp"
#include "core/music/pitch_name.hpp"
#include "core/verbs/voice/tone.hpp"
#include "core/verbs/voice/tone_asked.hpp"

namespace canewright {

namespace {

constexpr std::size_t kMostTune_bytes = 1000;
constexpr int kOctave = 12;
constexpr double kOctaves[] = {1.0, 2.0};  // of the two registers, over the first's

struct Playable {
    Fingering open;
    int register_number;
    int note;
};

// Each fingering's note, by what it is meant to sound or else by what it does, lowest register
// first.
std::vector<Playable> playable_notes(const Document& document) {
    const double a4_Hz =
        document.song ? document.song->a4_Hz.value_or(kDefaultA4_Hz) : kDefaultA4_Hz;
    const PlayedFlute flute = played_flute(document);
    std::vector<Playable> all;
    for (const double octave : kOctaves) {
        for (std::size_t k = 0; k < flute.task.notes.size(); ++k) {
            if (!flute.task.playable[k]) continue;
            double f_Hz = flute.task.notes[k].target_Hz.value_or(0.0);
            if (!(f_Hz > 0.0))
                f_Hz =
                    resonance(flute.task.flute, flute.air, flute.task.fingering[k], 1).frequency_Hz;
            const NearestNote nearest = nearest_note(octave * f_Hz, a4_Hz);
            if (nearest.ok)
                all.push_back({flute.task.notes[k].open, static_cast<int>(octave), nearest.note});
        }
    }
    return all;
}

std::vector<std::string> words_of(const std::string& text) {
    std::vector<std::string> words;
    std::string word;
    for (const char letter : text + " ") {
        if (letter != ' ' && letter != '\n' && letter != '\t' && letter != '\r') {
            word.push_back(letter);
        } else if (!word.empty()) {
            words.push_back(word);
            word.clear();
        }
    }
    return words;
}

Answer tune_of(const Document& document, const std::string& tune) {
    const std::vector<Playable> playable = playable_notes(document);
    Faults faults;
    Json notes = Json::array();
    std::size_t n = 0;
    for (const std::string& word : words_of(tune)) {
        const std::string path = "tune[" + std::to_string(n++) + "]";
        const ParsedNote full = read_note(word);
        const ParsedNote any = full.ok ? full : read_note(word + "4");
        if (!any.ok) {
            faults.add(violation_of_text(Code::not_a_note, path, word));
            continue;
        }
        const Playable* found = nullptr;
        for (const Playable& each : playable) {
            const bool same =
                full.ok ? each.note == full.note : (each.note - any.note) % kOctave == 0;
            if (same && found == nullptr) found = &each;
        }
        if (found == nullptr) {
            faults.add(violation_of_text(Code::unknown_name, path, word));
            continue;
        }
        Json note = Json::object();
        note["open"] = found->open;
        note["register"] = found->register_number;
        note["name"] = note_name(found->note);
        notes.push_back(std::move(note));
    }
    if (n == 0) faults.add(violation(Code::missing, "tune"));
    Json json = Json::object();
    json["notes"] = std::move(notes);
    return {std::move(json), faults.all()};
}

}  // namespace

Answer tune_answer(const std::string& text) {
    std::string tune;
    return asked_of_flute(
        text,
        [&](Fields& fields) {
            const auto typed = fields.text("tune", kMostTune_bytes);
            if (!typed && !fields.has("tune")) fields.missing("tune");
            tune = typed.value_or("");
        },
        [&](const Document& document) { return tune_of(document, tune); });
}

}  // namespace canewright
