// core/verbs/sound.cpp -- the verb `sound`: what each fingering sounds.
#include <cmath>

#include "core/base/units.hpp"
#include "core/flute/resonance.hpp"
#include "core/jet/sounding.hpp"
#include "core/layout/lift.hpp"
#include "core/music/pitch_name.hpp"
#include "core/task/task.hpp"
#include "core/verbs/answer.hpp"

namespace canewright {

namespace {

// Null where there is no such resonance.
Json hz_json(const Resonance& resonance) {
    if (!resonance.found || !resonance.converged) return nullptr;
    return resonance.frequency_Hz;
}

const char* why_not(const Resonance& resonance) {
    return resonance.found ? "not_converged" : resonance.why;
}

Json note_json(const SoundTask& task, std::size_t i, const Air& air, double a4_Hz, double breath,
               double lift_cents) {
    const NoteEntry& note = task.notes[i];
    Json json = Json::object();
    json["open"] = note.open;
    if (note.target_Hz) json["target_hz"] = *note.target_Hz;
    if (!task.playable[i]) {
        json["hz"] = nullptr;
        json["second_hz"] = nullptr;
        json["converged"] = true;  // nothing was solved that could have failed
        json["why"] = "hole_not_cut";
        return json;
    }
    const Network network(task.flute, air, task.fingering[i]);
    Resonance first = resonance(network, 1);
    const Resonance second = second_resonance(network, first.found ? first.frequency_Hz : 0.0);
    double breath_cents = lift_cents;
    if (breath_cents != 0.0 || breath != 1.0) {
        if (first.found && first.converged)
            breath_cents += canewright::breath_cents(network, first.frequency_Hz, breath);
        first.frequency_Hz = shifted_Hz(first.frequency_Hz, breath_cents);
    }
    json["hz"] = hz_json(first);
    json["second_hz"] = hz_json(second);
    if (json["second_hz"].is_null()) json["second_why"] = why_not(second);
    if (json["hz"].is_null()) {
        json["why"] = why_not(first);
    } else {
        json["name"] = name_json(first.frequency_Hz, a4_Hz);
        if (breath_cents != 0.0 || breath != 1.0) json["breath_cents"] = breath_cents;
        if (note.target_Hz) json["cents"] = cents_off(first.frequency_Hz, *note.target_Hz);
    }
    json["converged"] = first.converged;
    return json;
}

}  // namespace

Json name_json(double frequency_Hz, double a4_Hz) {
    const NearestNote nearest = nearest_note(frequency_Hz, a4_Hz);
    if (!nearest.ok) return nullptr;
    return nearest.name;
}

double cents_off(double frequency_Hz, double target_Hz) {
    const double cents = cents_between(frequency_Hz, target_Hz);
    return std::abs(cents) < kResolved_cents ? 0.0 : cents;
}

Json sound_answer(const Document& document) {
    const SoundTask task = sound_task(document);
    const double octave_cents = document.song ? document.song->lift_cents.value_or(0.0) : 0.0;
    return sound_json(document, task, bore_air(document), octave_cents);
}

Json sound_json(const Document& document, const SoundTask& task, const Air& air,
                double octave_cents) {
    const double a4_Hz =
        document.song ? document.song->a4_Hz.value_or(kDefaultA4_Hz) : kDefaultA4_Hz;
    const double breath = document.song ? document.song->breath.value_or(1.0) : 1.0;
    Json json = Json::object();
    if (const auto room = room_C(document)) json["at_c"] = *room;
    json["notes"] = Json::array();
    for (std::size_t i = 0; i < task.notes.size(); ++i) {
        json["notes"].push_back(
            note_json(task, i, air, a4_Hz, breath, lift_cents(octave_cents, task.above_cents[i])));
    }
    return json;
}

}  // namespace canewright
