// core/layout/starts.cpp: from where the way between the limits is begun.
#include <utility>

#include "core/layout/placement.hpp"

namespace canewright {
namespace {

constexpr double kFrom_cents = 5.0, kUntil_cents = 200.0;  // errors together, at any sizes
constexpr double kGains_cents = 1.0;                       // what another must gain to be taken
constexpr double kSizes[] = {0.65, 0.12};  // of the bore: far from the usual, either way

// The notes of a flute, asked for anew.
struct Anew {
    double counted_cents = kNoLimit;  // as a walk counts errors
    bool same = false;                // as the walk says
};

Anew anew(const LayoutTask& task, const Air& air, Placement& placement) {
    if (!placement.walk.feasible || !placement.walk.sound.speaks) return {};
    Problem problem(task, air);
    const Sound sound = problem.sound(problem.numbers(placement.flute), {});
    placement.evaluations += problem.evaluations();
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

}  // namespace canewright
