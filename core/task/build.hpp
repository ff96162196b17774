// core/task/build.hpp -- the build that a document's log tells of.
#pragma once

#include <array>
#include <vector>

#include "core/base/violation.hpp"
#include "core/bench/aim.hpp"
#include "core/document/document.hpp"

namespace canewright {

// What was cut and heard, what is believed of this flute by now, and what it is to become.
struct BuildState {
    History history;
    Belief stranger;  // without any reading or pattern: prior()
    Belief before;    // without any reading: the same, or what the maker's pattern taught
    Estimate estimate;
    Aim aim;
    // After each entry of the log that cuts or narrows a hole, the size it is taken to have; else
    // 0.
    std::vector<double> size_m;
    bool taught = false;  // a reading or a pattern says something about this flute
};

// The log replayed by core/bench/builder. Absent: the scatter of a reading is kUsualReading_cents,
// its room air.room_c, the plan that of planned_like_before(). The last room noted is the present
// one. Cane and wood have to dry, plastic pipe has not; where no material is given it has to.
// Requires  a document without violations for which missing_for(Verb::layout) finds nothing, and
//           a pattern that pattern_faults() finds nothing wrong with.
BuildState build_of(const Document& document);

// A document that cuts holes but carries no plan gets that of its tube and song before the first
// cut, as core/bench lays it out: any diameter, no list of what binds, so that it is there at once.
// It is where later layouts start and what an unmeasured hole is taken to be. Others come back as
// they are.
Document planned_like_before(const Document& document);

// Of a held tone on one blow, where the log does not say. Common practice, no source.
inline constexpr double kUsualReading_cents = 4.0;

// What of a belief goes from one flute to the next; bore and wall are each tube's own.
inline constexpr std::array<Unknown, 4> kCarried = {kSoundHole, kSoundSpeed, kHoles, kDrift};

// Flutes that a hand may be made of: a maker's last ones.
inline constexpr std::size_t kMostTaught = 32;

// What is wrong with document.pattern. Empty when there is none.
std::vector<Violation> pattern_faults(const Document& document);

// What this maker's holes come out wider than what makes them; nothing where no hand says it.
// Requires  pattern_faults() is empty.
Burn burn_of(const Document& document);

// The belief about a new tube: one flute's pattern, widened by what a new voice brings; never less
// sure than without a pattern, nor surer than kNew allows. A hand (a pattern with `between`, what
// several flutes taught) says itself how far this maker's flutes lie apart: as wide as that.
// Requires  pattern_faults() is empty.
Belief with_pattern(const Belief& before, const Document& document);

// How a maker's voices, edges, days and breath differ from flute to flute, over what is not known
// of a stranger's (judgement).
inline constexpr double kNew = 0.5;

}  // namespace canewright
