// tests/core/layout/limits_test.cpp: each limit of hands, tools and tube is kept, is named where
// it costs pitch, and costs what it says.
#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>

#include "core/layout/problem.hpp"
#include "tests/support/layouts.hpp"

using namespace canewright;
using namespace canewright::testing;
using Catch::WithinAbs;
using Catch::WithinRel;

namespace {

constexpr double kRounding_m = 1e-9;

// A limit that binds: the notes are out, it is named first or later with a cost, and the same task
// without it (`loose`) has errors that are less by at least a good part of that cost.
LayoutResult check_binds(const LayoutTask& task, Limit limit, const LayoutTask& loose) {
    const Air air = played_air();
    const LayoutResult result = place_holes(task, air);
    CAPTURE(name(limit), result.errors_cents);
    CHECK(finite(result));
    // where a note has no clear resonance the layout says so instead
    if (result.converged)
        CHECK_THAT(heard_errors_cents(task, result, air), WithinAbs(result.errors_cents, 1e-3));
    const Binding* named = binding(result, limit);
    REQUIRE(named != nullptr);
    CHECK(named->costs_cents > kBindingCost_cents);
    CHECK(named->costs_cents <= result.errors_cents + 1e-6);
    const LayoutResult freed = place_holes(loose, air);
    CHECK(freed.errors_cents <= result.errors_cents - 0.5 * named->costs_cents);
    for (std::size_t i = 1; i < result.binding.size(); ++i)
        CHECK(result.binding[i - 1].costs_cents >= result.binding[i].costs_cents);
    return result;
}

double spacing_m(const LayoutResult& r, std::size_t lower) {
    return r.flute.holes[lower].at_m - r.flute.holes[lower - 1].at_m;
}

}  // namespace

TEST_CASE("wide limits bind nothing", "[layout][limits]") {
    LayoutTask task = easy_task();
    task.shop.diameter_min_m = 0.002;
    task.shop.diameter_max_m = 0.010;
    task.shop.spacing_min_m = 0.008;
    task.shop.spacing_max_m = 0.060;
    const LayoutResult result = place_holes(task, played_air());
    CHECK(result.binding.empty());
    CHECK(result.worst_cents < kLayoutError_cents);
}

// Small holes must lie far up the tube and near each other: a large spacing stops them.
TEST_CASE("the least spacing is kept and named", "[layout][limits]") {
    LayoutTask task = easy_task();
    task.shop.spacing_min_m = 0.046;
    const LayoutResult r = check_binds(task, Limit::spacing_min, easy_task());
    for (std::size_t i = 1; i < 5; ++i) CHECK(spacing_m(r, i) >= 0.046 - kRounding_m);
}

TEST_CASE("the greatest spacing is kept within a hand and named", "[layout][limits]") {
    LayoutTask task = easy_task();
    task.shop.diameter_min_m = 0.004;
    LayoutTask loose = task;
    task.shop.spacing_max_m = 0.012;
    const LayoutResult r = check_binds(task, Limit::spacing_max, loose);
    for (std::size_t i = 1; i < 5; ++i) CHECK(spacing_m(r, i) <= 0.012 + kRounding_m);
}

// Between the hands only the least spacing counts: with the widest gap there, the cost falls.
TEST_CASE("between two hands the greatest spacing does not count", "[layout][limits]") {
    LayoutTask task = easy_task();
    task.shop.diameter_min_m = 0.004;
    task.shop.spacing_max_m = 0.014;
    const LayoutResult one_hand = place_holes(task, played_air());
    task.shop.hands = {2, 3};
    const LayoutResult two_hands = place_holes(task, played_air());
    CHECK(two_hands.errors_cents < one_hand.errors_cents - kBindingCost_cents);
    CHECK(spacing_m(two_hands, 2) > 0.014);
    for (const std::size_t i : {1u, 3u, 4u}) CHECK(spacing_m(two_hands, i) <= 0.014 + kRounding_m);
    for (const Binding& b : two_hands.binding) CHECK_FALSE(b.hole == 2);
}

TEST_CASE("the largest diameter is kept and named", "[layout][limits]") {
    LayoutTask task = easy_task();
    task.shop.spacing_min_m = 0.026;
    LayoutTask loose = task;
    task.shop.diameter_max_m = 0.0028;
    const LayoutResult r = check_binds(task, Limit::diameter_max, loose);
    for (const FingerHole& h : r.flute.holes) CHECK(h.diameter_m <= 0.0028 + kRounding_m);
}

