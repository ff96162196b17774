// tests/core/jet/octave_test.cpp: whether a second register is clean.
#include "core/jet/octave.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <limits>

#include "tests/core/jet/prototype.hpp"

using namespace canewright;
using namespace canewright::testing;
using Catch::WithinRel;

namespace {

OctaveJudgement judged_octave(const Prototype& p) {
    const Blowing blowing(p.voice(), p.air());
    const NoteLoops loops = p.loops();
    return judge_octave(loops, blowing.regime(loops, 1), blowing.regime(loops, 2));
}

// Two registers an octave apart that are clean.
struct RegisterPair {
    NoteLoops loops = Prototype{}.loops();
    Regime first, second;
    RegisterPair() {
        first.found = second.found = true;
        first.gain = second.gain = 4.0;
        first.soft_Pa = 50.0;
        first.at_pitch_Pa = 120.0;
        first.hard_Pa = first.jumps_up_Pa = 330.0;
        second.soft_Pa = second.falls_back_Pa = 160.0;
        second.at_pitch_Pa = 480.0;
        second.hard_Pa = second.jumps_up_Pa = std::numeric_limits<double>::quiet_NaN();
    }
    OctaveJudgement judged() const { return judge_octave(loops, first, second); }
};

}  // namespace

// Reference  the same equations stepped through time, blown where the second register is at its
//            pitch: of a clean one the other modes that are no harmonics of it are silent.
// Tolerance  a twentieth of its velocity (26 dB) for the first mode: noise and what the edge mixes
//            make a thirtieth. Where the first register sounds it is the greater of the two.
TEST_CASE("a clean octave sounds alone in time", "[octave][derived][sweep]") {
    const Prototype p;
    REQUIRE(judged_octave(p).clean());
    const Blowing blowing(p.voice(), p.air());
    const double at_Pa = blowing.regime(p.loops(), 2).at_pitch_Pa;
    const Heard heard = blown_in_time(p, 700.0, at_Pa);
    CHECK(heard.velocity[1] > 1.0);
    CHECK(heard.velocity[0] < 0.05 * heard.velocity[1]);
}

// Reference  the balance of a faint vibration: its gain is proportional to the modes' quality, 4.0
//            at 40 (anchors of the prototype, physics notes of this project, 6).
TEST_CASE("an octave that hardly gains is weak", "[octave][derived]") {
    Prototype p;
    p.quality = 15.0;
    const OctaveJudgement weak = judged_octave(p);
    CHECK(weak.flaw == OctaveFlaw::weak);
    CHECK_THAT(weak.value, WithinRel(4.0 * 15.0 / 40.0, 0.03));
    CHECK(weak.limit == kCleanGain);
    p.quality = 8.0;  // less than is lost
    const OctaveJudgement none = judged_octave(p);
    CHECK(none.flaw == OctaveFlaw::no_gain);
    CHECK(none.value < 1.0);
    CHECK(none.limit == 1.0);
}

TEST_CASE("what keeps a register from its pitch", "[octave][property]") {
    RegisterPair pair;
    Regime& one = pair.first;
    CHECK(pitch_reach(one) == PitchReach::held);
    CHECK(pitch_reach(pair.second) == PitchReach::held);  // no end found: it holds
    one.hard_Pa = one.jumps_up_Pa = 110.0;
    CHECK(pitch_reach(one) == PitchReach::jumps_before);
    one.jumps_up_Pa = std::numeric_limits<double>::quiet_NaN();
    CHECK(pitch_reach(one) == PitchReach::dies_before);
    one.hard_Pa = 300.0;
    one.soft_Pa = 130.0;
    CHECK(pitch_reach(one) == PitchReach::begins_above);
}

TEST_CASE("each flaw of an octave is named with the number that decides", "[octave][property]") {
    REQUIRE(RegisterPair().judged().clean());
    const auto flaw = [](const auto& spoil) {
        RegisterPair pair;
        spoil(pair);
        return pair.judged();
    };
    const OctaveJudgement untold = flaw([](RegisterPair& p) {
        p.second.found = false;
        p.second.gain = 0.0;
    });
    CHECK(untold.flaw == OctaveFlaw::not_told);
    const OctaveJudgement never = flaw([](RegisterPair& p) {
        p.second.found = false;
        p.second.why = "never_holds";
    });
    CHECK(never.flaw == OctaveFlaw::never_holds);
    const OctaveJudgement early = flaw([](RegisterPair& p) { p.second.hard_Pa = 400.0; });
    CHECK(early.flaw == OctaveFlaw::not_held);
    CHECK(early.value == 400.0);
    CHECK(early.limit == 480.0);
    const OctaveJudgement late = flaw([](RegisterPair& p) { p.second.soft_Pa = 500.0; });
    CHECK(late.flaw == OctaveFlaw::not_held);
    CHECK(late.value == 500.0);
    // allowed what the jumps are known to
    CHECK(flaw([](RegisterPair& p) { p.second.soft_Pa = 1.19 * 330.0; }).clean());
    const OctaveJudgement between = flaw([](RegisterPair& p) { p.second.soft_Pa = 1.21 * 330.0; });
    CHECK(between.flaw == OctaveFlaw::not_where_it_jumps);
    CHECK(between.limit == 330.0);
    // a third register a semitone from the octave, the second two
    const OctaveJudgement other = flaw([](RegisterPair& p) {
        const Prototype modes;
        const auto impedance = [&](double f_Hz) { return modes.impedance(f_Hz); };
        const double octave_Hz = 2.0 * modes.f_Hz;
        p.loops.registers[1] = LocalImpedance(impedance, shifted_Hz(octave_Hz, -200.0));
        p.loops.registers[2] = LocalImpedance(impedance, shifted_Hz(octave_Hz, 100.0));
    });
    CHECK(other.flaw == OctaveFlaw::another_nearer);
    CHECK_THAT(other.value, WithinRel(100.0, 1e-9));
    CHECK_THAT(other.limit, WithinRel(200.0, 1e-9));
}
