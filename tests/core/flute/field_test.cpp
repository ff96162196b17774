// tests/core/flute/field_test.cpp: pressure and flow along the bore.
#include <catch2/catch.hpp>
#include <cmath>

#include "core/base/units.hpp"
#include "core/flute/resonance.hpp"
#include "tests/support/flutes.hpp"

using namespace canewright;
using namespace canewright::testing;
using Catch::WithinAbs;
using Catch::WithinRel;

namespace {

Flute pipe(double hole_m) {
    Flute flute;
    flute.bore = {{0.0, 0.019, 0.019}};
    flute.wall_m = 0.004;
    flute.sound_hole.length_m = 0.005;
    flute.sound_hole.width_m = 0.01;
    flute.sound_hole.wall_m = 0.004;
    flute.foot_m = 0.4;
    flute.holes.push_back(round_hole(0.25, hole_m, 0.004));
    return flute;
}

}  // namespace

// Reference  a standing wave in a lossless bore: p ~ sin k (x - end), U ~ cos k (x - end), so p''=
//            -k^2 p; the foot's end lies beyond it, kept out by comparing three places.
TEST_CASE("along a bore the field is a standing wave", "[field][analytic]") {
    const Air air = lossless_air();
    const Network network(pipe(0.006), air, {});
    const double f_Hz = resonance(network, 2).frequency_Hz;
    const std::vector<FieldPlace> field = network.field(f_Hz, 0.005);
    REQUIRE(field.size() > 60);
    CHECK_THAT(field.front().at_m, WithinAbs(0.4, 1e-12));
    CHECK_THAT(field.back().at_m, WithinAbs(0.0025, 1e-12));
    CHECK(std::abs(field.back().flow) > 0.5);
    const double k = 2.0 * kPi * f_Hz / air.sound_speed_m_s;
    int checked = 0;
    for (std::size_t n = 1; n + 1 < field.size(); ++n) {
        const double up = field[n - 1].at_m - field[n].at_m,
                     down = field[n].at_m - field[n + 1].at_m;
        if (std::abs(up - down) > 1e-9 || up < 1e-4) continue;
        const Complex sum = field[n - 1].pressure + field[n + 1].pressure;
        CHECK(std::abs(sum - 2.0 * std::cos(k * up) * field[n].pressure) <
              1e-9 * std::abs(field[n].pressure) + 1e-3);
        ++checked;
    }
    CHECK(checked > 50);
    // of a second register the flow is greatest, and the pressure least, near the middle
    double least = 1e300, at_m = 0.0;
    for (const FieldPlace& each : field) {
        if (each.at_m < 0.05 || each.at_m > 0.35 || std::abs(each.pressure) > least) continue;
        least = std::abs(each.pressure);
        at_m = each.at_m;
    }
    CHECK_THAT(at_m, WithinAbs(0.2, 0.02));
}

// Reference  conservation: what an open hole lets out is what the bore's flow changes by, and at
// the
//            sound hole a flow of 1 comes in but for what the piece towards the plug takes.
TEST_CASE("the flow changes by what an open hole lets out", "[field][derived]") {
    const Network network(pipe(0.008), played_air(), {1});
    const double f_Hz = resonance(network, 1).frequency_Hz;
    const std::vector<FieldPlace> field = network.field(f_Hz, 0.005);
    const Network::State state = network.state(f_Hz);
    const Complex out = -state.openings[1].u / state.openings[2].u;
    for (std::size_t n = 1; n < field.size(); ++n) {
        if (field[n].at_m != field[n - 1].at_m) continue;
        CHECK_THAT(field[n].at_m, WithinAbs(0.25, 1e-12));
        // all but the little that the hole's T-shape stores
        CHECK(std::abs(field[n].flow - field[n - 1].flow - out) < 0.02 * std::abs(out));
    }
    CHECK_THAT(std::abs(field.back().flow), WithinAbs(1.0, 0.1));
}
