// tools/virtual_makers/tube.hpp: random tubes and tunes, what is true of them and what the maker
// measured.
#pragma once

#include "core/bench/aim.hpp"
#include "core/bench/belief/unknowns.hpp"
#include "core/bench/builder.hpp"
#include "tools/virtual_makers/truth.hpp"
#include "tools/virtual_makers/world.hpp"

namespace virtual_makers {

inline double uniform(Random& random, double low, double high) {
    return std::uniform_real_distribution<double>(low, high)(random);
}
inline double normal(Random& random, double sigma) {
    return std::normal_distribution<double>(0.0, sigma)(random);
}

// What the planner takes the voice to be off by where it is told that it is bare.
inline constexpr double kBelievedBare = 0.06;

// One build before anything is cut.
struct Blank {
    TrueFlute truth;             // foot long, no hole cut
    canewright::Flute measured;  // as the maker measured it; foot_m is the tube's end
    double voice_sigma = 0.0;    // of the sound hole's inertance, relative, as the planner has it
    canewright::AirState room;
    canewright::Measures measures;  // as the planner takes them to be
    Habits habits;
    canewright::Aim aim;
    canewright::LayoutResult layout;  // the first, from what was measured
    double first_room_C = 20.0;       // true; warms by kWarming_C
    double thermometer_C = 0.0;       // shown above true
    // tubes drawn before this one and put away, for the first layout's sake
    int rejected_notes = 0;  // a note not met
    int rejected_foot = 0;   // no length left to saw
};

inline constexpr double kWarming_C = 3.0;

// Draws until the first layout is one that a maker would begin: every note met within half a cent,
// and at least 3 % of the blank to saw off.
//   lift_cents   song.lift_cents of the document
Blank draw_blank(Random& random, Told told, const Habits& habits,
                 double lift_cents = canewright::kDriftMean_cents);

inline constexpr double kLikeBore = 0.05;
// The tube that a pattern was made on: same tune, bore and wall as a maker would pick for a copy.
// Its foot and holes are in tune by its own truth; empty where that cannot be had.
TrueFlute draw_pattern(Random& random, const Blank& blank, double bore_spread = kLikeBore);

// What the other formulas and the maker's measuring do together: the errors of each note when the
// first layout is cut exactly as computed [cents].
std::vector<double> departures_cents(const Blank& blank);

// Error of each note of a flute as it is, in the room where it is to be played [cents].
std::vector<double> errors_cents(const TrueFlute& flute, const canewright::Aim& aim);

}  // namespace virtual_makers
