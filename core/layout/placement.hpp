// core/layout/placement.hpp: one layout of a task: without limits, between them, with the maker's
// bits. Layer: layout.
#pragma once

#include <vector>

#include "core/air/air.hpp"
#include "core/layout/gauss_newton.hpp"

namespace canewright {

struct Placement {
    Walk walk;
    Flute flute;
    Eigen::VectorXd home;  // where something is held: the numbers of it were nothing; else empty
    std::vector<Wall> active;    // limits that press
    std::vector<Wall> gave_way;  // of these, the shop's, where there was no room between them
    double give_m = 0.0;         // and by how much
    std::vector<double> bit_m;   // of each hole; empty: any size
    double loose_m = 0.0;        // as LayoutResult has it
    int counting = -1;           // which of place_counting()'s ways has come to it
    long evaluations = 0;
    bool other_sizes = false;  // holes as wide as usual did not come to the notes easily
    int steps = 0;
};

// Where foot and holes would lie if hands, tools and the tube's end set no limit: notes met, sizes
// near a share of the bore. It moves smoothly with whatever the tube and the song are. Where a hole
// or the foot is held in place, the rest lies as near as the notes allow to where it would were
// nothing held: so that holding a hole where it is (drilling it at its mark) moves no other.
Placement unlimited_placement(const LayoutTask& task, const Air& air);

// Between the limits: the notes met as well as they can be without straying far from `unlimited`.
//
// Model    proximal point iterations, x <- the least of |errors|^2 + |stay_near(x)|^2 between the
//          walls, kMostPulls of them (all but the last of kStepsAPull steps) or until the notes are
//          met: what the notes leave open stays where it was, notes that can be met by moves of
//          their own weight are met to kExact_cents (where holes are drawn back to where they would
//          lie without limits, to a quarter of kLayoutError_cents), and what only far moves of many
//          holes would gain is left. A fixed number of continuous steps, so a hair of a limit moves
//          no mark far.
// Source   R.T. Rockafellar, SIAM J. Control Optim. 14 (1976) 877-898 (the proximal point
//          algorithm; stopped early it regularises, as Landweber's iteration does).
//   rough    for what a limit costs: the last digits are not sought
Placement limited_placement(const LayoutTask& task, const Air& air, const Placement& unlimited,
                            const Rules& rules = {}, bool rough = false);

// The same with sizes from task.shop.bits_m: each uncut hole's nearest to `limited`, then single
// changes of bit as long as they help (at most kMostRounds): the linear model says which. Where
// another bit is as near (kHair) and the notes are met with it too, `loose_m` says how far that
// flute lies. The task may stay with other bits (LayoutTask::keep_bits).
Placement placement_with_bits(const LayoutTask& task, const Air& air, const Placement& unlimited,
                              const Placement& limited);

// Between the limits, with bits where the maker has any; from other flutes too where that leaves
// the notes off by more than anyone wants and by less than is hopeless: there are several places to
// come to rest, and the nearest need not be the best. `start`, at first the unlimited one, becomes
// the one from which the answer was found.
Placement placement_from_anywhere(const LayoutTask& task, const Air& air, Placement& start);

// The notes of a placement as anyone else would count them, whatever its walk followed.
Sound counted_from_below(const LayoutTask& task, const Air& air, Placement& placement);

// That they are what `found` says: it has not converged then.
void take_as_counted(const LayoutTask& task, const Air& air, Placement& found);

// Where `found` has followed a note that is not its first register any more, or stands_on_edge():
// placed anew with every note counted at every step, from several sizes. The one whose notes,
// counted from below, are nearest takes the place of `found`. Where no walk keeps its notes, or the
// notes were not near even as they were followed, `found` stays, not converged and with the notes
// that are counted.
void place_counting(const LayoutTask& task, const Air& air, Placement& found);

// Whether a hair (kHair) of every hole's size, either way, takes a note of `found` into another
// register: what is cut would not sound as the model says.
bool stands_on_edge(const LayoutTask& task, const Air& air, Placement& found);

// Errors together [cents] beyond which a flute of any sizes may be left as it is, since nobody
// wants to know where its holes would lie: beyond all where the task asks for more than flutes in
// tune. By a maker's bits the notes are sometimes met where those sizes came to rest a little off.
double left_beyond_cents(const LayoutTask& task);

// Whether notes are the same [Hz]. A walk follows each from one flute to the next; asked for anew
// it must be where the walk says.
bool same_notes(const std::vector<double>& one_Hz, const std::vector<double>& other_Hz);

// How far the mark that moves most does from one flute to the other.
double apart_m(const Flute& one, const Flute& other);

// Whether one meets the notes better; two that differ by rounding do not.
bool better(const Walk& one, const Walk& other);

// A layout without its reasons, and from where it was found (place_holes.cpp). `unlimited`: of this
// task, octaves apart.
struct Laid {
    Placement unlimited, found;
    LayoutResult result;
    bool anew = false;  // a note was lost on the way, and all were counted anew
};
Laid laid(const LayoutTask& task, const Air& air, Placement unlimited);

// Of what a network of this task is made: what one evaluation costs goes with it.
long pieces(const LayoutTask& task);

// As many evaluations as take about the time that `evaluations` of a flute of kUsualPieces do, of
// one that is made of more.
long as_long_as(long evaluations, const LayoutTask& task);
inline constexpr long kUsualPieces = 16;

// What a sound hole a hair longer or shorter would lead to: where that is another flute, `loose_m`
// says how far it lies (beside.cpp).
void look_beside(LayoutTask task, const Air& air, LayoutResult& result);

// Of a hole's size: what no maker stands on. So near to the middle of two bits either may be
// chosen.
inline constexpr double kHair = 0.005;
inline constexpr int kMostPulls = 5;
inline constexpr int kStepsAPull = 3;
inline constexpr int kRoughSteps = 10;
inline constexpr double kExact_cents = 1e-4;
inline constexpr int kMostRounds = 4;
inline constexpr double kMet_cents = 0.1;  // a note this near is met
// Errors of a flute that a few more steps would bring in tune.
inline constexpr double kOnTheWay_cents = 1.0;
// Errors beyond which bits are not tried where any sizes do not meet the notes. Of the wishes that
// bits met on 60 random tubes the farthest was 1.9 cents off by any sizes; on 120 others bits came
// within 0.33 cents of one that lies beyond this.
inline constexpr double kBitsMeet_cents = 20.0;

}  // namespace canewright
