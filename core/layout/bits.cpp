// core/layout/bits.cpp: which of the maker's bits for which hole.
#include <algorithm>
#include <cmath>
#include <utility>

#include "core/layout/placement.hpp"

namespace canewright {
namespace {

constexpr long kMostTried = 5000;  // evaluations of networks, in all

struct Change {
    std::size_t hole;
    double bit_m;
    double errors_cents;  // as the linear model has it
};

// Errors that a change of bit would leave, by the slopes at the present flute.
class LinearModel {
   public:
    LinearModel(const LayoutTask& task, const Air& air, const Placement& now)
        : task_(task), air_(air), now_(now) {
        Problem problem(task, air);  // any size
        x_ = problem.numbers(now.flute);
        sound_ = problem.sound(x_, now.walk.sound.passive_Hz);
        if (sound_.speaks) slopes_ = problem.slopes(x_, sound_);
        evaluations = problem.evaluations();
    }

    double errors_cents(const std::vector<double>& bit_m) const {
        if (!sound_.speaks) return kNoLimit;
        Rules rules;
        rules.bit_m = bit_m;
        rules.give_m = now_.give_m;
        for (const FingerHole& hole : now_.flute.holes) rules.places_m.push_back(hole.at_m);
        const Problem problem(task_, air_, rules);
        return linear_errors_cents(problem, x_, sound_, slopes_, now_.flute.foot_m);
    }

    long evaluations = 0;

   private:
    const LayoutTask& task_;
    const Air& air_;
    const Placement& now_;
    Eigen::VectorXd x_;
    Sound sound_;
    Eigen::MatrixXd slopes_;
};

bool is_drilled(const LayoutTask& task, std::size_t hole) {
    return hole < task.cut_diameter_m.size() && task.cut_diameter_m[hole] > 0.0;
}

bool is_met(const Placement& p) { return p.walk.converged && p.walk.errors_cents() < kMet_cents; }

}  // namespace

Placement placement_with_bits(const LayoutTask& task, const Air& air, const Placement& unlimited,
                              const Placement& limited) {
    std::vector<double> bits = task.shop.bits_m;
    std::sort(bits.begin(), bits.end());
    const auto usable = [&task, &limited](double bit_m, std::size_t hole) {
        const double bore_m = bore_diameter_m(task.flute, limited.flute.holes[hole].at_m);
        return bit_m >= task.shop.diameter_min_m - limited.give_m &&
               bit_m <= task.shop.diameter_max_m + limited.give_m && bit_m <= kLargestHole * bore_m;
    };
    Rules rules;
    rules.bit_m.assign(limited.flute.holes.size(), 0.0);
    std::vector<std::size_t> changes;
    std::vector<std::pair<std::size_t, double>> ties;  // and the bit that a hair would choose
    for (std::size_t i = 0; i < limited.flute.holes.size(); ++i) {
        const FingerHole& hole = limited.flute.holes[i];
        if (hole.diameter_fixed || is_drilled(task, i)) continue;  // opened by hand from here
        double nearest_m = 0.0, next_m = 0.0;
        const auto off_m = [&hole](double bit_m) { return std::abs(bit_m - hole.diameter_m); };
        for (const double bit_m : bits) {
            if (!usable(bit_m, i) || bit_m == nearest_m) continue;
            if (off_m(bit_m) < off_m(nearest_m))
                next_m = std::exchange(nearest_m, bit_m);
            else if (off_m(bit_m) < off_m(next_m))
                next_m = bit_m;
        }
        if (nearest_m == 0.0) continue;  // no bit fits this hole at all: left as it is
        rules.bit_m[i] = nearest_m;
        changes.push_back(i);
        if (next_m > 0.0 && off_m(next_m) - off_m(nearest_m) < 2.0 * kHair * hole.diameter_m)
            ties.emplace_back(i, next_m);
    }
    long evaluations = 0;
    int steps = 0;
    const auto count = [&](const Placement& p) {
        evaluations += p.evaluations;
        steps += p.steps;
    };
    Placement best = limited_placement(task, air, unlimited, rules);
    count(best);
    for (int round = 0; round < kMostRounds; ++round) {
        if (!best.walk.converged || best.walk.errors_cents() < kMet_cents) break;
        if (evaluations > kMostTried) break;
        const LinearModel linear(task, air, best);
        evaluations += linear.evaluations;
        Change liked{0, 0.0, best.walk.errors_cents()};
        for (const std::size_t i : changes)
            for (const int direction : {-1, 1}) {
                const auto it = std::lower_bound(bits.begin(), bits.end(), best.bit_m[i]);
                const auto index = (it - bits.begin()) + direction;
                if (index < 0 || index >= static_cast<std::ptrdiff_t>(bits.size())) continue;
                const double bit_m = bits[static_cast<std::size_t>(index)];
                if (!usable(bit_m, i)) continue;
                std::vector<double> trial = best.bit_m;
                trial[i] = bit_m;
                const double errors = linear.errors_cents(trial);
                if (errors < liked.errors_cents) liked = {i, bit_m, errors};
            }
        if (liked.bit_m == 0.0) break;
        Rules trial;
        trial.bit_m = best.bit_m;
        trial.bit_m[liked.hole] = liked.bit_m;
        Placement found = limited_placement(task, air, unlimited, trial);
        count(found);
        if (!better(found.walk, best.walk)) break;
        best = std::move(found);
    }
    if (!ties.empty() && is_met(best)) {
        Rules other;
        other.bit_m = best.bit_m;
        for (const auto& [hole, bit_m] : ties) other.bit_m[hole] = bit_m;
        const Placement there = limited_placement(task, air, unlimited, other);
        count(there);
        if (is_met(there)) best.loose_m = std::max(best.loose_m, apart_m(best.flute, there.flute));
    }
    best.evaluations = evaluations;
    best.steps = steps;
    if (task.keep_bits) task.keep_bits(task, air, unlimited, best);
    return best;
}

}  // namespace canewright
