// core/layout/builds.cpp: the Monte Carlo of the full model.
#include "core/layout/builds.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "core/base/noise.hpp"
#include "core/base/units.hpp"
#include "core/flute/resonance.hpp"
#include "core/jet/sounding.hpp"

namespace canewright {
namespace {

// One build with its errors in units of their standard deviations.
struct Drawn {
    Build build;
    Eigen::VectorXd z;
};

void draw(const SpreadTask& task, const Spread& linear, Noise noise, Drawn& drawn) {
    drawn.build = task.plan;
    for (std::size_t n = 0; n < linear.causes.size(); ++n) {
        const double z = noise.normal();
        drawn.z(static_cast<Eigen::Index>(n)) = z;
        put_off(drawn.build, linear.causes[n], z * linear.causes[n].sigma);
    }
    drawn.build.refresh_air();
}

// Cents of each note above nominal; false where one does not speak.
bool solve(const SpreadTask& task, const Spread& linear, const Drawn& drawn,
           Eigen::VectorXd& cents) {
    const Eigen::VectorXd expected = linear.effects_cents * drawn.z;
    for (std::size_t k = 0; k < task.open.size(); ++k) {
        const NoteSpread& note = linear.notes[k];
        const Eigen::Index row = static_cast<Eigen::Index>(k);
        cents(row) = 0.0;
        if (!note.speaks) continue;
        double own_cents = 0.0;     // what does not move the resonance
        double linear_cents = 0.0;  // the same in the linear model
        for (std::size_t n = 0; n < linear.causes.size(); ++n) {
            const What what = linear.causes[n].what;
            if (what != What::each_note && what != What::breath) continue;
            const Eigen::Index column = static_cast<Eigen::Index>(n);
            const double effect = linear.effects_cents(row, column) * drawn.z(column);
            linear_cents += effect;
            own_cents += what == What::each_note
                             ? effect
                             : breath_shift_cents(note.quality, drawn.build.breath);
        }
        const Network network(drawn.build.flute, drawn.build.air, note.open);
        const double guess_Hz = shifted_Hz(note.nominal_Hz, expected(row) - linear_cents);
        const Resonance r = resonance_near(network, 1, guess_Hz, note.cents_per_rad);
        if (!r.converged) return false;
        cents(row) = cents_between(r.frequency_Hz, note.nominal_Hz) + own_cents;
    }
    return true;
}

}  // namespace

void BuildSums::add(const BuildSums& other) {
    builds += other.builds;
    failed += other.failed;
    if (notes.size() < other.notes.size()) notes.resize(other.notes.size());
    for (std::size_t k = 0; k < other.notes.size(); ++k) {
        notes[k].cents += other.notes[k].cents;
        notes[k].cents2 += other.notes[k].cents2;
        notes[k].linear_cents2 += other.notes[k].linear_cents2;
    }
    for (std::size_t i = 0; i < within.size(); ++i) within[i] += other.within[i];
    worst_linear_cents = std::max(worst_linear_cents, other.worst_linear_cents);
}

double BuildSums::mean_cents(std::size_t note) const {
    return notes[note].cents / static_cast<double>(builds - failed);  // 0 / 0: NaN
}

double BuildSums::sigma_cents(std::size_t note) const {
    const double n = static_cast<double>(builds - failed);
    if (!(n > 1.0)) return std::numeric_limits<double>::quiet_NaN();
    const double mean = notes[note].cents / n;
    return std::sqrt(std::max(0.0, (notes[note].cents2 - n * mean * mean) / (n - 1.0)));
}

double BuildSums::over_linear(std::size_t note) const {
    const double n = static_cast<double>(builds - failed);
    const double mean = notes[note].cents / n;
    return std::sqrt((notes[note].cents2 - n * mean * mean) / notes[note].linear_cents2);
}

double BuildSums::share_within(std::size_t limit) const {
    return static_cast<double>(within[limit]) / static_cast<double>(builds);
}

BuildSums run_builds(const SpreadTask& task, const Spread& linear, long from, long to,
                     std::uint64_t seed) {
    BuildSums sums;
    sums.notes.resize(task.open.size());
    Drawn drawn;
    drawn.z.resize(static_cast<Eigen::Index>(linear.causes.size()));
    Eigen::VectorXd cents(static_cast<Eigen::Index>(task.open.size()));
    for (long number = from; number < to; ++number) {
        ++sums.builds;
        draw(task, linear, Noise(seed, static_cast<std::uint64_t>(number)), drawn);
        if (!is_flute(drawn.build.flute) || !solve(task, linear, drawn, cents)) {
            ++sums.failed;
            continue;
        }
        const Eigen::VectorXd expected = linear.effects_cents * drawn.z;
        double worst = 0.0;
        for (std::size_t k = 0; k < task.open.size(); ++k) {
            if (!linear.notes[k].speaks) continue;
            const Eigen::Index row = static_cast<Eigen::Index>(k);
            sums.notes[k].cents += cents(row);
            sums.notes[k].cents2 += cents(row) * cents(row);
            sums.notes[k].linear_cents2 += expected(row) * expected(row);
            worst = std::max(worst, std::abs(linear.notes[k].off_cents + cents(row)));
            sums.worst_linear_cents =
                std::max(sums.worst_linear_cents, std::abs(cents(row) - expected(row)));
        }
        for (std::size_t i = 0; i < kWithin_cents.size(); ++i)
            if (worst <= kWithin_cents[i]) ++sums.within[i];
    }
    return sums;
}

}  // namespace canewright
