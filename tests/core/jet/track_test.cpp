// tests/core/jet/track_test.cpp: flow through the track, and the speed it leaves with.
#include "core/jet/track.hpp"

#include <catch2/catch.hpp>
#include <cmath>

#include "core/base/noise.hpp"
#include "core/base/units.hpp"

using namespace canewright;
using Catch::WithinAbs;
using Catch::WithinRel;

namespace {

// Air of 20 C in round numbers, as the references use it.
Air tracked_air() {
    Air air;
    air.sound_speed_m_s = 343.0;
    air.density_kg_m3 = 1.2;
    air.viscosity_Pa_s = 1.81e-5;
    return air;
}

// x+ = l nu / (4 h^2 Um) for a track 1 mm high at 10 m/s.
Track with_entrance(double x) {
    const Air air = tracked_air();
    const double nu = air.viscosity_Pa_s / air.density_kg_m3;
    return {1e-3, 10e-3, x * 4.0 * 1e-6 * 10.0 / nu, 0.0};
}

}  // namespace

// Reference  plane Poiseuille flow, dp = 12 mu l Um / h^2, and 1.2 times twice the dynamic pressure
//            of its profile do not enter: K = 0.674 for the entrance (Shah & London).
// Tolerance  what K is short of its last value at x+ = 0.5, where friction is 48 dynamic pressures.
TEST_CASE("a long low track is a plane channel", "[track][derived]") {
    const Air air = tracked_air();
    const Track track = with_entrance(0.5);
    const double um = 10.0, h = track.height_m();
    const double exact_Pa = 0.5 * air.density_kg_m3 * um * um * (1.0 + kDevelopedLoss) +
                            12.0 * air.viscosity_Pa_s * track.length_m * um / (h * h);
    CHECK_THAT(track_pressure_Pa(air, track, um), WithinRel(exact_Pa, 2e-4));
    const TrackFlow flow = track_flow(air, track, exact_Pa);
    CHECK_THAT(flow.centre_m_s, WithinRel(1.5 * um, 2e-4));
}

// Reference  tools/reference/track_entrance.py: boundary-layer equations of the channel, marched;
//            x+, drop over rho Um^2 / 2, centre over mean speed.
TEST_CASE("the entrance costs and hurries as the channel's equations say", "[track][derived]") {
    const double rows[][3] = {{1.002e-5, 0.0436, 1.0216}, {1.002e-4, 0.1371, 1.0663},
                              {1.006e-3, 0.4421, 1.2008}, {2.009e-3, 0.6383, 1.2796},
                              {4.014e-3, 0.9353, 1.3799}, {4.975e-3, 1.0574, 1.4105},
                              {6.022e-3, 1.1817, 1.4350}, {8.018e-3, 1.4028, 1.4644},
                              {1.106e-2, 1.7172, 1.4857}, {1.405e-2, 2.0123, 1.4941}};
    const Air air = tracked_air();
    for (const auto& row : rows) {
        CAPTURE(row[0]);
        const Track track = with_entrance(row[0]);
        const double own_Pa = 0.5 * air.density_kg_m3 * 100.0;
        CHECK_THAT(track_pressure_Pa(air, track, 10.0) / own_Pa - 1.0,
                   WithinRel(row[1], kTrackError));
        const TrackFlow flow = track_flow(air, track, own_Pa * (1.0 + row[1]));
        CHECK_THAT(flow.centre_m_s / flow.mean_m_s,
                   WithinRel(row[2], kCentreError + 0.5 * kTrackError));
    }
}

