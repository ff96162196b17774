// core/layout/place_holes.hpp: from target notes to a foot, hole places and sizes. Layer: layout.
#pragma once

#include "core/air/air.hpp"
#include "core/layout/plan.hpp"

namespace canewright {

// Whether what limits a layout is looked for too: each limit is another layout.
enum class Explain { no, yes };

// Places and sizes all holes and the foot so that all notes sound at their targets together.
//
// Model    where nothing limits: every note met, sizes as near to a share of the bore as the notes
//          allow. Between limits: from there, by as little as it takes to meet the notes
//          (limited_placement(); what straying is worth is kStray_cents). With bits: each hole to
//          its nearest bit, places solved again, then single changes of bit that help. Limits that
//          leave no room give way, all by the same length, as little as will do.
// Valid    what core/element and core/flute allow; holes in one line, opened in any combination.
// Error    with nothing binding every note is within kLayoutError_cents of its target in the model.
//          An input moved by 0.1 mm moves no mark by kContinuous_m, but where another bit is taken
//          or LayoutResult::loose_m says how far another flute lies.
// Errors   a note that does not speak, steps that run out or limits that gave way: converged is
//          false; no room at all: room is false too, and the flute shows the conflict. A flute of a
//          thorough() task that stands_on_edge() is laid out from elsewhere; where that comes to
//          nothing converged is false.
// Source   Gauss-Newton: textbook; the quadratic program and the pulls name their own.
// Requires a validated task: at least one note, targets rising above kLowest_Hz, hole numbers that
//          exist; with lowest_free one note with all holes covered.
LayoutResult place_holes(const LayoutTask& task, const Air& air, Explain explain = Explain::yes);

inline constexpr double kLayoutError_cents = 0.02;
// A limit counts as binding when leaving it out lowers the errors by more than this.
inline constexpr double kBindingCost_cents = 0.05;
// A note further off than this has a reason in `binding`.
inline constexpr double kReason_cents = 3.0;
inline constexpr double kContinuous_m = 2e-3;

}  // namespace canewright
