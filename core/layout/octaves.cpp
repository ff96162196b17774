// core/layout/octaves.cpp: octaves and their slopes, and the damped walk towards true ones.
#include "core/layout/octaves.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include "core/base/units.hpp"
#include "core/flute/resonance.hpp"
#include "core/flute/slope.hpp"
#include "core/layout/place_holes.hpp"
#include "core/layout/placement.hpp"
#include "core/layout/step_program.hpp"

namespace canewright {
namespace {

// A scaled number's step counts as much as so many cents of one octave: less, and steps overshoot
// where octaves bend; more, and they do not arrive.
constexpr double kTurnDamping_cents = 20.0;
constexpr double kFirstWeight = 1.0 / 64.0;
constexpr double kOctavesAlike_cents = 1e-3;
constexpr double kSame_cents = 1.0;  // two registers so near are one

// What draws home, the octaves as they are seen from x, and x itself by the damping. Plain loops,
// as in step_program.cpp.
Pull pull_at(const Pull& home, const Eigen::VectorXd& x, const Octaves& octaves, double weight,
             double damping_cents) {
    const Eigen::Index n = x.size(), notes = octaves.cents.size(), all = 2 * n + notes;
    Pull pull{Eigen::MatrixXd::Zero(all, n), Eigen::VectorXd::Zero(all)};
    double* const targets = pull.targets.data();
    for (Eigen::Index k = 0; k < notes; ++k) targets[2 * n + k] = -weight * octaves.cents.data()[k];
    for (Eigen::Index i = 0; i < n; ++i) {
        double* const column = pull.rows.data() + i * all;
        column[i] = home.rows(i, i);
        targets[i] = home.targets(i);
        column[n + i] = damping_cents;
        targets[n + i] = damping_cents * x(i);
        for (Eigen::Index k = 0; k < notes; ++k) {
            column[2 * n + k] = weight * octaves.slopes(k, i);
            targets[2 * n + k] += column[2 * n + k] * x(i);
        }
    }
    return pull;
}

// A flute and its octaves.
struct Heeding {
    Walk walk;
    Octaves octaves;
};

// A fixed number of damped steps of Gauss and Newton from there, then the notes met by pulls that
// move nothing else: each moves with all that goes into it, so that a hair moves no mark far.
// walk.converged says whether every one came to an end.
Heeding heeding(Problem& problem, Heeding here, const Pull& to_home, double counts) {
    for (int turn = 0; turn < kTurns + kExactPulls; ++turn) {
        const Eigen::VectorXd x = here.walk.x;
        here.walk = walk(
            problem, x,
            turn < kTurns ? pull_at(to_home, x, here.octaves, counts, counts * kTurnDamping_cents)
                          : problem.draw_to(x),
            kMostDescents, here.walk);
        if (!here.walk.sound.speaks) here.walk.converged = false;
        if (!here.walk.converged) break;
        here.octaves = problem.octaves(here.walk.x, here.walk.sound, here.octaves);
    }
    return here;
}

// Whether it is a flute on, and not past the place where a note would lose its octave.
bool heeds(Problem& problem, const Heeding& there, const Heeding& before) {
    return there.walk.converged && there.octaves.there == before.octaves.there &&
           there.octaves.cents.norm() <= before.octaves.cents.norm() + kOctavesAlike_cents &&
           problem.counted_registers(there.walk.x, there.walk.sound, there.octaves);
}

bool kept(const LayoutTask& task, const Air& air, const LayoutResult& before,
          const LayoutResult& after) {
    Network was(before.flute, air), is(after.flute, air);
    for (std::size_t n = 0; n < task.notes.size(); ++n) {
        was.finger(task.notes[n].open);
        was.measure();
        is.finger(task.notes[n].open);
        is.measure();
        if (second_resonance(was, before.notes[n].passive_Hz).found &&
            !second_resonance(is, after.notes[n].passive_Hz).found)
            return false;
    }
    return true;
}

constexpr int kMostHalvesOfOctaves = 6;
// Of a flute that has not converged and whose notes are off by so much together nobody asks for
// octaves.
constexpr double kHopeless_cents = 200.0;

// Octaves count only where no note gives way for one (nor for a drill that suits them), and none
// loses its own between the walls or by a drill: by half of what counted there may be room.
void heed_octaves(LayoutTask task, const Air& air, Placement unlimited, LayoutResult& result) {
    unlimited.evaluations = unlimited.steps = 0;  // they are counted in `result`
    const double asked = task.octaves_weight;
    if (!result.converged && result.errors_cents > kHopeless_cents) return;
    for (int half = 0; half <= kMostHalvesOfOctaves; ++half) {
        Laid heeding = laid(task, air, unlimited);
        LayoutResult& other = heeding.result;
        result.evaluations += other.evaluations;
        result.steps += other.steps;
        other.octaves_counted = heeding.found.walk.octaves_counted;
        if (!other.converged || !(other.octaves_counted > 0.0) ||
            other.errors_cents > result.errors_cents + kLayoutError_cents)
            return;
        // held back from what was asked, it stands at an edge: a hair decides how far it went
        if (half > 0 || other.octaves_counted < asked)
            result.loose_m = std::max(result.loose_m, apart_m(other.flute, result.flute));
        if (kept(task, air, result, other)) {
            other.loose_m = std::max(other.loose_m, result.loose_m);
            other.evaluations = result.evaluations;
            other.steps = result.steps;
            result = std::move(other);
            return;
        }
        task.octaves_weight = 0.5 * other.octaves_counted;
    }
}

}  // namespace

Octaves Problem::octaves(const Eigen::VectorXd& x, const Sound& sound, const Octaves& near) {
    const Eigen::Index notes = static_cast<Eigen::Index>(task_.notes.size());
    Octaves octaves{x, Eigen::VectorXd::Zero(notes), Eigen::MatrixXd::Zero(notes, size()), {}, {},
                    0};
    Network here(flute(x), air_);
    std::vector<Network> beside = either_way(x);
    const bool follows = !near.second_Hz.empty();
    for (Eigen::Index k = 0; k < notes; ++k) {
        const std::size_t note = static_cast<std::size_t>(k);
        const Fingering& open = task_.notes[note].open;
        const double first_Hz = sound.passive_Hz[note];
        octaves.second_Hz.push_back(0.0);
        octaves.per_rad.push_back(0.0);
        if (follows && near.second_Hz[note] == 0.0) continue;
        here.finger(open);
        here.measure();
        Resonance second;
        if (follows) {
            double ahead_cents = near.cents(k);
            for (Eigen::Index n = 0; n < size(); ++n)
                ahead_cents += near.slopes(k, n) * (x(n) - near.x(n));
            second = followed_resonance(here, 2, shifted_Hz(2.0 * first_Hz, ahead_cents),
                                        near.per_rad[note]);
        } else {
            second = second_resonance(here, first_Hz);
        }
        evaluations_ += second.evaluations;
        if (!second.found || !second.converged) continue;
        ++octaves.there;
        octaves.second_Hz.back() = second.frequency_Hz;
        octaves.cents(k) = cents_between(second.frequency_Hz, 2.0 * first_Hz);
        const Slope low(here, first_Hz), high(here, second.frequency_Hz);
        octaves.per_rad.back() = high.cents_per_rad();
        for (Eigen::Index n = 0; n < size(); ++n) {
            Network& less = beside[static_cast<std::size_t>(2 * n)];
            Network& more = beside[static_cast<std::size_t>(2 * n + 1)];
            less.finger(open);
            more.finger(open);
            octaves.slopes(k, n) =
                (high.cents_between(less, more) - low.cents_between(less, more)) / (2.0 * kNudge);
        }
        evaluations_ += low.evaluations() + high.evaluations();
    }
    return octaves;
}

bool Problem::counted_registers(const Eigen::VectorXd& x, const Sound& sound,
                                const Octaves& octaves) {
    Network here(flute(x), air_);
    for (std::size_t note = 0; note < task_.notes.size(); ++note) {
        here.finger(task_.notes[note].open);
        here.measure();
        const Resonance first = first_resonance(here, sound.passive_Hz[note]);
        evaluations_ += first.evaluations;
        const auto same = [](const Resonance& r, double f_Hz) {
            return r.found && r.converged &&
                   std::abs(cents_between(r.frequency_Hz, f_Hz)) < kSame_cents;
        };
        if (!same(first, sound.passive_Hz[note])) return false;
        if (octaves.second_Hz[note] == 0.0) continue;
        const Resonance second = second_resonance(here, first.frequency_Hz);
        evaluations_ += second.evaluations;
        if (!same(second, octaves.second_Hz[note])) return false;
    }
    return true;
}

const OctavesGoal* octaves_for(const LayoutTask& task) {
    static constexpr OctavesGoal kGoal{walk_by_octaves, heed_octaves};
    return task.octaves_weight > 0.0 ? &kGoal : nullptr;
}

Walk walk_by_octaves(Problem& problem, const Walk& from, const Eigen::VectorXd& home,
                     double weight) {
    const Pull to_home = problem.draw_to(home);
    Walk w = walk(problem, from.x, to_home, kMostDescents, from);
    if (weight == 0.0 || !w.feasible || !w.sound.speaks || !w.converged) return w;
    Heeding kept{w, problem.octaves(w.x, w.sound)};
    double counted = 0.0;
    const auto goes_on = [&](const Heeding& from_there, double weight_then) {
        Heeding there = heeding(problem, from_there, to_home, weight_then * kOctave);
        if (!heeds(problem, there, from_there)) return false;
        kept = std::move(there);
        kept.walk.octaves_counted = counted = weight_then;
        return true;
    };
    // From weight to weight, the same ones on the way to any: more weight is no less true.
    double next = std::min(kFirstWeight, weight);
    while (goes_on(Heeding(kept), next) && next < weight) next = std::min(2.0 * next, weight);
    if (counted == weight) return kept.walk;
    // All of these from one flute, so that what comes of a weight does not hang on those tried.
    const Heeding last = kept;
    double most = next;
    for (int half = 0; half < kMostHalves; ++half) {
        const double middle = 0.5 * (counted + most);
        if (!goes_on(last, middle)) most = middle;
    }
    return kept.walk;
}

}  // namespace canewright
