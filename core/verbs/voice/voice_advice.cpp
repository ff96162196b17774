// core/verbs/voice/voice_advice.cpp -- the numbers of a flute by which advice is given and faults
// sought.
#include <algorithm>
#include <cmath>
#include <limits>
#include <string>

#include "core/base/units.hpp"
#include "core/document/typed.hpp"
#include "core/task/voice.hpp"
#include "core/verbs/voice/voice_parts.hpp"

namespace canewright {

namespace {

constexpr double kUnknown = std::numeric_limits<double>::quiet_NaN();

// Common practice, no source, as are all limits here that core/jet/band does not give.
// Jump up over design breath: less is easily overblown. Of the model's jump, which lies too high by
// what a calibration allows for (core/jet/calibrate): it comes no nearer than 1.45 before the note
// dies (long narrow tubes tried).
constexpr double kJumpNear = 1.3 * kJumpToPitch;
constexpr double kLeastBreath_s = 4.0;  // a short phrase
constexpr double kDeepForBore = 0.7;    // of the usual track depth: shallower than others are
// A gap that leads air past the edge; where the track is as thin as paper it is part of the track,
// and both together may come to what elsewhere is a shallow one.
constexpr double kGapToDepth = 0.5;
constexpr double kBackToLength = 0.2;  // of the sound hole: the jet has spread before it is free
constexpr double kOctaveOff_cents = 30.0;
constexpr double kShallow_m = 0.3e-3;  // a drop stays across it; on small bores all are shallow
constexpr double kHoleToBoreLeast = 0.25;
constexpr double kBoresLong = 25.0;  // of the sounding length: the first register weakens

bool sounds(const Resonance& r) { return r.found && r.converged; }

VoiceGauge at_least(const char* path, double value, double limit) {
    return {path, value, limit, value < limit, {}};
}
VoiceGauge at_most(const char* path, double value, double limit) {
    return {path, value, limit, value > limit, {}};
}
VoiceGauge unknown(const char* path) { return {path, kUnknown, kUnknown, false, {}}; }

// The note that is nearest to its jump.
VoiceGauge jump_near(const VoiceCase& one) {
    VoiceGauge least = unknown("notes");
    for (const BlownNote& note : one.notes) {
        const Regime& first = note.regimes[0];
        const double share = first.jumps_up_Pa / first.at_pitch_Pa;
        if (!one.mapped || !one.described() || !first.found || !std::isfinite(share)) continue;
        if (std::isfinite(least.value) && share >= least.value) continue;
        least = at_least("notes", share, kJumpNear);
        least.open = note.open;
    }
    return least;
}

// The note that is kept furthest from the breath at which it would be in tune: by dying softer
// blown than that, or by holding only harder blown [Pa].
VoiceGauge pitch_kept(const VoiceCase& one, PitchReach by) {
    VoiceGauge worst = unknown("notes");
    double furthest = 0.0;
    for (const BlownNote& note : one.notes) {
        const Regime& first = note.regimes[0];
        if (!one.mapped || !one.described() || !first.found || pitch_reach(first) != by) continue;
        const double end_Pa = by == PitchReach::dies_before ? first.hard_Pa : first.soft_Pa;
        const double far = std::abs(std::log(end_Pa / first.at_pitch_Pa));
        if (far <= furthest) continue;
        furthest = far;
        worst = {"notes", end_Pa, first.at_pitch_Pa, true, note.open};
    }
    return worst;
}

// How many notes have no second register, of those that sound.
VoiceGauge no_overblow(const VoiceCase& one) {
    VoiceGauge count{"notes", 0.0, 0.0, false, {}};
    for (const BlownNote& note : one.notes) {
        if (!note.playable || !sounds(note.resonances[0])) continue;
        const Regime& second = note.regimes[1];
        const bool silent = one.mapped && one.described() && is_told(second) && !second.found;
        if (sounds(note.resonances[1]) && !silent) continue;
        if (!count.out) count.open = note.open;
        count.value += 1.0;
        count.out = true;
    }
    return count;
}

// Of the note whose second register lies furthest from the octave.
VoiceGauge octave_off(const VoiceCase& one) {
    VoiceGauge most = unknown("notes");
    for (const BlownNote& note : one.notes) {
        if (!note.playable || !sounds(note.resonances[0]) || !sounds(note.resonances[1])) continue;
        const double off = std::abs(
            cents_between(note.resonances[1].frequency_Hz, 2.0 * note.resonances[0].frequency_Hz));
        if (std::isfinite(most.value) && off <= most.value) continue;
        most = at_most("notes", off, kOctaveOff_cents);
        most.open = note.open;
    }
    return most;
}

// The smallest of the finger holes, for its bore.
VoiceGauge hole_small(const VoiceCase& one) {
    VoiceGauge least = unknown("finger_holes");
    double least_share = std::numeric_limits<double>::infinity();
    const auto& holes = one.task.flute.holes;
    for (std::size_t i = 0; i < holes.size(); ++i) {
        const double bore_m = bore_diameter_m(one.task.flute, holes[i].at_m);
        const double share = holes[i].diameter_m / bore_m;
        if (share >= least_share) continue;
        least_share = share;
        least = at_least("", typed_mm(holes[i].diameter_m), typed_mm(kHoleToBoreLeast * bore_m));
        least.path = "finger_holes[" + std::to_string(i) + "].diameter_mm";
    }
    return least;
}

// Numbers of the jet, where the track is described.
VoiceGauge of_jet(const VoiceCase& one, VoiceNumber number) {
    const Regime& lowest = one.lowest.regimes[0];
    if (!one.described() || !(lowest.flow.centre_m_s > 0.0)) return unknown("track");
    if (number == VoiceNumber::jet_fast)
        return at_most("sound_hole.length_mm", lowest.flow.centre_m_s, kGoodSpeed_m_s);
    if (number == VoiceNumber::reynolds_low)
        return at_least("track.depth_mm", lowest.flow.reynolds, kRoughReynolds * one.ratio());
    return one.mapped ? at_least("track.depth_mm", lowest.breath_s, kLeastBreath_s)
                      : unknown("track.depth_mm");
}

// Of sound hole and track, where the track's depth is known. Small flutes have sheets of air whose
// ratio is far beyond what the jet's model holds for: theirs is high where the track is shallower
// than is usual for the bore.
VoiceGauge ratio(const VoiceCase& one, bool low) {
    const TrackEntry track = one.document.track.value_or(TrackEntry{});
    if (!track.depth_m) return unknown("track.depth_mm");
    if (low) return at_least("sound_hole.length_mm", one.ratio(), kGoodLeastRatio);
    const double usual = one.voice.window_m / usual_track_depth_m(one.bore_m());
    return at_most("track.depth_mm", one.ratio(), std::max(kGoodMostRatio, usual / kDeepForBore));
}

// What the tape measure says of track and block.
VoiceGauge of_parts(const VoiceCase& one, VoiceNumber number) {
    const TrackEntry track = one.document.track.value_or(TrackEntry{});
    const BlockEntry block = one.document.block.value_or(BlockEntry{});
    const SoundHoleEntry& hole = *one.document.sound_hole;
    switch (number) {
        case VoiceNumber::sound_hole_wider_than_track:
            if (!track.width_m) return unknown("sound_hole.width_mm");
            return at_most("sound_hole.width_mm", typed_mm(hole.width_m), typed_mm(*track.width_m));
        case VoiceNumber::gap_high:
            if (!track.block_gap_m || !track.depth_m) return unknown("track.block_gap_mm");
            return at_most(
                "track.block_gap_mm", typed_mm(*track.block_gap_m),
                typed_mm(std::max(kGapToDepth * *track.depth_m, kShallow_m - *track.depth_m)));
        case VoiceNumber::track_shallow:
            if (!track.depth_m) return unknown("track.depth_mm");
            return at_least(
                "track.depth_mm", typed_mm(one.voice.track.height_m()),
                typed_mm(std::min(kShallow_m, kDeepForBore * usual_track_depth_m(one.bore_m()))));
        case VoiceNumber::block_over:
            if (!block.front_m) return unknown("block.front_mm");
            return at_least("block.front_mm", typed_mm(*block.front_m), 0.0);
        case VoiceNumber::block_back:
            if (!block.front_m) return unknown("block.front_mm");
            return at_most("block.front_mm", typed_mm(*block.front_m),
                           typed_mm(kBackToLength * hole.length_m));
        case VoiceNumber::edge_thick:
            if (!hole.edge_m) return unknown("sound_hole.edge_mm");
            return at_most("sound_hole.edge_mm", typed_mm(*hole.edge_m),
                           typed_mm(kThickEdge * one.task.flute.sound_hole.wall_m));
        default:
            return {};
    }
}

// The chamber that is given, or the least there is, beside plug and mouth end.
VoiceGauge above_short(const VoiceCase& one) {
    const std::optional<double> above_m = one.document.tube->above_m;
    if (!above_m) return unknown("tube.above_mm");
    return at_least("tube.above_mm", typed_mm(*above_m), typed_mm(least_above_m(one.document)));
}

}  // namespace

VoiceGauge voice_gauge(const VoiceCase& one, VoiceNumber number) {
    const Flute& flute = one.task.flute;
    switch (number) {
        case VoiceNumber::none:
            return unknown("");
        case VoiceNumber::ratio_low:
            return ratio(one, true);
        case VoiceNumber::ratio_high:
            return ratio(one, false);
        case VoiceNumber::jet_fast:
        case VoiceNumber::reynolds_low:
        case VoiceNumber::needs_much_air:
            return of_jet(one, number);
        case VoiceNumber::jump_near:
            return jump_near(one);
        case VoiceNumber::dies_before_pitch:
            return pitch_kept(one, PitchReach::dies_before);
        case VoiceNumber::begins_above_pitch:
            return pitch_kept(one, PitchReach::begins_above);
        case VoiceNumber::no_overblow:
            return no_overblow(one);
        case VoiceNumber::octave_off:
            return octave_off(one);
        case VoiceNumber::hole_small:
            return hole_small(one);
        case VoiceNumber::tube_long:
            return at_most("foot_mm", typed_mm(flute.foot_m),
                           typed_mm(kBoresLong * bore_diameter_m(flute, 0.5 * flute.foot_m)));
        case VoiceNumber::above_short:
            return above_short(one);
        case VoiceNumber::sound_hole_wider_than_track:
        case VoiceNumber::gap_high:
        case VoiceNumber::track_shallow:
        case VoiceNumber::block_over:
        case VoiceNumber::block_back:
        case VoiceNumber::edge_thick:
            return of_parts(one, number);
    }
    return unknown("");
}

const char* name(VoiceNumber number) {
    constexpr const char* kNames[] = {"none",
                                      "ratio_low",
                                      "ratio_high",
                                      "jet_fast",
                                      "reynolds_low",
                                      "jump_near",
                                      "dies_before_pitch",
                                      "begins_above_pitch",
                                      "no_overblow",
                                      "needs_much_air",
                                      "sound_hole_wider_than_track",
                                      "gap_high",
                                      "block_over",
                                      "block_back",
                                      "octave_off",
                                      "track_shallow",
                                      "hole_small",
                                      "tube_long",
                                      "edge_thick",
                                      "above_short"};
    return kNames[static_cast<std::size_t>(number)];
}

Json gauge_json(const VoiceGauge& gauge, VoiceNumber number, const char* key) {
    Json json = Json::object();
    json[key] = name(number);
    json["path"] = gauge.path;
    json["value"] = gauge.value;
    json["limit"] = gauge.limit;
    if (gauge.open) json["open"] = *gauge.open;
    return json;
}

Json advice_json(const VoiceCase& one) {
    using Number = VoiceNumber;
    Json json = Json::array();
    for (const Number number :
         {Number::ratio_low, Number::ratio_high, Number::jet_fast, Number::reynolds_low,
          Number::jump_near, Number::dies_before_pitch, Number::begins_above_pitch,
          Number::no_overblow, Number::needs_much_air, Number::sound_hole_wider_than_track,
          Number::gap_high, Number::track_shallow, Number::block_over, Number::block_back,
          Number::edge_thick, Number::octave_off, Number::hole_small, Number::tube_long,
          Number::above_short}) {
        const VoiceGauge gauge = voice_gauge(one, number);
        if (gauge.out) json.push_back(gauge_json(gauge, number, "code"));
    }
    return json;
}

}  // namespace canewright