TEST_CASE("the smallest diameter is kept and named", "[layout][limits]") {
    LayoutTask task = easy_task();
    task.shop.spacing_max_m = 0.014;
    LayoutTask loose = task;
    task.shop.diameter_min_m = 0.004;
    const LayoutResult r = check_binds(task, Limit::diameter_min, loose);
    for (const FingerHole& h : r.flute.holes) CHECK(h.diameter_m >= 0.004 - kRounding_m);
}

// Where the maker's sizes are wide, what holds a hole is its bore: another limit, with another
// name, and nothing on the bench changes it.
TEST_CASE("a share of the bore is not named as the shop's largest diameter", "[layout][limits]") {
    LayoutTask task = easy_task();
    // Steps as wide as a third on holes that lie near: the middle one has to be wide.
    task.notes = opened_in_order(5, 659.26, {0.0, 400.0, 800.0, 1200.0, 1600.0, 2000.0});
    task.shop.spacing_max_m = 0.014;
    task.shop.diameter_max_m = 0.012;  // 0.96 of the bore: beyond any share
    const LayoutResult r = place_holes(task, played_air());
    REQUIRE(binding(r, Limit::bore_share) != nullptr);
    CHECK(binding(r, Limit::diameter_max) == nullptr);
    CHECK(binding(r, Limit::bore_share)->costs_cents > kBindingCost_cents);
    for (const FingerHole& h : r.flute.holes)
        CHECK(h.diameter_m <= kLargestHole * 0.0125 + kRounding_m);
    task.shop.diameter_max_m = 0.006;
    const LayoutResult small = place_holes(task, played_air());
    CHECK(binding(small, Limit::diameter_max) != nullptr);
}

// Semitones lie near: without a spacing of the maker's each hole keeps the width of either from its
// neighbour, within which the holes' model is checked (core/element/finger_hole).
TEST_CASE("holes keep their own width apart where nobody gives a spacing", "[layout][limits]") {
    LayoutTask task = easy_task();
    task.notes = opened_in_order(5, 1318.5, {0.0, 100.0, 200.0, 300.0, 400.0, 500.0});
    task.shop.diameter_min_m = 0.0055;
    const auto least = [](const LayoutResult& r) {
        double share = 9.0;
        for (std::size_t i = 1; i < r.flute.holes.size(); ++i) {
            const double a = r.flute.holes[i - 1].diameter_m, b = r.flute.holes[i].diameter_m;
            share = std::min(share, (spacing_m(r, i) - 0.5 * (a + b)) / std::max(a, b));
        }
        return share;
    };
    const LayoutResult near = place_holes(task, played_air());
    CHECK(least(near) < 0.9);
    task.shop.own_width_apart = true;
    const LayoutResult apart = place_holes(task, played_air());
    CHECK(finite(apart));
    CHECK(least(apart) > 1.0 - 1e-6);
    task.shop.spacing_min_m = 0.001;  // the maker's own word goes before it
    CHECK(least(place_holes(task, played_air())) < 0.9);
}

// A hole that is cut cannot shrink.
TEST_CASE("what is cut stays at least as large", "[layout][limits]") {
    LayoutTask task = easy_task();
    task.cut_diameter_m = {0.0, 0.009, 0.0, 0.0, 0.0};
    const LayoutResult r = place_holes(task, played_air());
    CHECK(r.flute.holes[1].diameter_m >= 0.009 - kRounding_m);
    CHECK(finite(r));
}

// Places are free, so a bit that exists costs nothing much; with places held, it costs.
TEST_CASE("bits are obeyed and named when they cost", "[layout][limits]") {
    const Air air = played_air();
    LayoutTask task = easy_task();
    task.shop.bits_m = {0.004, 0.0055, 0.007};
    const LayoutResult free_places = place_holes(task, air);
    CHECK(free_places.worst_cents < 0.1);
    const auto is_bit = [&task](double d) {
        return std::any_of(task.shop.bits_m.begin(), task.shop.bits_m.end(),
                           [d](double bit) { return std::abs(bit - d) < kRounding_m; });
    };
    for (const FingerHole& h : free_places.flute.holes) CHECK(is_bit(h.diameter_m));

    LayoutTask held = easy_task();
    held.flute.holes = place_holes(easy_task(), air).flute.holes;
    for (FingerHole& h : held.flute.holes) h.at_fixed = true;
    LayoutTask loose = held;
    held.shop.bits_m = task.shop.bits_m;
    const LayoutResult r = check_binds(held, Limit::bits, loose);
    for (const FingerHole& h : r.flute.holes) CHECK(is_bit(h.diameter_m));
}

