// tests/core/flute/network_change_test.cpp: what small changes do, against the changed flute
// solved.
#include <catch2/catch.hpp>
#include <cmath>
#include <functional>
#include <string>
#include <vector>

#include "core/base/units.hpp"
#include "core/flute/network.hpp"
#include "core/flute/resonance.hpp"
#include "core/layout/place_holes.hpp"
#include "tests/support/flutes.hpp"
#include "tests/support/random_tubes.hpp"

using namespace canewright;
using namespace canewright::testing;
using Catch::WithinAbs;

namespace {

struct Change {
    const char* what;
    std::function<void(Flute&, double)> make;  // by so many metres, or relative
};

// Everything about a flute that may be a little different.
const std::vector<Change>& changes() {
    static const std::vector<Change> all = {
        {"a hole's place", [](Flute& f, double by) { f.holes[1].at_m += by; }},
        {"the lowest hole's place", [](Flute& f, double by) { f.holes.back().at_m += by; }},
        {"a hole's size", [](Flute& f, double by) { f.holes[2].diameter_m += by; }},
        {"an undercut", [](Flute& f, double by) { f.holes[0].inner_diameter_m += by; }},
        {"a hole's wall", [](Flute& f, double by) { f.holes[1].wall_m += by; }},
        {"an oval hole", [](Flute& f, double by) { f.holes[1].aspect += 1e3 * by; }},
        {"the foot", [](Flute& f, double by) { f.foot_m += by; }},
        {"the plug", [](Flute& f, double by) { f.plug_offset_m += by; }},
        {"the voice", [](Flute& f, double by) { f.sound_hole.inertance_factor += 1e3 * by; }},
        {"the sound hole's length", [](Flute& f, double by) { f.sound_hole.length_m += by; }},
        {"the sound hole's width", [](Flute& f, double by) { f.sound_hole.width_m += by; }},
        {"the sound hole's wall", [](Flute& f, double by) { f.sound_hole.wall_m += by; }},
        {"the bore at the end", [](Flute& f, double by) { f.bore.back().diameter_m += by; }},
        {"the bore at the sound hole", [](Flute& f, double by) { f.bore[0].diameter_m += by; }},
        {"the wall", [](Flute& f, double by) { f.wall_m += by; }},
        {"a ridge's place", [](Flute& f, double by) { f.ridge->at_m += by; }},
        {"a ridge's opening", [](Flute& f, double by) { f.ridge->opening_m += by; }},
        {"a ridge's thickness", [](Flute& f, double by) { f.ridge->thickness_m += by; }},
        {"a disc's opening", [](Flute& f, double by) { f.foot_plug->opening_m += by; }},
        {"a disc's thickness", [](Flute& f, double by) { f.foot_plug->thickness_m += by; }}};
    return all;
}

Flute random_flute(Dice& dice, const Air& air) {
    Flute flute = place_holes(random_tube(dice, 0.04, air), air).flute;
    const double bore_m = flute.bore[0].diameter_m;
    for (FingerHole& hole : flute.holes) hole.inner_diameter_m *= dice.between(1.0, 1.2);
    // between the first two holes, where moving it changes no order
    if (dice.whole(0, 1) == 1)
        flute.ridge = Ridge{0.5 * (flute.holes[0].at_m + flute.holes[1].at_m), 0.8 * bore_m, 2e-3};
    if (dice.whole(0, 1) == 1) flute.foot_plug = FootPlug{0.8 * bore_m, 3e-3};
    return flute;
}

double turn(const Flute& flute, const Air& air, const Fingering& open, double f_Hz) {
    return Network(flute, air, open).at(f_Hz).turn;
}

}  // namespace

// Reference  central differences of the changed flute's own solution: no reciprocity in them.
// Tolerance  the two differences' own errors, of second order; and rounding.
TEST_CASE("a small change is what the changed flute's solution says", "[network][property]") {
    Dice dice(21);
    const Air air = played_air();
    constexpr double kStep_m = 1e-6;
    for (int n = 0; n < 12; ++n) {
        const Flute flute = random_flute(dice, air);
        for (const Fingering& open :
             {Fingering{}, Fingering{4}, Fingering{1, 3}, Fingering{2, 3, 4}}) {
            const Network network(flute, air, open);
            const double f_Hz = resonance(network, 1).frequency_Hz * dice.between(0.97, 1.03);
            const Network::State here = network.state(f_Hz);
            CHECK(here.loop.turn == network.at(f_Hz).turn);
            for (const Change& change : changes()) {
                CAPTURE(n, open, change.what);
                const std::string what = change.what;
                if (what.find("ridge") != std::string::npos && !flute.ridge) continue;
                if (what.find("disc") != std::string::npos && !flute.foot_plug) continue;
                Flute more = flute, less = flute;
                change.make(more, kStep_m);
                change.make(less, -kStep_m);
                const double expected =
                    0.5 * (turn(more, air, open, f_Hz) - turn(less, air, open, f_Hz));
                const Network above(more, air, open), below(less, air, open);
                const double found =
                    0.5 * (network.turn_change(here, above) - network.turn_change(here, below));
                CHECK_THAT(found, WithinAbs(expected, 1e-6 * std::abs(expected) + 1e-12));
                const double at_once = 0.5 * network.turn_change(here, below, above);
                CHECK_THAT(at_once, WithinAbs(expected, 1e-6 * std::abs(expected) + 1e-12));
            }
        }
    }
}

TEST_CASE("other air, and a hole past a station, are solved anew", "[network][property]") {
    Dice dice(22);
    const Air air = played_air();
    Flute flute = random_flute(dice, air);
    flute.ridge.reset();
    const Network network(flute, air, {2});
    const double f_Hz = resonance(network, 1).frequency_Hz;
    const Network::State here = network.state(f_Hz);
    const Air warm = moist_air(sounding_air(AirState{25.0}));
    CHECK(network.turn_change(here, Network(flute, warm, {2})) ==
          turn(flute, warm, {2}, f_Hz) - here.loop.turn);
    Flute other = flute;
    other.bore.insert(other.bore.begin() + 1, {flute.holes[0].at_m + 1e-3,
                                               bore_diameter_m(flute, flute.holes[0].at_m) + 1e-4,
                                               bore_diameter_m(flute, flute.holes[0].at_m)});
    CHECK(network.turn_change(here, Network(other, air, {2})) ==
          turn(other, air, {2}, f_Hz) - here.loop.turn);
}
