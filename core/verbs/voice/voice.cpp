// core/verbs/voice/voice.cpp -- the document made into a voice with its notes, and all parts put
// together.
#include "core/verbs/voice/voice.hpp"

#include <cmath>
#include <limits>

#include "core/task/build.hpp"
#include "core/task/replay.hpp"
#include "core/verbs/taught.hpp"
#include "core/verbs/voice/voice_faults.hpp"
#include "core/verbs/voice/voice_parts.hpp"

namespace canewright {

namespace {

// How far the edge lies off the jet's middle, of the track's height: a maker aims it by eye, and no
// key of the document says how high the track's floor lies. Judgement; between 0 and 0.2 the design
// breath stays, and a jump up falls by 7 to 20 % (two flutes tried).
constexpr double kUsualOffset = 0.1;

double or_proposed(const std::optional<double>& given_m, const char* path, VoiceCase& one) {
    if (given_m) return *given_m;
    one.missing.push_back(path);
    return one.proposed_m(path);  // not a number: no room for it
}

Voice voice_of(VoiceCase& one) {
    const TrackEntry track = one.document.track.value_or(TrackEntry{});
    Voice voice;
    voice.track.depth_m = or_proposed(track.depth_m, "track.depth_mm", one);
    voice.track.width_m = or_proposed(track.width_m, "track.width_mm", one);
    voice.track.length_m = or_proposed(track.length_m, "track.length_mm", one);
    // Absent is no gap, by the document's format; but with the proposals in the holes its own, too.
    const double gap_m = one.proposed_m("track.block_gap_mm");
    voice.track.block_gap_m =
        track.block_gap_m.value_or(one.described() || !std::isfinite(gap_m) ? 0.0 : gap_m);
    voice.window_m = one.task.flute.sound_hole.length_m;
    voice.width_m = one.task.flute.sound_hole.width_m;
    voice.edge_offset_m = kUsualOffset * voice.track.height_m();
    return voice;
}

BlownNote blown_note(const VoiceCase& one, const Fingering& fingering) {
    BlownNote note;
    const Network network(one.task.flute, one.air, fingering);
    std::array<double, 2> each_Hz{};
    for (std::size_t n = 0; n < note.resonances.size(); ++n) {
        note.resonances[n] = resonance(network, static_cast<int>(n) + 1);
        const Resonance& found = note.resonances[n];
        each_Hz[n] = found.found && found.converged ? found.frequency_Hz
                                                    : std::numeric_limits<double>::quiet_NaN();
    }
    note.loops = note_loops(network, each_Hz[0], each_Hz[1]);
    return note;
}

void blow(BlownNote& note, const Blowing& blowing, const std::array<bool, 2>& registers) {
    for (std::size_t n = 0; n < note.regimes.size(); ++n) {
        const int number = static_cast<int>(n) + 1;
        note.regimes[n] =
            registers[n] ? blowing.regime(note.loops, number) : blowing.design(note.loops, number);
    }
}

// Out also where there is no jet to be judged.
Judgement judgement_of(const VoiceCase& one) {
    const Regime& regime = one.lowest.regimes[0];
    if (!(regime.flow.centre_m_s > 0.0)) return {Band::out, BandReason::none, 0.0, 0.0};
    return regime.judgement;
}

VoiceCase voice_case(const Document& document) {
    VoiceCase one;
    const PlayedFlute now = played_flute(document);
    one.document = replay(document).document;
    one.task = now.task;
    one.heard = now.heard;
    one.air = one.jet_air = now.air;
    if (one.air.lossless) one.jet_air = moist_air(sounding_air(AirState{}));
    one.proposals = voice_proposals(one.document);
    one.voice = voice_of(one);
    one.lowest = blown_note(one, {});
    for (std::size_t k = 0; k < one.task.notes.size(); ++k) {
        const bool covered = one.task.fingering[k].empty() && one.task.playable[k];
        BlownNote note;
        if (covered)
            note = one.lowest;
        else if (one.task.playable[k])
            note = blown_note(one, one.task.fingering[k]);
        note.open = one.task.notes[k].open;
        note.on_flute = one.task.fingering[k];
        note.playable = one.task.playable[k];
        one.notes.push_back(note);
    }
    return one;
}

}  // namespace

double VoiceCase::proposed_m(const char* path) const {
    for (const Proposal& each : proposals)
        if (each.path == path) return each.size_m;
    return std::numeric_limits<double>::quiet_NaN();
}

Document played_document(const Document& given) {
    Document document = planned_like_before(given);
    if (!document.finger_holes) document.notes = std::vector<NoteEntry>{NoteEntry{}};
    return document;
}

PlayedFlute played_flute(const Document& document) {
    if (is_taught(document) && missing_for(Verb::layout, document).empty()) {
        const TaughtFlute taught = taught_flute(document);
        return {taught.task, taught.air, taught.heard};
    }
    return {sound_task(document), bore_air(document), false};
}

// The lowest note, the calibration by what it and the log say, then every note.
BlownCase blown_case(const Document& document, std::array<bool, 2> registers) {
    BlownCase all{voice_case(document), {}, Json::object()};
    VoiceCase& one = all.one;
    all.calibrated["calibrated"] = nullptr;
    const Track& track = one.voice.track;
    if (!std::isfinite(track.depth_m + track.width_m + track.length_m)) return all;
    all.blowing.emplace(one.voice, one.jet_air);
    const auto blow_lowest = [&] {
        blow(one.lowest, *all.blowing, {false, false});
        one.judgement = judgement_of(one);
        one.mapped = one.judgement.band != Band::out;
    };
    blow_lowest();
    calibrate_voice(document, one, *all.blowing, all.calibrated);
    if (one.calibrated_by) blow_lowest();
    for (BlownNote& note : one.notes)
        if (one.mapped && note.playable) blow(note, *all.blowing, registers);
    return all;
}

Answer voice_answer(const Document& given) {
    Answer answer;
    answer.violations = pattern_faults(given);
    if (!answer.violations.empty()) return answer;
    const Document document = played_document(given);
    const BlownCase blown = blown_case(document);
    const VoiceCase& one = blown.one;

    Json json = Json::object();
    add_voice(one, json);
    json["notes"] = voice_notes_json(one);
    json.update(blown.calibrated);
    json["as_cut"] = as_cut_json(one);
    json["proposed"] = Json::array();
    for (const Proposal& each : one.proposals) json["proposed"].push_back(proposal_json(each));
    json["advice"] = advice_json(one);
    json["faults"] = faults_json(one);
    answer.json = std::move(json);
    return answer;
}

}  // namespace canewright
