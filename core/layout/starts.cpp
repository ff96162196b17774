// core/layout/starts.cpp: from where the way between the limits is begun.
#include <algorithm>
#include <cmath>
#include <utility>
#include <vector>

#include "core/base/units.hpp"
#include "core/layout/placement.hpp"

namespace canewright {
namespace {

constexpr double kFrom_cents = 5.0, kUntil_cents = 200.0;  // errors together, at any sizes
constexpr double kGains_cents = 1.0;                       // what another must gain to be taken
constexpr double kLost_cents = 50.0;       // by a hair of its holes' sizes: another register
constexpr double kSizes[] = {0.65, 0.12};  // of the bore: far from the usual, either way
// Where notes were lost on the way: in the order in which they led to flutes that keep theirs.
constexpr double kSizesCounted[] = {0.52, 0.65, 0.30, 0.12};
// Evaluations of networks beyond which no other is tried, of a flute of kUsualPieces; of one with
// more pieces each costs as much more.
constexpr long kMostCounting = 60000;

// The notes of a flute, asked for anew.
struct Anew {
    double counted_cents = kNoLimit;  // as a walk counts errors
    bool same = false;                // as the walk says
};

Anew anew(const LayoutTask& task, const Air& air, Placement& placement) {
    if (!placement.walk.feasible || !placement.walk.sound.speaks) return {};
    const Sound sound = counted_from_below(task, air, placement);
    if (!sound.speaks) return {};
    return {counted_cents(sound.errors_cents),
            same_notes(sound.frequency_Hz, placement.walk.sound.frequency_Hz)};
}

// With the maker's bits where there are any.
Placement with_bits(const LayoutTask& task, const Air& air, const Placement& start,
                    Placement found) {
    if (task.shop.bits_m.empty() || !found.walk.feasible || !found.walk.sound.speaks ||
        found.walk.errors_cents() > left_beyond_cents(task))
        return found;
    Placement drilled = placement_with_bits(task, air, start, found);
    drilled.evaluations += found.evaluations;
    drilled.steps += found.steps;
    return drilled;
}

}  // namespace

Sound counted_from_below(const LayoutTask& task, const Air& air, Placement& placement) {
    LayoutTask asked = task;
    asked.flute = placement.flute;  // where what is fixed was let go, it is not where it was fixed
    Problem problem(asked, air);
    Sound sound = problem.sound(problem.numbers(asked.flute), {}, true);
    placement.evaluations += problem.evaluations();
    return sound;
}

void take_as_counted(const LayoutTask& task, const Air& air, Placement& found) {
    found.walk.sound = counted_from_below(task, air, found);
    found.walk.slopes = {};  // of the notes that were followed
    found.walk.converged = false;
}

Placement placement_from_anywhere(const LayoutTask& task, const Air& air, Placement& start) {
    Placement any_size = limited_placement(task, air, start);
    const bool speaks = any_size.walk.feasible && any_size.walk.sound.speaks;
    double least_cents = speaks ? any_size.walk.errors_cents() : kNoLimit;
    Placement best = with_bits(task, air, start, std::move(any_size));
    if (!(least_cents > kFrom_cents && least_cents < kUntil_cents)) return best;
    double best_cents = anew(task, air, best).counted_cents;
    for (const double size_over_bore : kSizes) {
        Problem problem(task, air);
        Placement other;  // of which nothing is known but where its holes are
        other.flute = problem.first_guess(size_over_bore);
        // roughly first: most often it comes to nothing
        Placement there = limited_placement(task, air, other, {}, true);
        best.evaluations += there.evaluations + problem.evaluations();
        best.steps += there.steps;
        if (!there.walk.sound.speaks || there.walk.errors_cents() > least_cents - kGains_cents)
            continue;
        if (there.walk.errors_cents() > left_beyond_cents(task)) continue;
        there = limited_placement(task, air, other);
        best.evaluations += there.evaluations;
        best.steps += there.steps;
        if (!there.walk.converged || there.walk.errors_cents() > least_cents - kGains_cents)
            continue;
        const double any_size_cents = there.walk.errors_cents();
        there = with_bits(task, air, other, std::move(there));
        const Anew sounds = anew(task, air, there);
        if (!there.walk.converged || !sounds.same ||
            sounds.counted_cents > best_cents - kGains_cents)
            continue;
        there.evaluations += best.evaluations;
        there.steps += best.steps;
        best = std::move(there);
        start = std::move(other);
        best_cents = sounds.counted_cents;
        least_cents = any_size_cents;
    }
    return best;
}

namespace {

// A flute of which every hole is a hair smaller or larger. No maker stands on an edge.
struct Beside {
    bool keeps = true;        // each note in its register, within so many cents
    double most_cents = 0.0;  // errors of the worse of the two, as a walk counts them
};

Beside beside(const LayoutTask& task, const Air& air, Placement& placement, double within_cents) {
    Beside found;
    for (const double share : {1.0 - kHair, 1.0 + kHair}) {
        Placement other;
        other.flute = placement.flute;
        for (FingerHole& hole : other.flute.holes) {
            hole.diameter_m *= share;
            hole.inner_diameter_m *= share;
        }
        const Sound sound = counted_from_below(task, air, other);
        placement.evaluations += other.evaluations;
        found.most_cents =
            std::max(found.most_cents, sound.speaks ? counted_cents(sound.errors_cents) : kNoLimit);
        for (std::size_t n = 0; n < sound.passive_Hz.size(); ++n) {
            const double was_Hz = placement.walk.sound.passive_Hz[n];
            found.keeps =
                found.keeps && std::abs(cents_between(sound.passive_Hz[n], was_Hz)) < within_cents;
        }
    }
    return found;
}

// Exactly on an edge a rounding would decide what its notes are.
void step_aside(Placement& placement) {
    constexpr double kAside_m = 1e-6;
    for (FingerHole& hole : placement.flute.holes)
        if (!hole.at_fixed) hole.at_m -= kAside_m;
}

}  // namespace

bool stands_on_edge(const LayoutTask& task, const Air& air, Placement& found) {
    return !beside(task, air, found, kLost_cents).keeps;
}

double apart_m(const Flute& one, const Flute& other) {
    double most_m = std::abs(one.foot_m - other.foot_m);
    for (std::size_t i = 0; i < std::min(one.holes.size(), other.holes.size()); ++i)
        most_m = std::max({most_m, std::abs(one.holes[i].at_m - other.holes[i].at_m),
                           std::abs(one.holes[i].diameter_m - other.holes[i].diameter_m)});
    return most_m;
}

void place_counting(const LayoutTask& given, const Air& air, Placement& found) {
    LayoutTask task = given;
    const bool hopeless = found.walk.errors_cents() > kUntil_cents;
    const long most_counting = as_long_as(kMostCounting, task);
    // Flutes that are in tune, or would be but for a hair.
    std::vector<Flute> others;
    if (found.walk.errors_cents() < kFrom_cents) others.push_back(found.flute);
    const bool on_edge = anew(task, air, found).same;  // not lost, but a hair away
    const double beside_cents = on_edge ? beside(task, air, found, kLost_cents).most_cents : 0.0;
    step_aside(found);
    take_as_counted(task, air, found);
    if (hopeless || !found.walk.sound.speaks) return;
    double least_cents = std::max(beside_cents, counted_cents(found.walk.sound.errors_cents));
    int way = -1;
    for (const bool counted : {false, true}) {
        for (const double size_over_bore : kSizesCounted) {
            if (++way != given.counting && given.counting >= 0) continue;
            task.counted_throughout = counted;
            Problem problem(task, air);
            Placement from;
            from.flute = problem.first_guess(size_over_bore);
            Placement there = with_bits(task, air, from, limited_placement(task, air, from));
            const Anew sounds = anew(task, air, there);
            const bool keeps = sounds.same && beside(task, air, there, kFrom_cents).keeps;
            if (keeps && sounds.counted_cents < kFrom_cents) others.push_back(there.flute);
            there.evaluations += found.evaluations;
            there.steps += found.steps;
            found.evaluations = there.evaluations;
            found.steps = there.steps;
            // the first that is in tune stays
            if (keeps && least_cents >= kFrom_cents &&
                sounds.counted_cents < least_cents - kGains_cents) {
                least_cents = sounds.counted_cents;
                found = std::move(there);
                found.counting = way;
            }
            if (found.evaluations > most_counting) break;
            // no other will take its place, and how far others lie is said of what converged alone
            if (least_cents < kFrom_cents && !found.walk.converged) break;
        }
        if (least_cents < kFrom_cents || found.evaluations > most_counting) break;
    }
    if (found.walk.converged)
        for (const Flute& other : others)
            found.loose_m = std::max(found.loose_m, apart_m(found.flute, other));
}

}  // namespace canewright
