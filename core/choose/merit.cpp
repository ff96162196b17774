// core/choose/merit.cpp -- what is good and what is poor in a flute that has been laid out.
#include "core/choose/merit.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <set>

#include "core/base/units.hpp"
#include "core/flute/resonance.hpp"
#include "core/jet/sounding.hpp"

namespace canewright {

namespace {

constexpr double kNone = std::numeric_limits<double>::quiet_NaN();

// A layout that rests on a limit is a hair beyond it.
constexpr double kHair = 1e-6;

// How far a value falls below a limit, as a share of the way from there to `worst`; what is no
// number lacks all.
double below(double value, double limit, double worst) {
    if (!std::isfinite(value)) return 1.0;
    const double lack = std::clamp((limit - value) / (limit - worst), 0.0, 1.0);
    return lack < kHair ? 0.0 : lack;
}
// The same above it.
double above(double value, double limit, double worst) { return below(-value, -limit, -worst); }

Merit at_least(const char* code, double value, double limit, double worst, double weight) {
    return {code, value, limit, below(value, limit, worst), weight};
}
Merit at_most(const char* code, double value, double limit, double worst, double weight) {
    return {code, value, limit, above(value, limit, worst), weight};
}
Merit length(Merit merit) {
    merit.in_lengths = true;
    return merit;
}

Merit slenderness(const LayoutTask& task, const LayoutResult& plan) {
    const Flute& flute = plan.flute;
    const double bore_m =
        0.5 * (bore_diameter_m(task.flute, 0.0) + bore_diameter_m(task.flute, flute.foot_m));
    const double bores = flute.foot_m / bore_m;
    const bool is_long = bores > std::sqrt(kShortest_bores * kLongest_bores);
    return is_long ? at_most("length_to_bore", bores, kLongest_bores, 1.5 * kLongest_bores, 0.6)
                   : at_least("length_to_bore", bores, kShortest_bores, 0.6 * kShortest_bores, 0.6);
}

// The widest and the narrowest way between two neighbours; the widest within one hand.
struct Ways {
    double widest_m = 0.0;
    double narrowest_m = kNoLimit;
};
Ways ways(const Shop& shop, const std::vector<FingerHole>& holes) {
    Ways found;
    const int upper = shop.hands.empty() ? static_cast<int>(holes.size()) : shop.hands.front();
    for (int i = 1; i < static_cast<int>(holes.size()); ++i) {
        const double way_m =
            holes[static_cast<std::size_t>(i)].at_m - holes[static_cast<std::size_t>(i - 1)].at_m;
        if (i != upper) found.widest_m = std::max(found.widest_m, way_m);
        found.narrowest_m = std::min(found.narrowest_m, way_m);
    }
    return found;
}

// How many different bits the holes are drilled with.
double bits_taken(const std::vector<double>& bits_m, const std::vector<FingerHole>& holes) {
    std::set<double> taken;
    for (const FingerHole& hole : holes)
        taken.insert(*std::min_element(bits_m.begin(), bits_m.end(), [&](double a_m, double b_m) {
            return std::abs(a_m - hole.diameter_m) < std::abs(b_m - hole.diameter_m);
        }));
    return static_cast<double>(taken.size());
}

}  // namespace

std::vector<Merit> merits(const LayoutTask& task, const LayoutResult& plan, const Air& air) {
    const Flute& flute = plan.flute;
    const Shop& shop = task.shop;
    std::vector<Merit> all;
    all.push_back(length(at_least("room_to_trim", task.end_m - flute.foot_m, kTrim_m, 0.0, 0.3)));
    all.push_back(slenderness(task, plan));

    const Network lowest(flute, air, {});
    const Resonance first = resonance(lowest, 1);
    const Resonance second = resonance(lowest, 2);
    const double quality = first.converged ? loop_quality(lowest, first.frequency_Hz) : kNone;
    all.push_back(at_least("lowest_quality", quality, kQuality, 0.5 * kQuality, 0.4));
    const double octave_cents = first.converged && second.converged
                                    ? cents_between(second.frequency_Hz, 2.0 * first.frequency_Hz)
                                    : kNone;
    Merit octave = at_most("octave", std::abs(octave_cents), kOctaveOff_cents, 80.0, 0.2);
    octave.value = octave_cents;
    all.push_back(octave);

    const bool sings = first.converged && second.converged;
    const double strength = sings ? loop_quality(lowest, second.frequency_Hz) / quality : kNone;
    all.push_back(strength > 0.5 * (kWeakOctave + kReadyOctave)
                      ? at_most("octave_strength", strength, kReadyOctave, 1.6, 0.1)
                      : at_least("octave_strength", strength, kWeakOctave, 0.7, 0.1));

    const Ways between = ways(shop, flute.holes);
    if (flute.holes.size() > 1) {
        const double widest_m = std::min(shop.spacing_max_m, kStretch_m);
        const double narrowest_m = std::max(shop.spacing_min_m, kFinger_m);
        all.push_back(length(at_most("stretch", between.widest_m, widest_m, 1.4 * widest_m, 0.6)));
        all.push_back(
            length(at_least("crowded", between.narrowest_m, narrowest_m, 0.7 * narrowest_m, 0.6)));
    }
    double smallest = kNoLimit, smallest_m = kNoLimit, largest_m = 0.0;
    for (const FingerHole& hole : flute.holes) {
        smallest = std::min(smallest, hole.diameter_m / bore_diameter_m(task.flute, hole.at_m));
        smallest_m = std::min(smallest_m, hole.diameter_m);
        largest_m = std::max(largest_m, hole.diameter_m);
    }
    const double pad_m = std::min(shop.diameter_max_m, kPad_m);
    all.push_back(at_least("smallest_hole", smallest, kSmallHole_bores, 0.15, 0.4));
    all.push_back(length(at_most("largest_hole", largest_m, pad_m, 1.3 * pad_m, 0.5)));
    if (!shop.bits_m.empty()) {
        all.push_back(at_most("bits", bits_taken(shop.bits_m, flute.holes), kFewBits, 7.0, 0.1));
    }
    all.push_back(at_most("evenness", largest_m / smallest_m, kUneven, 2.2, 0.3));
    return all;
}

Merit breath_merit(double at_pitch_Pa) {
    // Pressures are told by factors.
    const bool hard = at_pitch_Pa > std::sqrt(kGentle_Pa * kHard_Pa);
    const double value = std::log2(at_pitch_Pa);
    Merit merit =
        hard ? at_most("breath", value, std::log2(kHard_Pa), std::log2(kHard_Pa) + 1, 0.4)
             : at_least("breath", value, std::log2(kGentle_Pa), std::log2(kGentle_Pa) - 1, 0.2);
    merit.value = at_pitch_Pa;
    merit.limit = hard ? kHard_Pa : kGentle_Pa;
    return merit;
}

double score(const std::vector<Merit>& merits) {
    double left = 100.0;
    for (const Merit& merit : merits) left *= 1.0 - merit.weight * merit.lack;
    return left;
}

}  // namespace canewright
