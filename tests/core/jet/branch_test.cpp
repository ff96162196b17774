// tests/core/jet/branch_test.cpp: a vibration followed to where it ends.
#include "core/jet/branch.hpp"

#include <catch2/catch.hpp>
#include <cmath>

#include "tests/core/jet/prototype.hpp"

using namespace canewright;
using namespace canewright::testing;
using Catch::WithinAbs;
using Catch::WithinRel;

namespace {

struct Way {
    Prototype p;
    JetTerms terms = p.drive().terms();
    NoteLoops loops = p.loops();
    double speed(double pressure_Pa) const { return std::sqrt(2.0 * pressure_Pa / 1.2); }
    Oscillation at(double speed_m_s) const {
        return with_overtones(terms, loops.of(1), loops.overtones[0],
                              p.drive().oscillation(loops.of(1), speed_m_s), speed_m_s);
    }
    Followed from(double from_m_s, double to_m_s, Watch watch) const {
        return followed(terms, loops.of(1), loops.overtones[0], at(from_m_s), from_m_s, to_m_s,
                        watch);
    }
};

}  // namespace

// Reference  the balance solved at the other end by itself.
TEST_CASE("a vibration that is followed is the balance's", "[branch][property]") {
    const Way way;
    for (const double to_Pa : {60.0, 90.0, 180.0, 280.0}) {
        const double to_m_s = way.speed(to_Pa);
        const Followed end = way.from(way.speed(120.0), to_m_s, Watch::slipping);
        CAPTURE(to_Pa);
        REQUIRE(end.arrives);
        CHECK_THAT(end.centre_m_s, WithinRel(to_m_s, 1e-12));
        CHECK_THAT(end.oscillation.cents, WithinAbs(way.at(to_m_s).cents, 1e-5));
        CHECK_THAT(end.oscillation.velocity_m_s, WithinRel(way.at(to_m_s).velocity_m_s, 1e-7));
    }
}

// An edge far off the jet, which lets a vibration die before its neighbours have a say.
// Reference  the edge's loss goes with the speed of the flow, so a vibration grows in proportion to
//            the way from where it begins (four times as far, four times as fast); where it begins
//            the first harmonic alone has a gain of 1 in silence (core/jet/drive, solved apart).
TEST_CASE("a vibration is followed to where it dies", "[branch][derived]") {
    Way way;
    way.p.offset_m = 4e-4;
    way.terms = way.p.drive().terms();
    const Followed end = way.from(14.0, 4.0, Watch::ends);
    REQUIRE_FALSE(end.arrives);
    const auto above = [&](double share) {
        const Followed near = way.from(14.0, end.centre_m_s * (1.0 + share), Watch::ends);
        REQUIRE(near.arrives);
        return near.oscillation.velocity_m_s;
    };
    CHECK_THAT(above(0.008) / above(0.002), WithinAbs(4.0, 0.25));
    CHECK_THAT(way.p.drive().rival_gain(way.loops.of(1), {}, end.centre_m_s),
               WithinAbs(1.0, 10.0 * kFollowedError));
}
