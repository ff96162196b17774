// core/layout/tolerance.cpp: linear propagation of errors to the notes.
#include "core/layout/tolerance.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

#include "core/base/noise.hpp"
#include "core/base/stable_order.hpp"
#include "core/base/units.hpp"
#include "core/flute/resonance.hpp"
#include "core/flute/slope.hpp"
#include "core/jet/sounding.hpp"

namespace canewright {
namespace {

constexpr std::uint64_t kSeed = 1;

Eigen::Index index(std::size_t n) { return static_cast<Eigen::Index>(n); }

// Each cause's nudged flute, made once for all notes.
std::vector<Build> nudged_builds(const Build& plan, const std::vector<Cause>& causes) {
    std::vector<Build> builds;
    builds.reserve(causes.size());
    for (const Cause& cause : causes) {
        Build build = plan;
        put_off(build, cause, nudge_of(cause));
        build.refresh_air();
        builds.push_back(std::move(build));
    }
    return builds;
}

// Fills in a note and its row of effects.
void solve_note(const SpreadTask& task, const std::vector<Build>& nudged, std::size_t k,
                Spread& s) {
    NoteSpread& note = s.notes[k];
    note.open = task.open[k];
    const Network network(task.plan.flute, task.plan.air, note.open);
    const Resonance r = resonance(network, 1);
    note.speaks = r.found && r.converged;
    note.nominal_Hz = r.frequency_Hz;
    if (!note.speaks) return;
    const double target_Hz = k < task.target_Hz.size() ? task.target_Hz[k] : 0.0;
    note.breath_cents = breath_cents(network, r.frequency_Hz, task.breath) +
                        (k < task.lift_cents.size() ? task.lift_cents[k] : 0.0);
    if (target_Hz > 0.0)
        note.off_cents = cents_between(r.frequency_Hz, target_Hz) + note.breath_cents;
    const Slope slope(network, r.frequency_Hz);
    note.cents_per_rad = slope.cents_per_rad();
    note.quality = loop_quality(network, r.frequency_Hz);
    for (std::size_t n = 0; n < s.causes.size(); ++n) {
        const Cause& cause = s.causes[n];
        double& effect = s.effects_cents(index(k), index(n));
        if (cause.what == What::each_note)
            effect = cause.index == static_cast<int>(k) ? cause.sigma : 0.0;
        else if (cause.what == What::breath)
            effect = breath_slope_cents(note.quality) * cause.sigma;
        else
            effect = slope.cents_to(Network::changed(nudged[n].flute, nudged[n].air, note.open)) *
                     cause.sigma / nudge_of(cause);
    }
}

void sum_up(std::size_t k, Spread& s) {
    NoteSpread& note = s.notes[k];
    double shop = 0.0, model = 0.0;
    for (std::size_t n = 0; n < s.causes.size(); ++n) {
        const Group group = group_of(s.causes[n].what);
        const double effect = s.effects_cents(index(k), index(n));
        double& part = note.part_cents[static_cast<std::size_t>(group)];
        part = std::hypot(part, effect);
        (is_shops(group) ? shop : model) += effect * effect;
    }
    note.shop_cents = std::sqrt(shop);
    note.model_cents = std::sqrt(model);
    note.sigma_cents = std::sqrt(shop + model);
}

void rank(Spread& s) {
    const auto notes = std::count_if(s.notes.begin(), s.notes.end(),
                                     [](const NoteSpread& note) { return note.speaks; });
    const double total = s.effects_cents.squaredNorm();
    for (std::size_t n = 0; n < s.causes.size(); ++n) {
        const double own = s.effects_cents.col(index(n)).squaredNorm();
        if (!(own > 0.0)) continue;
        s.ranked.push_back({s.causes[n], own / total, std::sqrt(own / static_cast<double>(notes))});
    }
    stable_order(s.ranked,
                 [](const RankedCause& a, const RankedCause& b) { return a.share > b.share; });
}

void sample_shares(Spread& s) {
    std::array<long, kWithin_cents.size()> all{}, shop{};
    const Eigen::Index causes = s.effects_cents.cols();
    const Eigen::Index notes = s.effects_cents.rows();
    Eigen::Index shops = 0;  // the shop's causes come first
    while (shops < causes && is_shops(group_of(s.causes[static_cast<std::size_t>(shops)].what)))
        ++shops;
    Eigen::VectorXd z(causes), off(notes);
    for (Eigen::Index k = 0; k < notes; ++k)
        off(k) = s.notes[static_cast<std::size_t>(k)].off_cents;
    const auto count = [](const Eigen::VectorXd& cents, auto& counts) {
        const double worst = cents.size() > 0 ? cents.cwiseAbs().maxCoeff() : 0.0;
        for (std::size_t i = 0; i < kWithin_cents.size(); ++i)
            if (worst <= kWithin_cents[i]) ++counts[i];
    };
    for (int draw = 0; draw < kSamples; ++draw) {
        Noise noise(kSeed, static_cast<std::uint64_t>(draw));
        for (Eigen::Index n = 0; n < causes; ++n) z(n) = noise.normal();
        Eigen::VectorXd cents = off;
        cents.noalias() += s.effects_cents.leftCols(shops) * z.head(shops);
        count(cents, shop);
        cents.noalias() += s.effects_cents.rightCols(causes - shops) * z.tail(causes - shops);
        count(cents, all);
    }
    for (std::size_t i = 0; i < kWithin_cents.size(); ++i) {
        s.within[i] = static_cast<double>(all[i]) / kSamples;
        s.within_shop[i] = static_cast<double>(shop[i]) / kSamples;
    }
}

Spread of_causes(const SpreadTask& task, std::vector<Cause> causes) {
    Spread s;
    s.causes = std::move(causes);
    s.notes.resize(task.open.size());
    s.effects_cents = Eigen::MatrixXd::Zero(index(task.open.size()), index(s.causes.size()));
    const std::vector<Build> nudged = nudged_builds(task.plan, s.causes);
    for (std::size_t k = 0; k < task.open.size(); ++k) {
        solve_note(task, nudged, k, s);
        sum_up(k, s);
    }
    s.covariance_cents2 = s.effects_cents * s.effects_cents.transpose();
    rank(s);
    return s;
}

}  // namespace

Spread linear_spread(const SpreadTask& task) {
    return of_causes(task, causes_of(task.plan.flute, task.open.size(), task.plan.room.has_value(),
                                     task.shop, task.model));
}

Spread spread(const SpreadTask& task) {
    Spread s = linear_spread(task);
    sample_shares(s);
    return s;
}

std::vector<double> slopes_cents(const SpreadTask& task, const Cause& cause) {
    const Spread s = of_causes(task, {{cause.what, cause.index, 1.0}});
    return {s.effects_cents.data(), s.effects_cents.data() + s.effects_cents.size()};
}

Climate climate(const SpreadTask& task) {
    constexpr double kCold_C = 10.0, kWarm_C = 30.0, kHalfStep_C = 0.5;
    const auto at = [&task](const Fingering& open, double room_C) {
        Build build = task.plan;
        build.room->temperature_C = room_C;
        build.refresh_air();
        const Resonance r = resonance(build.flute, build.air, open, 1);
        return r.converged ? r.frequency_Hz : std::numeric_limits<double>::quiet_NaN();
    };
    const double room_C = task.plan.room->temperature_C;
    Climate c;
    for (const Fingering& open : task.open) {
        c.per_C.push_back(
            cents_between(at(open, room_C + kHalfStep_C), at(open, room_C - kHalfStep_C)));
        c.ten_to_30.push_back(cents_between(at(open, kWarm_C), at(open, kCold_C)));
    }
    return c;
}

}  // namespace canewright
