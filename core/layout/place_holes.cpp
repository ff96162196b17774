// core/layout/place_holes.cpp: starts, bits, and what each binding limit costs.
#include "core/layout/place_holes.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "core/base/units.hpp"
#include "core/layout/gauss_newton.hpp"

namespace canewright {
namespace {

constexpr std::array<double, 3> kSizesTried = {0.40, 0.30, 0.52};  // of the bore
constexpr double kMet_cents = 0.1;

// A layout of a task, free or with bits; counts what it took.
struct Answer {
    Walk walk;
    Flute flute;
    double size_over_bore = kSizesTried[0];
    std::vector<Wall> active;
    long evaluations = 0;
    int steps = 0;
};

void count(Answer& answer, const Problem& problem, const Walk& walk) {
    answer.evaluations += problem.evaluations();
    answer.steps += walk.steps;
}

bool better(const Walk& one, const Walk& other) {
    if (one.feasible != other.feasible) return one.feasible;
    if (one.sound.speaks != other.sound.speaks) return one.sound.speaks;
    return one.sound.speaks && one.errors_cents() < other.errors_cents();
}

std::vector<Wall> active_walls(const Problem& problem, const Walk& walk) {
    std::vector<Wall> walls;
    for (int row : walk.active) {
        const Wall& wall = problem.walls()[static_cast<std::size_t>(row)];
        if (wall.hole >= -1) walls.push_back(wall);
    }
    return walls;
}

Answer free_answer(const LayoutTask& task, const Air& air, std::optional<Wall> left_out,
                   const Answer* near) {
    Answer best;
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
    for (const double size : kSizesTried) {
        attempt(nullptr, size);
        if (best.walk.converged && best.walk.errors_cents() < kMet_cents) break;
    }
    return best;
}

// Holes get bits: nearest first, then single changes that lower the errors.
Answer with_bits(const LayoutTask& task, const Air& air, const Answer& free) {
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
    Answer best;
    best.flute = bitten.flute;
    const auto attempt = [&](const LayoutTask& trial, const Flute& start) {
        Answer a;
        Problem problem(trial, air);
        a.walk = walk(problem, problem.numbers(start), free.size_over_bore);
        a.flute = a.walk.feasible ? problem.flute(a.walk.x) : start;
        a.active = active_walls(problem, a.walk);
        a.size_over_bore = free.size_over_bore;
        best.evaluations += problem.evaluations();
        best.steps += a.walk.steps;
        return a;
    };
    const auto take = [&best](Answer a) {
        a.evaluations = best.evaluations;
        a.steps = best.steps;
        best = std::move(a);
    };
    take(attempt(bitten, bitten.flute));
    constexpr int kMostRounds = 6;
    for (int round = 0; round < kMostRounds; ++round) {
        if (best.walk.sound.speaks && best.walk.errors_cents() < kMet_cents) break;
        Answer found = best;
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
                Answer a = attempt(trial, start);
                if (!better(a.walk, found.walk)) continue;
                found = std::move(a);
                found_task = std::move(trial);
            }
        if (!better(found.walk, best.walk)) break;
        take(std::move(found));
        bitten = std::move(found_task);
    }
    for (std::size_t i : changes) best.flute.holes[i].diameter_fixed = false;
    return best;
}

Answer answer(const LayoutTask& task, const Air& air, std::optional<Wall> left_out,
              const Answer* near) {
    Answer free = free_answer(task, air, left_out, near);
    const bool bits = !task.shop.bits_m.empty() && !(left_out && left_out->limit == Limit::bits);
    if (!bits || !free.walk.feasible) return free;
    Answer bitten = with_bits(task, air, free);
    bitten.evaluations += free.evaluations;
    bitten.steps += free.steps;
    return bitten;
}

// Solves again without each limit that presses; those whose absence helps are binding.
void find_binding(const LayoutTask& task, const Air& air, const Answer& with,
                  LayoutResult& result) {
    std::vector<Wall> suspects = with.active;
    if (!task.shop.bits_m.empty()) suspects.push_back({Limit::bits, -1});
    for (int i = 0; i < task.hole_count; ++i) {
        if (task.flute.holes.empty()) break;
        const FingerHole& hole = task.flute.holes[static_cast<std::size_t>(i)];
        if (hole.at_fixed || hole.diameter_fixed) suspects.push_back({Limit::fixed, i});
    }
    for (const Wall& wall : suspects) {
        const Answer without = answer(task, air, wall, &with);
        result.evaluations += without.evaluations;
        if (!without.walk.sound.speaks) continue;
        const double cost = with.walk.errors_cents() - without.walk.errors_cents();
        if (cost > kBindingCost_cents) result.binding.push_back({wall.limit, wall.hole, cost});
    }
    std::stable_sort(
        result.binding.begin(), result.binding.end(),
        [](const Binding& a, const Binding& b) { return a.costs_cents > b.costs_cents; });
}

void fill_notes(const LayoutTask& task, const Air& air, const Answer& found, LayoutResult& result) {
    // Slopes with everything free to move, whatever was fixed.
    LayoutTask loose = task;
    loose.flute = found.flute;
    loose.foot_fixed = loose.lowest_free = false;
    for (FingerHole& hole : loose.flute.holes) hole.at_fixed = hole.diameter_fixed = false;
    Problem problem(loose, air);
    const Eigen::VectorXd x = problem.numbers(found.flute);
    const Sound sound = problem.sound(x, found.walk.sound.frequency_Hz);
    const Eigen::MatrixXd slopes = sound.speaks ? problem.slopes(x, sound) : Eigen::MatrixXd();
    result.evaluations += problem.evaluations();

    double lowest_Hz = 0.0;
    for (std::size_t n = 0; n < task.notes.size(); ++n)
        if (task.notes[n].open.empty())
            lowest_Hz = shifted_Hz(sound.frequency_Hz[n], -task.notes[n].interval_cents);
    for (std::size_t n = 0; n < task.notes.size(); ++n) {
        const NoteTarget& asked = task.notes[n];
        NoteResult note;
        note.open = asked.open;
        note.target_Hz =
            task.lowest_free ? shifted_Hz(lowest_Hz, asked.interval_cents) : asked.target_Hz;
        note.sounding_Hz = sound.frequency_Hz[n];
        note.converged = std::isfinite(note.sounding_Hz);
        note.cents_per_m = note.cents_per_diameter_m = std::numeric_limits<double>::quiet_NaN();
        note.cents_per_foot_m = std::numeric_limits<double>::quiet_NaN();
        if (sound.speaks) {  // order of the numbers: foot, then place and size of each hole
            const auto row = slopes.row(static_cast<Eigen::Index>(n));
            note.cents_per_foot_m = row(0) / problem.scale_m(0);
            if (!asked.open.empty()) {
                const Eigen::Index at =
                    2 * *std::min_element(asked.open.begin(), asked.open.end()) - 1;
                note.cents_per_m = row(at) / problem.scale_m(at);
                note.cents_per_diameter_m = row(at + 1) / problem.scale_m(at + 1);
            }
        }
        result.notes.push_back(note);
        const double error = std::abs(cents_between(note.sounding_Hz, note.target_Hz));
        result.worst_cents = std::max(result.worst_cents, error);
        result.errors_cents = std::hypot(result.errors_cents, error);
    }
}

}  // namespace

LayoutResult place_holes(const LayoutTask& task, const Air& air) {
    const Answer found = answer(task, air, std::nullopt, nullptr);
    LayoutResult result;
    result.flute = found.flute;
    result.converged = found.walk.converged && found.walk.sound.speaks;
    result.steps = found.steps;
    result.evaluations = found.evaluations;
    fill_notes(task, air, found, result);
    if (found.walk.sound.speaks && result.errors_cents > kBindingCost_cents)
        find_binding(task, air, found, result);
    return result;
}

}  // namespace canewright
