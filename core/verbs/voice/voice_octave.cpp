// core/verbs/voice/voice_octave.cpp -- whether a note's overblown octave is there and clean, as
// JSON.
#include "core/verbs/voice/voice_parts.hpp"

namespace canewright {

namespace {

const char* flaw_name(OctaveFlaw flaw, const Regime& second) {
    switch (flaw) {
        case OctaveFlaw::none:
            return "";
        case OctaveFlaw::not_told:
            return "beyond_the_model";
        case OctaveFlaw::never_holds:
            return "never_holds";
        case OctaveFlaw::no_gain:
            return "no_gain";
        case OctaveFlaw::weak:
            return "weak";
        case OctaveFlaw::another_nearer:
            return "another_nearer";
        case OctaveFlaw::not_held:
            return name(pitch_reach(second));
        case OctaveFlaw::not_where_it_jumps:
            return "not_where_it_jumps";
    }
    return "";
}

Json octave_said(bool there, const Json& clean, Json why) {
    Json json = Json::object();
    json["there"] = there;
    json["clean"] = clean;
    json["why"] = std::move(why);
    return json;
}

}  // namespace

const char* name(PitchReach reach) {
    switch (reach) {
        case PitchReach::held:
            return "";
        case PitchReach::jumps_before:
            return "jumps_before";
        case PitchReach::dies_before:
            return "dies_before";
        case PitchReach::begins_above:
            return "begins_above";
    }
    return "";
}

Json octave_json(const VoiceCase& one, const BlownNote& note) {
    const Resonance& resonance = note.resonances[1];
    const Regime& second = note.regimes[1];
    if (!note.playable) return octave_said(false, nullptr, why_json("hole_not_cut"));
    if (!resonance.found) return octave_said(false, false, why_json(resonance.why));
    if (!resonance.converged) return octave_said(true, nullptr, why_json("not_converged"));
    if (!one.mapped) return octave_said(true, nullptr, why_json(one.judgement));
    if (second.judgement.band == Band::out)
        return octave_said(true, nullptr, why_json(second.judgement));
    const OctaveJudgement judged = judge_octave(note.loops, note.regimes[0], second);
    if (judged.clean()) return octave_said(true, true, nullptr);
    Json why = why_json(flaw_name(judged.flaw, second));
    why["value"] = number_json(judged.value);
    why["limit"] = number_json(judged.limit);
    const bool told = judged.flaw != OctaveFlaw::not_told;
    return octave_said(true, told ? Json(false) : Json(nullptr), std::move(why));
}

}  // namespace canewright
