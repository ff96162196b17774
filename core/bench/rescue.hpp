// core/bench/rescue.hpp: what to do about a cut too far, with amounts. Layer: bench.
#pragma once

#include <functional>

#include "core/bench/aim.hpp"

namespace canewright {

class Cuts;

enum class Trouble {
    none,
    foot_short,        // the lowest note is too sharp
    hole_sharp,        // a hole is too large, or too near the sound hole
    sound_hole_large,  // the voice is much sharper than its size should make it
    all_flat,          // everything heard of late is flat of what was heard before
    all_sharp,         // the same, sharp
    breath_lifts       // high notes are blown much sharper than low ones
};

enum class Remedy {
    read_again,        // warm the flute, look at the block, three attempts anew
    foot_disc,         // a disc in the foot with an opening
    foot_sleeve,       // a sleeve that makes the tube longer
    lowest_floats,     // keep the scale, let the lowest note lie where it is
    next_key,          // build the next key up
    narrow,            // make the hole smaller (wax, then glue and dust), open again by ear
    one_side,          // fill the side towards the sound hole, open the side towards the foot
    shade_sound_hole,  // a strip over the far end of the sound hole, or the block nearer
    lay_out_anew,      // nothing is lost yet: the holes are placed for this voice
    breathe_evenly,    // the plan carries the lift; blow the high notes no harder than now
    accept,            // leave it; costs so much
    widen,             // open the hole further
    shorten            // take this off the foot
};

struct RescueOption {
    Remedy what = Remedy::accept;
    bool reversible = false;
    int number = 0;          // of the hole
    double size_m = 0.0;     // opening of the disc, diameter of the hole, length of the sound hole
    double length_m = 0.0;   // of the sleeve, the strip, the shift along the tube, what comes off
    double target_Hz = 0.0;  // new lowest note, where it changes
    double shift_cents = 0.0;  // what the note in trouble is moved by
    double sigma_cents = 0.0;  // how sure that is, done by hand and measured
    double costs_cents = 0.0;  // error of the worst note that can then be played; of this note
                               // where accepted, or left flat by all that can be opened
};

struct RescuePlan {
    Trouble trouble = Trouble::none;
    std::vector<RescueOption> options;  // reversible first, the cheaper before the dearer
};

// Each by solving the rescued flute under the present belief.
RescuePlan rescue_foot(const History& history, const Estimate& estimate, const Aim& aim,
                       const Goal& goal, const Cuts& cuts);
RescuePlan rescue_hole(const History& history, const Estimate& estimate, const Aim& aim,
                       const Goal& goal, const Cuts& cuts, std::size_t note, int own_hole);

// Troubles that are seen in the belief and not in one cut; none, or the first of: what was heard
// last is off all alike (cold, or the block has moved); the voice; the breath.
RescuePlan look_for_trouble(const History& history, const Estimate& estimate, const Aim& aim,
                            const Goal& goal);

// Where a rising function passes zero between two places; the nearer of them where it does not.
double zero_of(const std::function<double(double)>& f, double low, double high);

inline constexpr double kRescueDisc_m = 5e-3;         // thickness of a disc, as cut from cork
inline constexpr double kLargeVoice = 0.15;           // inertance below the model's by this share
inline constexpr double kLiftingBreath_cents = 15.0;  // an octave, and more than the maker said
// So many readings in a row that do not fit and lie alike mean the flute and not the ear.
inline constexpr int kAlike = 2;

}  // namespace canewright
