// core/layout/placement.cpp: starts, and the search among bits.
#include "core/layout/placement.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace canewright {
namespace {

constexpr std::array<double, 3> kSizesTried = {0.40, 0.30, 0.52};  // of the bore

void count(Placement& placement, const Problem& problem, const Walk& walk) {
    placement.evaluations += problem.evaluations();
    placement.steps += walk.steps;
}

// Two layouts that both meet the notes differ by rounding only; the first one found stays, so that
// the choice does not hang on the last digit (nor on native or wasm).
constexpr double kTie_cents = 1e-3;

bool better(const Walk& one, const Walk& other) {
    if (one.feasible != other.feasible) return one.feasible;
    if (one.sound.speaks != other.sound.speaks) return one.sound.speaks;
    return one.sound.speaks && one.errors_cents() < other.errors_cents() - kTie_cents;
}

std::vector<Wall> active_walls(const Problem& problem, const Walk& walk) {
    std::vector<Wall> walls;
    for (int row : walk.active) {
        const Wall& wall = problem.walls()[static_cast<std::size_t>(row)];
        if (wall.hole >= -1) walls.push_back(wall);
    }
    return walls;
}

bool nothing_held(const LayoutTask& task) {
    const auto& holes = task.flute.holes;
    const bool fixed = std::any_of(holes.begin(), holes.end(), [](const FingerHole& hole) {
        return hole.at_fixed || hole.diameter_fixed;
    });
    const auto& cut = task.cut_diameter_m;
    return !fixed && std::all_of(cut.begin(), cut.end(), [](double m) { return m == 0.0; });
}

}  // namespace

Placement free_placement(const LayoutTask& task, const Air& air, std::optional<Wall> left_out,
                         const Placement* near) {
    Placement best;
    const auto attempt = [&](const Flute* start, double size_over_bore) {
        Problem problem(task, air, left_out);
        const Flute guess = start ? *start : problem.first_guess(size_over_bore);
        const Walk w = walk(problem, problem.numbers(guess), size_over_bore);
        count(best, problem, w);
        if (!best.flute.holes.empty() && !better(w, best.walk)) return;
        best.walk = w;
        best.size_over_bore = size_over_bore;
        best.flute = w.feasible ? problem.flute(w.x) : guess;
        best.active = active_walls(problem, w);
    };
    if (near) {
        attempt(&near->flute, near->size_over_bore);
        return best;
    }
    // Holes that were given, but that nothing holds, are only a start: if it leads nowhere, anew.
    if (!task.flute.holes.empty() && nothing_held(task)) {
        attempt(nullptr, kSizesTried[0]);
        if (best.walk.converged && best.walk.errors_cents() < kMet_cents) return best;
        LayoutTask anew = task;
        anew.flute.holes.clear();
        Placement fresh = free_placement(anew, air, left_out);
        fresh.evaluations += best.evaluations;
        fresh.steps += best.steps;
        return better(fresh.walk, best.walk) ? fresh : best;
    }
    for (const double size : kSizesTried) {
        attempt(nullptr, size);
        if (best.walk.converged && best.walk.errors_cents() < kMet_cents) break;
    }
    return best;
}

// Holes get bits: nearest first, then single changes that lower the errors.
Placement placement_with_bits(const LayoutTask& task, const Air& air, const Placement& free) {
    std::vector<double> bits = task.shop.bits_m;
    std::sort(bits.begin(), bits.end());
    LayoutTask bitten = task;
    bitten.flute.holes = free.flute.holes;
    std::vector<std::size_t> changes;
    const auto usable = [&](double bit_m, std::size_t hole) {
        const double cut_m = hole < task.cut_diameter_m.size() ? task.cut_diameter_m[hole] : 0.0;
        return bit_m >= std::max(task.shop.diameter_min_m, cut_m) &&
               bit_m <= task.shop.diameter_max_m &&
               bit_m <= kLargestHole * bore_diameter_m(task.flute, 0.0);
    };
    const auto set = [](FingerHole& hole, double diameter_m) {
        hole.inner_diameter_m *= diameter_m / hole.diameter_m;
        hole.diameter_m = diameter_m;
        hole.diameter_fixed = true;
    };
    for (std::size_t i = 0; i < bitten.flute.holes.size(); ++i) {
        FingerHole& hole = bitten.flute.holes[i];
        if (hole.diameter_fixed) continue;
        double nearest_m = 0.0;
        for (double bit_m : bits)
            if (usable(bit_m, i) &&
                std::abs(bit_m - hole.diameter_m) < std::abs(nearest_m - hole.diameter_m))
                nearest_m = bit_m;
        if (nearest_m == 0.0) continue;  // no bit fits this hole at all: left as it is
        set(hole, nearest_m);
        changes.push_back(i);
    }
    Placement best;
    best.flute = bitten.flute;
    const auto attempt = [&](const LayoutTask& trial, const Flute& start, int most_steps) {
        Placement a;
        Problem problem(trial, air);
        a.walk = walk(problem, problem.numbers(start), free.size_over_bore, most_steps);
        a.flute = a.walk.feasible ? problem.flute(a.walk.x) : start;
        a.active = active_walls(problem, a.walk);
        a.size_over_bore = free.size_over_bore;
        best.evaluations += problem.evaluations();
        best.steps += a.walk.steps;
        return a;
    };
    const auto take = [&best](Placement a) {
        a.evaluations = best.evaluations;
        a.steps = best.steps;
        best = std::move(a);
    };
    take(attempt(bitten, bitten.flute, kMostSteps));
    constexpr int kTrialSteps = 6;  // enough to see whether a change of bit helps
    for (int round = 0; round < kMostRounds; ++round) {
        if (best.walk.sound.speaks && best.walk.errors_cents() < kMet_cents) break;
        Placement found = best;
        LayoutTask found_task = bitten;
        for (const std::size_t i : changes)
            for (const int direction : {-1, 1}) {
                const double now_m = bitten.flute.holes[i].diameter_m;
                const auto it = std::lower_bound(bits.begin(), bits.end(), now_m);
                const auto index = (it - bits.begin()) + direction;
                if (index < 0 || index >= static_cast<std::ptrdiff_t>(bits.size())) continue;
                const double bit_m = bits[static_cast<std::size_t>(index)];
                if (!usable(bit_m, i)) continue;
                LayoutTask trial = bitten;
                set(trial.flute.holes[i], bit_m);
                Flute start = best.flute;
                set(start.holes[i], bit_m);
                Placement a = attempt(trial, start, kTrialSteps);
                if (!better(a.walk, found.walk)) continue;
                found = std::move(a);
                found_task = std::move(trial);
            }
        if (!better(found.walk, best.walk)) break;
        take(std::move(found));
        bitten = std::move(found_task);
        if (!best.walk.converged) take(attempt(bitten, best.flute, kMostSteps));
    }
    for (std::size_t i : changes) best.flute.holes[i].diameter_fixed = false;
    return best;
}

}  // namespace canewright
