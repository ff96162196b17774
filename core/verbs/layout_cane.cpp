// core/verbs/layout_cane.cpp -- what the tube is and what it could become, for the maker's verdict.
#include <algorithm>
#include <cmath>

#include "core/base/units.hpp"
#include "core/document/typed.hpp"
#include "core/element/sound_hole.hpp"
#include "core/element/voice.hpp"
#include "core/flute/resonance.hpp"
#include "core/music/pitch_name.hpp"
#include "core/task/task.hpp"
#include "core/verbs/answer.hpp"
#include "core/verbs/outside.hpp"

namespace canewright {

namespace {

// Room for plug, track, slow air chamber and mouth where their lengths are not given. Our choice.
constexpr double kLeastAbove_m = 0.06;

// More than a limit by more than rounding.
bool is_above(double value, double limit) { return value > limit * (1.0 + 1e-9); }

// How far off a note may be and still be called that note.
double tolerance_cents(const Document& document) {
    return document.song->tolerance_cents.value_or(kDefaultTolerance_cents);
}

// The lowest note of equal temperament that a frequency does not lie above, but for a tolerance.
Json note_at_or_above(double frequency_Hz, double a4_Hz, double within_cents) {
    const NearestNote nearest = nearest_note(frequency_Hz, a4_Hz);
    if (!nearest.ok) return nullptr;
    const int note = nearest.note + (nearest.cents_off > within_cents ? 1 : 0);
    return note > kHighestNote ? Json(nullptr) : Json(note_name(note));
}

double oval_percent(const Flute& flute) {
    double widest = 0.0;
    for (const BoreStation& station : flute.bore) {
        const double mean_m = 0.5 * (station.diameter_m + station.across_m);
        widest = std::max(widest, std::abs(station.diameter_m - station.across_m) / mean_m);
    }
    return percent_from_ratio(widest);
}

bool above_is_short(const Document& document) {
    if (!document.tube || !document.tube->above_m) return false;
    const auto length_m = [](const auto& part, auto member) {
        return part ? ((*part).*member).value_or(0.0) : 0.0;
    };
    const double given_m = length_m(document.plug, &PlugEntry::thickness_m) +
                           length_m(document.track, &TrackEntry::length_m) +
                           length_m(document.chamber, &ChamberEntry::length_m);
    const bool known = document.chamber && document.chamber->length_m;
    return is_above(known ? given_m : kLeastAbove_m, *document.tube->above_m);
}

// How far above its target the lowest note comes out, where the foot is as low as it can be: as the
// plan sounds it, or, where it does not, the bare tube [cents].
double lowest_off_cents(const LayoutTask& task, const LayoutResult& plan, double whole_Hz) {
    constexpr double kSameFoot_m = 1e-9;
    for (std::size_t n = 0; n < std::min(task.notes.size(), plan.notes.size()); ++n) {
        const double target_Hz = task.notes[n].target_Hz;
        if (!task.notes[n].open.empty() || !(target_Hz > 0.0)) continue;
        const double sounding_Hz = plan.notes[n].sounding_Hz;
        if (!plan.room || !std::isfinite(sounding_Hz)) return cents_between(whole_Hz, target_Hz);
        const bool at_end = plan.flute.foot_m > task.end_m - kSameFoot_m;
        return at_end ? cents_between(sounding_Hz, target_Hz) : 0.0;
    }
    return 0.0;
}

Json warnings_json(const Document& document, const LayoutTask& task, const LayoutResult& plan,
                   double lowest_Hz) {
    const Flute& flute = plan.flute;
    const double here_m = bore_diameter_m(flute, 0.5 * flute.sound_hole.length_m);
    const double narrow_m = std::min(here_m, bore_diameter_m(flute, flute.foot_m));
    const double wide_m = std::max(here_m, bore_diameter_m(flute, flute.foot_m));
    // Short is a tube whose end puts notes out of tune, not one whose end is touched: a foot that
    // is trimmed to its pitch is the end.
    const double tolerance = tolerance_cents(document);
    const bool at_end =
        std::any_of(plan.binding.begin(), plan.binding.end(), [tolerance](const Binding& binding) {
            return binding.limit == Limit::tube_end && binding.costs_cents > tolerance;
        });
    const bool too_high = lowest_off_cents(task, plan, lowest_Hz) > tolerance;
    Json json = Json::array();
    const auto warn = [&json](bool when, const char* what) {
        if (when) json.push_back(what);
    };
    const SoundHole& hole = flute.sound_hole;
    const WindowShape window{0.5 * here_m,        hole.length_m, hole.width_m, hole.wall_m,
                             flute.plug_offset_m, 1.0,           hole.voice};
    warn(!in_window_range(window) || !in_voice_range(window), "sound_hole_outside_range");
    warn(is_above(kBoreMin_m, narrow_m) || is_above(wide_m, kBoreMax_m), "bore_outside_range");
    warn(is_above(flute.wall_m, kWallToBore * narrow_m), "wall_thick");
    warn(at_end || too_high, "short_tube");
    warn(above_is_short(document), "above_short");
    const auto& tube = *document.tube;
    // Measured where nothing is: the log may have sawn there since, which is no mistake.
    warn(tube.end_m && !tube.bore.empty() && is_above(tube.bore.back().at_m, *tube.end_m),
         "bore_beyond_end");
    warn(is_above(hole.wall_m, flute.wall_m), "sound_hole_wall_thick");
    return json;
}

}  // namespace

Json cane_json(const Document& document, const LayoutTask& task, const LayoutResult& plan,
               const Air& air) {
    Flute whole = plan.flute;
    whole.holes.clear();
    whole.foot_m = task.end_m;
    const Resonance lowest = resonance(whole, air, {}, 1);
    const double a4_Hz = document.song->a4_Hz.value_or(kDefaultA4_Hz);
    const double top_m = bore_diameter_m(plan.flute, 0.0);
    const double foot_m = bore_diameter_m(plan.flute, plan.flute.foot_m);
    Json json = Json::object();
    json["lowest_hz"] = lowest.converged ? Json(lowest.frequency_Hz) : Json(nullptr);
    json["lowest_name"] =
        lowest.converged ? note_at_or_above(lowest.frequency_Hz, a4_Hz, tolerance_cents(document))
                         : Json(nullptr);
    json["spare_mm"] = typed_mm(task.end_m - plan.flute.foot_m);
    json["length_to_bore"] = plan.flute.foot_m / (0.5 * (top_m + foot_m));
    json["taper_percent"] = percent_from_ratio((top_m - foot_m) / top_m);  // > 0: narrows
    json["oval_percent"] = oval_percent(plan.flute);
    json["sound_speed_m_s"] = air.sound_speed_m_s;
    const auto bore_C = bore_air_C(document);
    json["bore_air_c"] = bore_C ? Json(*bore_C) : Json(nullptr);
    json["warnings"] = warnings_json(document, task, plan, lowest.frequency_Hz);
    return json;
}

}  // namespace canewright
