// tests/core/jet/calibrate_test.cpp: one measured pressure.
#include "core/jet/calibrate.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <string>

#include "tests/core/jet/prototype.hpp"

using namespace canewright;
using namespace canewright::testing;
using Catch::WithinRel;

// Reference  a voice whose wave is slower or quicker, measured by the model itself: what is found
//            must be its speed.
TEST_CASE("a measured pressure gives the wave's speed back", "[calibrate][property]") {
    const Prototype p;
    const Blowing assumed(p.voice(), p.air());
    const NoteLoops loops = p.loops();
    for (const double convection : {0.32, 0.4, 0.47}) {
        CAPTURE(convection);
        const Blowing real = assumed.with_convection(convection);
        const struct {
            PressureMark mark;
            int register_number;
            double measured_Pa;
        } marks[] = {{PressureMark::at_pitch, 1, real.regime(loops, 1).at_pitch_Pa},
                     {PressureMark::jumps_up, 1, real.regime(loops, 1).jumps_up_Pa},
                     {PressureMark::falls_back, 2, real.regime(loops, 2).falls_back_Pa}};
        for (const auto& one : marks) {
            const Calibration c =
                calibrate(assumed, loops, one.register_number, one.mark, one.measured_Pa);
            REQUIRE(c.found);
            CHECK_THAT(c.convection, WithinRel(convection, kPressureError));
            CHECK_THAT(c.convection_factor, WithinRel(convection / 0.4, kPressureError));
            CHECK(c.quoted);
        }
    }
}

// Reference  arithmetic: without friction p = rho/2 (4 f W / c_v)^2.
TEST_CASE("at pitch the speed goes with the inverse root of the pressure", "[calibrate][derived]") {
    const Prototype p;
    const Calibration c = calibrate(Blowing(p.voice(), p.air()), p.loops(), 1,
                                    PressureMark::at_pitch, 0.6 * 9.0 * 9.0);
    REQUIRE(c.found);
    CHECK_THAT(c.convection, WithinRel(4.0 * 350.0 * 4e-3 / 9.0, 1e-3));
    CHECK_FALSE(c.quoted);  // 0.62
}

TEST_CASE("why there is no calibration", "[calibrate][property]") {
    const Prototype p;
    const Blowing blowing(p.voice(), p.air());
    const Calibration hard = calibrate(blowing, p.loops(), 1, PressureMark::at_pitch, 1e5);
    CHECK_FALSE(hard.found);
    CHECK(std::string(hard.why) == "not_this_jet");
    // the first register has none below to fall back to
    const Calibration none = calibrate(blowing, p.loops(), 1, PressureMark::falls_back, 100.0);
    CHECK(std::string(none.why) == "no_mark");
    CHECK(std::isnan(none.convection));
    CHECK(std::string(calibrate(blowing, p.loops(), 1, PressureMark::at_pitch, -1.0).why) ==
          "no_mark");
}

// Source  jump up over jump down 1.22 in the mean (our analysis of arXiv 2107.08727's data).
TEST_CASE("what a calibration leaves open", "[calibrate][derived]") {
    const Prototype p;
    const Blowing blowing(p.voice(), p.air());
    const double gap =
        blowing.regime(p.loops(), 1).jumps_up_Pa / blowing.regime(p.loops(), 2).falls_back_Pa;
    CHECK_THAT(kJumpToJump, WithinRel(gap / 1.22, 0.05));
    CHECK_THAT(kJumpToPitch, WithinRel(std::sqrt(kJumpToJump), 0.01));
    CHECK_THAT(kSameMark, WithinRel(std::exp2(0.2), 0.01));
    CHECK(remaining_factor(PressureMark::jumps_up, PressureMark::jumps_up) == kSameMark);
    CHECK(remaining_factor(PressureMark::jumps_up, PressureMark::at_pitch) == kJumpToPitch);
    CHECK(remaining_factor(PressureMark::at_pitch, PressureMark::falls_back) == kJumpToPitch);
    CHECK(remaining_factor(PressureMark::falls_back, PressureMark::jumps_up) == kJumpToJump);
}
