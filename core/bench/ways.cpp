// core/bench/ways.cpp: rescues for what is sharp, openings for what is flat.
#include "core/bench/ways.hpp"

#include <algorithm>
#include <cmath>

#include "core/base/units.hpp"
#include "core/bench/belief/note_model.hpp"
#include "core/bench/belief/readings.hpp"
#include "core/bench/builder.hpp"
#include "core/bench/cuts.hpp"

namespace canewright {
namespace {

// The flat note's own cut, taken further.
RescueOption opened(const History& history, const Aim& aim, const Cuts& cuts, std::size_t note,
                    int own) {
    const Stage& now = history.now();
    const double off = cuts.off_cents(note), margin = cuts.stop_margin_cents(note, own);
    const double now_Hz = cuts.Hz(now, note, aim.room_C);
    Stage open = now;
    const auto error_of = [&] {
        return off + cents_between(cuts.Hz(open, note, aim.room_C), now_Hz);
    };
    RescueOption option;
    double hand_m = 0.0;
    if (own < 0) {
        double least_m = 0.75 * now.foot_m;
        for (const HoleNow& hole : now.holes)
            if (hole.cut)
                least_m = std::max(least_m, hole.at_m + 0.5 * hole.diameter_m + kLeastBelowHole_m);
        option.what = Remedy::shorten;
        option.length_m = zero_of(
            [&](double off_m) {
                open.foot_m = now.foot_m - off_m;
                return error_of() + margin;
            },
            0.0, std::max(0.0, now.foot_m - least_m));
        open.foot_m = now.foot_m - option.length_m;
        hand_m = Measures{}.ruler_m;
    } else {
        HoleNow& hole = open.holes[static_cast<std::size_t>(own)];
        const double from_m = hole.diameter_m;
        const double most_m = largest_hole_m(aim, bore_diameter_m(history.blank, hole.at_m));
        option.what = Remedy::widen;
        option.number = own + 1;
        option.size_m = zero_of(
            [&](double diameter_m) {
                hole.diameter_m = diameter_m;
                return error_of() + margin;
            },
            from_m, std::max(from_m, most_m));
        hole.diameter_m = option.size_m;
        hand_m = Measures{}.size_m;
    }
    const double ends = error_of();
    option.shift_cents = ends - off;
    option.costs_cents = std::max(0.0, -ends - margin);
    (own < 0 ? open.foot_m : open.holes[static_cast<std::size_t>(own)].diameter_m) +=
        own < 0 ? -hand_m : hand_m;
    option.sigma_cents = std::abs(error_of() - ends);
    return option;
}

}  // namespace

std::vector<NoteWays> ways_of(const History& history, const Estimate& estimate, const Aim& aim,
                              const Goal& goal) {
    const Cuts cuts(history, estimate, aim, goal);
    std::vector<NoteWays> all;
    for (std::size_t n = 0; n < aim.notes.size(); ++n) {
        if (!playable(history.now(), aim.notes[n].open)) continue;
        NoteWays ways{n, cuts.off_cents(n), cuts.off_sigma_cents(n), {}};
        const int own = own_hole(aim.notes[n].open);
        const bool tunes = note_of(aim, own) == static_cast<int>(n) &&
                           (own >= 0 || (!aim.lowest_free && !history.now().foot_plug));
        if (tunes && ways.off_cents > aim.good_enough_cents)
            ways.options = (own < 0 ? rescue_foot(history, estimate, aim, goal, cuts)
                                    : rescue_hole(history, estimate, aim, goal, cuts, n, own))
                               .options;
        else if (tunes && ways.off_cents < -aim.good_enough_cents)
            ways.options = {opened(history, aim, cuts, n, own)};
        all.push_back(std::move(ways));
    }
    return all;
}

}  // namespace canewright
