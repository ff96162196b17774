// core/choose/merit.hpp -- how well a tube carries a wish that has been laid out. Layer: choose.
#pragma once

#include <vector>

#include "core/air/air.hpp"
#include "core/layout/plan.hpp"

namespace canewright {

// One thing that was looked at. `lack` is 0 where it is as one would want it, 1 where it is as bad
// as counts; straight in between.
struct Merit {
    const char* code;
    double value;  // lengths in m, the octave in cents, else a ratio
    double limit;  // the end of what one would want that is nearest, or was passed
    double lack;
    double weight;  // what it takes off a perfect flute at `lack` 1, as a share
    bool in_lengths = false;
};

// Of a flute laid out on a tube:
//   room_to_trim    length beyond the foot: the first cut is made long, and a tube checks at its
//   end length_to_bore  sounding length over mean bore: short of it the lowest note is weak and
//   breathy
//                   against its octave, beyond it the flute jumps before it is loud
//   lowest_quality  quality factor of the lowest note's loop: below it, it speaks late and softly
//   octave          its second register off the octave [cents]
//   octave_strength quality factor of the second register over the first's: a thin upper register
//                   below the one limit, a flute that jumps up early above the other
//   stretch         widest way between two fingers of a hand;  crowded  the narrowest of any two
//   smallest_hole   over the bore there: smaller speaks weakly;  largest_hole  what a pad covers
//   bits            how many of the maker's bits it takes, where these are given: each is a change
//   evenness        widest hole over the narrowest
// The shop's spacing and sizes are the limits where the maker has given them.
//
// Model    weights and limits are judgement and common practice (below), values those of the model.
// Requires a layout that converged, of at least one hole.
std::vector<Merit> merits(const LayoutTask& task, const LayoutResult& plan, const Air& air);

// Pressure at which the lowest note is in tune [Pa].
Merit breath_merit(double at_pitch_Pa);

// A twentieth of the way from what one would want to as bad as counts is not worth a word.
inline constexpr double kSlightLack = 0.05;

// 100 for nothing to wish for, 0 for the worst: 100 times the product of 1 - weight x lack.
double score(const std::vector<Merit>& merits);

// A note whose sound the whole flute leans on. Common practice, no source: what small duct flutes
// measure, and where their makers stop; [judgement] where no range is told.
inline constexpr double kTrim_m = 0.006;  // for two cuts and the sanding
inline constexpr double kShortest_bores = 13.0, kLongest_bores = 28.0;  // sounding length
inline constexpr double kQuality = 15.0;                                // judgement
inline constexpr double kOctaveOff_cents = 25.0;                        // judgement
inline constexpr double kWeakOctave = 0.95, kReadyOctave = 1.35;        // judgement
inline constexpr double kFewBits = 3.0;                                 // judgement
inline constexpr double kStretch_m = 0.035, kFinger_m = 0.017;          // of a grown-up's hand
inline constexpr double kSmallHole_bores = 0.25;  // below: veiled, slow to speak
inline constexpr double kPad_m = 0.010;           // what a finger covers safely
inline constexpr double kUneven = 1.4;
inline constexpr double kGentle_Pa = 40.0, kHard_Pa = 400.0;

}  // namespace canewright