TEST_CASE("wall is left between two holes, and named", "[layout][limits]") {
    LayoutTask task = easy_task();
    task.notes = opened_in_order(5, 659.26, {0.0, 50.0, 100.0, 150.0, 200.0, 250.0});
    task.shop.diameter_min_m = 0.008;
    LayoutTask loose = task;
    loose.shop.diameter_min_m = 0.0;
    const LayoutResult r = place_holes(task, played_air());
    CHECK(finite(r));
    for (std::size_t i = 1; i < 5; ++i) {
        const double radii = 0.5 * (r.flute.holes[i].diameter_m + r.flute.holes[i - 1].diameter_m);
        CHECK(spacing_m(r, i) >= radii + kBridge_m - kRounding_m);
    }
    const Binding* edge = binding(r, Limit::edge);
    REQUIRE(edge != nullptr);
    CHECK(edge->costs_cents > kBindingCost_cents);
    CHECK(place_holes(loose, played_air()).errors_cents < r.errors_cents);
}

TEST_CASE("the tube's end is kept and named", "[layout][limits]") {
    LayoutTask task = easy_task();
    task.end_m = task.flute.foot_m = 0.20;
    const LayoutResult r = check_binds(task, Limit::tube_end, easy_task());
    CHECK(r.flute.foot_m <= 0.20 + kRounding_m);
    CHECK(cents_between(r.notes[0].sounding_Hz, r.notes[0].target_Hz) > 10.0);
}

// A thick disc in the foot leaves less bore: the last hole stays above it all the same.
TEST_CASE("no hole is laid out into a disc in the foot", "[layout][limits]") {
    for (const double thickness_m : {0.0, 0.005, 0.04}) {
        CAPTURE(thickness_m);
        LayoutTask task = easy_task();
        task.flute.foot_plug = FootPlug{0.7 * bore_diameter_m(task.flute.bore, 0.3), thickness_m};
        const LayoutResult r = place_holes(task, played_air());
        REQUIRE(finite(r));
        const FingerHole& last = r.flute.holes.back();
        CHECK(last.at_m + 0.5 * last.diameter_m + thickness_m <= r.flute.foot_m + kRounding_m);
        CHECK(r.worst_cents < kLayoutError_cents);
    }
}

TEST_CASE("what the maker holds in place stays and is named", "[layout][limits]") {
    LayoutTask task = easy_task();
    task.flute.holes = place_holes(task, played_air()).flute.holes;
    LayoutTask loose = task;
    FingerHole& held = task.flute.holes[2];
    held.at_m -= 0.020;
    held.at_fixed = held.diameter_fixed = true;
    const LayoutResult r = check_binds(task, Limit::fixed, loose);
    CHECK(r.flute.holes[2].at_m == held.at_m);
    CHECK(r.flute.holes[2].diameter_m == held.diameter_m);
    CHECK(binding(r, Limit::fixed)->hole == 2);

    // held where the notes want it, it costs nothing and is not named
    LayoutTask right = loose;
    right.flute.holes[2].at_fixed = true;
    CHECK(place_holes(right, played_air()).binding.empty());
}

// Impossible tasks: an answer with finite numbers that says what is wrong, in bounded steps.
TEST_CASE("impossible tasks come back finite and said", "[layout][limits]") {
    const Air air = played_air();
    LayoutTask stub = easy_task();
    stub.end_m = stub.flute.foot_m = 0.08;  // a third of what the lowest note needs
    LayoutTask crowded = easy_task();
    crowded.shop.spacing_min_m = 0.060;  // five holes need 24 cm
    LayoutTask contrary = easy_task();
    contrary.shop.spacing_min_m = 0.030;
    contrary.shop.spacing_max_m = 0.020;
    LayoutTask tight = stub;
    tight.shop.spacing_min_m = 0.030;
    for (const LayoutTask& task : {stub, crowded, contrary, tight}) {
        const LayoutResult r = place_holes(task, air);
        CHECK(r.steps < 1000);
        CHECK(std::isfinite(r.flute.foot_m));
        for (const FingerHole& h : r.flute.holes) {
            CHECK(std::isfinite(h.at_m));
            CHECK(std::isfinite(h.diameter_m));
        }
        const bool said = !r.converged || !r.binding.empty();
        CHECK(said);
        // never offered as a good layout: either the notes are out, or the limits were given up
        CHECK((r.worst_cents > 1.0 || !r.converged));
        for (std::size_t i = 1; i < r.flute.holes.size(); ++i)
            CHECK(r.flute.holes[i].at_m > r.flute.holes[i - 1].at_m);
    }
    // limits that leave no room are given up, said and named
    const LayoutResult given_up = place_holes(contrary, air);
    CHECK_FALSE(given_up.converged);
    REQUIRE(binding(given_up, Limit::spacing_max) != nullptr);
    CHECK(std::isnan(binding(given_up, Limit::spacing_max)->costs_cents));
}