// Source     physics notes of this project, section 6: at 300 Pa with K = 0.674 throughout.
// Tolerance  the table's rounding; for the model, whose K is less in short tracks, kTrackError of
//            the pressure besides.
TEST_CASE("tracks at 300 Pa", "[track][derived]") {
    struct Row {
        double depth_mm, length_mm, mean_m_s, ml_s_per_mm, digit;
    };
    const Row rows[] = {{1.0, 40.0, 13.5, 13.5, 0.05},
                        {0.5, 20.0, 10.7, 5.3, 0.05},
                        {0.3, 15.0, 6.9, 2.1, 0.05},
                        {0.2, 15.0, 3.5, 0.7, 0.05},
                        {0.1, 15.0, 0.9, 0.09, 0.05}};
    const Air air = tracked_air();
    for (const Row& row : rows) {
        CAPTURE(row.depth_mm);
        const Track track{m_from_mm(row.depth_mm), 1e-3, m_from_mm(row.length_mm), 0.0};
        const TrackFlow flow = track_flow(air, track, 300.0);
        CHECK_THAT(flow.mean_m_s, WithinAbs(row.mean_m_s, row.digit + kTrackError * row.mean_m_s));
        CHECK_THAT(ml_from_m3(flow.flow_m3_s),
                   WithinAbs(row.ml_s_per_mm, 0.05 + kTrackError * row.ml_s_per_mm));
        // the same by the table's own equation
        const double h = track.height_m(), l = track.length_m;
        const double a = 0.5 * air.density_kg_m3 * 1.674, b = 12.0 * air.viscosity_Pa_s * l / h / h;
        const double mean_m_s = (std::sqrt(b * b + 4.0 * a * 300.0) - b) / (2.0 * a);
        CHECK_THAT(mean_m_s, WithinAbs(row.mean_m_s, row.digit));
    }
    const TrackFlow open = track_flow(air, {1e-3, 1e-2, 0.0, 0.0}, 300.0);
    CHECK_THAT(open.mean_m_s, WithinRel(std::sqrt(2.0 * 300.0 / 1.2), 1e-9));  // "22 m/s"
    CHECK_THAT(open.centre_m_s, WithinRel(open.mean_m_s, 1e-4));
}

// Reference  x+ = 0.011 is the entrance length by its definition over the hydraulic diameter 2 h.
TEST_CASE("the entrance length is 0.011 of the hydraulic diameter's", "[track][derived]") {
    const Air air = tracked_air();
    const Track track = with_entrance(0.011);
    CHECK_THAT(entrance_length_m(air, track, 10.0), WithinRel(track.length_m, 1e-9));
}

TEST_CASE("pressure, mean and centre are one another's inverse", "[track][property]") {
    const Air air = tracked_air();
    Noise noise(11, 0);
    for (int n = 0; n < 300; ++n) {
        const auto between = [&](double low, double high) {
            return low * std::pow(high / low, noise.uniform());
        };
        const Track track{between(5e-5, 3e-3), 1e-2, between(1e-4, 0.1), between(1e-6, 1e-3)};
        const double p_Pa = between(1.0, 1e4);
        const TrackFlow flow = track_flow(air, track, p_Pa);
        CHECK_THAT(track_pressure_Pa(air, track, flow.mean_m_s), WithinRel(p_Pa, 1e-7));
        CHECK_THAT(centre_pressure_Pa(air, track, flow.centre_m_s), WithinRel(p_Pa, 1e-6));
        CHECK(flow.centre_m_s >= flow.mean_m_s * (1.0 - 1e-4));
        CHECK(flow.centre_m_s <= 1.5 * flow.mean_m_s);
        const TrackFlow harder = track_flow(air, track, 1.01 * p_Pa);
        CHECK(harder.mean_m_s > flow.mean_m_s);
        CHECK(harder.centre_m_s > flow.centre_m_s);
        Track longer = track;
        longer.length_m *= 1.1;
        CHECK(track_flow(air, longer, p_Pa).mean_m_s < flow.mean_m_s);
    }
}

TEST_CASE("a block that stands high deepens the track", "[track][property]") {
    const Air air = tracked_air();
    const TrackFlow one = track_flow(air, {0.8e-3, 1e-2, 2e-2, 0.2e-3}, 200.0);
    const TrackFlow other = track_flow(air, {1.0e-3, 1e-2, 2e-2, 0.0}, 200.0);
    CHECK_THAT(one.flow_m3_s, WithinRel(other.flow_m3_s, 1e-9));
    CHECK(track_flow(air, {0.0, 1e-2, 2e-2, 0.0}, 200.0).flow_m3_s == 0.0);
    CHECK(track_flow(air, {1e-3, 1e-2, 2e-2, 0.0}, -1.0).flow_m3_s == 0.0);
}

// Source  common practice, no source: three litres.
TEST_CASE("how long a breath lasts", "[track][trade]") {
    CHECK_THAT(breath_s(m3_from_ml(100.0)), WithinRel(30.0, 1e-12));
}
