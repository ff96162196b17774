// tests/whole/random_tubes_test.cpp: layouts over many tubes as they come.
#include "tests/support/random_tubes.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <ctime>
#include <map>
#include <optional>
#include <string>

#include "core/base/units.hpp"
#include "tests/support/figures.hpp"

using namespace canewright;
using namespace canewright::testing;

namespace {

constexpr double kTaper = 0.03;
// The README's: how many of a thousand take their song, and how near the worst note of any comes.
double residual_cents() { return figure("layouts_most").most(); }
double nothing_binding() { return figure("layouts_free").value / figure("layouts_tubes").value; }

// The task with one limit widened far enough to be out of the way; nothing where the limit is one
// of the model's own walls, which nobody can widen from outside.
std::optional<LayoutTask> dropped(LayoutTask task, Limit limit) {
    Shop& shop = task.shop;
    if (limit == Limit::spacing_min) {
        shop.spacing_min_m = 0.0;
    } else if (limit == Limit::spacing_max) {
        shop.spacing_max_m = kNoLimit;
    } else if (limit == Limit::diameter_min && shop.diameter_min_m > 0.0) {
        shop.diameter_min_m = 0.0;
    } else if (limit == Limit::diameter_max && std::isfinite(shop.diameter_max_m)) {
        shop.diameter_max_m = kNoLimit;
    } else if (limit == Limit::tube_end) {
        task.end_m *= 1.5;
    } else {
        return {};
    }
    return task;
}

// Hands and tools hold: what the result's flute says, not its list of bindings.
bool within_limits(const LayoutTask& task, const Flute& flute) {
    constexpr double kRounding_m = 1e-9;
    for (std::size_t i = 0; i < flute.holes.size(); ++i) {
        const FingerHole& hole = flute.holes[i];
        if (hole.diameter_m < task.shop.diameter_min_m - kRounding_m ||
            hole.diameter_m > task.shop.diameter_max_m + kRounding_m)
            return false;
        if (i == 0) continue;
        const double spacing_m = hole.at_m - flute.holes[i - 1].at_m;
        const bool one_hand = static_cast<int>(i) != task.shop.hands.front();
        if (spacing_m < task.shop.spacing_min_m - kRounding_m ||
            (one_hand && spacing_m > task.shop.spacing_max_m + kRounding_m))
            return false;
    }
    return flute.foot_m <= task.end_m + kRounding_m;
}

struct Counts {
    int free = 0, bound = 0, lowered = 0, model_walls = 0, unexplained = 0, not_finite = 0;
    double worst_s = 0.0;
    std::map<std::string, int> limits;
};

void lay_out(const LayoutTask& task, const Air& air, Counts& counts) {
    const std::clock_t since = std::clock();
    const LayoutResult result = place_holes(task, air);
    const double spent_s = static_cast<double>(std::clock() - since) / CLOCKS_PER_SEC;
    counts.worst_s = std::max(counts.worst_s, spent_s);
    CHECK(within_limits(task, result.flute));
    if (!finite(result)) ++counts.not_finite;
    if (result.converged && result.binding.empty() && result.worst_cents < residual_cents()) {
        // not what the result says, but what its flute sounds
        CHECK(heard_errors_cents(task, result, air) < 3.0 * residual_cents());
        ++counts.free;
        return;
    }
    ++counts.bound;
    if (result.binding.empty()) {
        ++counts.unexplained;
        return;
    }
    for (const Binding& binding : result.binding) ++counts.limits[name(binding.limit)];
    const auto wider = dropped(task, result.binding.front().limit);
    if (!wider)
        ++counts.model_walls;
    else if (place_holes(*wider, air).errors_cents < result.errors_cents)
        ++counts.lowered;
}

Counts lay_out_many(int tubes) {
    Dice dice(77);
    const Air air = played_air();
    Counts counts;
    for (int n = 0; n < tubes; ++n) {
        CAPTURE(n);
        lay_out(random_tube(dice, kTaper, air), air, counts);
    }
    return counts;
}

void check(const Counts& counts, int tubes) {
    CHECK(counts.free >= nothing_binding() * tubes);
    CHECK(counts.not_finite == 0);
    CHECK(counts.unexplained == 0);
    CHECK(counts.lowered + counts.model_walls == counts.bound);
}

}  // namespace

TEST_CASE("most tubes take their song with nothing binding", "[whole][property]") {
    check(lay_out_many(60), 60);
}

// Small bits and close fingers: now limits bind, and each must be worth what it is said to cost.
TEST_CASE("on tubes with hard limits, dropping the first one helps", "[whole][property][sweep]") {
    Dice dice(78);
    const Air air = played_air();
    Counts counts;
    for (int n = 0; n < 40; ++n) {
        CAPTURE(n);
        LayoutTask task = random_tube(dice, kTaper, air);
        const double bore_m = bore_diameter_m(task.flute, 0.0);
        task.shop.diameter_max_m = dice.between(0.2, 0.3) * bore_m;
        task.shop.spacing_max_m = dice.between(0.85, 1.1) * bore_m;
        lay_out(task, air, counts);
    }
    CHECK(counts.bound > 10);
    CHECK(counts.unexplained == 0);
    CHECK(counts.not_finite == 0);
    CHECK(counts.lowered + counts.model_walls == counts.bound);
    CHECK(counts.lowered > 10);
}

// The figures of the README: run with the tag [long]. Times are the processor's, native.
TEST_CASE("a thousand tubes", "[whole][property][.long]") {
    const Counts counts = lay_out_many(1000);
    std::string limits;
    for (const auto& [limit, count] : counts.limits)
        limits += " " + limit + " " + std::to_string(count);
    WARN("nothing binding " << counts.free << ", bound " << counts.bound << " (dropping lowers "
                            << counts.lowered << ", model's own walls " << counts.model_walls
                            << ", unexplained " << counts.unexplained << "), worst "
                            << counts.worst_s << " s; limits:" << limits);
    check(counts, 1000);
    CHECK(counts.worst_s < 0.2);
}
