// core/layout/plan.hpp: what is asked of a layout, and what comes back. Layer: layout.
#pragma once

#include <Eigen/Core>
#include <limits>
#include <string>
#include <vector>

#include "core/air/air.hpp"
#include "core/flute/geometry.hpp"

namespace canewright {

inline constexpr double kNoLimit = std::numeric_limits<double>::infinity();

// Of an undercut at the bore: the format's most (0.95 of the widest bore there), with some room.
inline constexpr double kLargestUndercut = 0.94;

// What finger holes measure where nothing limits them, as a share of the bore. Common practice, no
// source.
inline constexpr double kUsualHole = 0.4;

// One note asked for. With a floating lowest note `target_Hz` is not read: only the interval is.
struct NoteTarget {
    Fingering open;
    double interval_cents = 0.0;  // above the lowest note of the song
    double target_Hz = 0.0;
};

// What the maker's hands and tools allow. Infinite or zero means no limit.
struct Shop {
    std::vector<double> bits_m;  // empty: any diameter
    double diameter_min_m = 0.0;
    double diameter_max_m = kNoLimit;
    double spacing_min_m = 0.0;       // centre to centre, also between the hands
    double spacing_max_m = kNoLimit;  // within one hand
    // Without a least spacing of the maker's: between two holes stays the width of either.
    bool own_width_apart = false;
    std::vector<int> hands;  // holes of the upper and lower hand; empty: one hand
};

// Where a hole that was planned before may still go.
struct PlannedPlace {
    double at_m = 0.0;
    double reach_m = kNoLimit;  // to either side
};

class Problem;
struct Walk;
struct LayoutTask;
struct LayoutResult;
struct Placement;
// How octaves are counted (core/layout/octaves).
struct OctavesGoal {
    // From a walk's end on: what the notes leave open goes near `home`, or to where the octaves are
    // true, as far as `weight` counts them.
    Walk (*walk)(Problem& problem, const Walk& from, const Eigen::VectorXd& home, double weight);
    // Lays out anew with it, from where `result` came from, and takes its place where no note gives
    // way.
    void (*heed)(LayoutTask task, const Air& air, Placement unlimited, LayoutResult& result);
};

struct LayoutTask {
    Flute flute;  // holes: fixed ones as flagged; of the others only shape and wall are read
    int hole_count = 0;
    std::vector<NoteTarget> notes;
    bool lowest_free = false;  // the foot stays, the lowest note falls where it falls
    bool foot_fixed = false;
    double end_m = 0.0;  // where the tube ends now: the foot cannot lie beyond
    // Where it is said to end, where a belief has the end farther down: no hole lies below that.
    double said_end_m = kNoLimit;
    // What each hole measures already (it can only grow); empty, or one entry a hole, 0 if uncut.
    std::vector<double> cut_diameter_m;
    // And to what it can, undercut as it is: empty, or one entry a hole, kNoLimit if uncut. A
    // belief may have a hole smaller than it measures.
    std::vector<double> most_diameter_m;
    std::vector<PlannedPlace> planned;  // empty, or one entry a hole
    // Of a build: where it may stay with the bits with which it was planned (keep_planned_bits()).
    void (*keep_bits)(const LayoutTask& task, const Air& air, const Placement& unlimited,
                      Placement& found) = nullptr;
    double breath = 1.0;  // blowing pressure over the design's (core/jet/sounding)
    // By how much the player's breath lifts a note an octave above the lowest, others in
    // proportion: what it adds the tube need not.
    double lift_cents = 0.0;
    // How much the overblown octaves count for what the notes leave open, 0 to 1, and by what
    // (octaves_for() of core/layout/octaves; null where they count nothing).
    double octaves_weight = 0.0;
    const OctavesGoal* octaves = nullptr;
    // What is done where a walk has lost a note's first register: place_counting() of
    // core/layout/placement; null: it is said, no more (core/layout/thorough).
    void (*count_anew)(const LayoutTask& task, const Air& air, Placement& found) = nullptr;
    // Whether a hair of its holes' sizes takes a note into another register: as if it were lost
    // then.
    bool (*stands_on_edge)(const LayoutTask& task, const Air& air, Placement& found) = nullptr;
    // Whether a hair of an input would lead elsewhere: look_beside() of core/layout/placement;
    // null: nobody looks.
    void (*look_beside)(LayoutTask task, const Air& air, LayoutResult& result) = nullptr;
    int counting = -1;  // which one of its ways is tried; -1: each, until one comes to a flute
    // The widest hole that can be said of this tube, undercut included, as a share of `flute`'s
    // bore: a belief may have the bore wider than it was measured.
    double widest_share = kLargestUndercut;
    Shop shop;
    // Asked by the hundred: where the notes are not met nobody wants to know where holes would lie.
    bool met_only = false;
    // Every note is counted from below at every step of a walk, not followed from one to the next:
    // dearer, for where following has lost a note's first register.
    bool counted_throughout = false;
};

struct NoteResult {
    Fingering open;
    double target_Hz = 0.0;
    double sounding_Hz = 0.0;
    double passive_Hz = 0.0;  // of it: the resonance, without what the breath adds
    bool converged = false;
    // What moving or widening this note's own hole (the open one nearest the sound hole), or
    // lengthening the foot, does to the note [cents per metre]. NaN for a note without own hole.
    double cents_per_m = 0.0;
    double cents_per_diameter_m = 0.0;
    double cents_per_foot_m = 0.0;
};

enum class Limit {
    spacing_min,     // nearer would be out of the shop's spacing
    spacing_max,     // wider would be
    diameter_min,    // smaller would be out of the shop's sizes
    diameter_max,    // larger would be
    bore_share,      // smaller or larger for its bore than the model can be asked
    bits,            // no bit of just this size
    edge,            // too little wall left between two holes
    sound_hole,      // too near the sound hole
    foot_clearance,  // too near the foot
    tube_end,        // the tube is no longer
    fixed,           // held in place by the maker
    planned,         // further from its plan than what is believed explains
    fingerings       // no limit is to blame: these fingerings cannot give these notes
};
const char* name(Limit limit);

// A limit that costs pitch. `hole` counts from 0; for spacing and edges it is the lower hole of the
// pair; -1 is the foot, or all holes alike. `costs_cents` is by how much the notes' errors together
// (root of the sum of squares) would shrink without it, found by solving again; NaN where the
// limits leave no room and this one was exceeded. `together`: dropping this one alone helps little
// or nothing, dropping all that are so marked saves `costs_cents`.
struct Binding {
    Limit limit;
    int hole = -1;
    double costs_cents = 0.0;
    bool together = false;
};

struct LayoutResult {
    Flute flute;
    std::vector<NoteResult> notes;
    std::vector<Binding> binding;
    double worst_cents = 0.0;  // the largest error of a note, without sign; NaN: one does not speak
    double errors_cents = 0.0;  // root of the sum of squares of all, or NaN
    bool room = true;  // false: not even a flute out of tune fits, `flute` shows the conflict
    bool converged = false;
    // Where a hair of an input may lead to another flute: how far a mark of that one lies from
    // these. 0: no such flute is known.
    double loose_m = 0.0;
    // Of task.octaves_weight what came to count: less where a note would have lost its octave, 0
    // where notes would have given way, or nothing came of it.
    double octaves_counted = 0.0;
    int steps = 0;         // Gauss-Newton steps
    long evaluations = 0;  // of a network
};

}  // namespace canewright
