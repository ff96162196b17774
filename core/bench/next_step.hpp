// core/bench/next_step.hpp: the one thing to do now. Layer: bench.
#pragma once

#include <optional>
#include <vector>

#include "core/bench/aim.hpp"
#include "core/bench/prospect.hpp"
#include "core/bench/rescue.hpp"

namespace canewright {

// Open or sand a little, clear the dust, blow, look; stop at this pitch.
struct Until {
    Fingering open;
    double stop_Hz = 0.0;          // as sounded in the room the maker is in
    double allowance_cents = 0.0;  // part of stop_Hz: for stopping when a meter first shows it
    double now_Hz = 0.0;           // as it should be heard before the first stroke, there
    double now_sigma_cents = 0.0;
    double moment_cents = 0.0;  // what the blows of one sitting share
};

enum class Do { read, foot, hole, undercut, rescue, wait, done };

// Why a step is proposed; the page and the command have a sentence for each.
enum class Why {
    saw_long,           // the foot first, with an allowance: the voice is not known yet
    hear_voice,         // the holeless tube: pins most of what is not known
    hear_trimmed,       // again after a known trim: tells the voice from the speed of sound
    trim_foot,          // nearer, by measure
    hear_again,         // the last reading does not fit the others
    warm_up,            // the last readings are all off alike: cold, or the block has moved
    plan_moved,         // what was heard would move a hole further than it can be out: hear again
    drill_small,        // the next hole from the foot up, undersize
    open_by_ear,        // open it until it sounds right
    undercut_hole,      // it is as wide as it may be: widen it inside
    hear_note,          // how far this note is now
    finish_foot,        // the last cents of the lowest note
    last_touch,         // heard when all was cut, still flat: once more, and a little
    let_dry,            // finish, dry, come back
    too_sharp_hole,     // a hole is too large: narrow it
    likely_sharp_hole,  // the same, but its note may yet be within the tolerance
    too_sharp_foot,     // the foot is too short
    finished
};

struct Forecast {
    Fingering open;
    double target_Hz = 0.0;    // where it is played
    double expected_Hz = 0.0;  // of the finished flute, if the plan is followed
    double sigma_cents = 0.0;  // of this expectation
    double now_cents = 0.0;    // present error against what it should be at this stage; NaN: not
                               // playable yet
};

struct Step {
    Do what = Do::done;
    Why why = Why::finished;
    Fingering open;                    // read
    double at_m = 0.0;                 // foot, hole
    int number = 0;                    // hole
    std::optional<double> diameter_m;  // hole: the bit
    double wide_m = 0.0;               // hole: as it will come out of it, in this maker's hand
    std::optional<Until> until;
    double expect_cents = 0.0;  // what the step does to its note
    double expect_Hz = 0.0;  // a cut: what its note should sound after it, in the room; 0: unknown
    double sigma_cents = 0.0;  // how sure that is
    double overshoot = 0.0;    // chance that its note ends sharper than tolerated
    RescuePlan rescue;         // rescue: what can be done, the first is the one to try; else what
                               // the belief says is wrong, or none
    std::vector<Forecast> notes;
    Prospect prospect;
    Goal goal;
    bool converged = true;
};

// The next step of a build: coarse cuts by measure, fine ones by ear, one way only.
//
// Model    the goal is laid out anew from the present belief; a cut is sized so that the chance of
//          its note's ending sharper than the tolerance is at most aim.risk over all cuts to come
//          (Gaussian; the risk is shared evenly). Order: what was heard and does not fit, again; a
//          note cut too far, rescued; foot, voice, trim, voice; holes from the foot up, each
//          undersize, then by ear to a little flat; the foot by ear; dry, and the ends of the scale
//          heard again. From there on what worth.hpp finds worth its minutes, until every note is
//          probably within aim.good_enough_cents and, but for aim.risk, within the tolerance, or
//          nothing is. No fingering is asked for more than kMostInARow times in a row but where its
//          last reading does not fit.
// Valid    a history whose stages follow each other; at least one note with all holes covered.
Step next_step(const History& history, const Estimate& estimate, const Aim& aim);

inline constexpr int kMostInARow = 2;

}  // namespace canewright
