// tests/core/flute/direct_test.cpp: one open hole, solved by superposition and not as the network
// is.
#include <catch2/catch.hpp>
#include <cmath>

#include "core/base/units.hpp"
#include "core/element/finger_hole.hpp"
#include "core/element/line.hpp"
#include "core/element/radiation.hpp"
#include "core/element/sound_hole.hpp"
#include "tests/support/flutes.hpp"

namespace canewright::direct_test {  // its own where tests are compiled together
namespace {

// A tube with one open hole at one frequency, a flow of 1 out of the foot: what does not add up at
// the hole and at the sound hole when so much flows out of them. Linear in both.
struct DirectFlute {
    double bore_m = 17e-3, wall_m = 3e-3, foot_m = 0.37, hole_m = 0.25, diameter_m = 8e-3;
    Air air = testing::played_air();
    double w = 0.0;

    struct Left {
        Complex at_hole, at_window, loop;
    };
    Left left(Complex out_of_hole, Complex out_of_window) const {
        const double a = 0.5 * bore_m, tube_m = a + wall_m, b = 0.5 * diameter_m;
        const WindowShape window{a, 0.4 * bore_m, 0.55 * bore_m, wall_m, 0.0};
        const double centre_m = 0.2 * bore_m;
        const auto free = [&](double distance_m) {
            return outer_coupling(air, distance_m, tube_m, Sight::free_air, w);
        };
        const Complex foot_hole = free(foot_distance_m(foot_m - hole_m, a, tube_m));
        const Complex foot_window = free(foot_distance_m(foot_m - centre_m, a, tube_m));
        const Complex hole_window = free(hole_m - centre_m);
        const LineConstants bore = line_constants(air, a, w);
        const OpenHole hole = open_hole(air, {a, tube_m, wall_m, b, b}, w);

        Complex p = open_end_impedance(air, a, tube_m, w) + foot_hole * out_of_hole +
                    foot_window * out_of_window;
        Complex u = 1.0;
        const auto along = [&](double length_m) {
            const TwoPort m = cylinder(bore, length_m);
            const Complex before = p;
            p = m.a * p + m.b * u;
            u = m.c * before + m.d * u;
        };
        along(foot_m - hole_m);
        p += hole.series_half * u;
        const Complex outside =
            hole.radiation * out_of_hole + foot_hole + hole_window * out_of_window;
        Left rest;
        rest.at_hole = p - (hole.passage.a * outside + hole.passage.b * out_of_hole);
        u += hole.passage.c * outside + hole.passage.d * out_of_hole;
        p += hole.series_half * u;
        along(hole_m - centre_m);
        u += std::tanh(bore.propagation_1_m * plug_cavity_length_m(window)) / bore.impedance * p;
        rest.at_window = u + out_of_window;
        rest.loop =
            (p + window_impedance(air, window, w) * u - (foot_window + hole_window * out_of_hole)) /
            u;
        return rest;
    }
    // Superposition: both vanish for one pair of flows, by Cramer's rule.
    Complex impedance() const {
        const Left none = left(0.0, 0.0), hole = left(1.0, 0.0), window = left(0.0, 1.0);
        const Complex a = hole.at_hole - none.at_hole, b = window.at_hole - none.at_hole;
        const Complex c = hole.at_window - none.at_window, d = window.at_window - none.at_window;
        const Complex all = a * d - b * c;
        return left((b * none.at_window - d * none.at_hole) / all,
                    (c * none.at_hole - a * none.at_window) / all)
            .loop;
    }
};

}  // namespace

// Reference  the same elements joined by superposition: no forms, no second pass, no angle.
// Tolerance  rounding of sums that cancel.
TEST_CASE("the network joins its elements as superposition does", "[network][direct][analytic]") {
    DirectFlute direct;
    Flute flute = testing::plain_tube(direct.bore_m, direct.wall_m, direct.foot_m);
    flute.holes = {testing::round_hole(direct.hole_m, direct.diameter_m, direct.wall_m)};
    const Network network(flute, direct.air, {1});
    for (const double f_Hz : {200.0, 430.0, 520.0, 777.0, 1100.0, 1500.0}) {
        CAPTURE(f_Hz);
        direct.w = 2.0 * kPi * f_Hz;
        const Complex by_hand = direct.impedance(), ours = network.at(f_Hz).impedance;
        CAPTURE(by_hand, ours);
        CHECK(std::abs(ours - by_hand) < 1e-8 * std::abs(by_hand));
    }
}

}  // namespace canewright::direct_test
