// core/verbs/voice/voice_map.cpp -- the voice and the notes' breath as JSON, and what one pressure
// in the log makes of them.
#include <algorithm>
#include <cmath>

#include "core/base/units.hpp"
#include "core/document/typed.hpp"
#include "core/verbs/voice/voice.hpp"
#include "core/verbs/voice/voice_parts.hpp"

namespace canewright {

namespace {

const char* band_name(Band band) {
    return band == Band::good ? "good" : band == Band::rough ? "rough" : "out";
}

const char* reason_name(BandReason reason) {
    switch (reason) {
        case BandReason::none:
            return "no_resonance";
        case BandReason::reynolds:
            return "reynolds";
        case BandReason::short_window:
            return "short_window";
        case BandReason::long_window:
            return "long_window";
        case BandReason::fast_jet:
            return "fast_jet";
    }
    return "";
}

// By how much, either way, a pressure may be off: as the band says, or as the calibration leaves
// it, whichever is nearer.
double factor_of(const VoiceCase& one, Band band, PressureMark asked) {
    const double own = band == Band::good ? 1.0 + kGoodShare : kRoughFactor;
    return one.calibrated_by ? std::min(own, remaining_factor(*one.calibrated_by, asked)) : own;
}

// What flows through a track as it is blown, softly and hard. Valid: laminar, as track_flow().
Json flow_json(const VoiceCase& one, const Track& track) {
    Json json = Json::array();
    for (const double pressure_Pa : {kLeastBlown_Pa, kMostBlown_Pa})
        json.push_back(
            number_json(ml_from_m3(track_flow(one.jet_air, track, pressure_Pa).flow_m3_s)));
    return json;
}

// With the gap under the block, and without it: where the track is as thin as paper the gap is most
// of the way. What is proposed stands for one that nobody has said.
void add_flow_range(const VoiceCase& one, Json& json) {
    Track track = one.voice.track;
    const bool given = one.document.track && one.document.track->block_gap_m;
    const double proposed_m = one.proposed_m("track.block_gap_mm");
    if (!given && std::isfinite(proposed_m)) track.block_gap_m = proposed_m;
    json["flow_range_ml_s"] = flow_json(one, track);
    json["flow_range_pa"] = {kLeastBlown_Pa, kMostBlown_Pa};
    json["flow_range_why"] = "friction_only";
    json["flow_gap_mm"] = number_json(typed_mm(track.block_gap_m));
    json["flow_gap_from"] = given ? "given" : track.block_gap_m > 0.0 ? "proposed" : "none";
    track.block_gap_m = 0.0;
    json["flow_sealed_ml_s"] = flow_json(one, track);
}

Json voice_json(const VoiceCase& one) {
    const Regime& regime = one.lowest.regimes[0];
    const bool jet = regime.flow.centre_m_s > 0.0;
    const auto if_jet = [jet](double value) { return jet ? number_json(value) : Json(nullptr); };
    const auto if_mapped = [&](double value) {
        return one.mapped && jet ? number_json(value) : Json(nullptr);
    };
    Json json = Json::object();
    json["flow_ml_s"] = if_mapped(ml_from_m3(regime.flow.flow_m3_s));
    json["seconds"] = if_mapped(regime.breath_s);
    json["jet_m_s"] = if_jet(regime.flow.centre_m_s);
    json["reynolds"] = if_jet(regime.flow.reynolds);
    json["ratio"] = number_json(one.ratio());
    json["pa"] = if_mapped(regime.at_pitch_Pa);
    json["water_mm"] = if_mapped(water_mm_from_Pa(regime.at_pitch_Pa));
    json["band"] = band_name(one.judgement.band);
    json["why"] = why_json(one.judgement);
    json["edge_offset_mm"] = number_json(mm_from_m(one.voice.edge_offset_m));
    if (!one.mapped) add_flow_range(one, json);
    return json;
}

struct NamedPressure {
    const char* name;
    double pressure_Pa;
    PressureMark mark;  // whose error it shares: an end of the register is as sure as a jump there
};

// Pressures of a register that sounds, and why those that are null are.
//   below_told   whether the model can say if the register below sounds
void add_pressures(const VoiceCase& one, const Regime& r, int register_number, bool below_told,
                   Json& json) {
    const NamedPressure each[] = {{"soft", r.soft_Pa, PressureMark::falls_back},
                                  {"at_pitch", r.at_pitch_Pa, PressureMark::at_pitch},
                                  {"hard", r.hard_Pa, PressureMark::jumps_up}};
    Json pa = Json::object(), water = Json::object(), factors = Json::object();
    Json null_why = Json::object();
    for (const NamedPressure& one_of : each) {
        pa[one_of.name] = number_json(one_of.pressure_Pa);
        water[one_of.name] = number_json(water_mm_from_Pa(one_of.pressure_Pa));
        factors[one_of.name] = factor_of(one, r.judgement.band, one_of.mark);
        if (!std::isfinite(one_of.pressure_Pa)) null_why[one_of.name] = "beyond_the_model";
    }
    json["pa"] = std::move(pa);
    json["water_mm"] = std::move(water);
    json["jumps_up_pa"] = number_json(r.jumps_up_Pa);
    json["falls_back_pa"] = number_json(r.falls_back_Pa);
    if (!std::isfinite(r.jumps_up_Pa))
        null_why["jumps_up_pa"] = std::isfinite(r.hard_Pa) ? "falls_silent" : "beyond_the_model";
    if (register_number == 1)
        null_why["falls_back_pa"] = "lowest_register";
    else if (!std::isfinite(r.falls_back_Pa))
        null_why["falls_back_pa"] =
            std::isfinite(r.soft_Pa) && below_told ? "falls_silent" : "beyond_the_model";
    const char* reach = name(pitch_reach(r));
    json["pitch_kept_by"] = reach[0] ? Json(reach) : Json(nullptr);
    json["cents_soft"] = number_json(r.cents_soft);
    json["cents_hard"] = number_json(r.cents_hard);
    json["cents_per_doubling"] = number_json(r.cents_per_doubling);
    json["pa_factor"] = factors["at_pitch"];
    json["pa_factors"] = std::move(factors);
    json["null_why"] = std::move(null_why);
}

// How far jump up and falling back lie apart, which a rough jet does not tell (core/jet/band): as
// it is blown at either.
void add_gap(const VoiceCase& one, const Regime& first, const Regime& second, Json& json) {
    const auto good = [&](double pressure_Pa) {
        const TrackFlow flow = track_flow(one.jet_air, one.voice.track, pressure_Pa);
        return judge(flow.reynolds, one.ratio(), flow.centre_m_s).band == Band::good;
    };
    const double gap = first.jumps_up_Pa / second.falls_back_Pa;
    const char* why = !std::isfinite(gap)                                       ? "no_jump"
                      : gap < 1.0                                               ? "neither_between"
                      : !good(first.jumps_up_Pa) || !good(second.falls_back_Pa) ? "rough_band"
                                                                                : "";
    json["jump_gap"] = why[0] ? Json(nullptr) : Json(gap);
    if (why[0]) json["null_why"]["jump_gap"] = why;
}

void add_no_pressures(Json& json) {
    for (const char* key :
         {"pa", "water_mm", "jumps_up_pa", "falls_back_pa", "cents_soft", "cents_hard",
          "cents_per_doubling", "pitch_kept_by", "pa_factor", "pa_factors"})
        json[key] = nullptr;
}

Json register_json(const VoiceCase& one, const BlownNote& note, std::size_t n) {
    const Resonance& resonance = note.resonances[n];
    const Regime& regime = note.regimes[n];
    const int number = static_cast<int>(n) + 1;
    const bool there = note.playable && resonance.found && resonance.converged;
    Json json = Json::object();
    json["open"] = note.open;
    json["register"] = number;
    json["hz"] = there ? number_json(resonance.frequency_Hz) : Json(nullptr);
    const Judgement judgement =
        one.mapped && there
            ? regime.judgement
            : Judgement{Band::out, one.judgement.reason, one.judgement.value, one.judgement.limit};
    const bool sounds = one.mapped && there && regime.found && judgement.band != Band::out;
    if (sounds)
        add_pressures(one, regime, number, is_told(note.regimes[0]), json);
    else
        add_no_pressures(json);
    if (number == 2 && sounds) add_gap(one, note.regimes[0], regime, json);
    if (number == 2)
        json["cents_from_octave"] =
            there && note.resonances[0].converged
                ? number_json(
                      cents_between(resonance.frequency_Hz, 2.0 * note.resonances[0].frequency_Hz))
                : Json(nullptr);
    if (number == 2) json["octave"] = octave_json(one, note);
    json["band"] = band_name(judgement.band);
    if (!note.playable)
        json["why"] = why_json("hole_not_cut");
    else if (!there)
        json["why"] = why_json(resonance.found ? "not_converged" : resonance.why);
    else if (judgement.band != Band::out && !regime.found)
        json["why"] = why_json(is_told(regime) ? regime.why : "beyond_the_model");
    else if (judgement.band != Band::good)
        json["why"] = why_json(judgement);
    return json;
}

PressureMark mark_of(BlownTo blown_to) {
    return blown_to == BlownTo::jumps_up     ? PressureMark::jumps_up
           : blown_to == BlownTo::falls_back ? PressureMark::falls_back
                                             : PressureMark::at_pitch;
}

// The loops of the fingering of a breath, on the flute as it stood when it was blown: the one that
// was asked about, where nothing was cut since, or the log up to there.
std::optional<NoteLoops> loops_then(const Document& document, const VoiceCase& one,
                                    std::size_t index, bool cut_since) {
    const bool other =
        cut_since || document.sounds_as.value_or(SoundsAs::standing) == SoundsAs::planned;
    Document then = document;
    then.notes = std::vector<NoteEntry>{{(*document.log)[index].open, {}}};
    then.sounds_as = SoundsAs::standing;
    then.log->resize(index + 1);
    const SoundTask task = sound_task(then);
    if (!task.playable[0]) return {};
    return note_loops(Network(other ? task.flute : one.task.flute, one.air, task.fingering[0]));
}

}  // namespace

Json why_json(const char* code) {
    Json json = Json::object();
    json["code"] = code;
    json["value"] = nullptr;
    json["limit"] = nullptr;
    return json;
}

Json why_json(const Judgement& judgement) {
    if (judgement.band == Band::good) return nullptr;
    Json json = why_json(reason_name(judgement.reason));
    if (judgement.reason == BandReason::none) return json;
    json["value"] = number_json(judgement.value);
    json["limit"] = number_json(judgement.limit);
    return json;
}

void add_voice(const VoiceCase& one, Json& json) {
    const bool given = one.described();
    json["voice"] = given ? voice_json(one) : Json(nullptr);
    json["missing"] = one.missing;
    json["from"] = given ? "given" : "proposed";
    const bool room = std::isfinite(one.ratio() + one.voice.track.length_m);
    json["with_proposed"] = given || !room ? Json(nullptr) : voice_json(one);
}

Json voice_notes_json(const VoiceCase& one) {
    Json json = Json::array();
    for (const BlownNote& note : one.notes)
        for (std::size_t n = 0; n < note.regimes.size(); ++n)
            json.push_back(register_json(one, note, n));
    return json;
}

void calibrate_voice(const Document& document, VoiceCase& one, Blowing& blowing, Json& json) {
    const std::vector<LogEntry> log = document.log.value_or(std::vector<LogEntry>());
    std::size_t index = log.size();
    bool cut_since = false, voice_since = false;
    while (index > 0 && log[index - 1].what != Happened::breath) {
        const Happened what = log[--index].what;
        const bool voice = what == Happened::sound_hole || what == Happened::block_moved;
        voice_since = voice_since || voice;
        cut_since = cut_since || (what != Happened::read && what != Happened::bore_sealed);
    }
    if (index == 0) return;
    --index;
    const auto failed = [&json](const char* why) { json["calibrated_why"] = why; };
    if (voice_since) return failed("voice_changed");
    // A track that nobody measured has no pressures of its own that one could be held against.
    if (!one.described()) return failed("track_not_described");
    if (!one.mapped) return failed("outside_the_model");
    const auto loops = loops_then(document, one, index, cut_since);
    if (!loops) return failed("hole_not_cut");
    const PressureMark mark = mark_of(log[index].blown_to);
    const Calibration found = calibrate(blowing, *loops, mark == PressureMark::falls_back ? 2 : 1,
                                        mark, log[index].pressure_Pa);
    if (!found.found) return failed(found.why);
    blowing = blowing.with_convection(found.convection);
    one.voice.wave.convection = found.convection;
    one.calibrated_by = mark;
    Json calibrated = Json::object();
    calibrated["convection"] = found.convection;
    calibrated["factor"] = found.convection_factor;
    calibrated["from_entry"] = index;
    calibrated["band_factor"] = remaining_factor(mark, PressureMark::at_pitch);
    calibrated["quoted"] = found.quoted;
    json["calibrated"] = std::move(calibrated);
}

}  // namespace canewright
