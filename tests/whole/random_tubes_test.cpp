// tests/whole/random_tubes_test.cpp: layouts over many tubes as they come.
#include "tests/support/random_tubes.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <ctime>
#include <map>
#include <string>

#include "core/base/units.hpp"

using namespace canewright;
using namespace canewright::testing;

namespace {

constexpr double kTaper = 0.03;
constexpr double kResidual_cents = 0.1;
constexpr double kNothingBinding = 0.85;

// The task with one limit widened far enough to be out of the way.
LayoutTask dropped(LayoutTask task, Limit limit) {
    switch (limit) {
        case Limit::spacing_min:
            task.shop.spacing_min_m = 0.0;
            break;
        case Limit::spacing_max:
            task.shop.spacing_max_m = kNoLimit;
            break;
        case Limit::tube_end:
            task.end_m *= 1.5;
            break;
        default:
            break;  // the rest are walls of the model: they cannot be widened from outside
    }
    return task;
}

struct Counts {
    int free = 0, bound = 0, lowered = 0, model_walls = 0, unexplained = 0, not_finite = 0;
    double worst_s = 0.0;
    std::map<std::string, int> limits;
};

void lay_out(Dice& dice, const Air& air, Counts& counts) {
    const LayoutTask task = random_tube(dice, kTaper, air);
    const std::clock_t since = std::clock();
    const LayoutResult result = place_holes(task, air);
    const double spent_s = static_cast<double>(std::clock() - since) / CLOCKS_PER_SEC;
    counts.worst_s = std::max(counts.worst_s, spent_s);
    if (!finite(result)) ++counts.not_finite;
    if (result.converged && result.binding.empty() && result.worst_cents < kResidual_cents) {
        // not what the result says, but what its flute sounds
        CHECK(heard_errors_cents(task, result, air) < 3.0 * kResidual_cents);
        ++counts.free;
        return;
    }
    ++counts.bound;
    if (result.binding.empty()) {
        ++counts.unexplained;
        return;
    }
    for (const Binding& binding : result.binding) ++counts.limits[name(binding.limit)];
    const Limit first = result.binding.front().limit;
    const LayoutTask wider = dropped(task, first);
    const bool widened = wider.shop.spacing_min_m != task.shop.spacing_min_m ||
                         wider.shop.spacing_max_m != task.shop.spacing_max_m ||
                         wider.end_m != task.end_m;
    if (!widened) {
        ++counts.model_walls;
        CHECK(result.binding.front().costs_cents > 0.0);
        return;
    }
    if (place_holes(wider, air).errors_cents < result.errors_cents) ++counts.lowered;
}

Counts lay_out_many(int tubes) {
    Dice dice(77);
    const Air air = played_air();
    Counts counts;
    for (int n = 0; n < tubes; ++n) {
        CAPTURE(n);
        lay_out(dice, air, counts);
    }
    return counts;
}

void check(const Counts& counts, int tubes) {
    CHECK(counts.free >= kNothingBinding * tubes);
    CHECK(counts.not_finite == 0);
    CHECK(counts.unexplained == 0);
    CHECK(counts.lowered + counts.model_walls == counts.bound);
}

}  // namespace

TEST_CASE("most tubes take their song with nothing binding", "[whole][property]") {
    check(lay_out_many(60), 60);
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
