// core/layout/reasons.hpp: why notes are off in a layout. Layer: layout.
#pragma once

#include "core/layout/placement.hpp"

namespace canewright {

// What keeps `found` from meeting the notes.
//
// Model    the task is solved again without each limit that presses, from where the holes would lie
//          without any; one whose absence lowers the notes' errors, counted from below, by
//          kBindingCost_cents binds. Where none does and a note is off by more than kReason_cents,
//          kinds of limits are dropped together until it helps, then taken back one by one as long
//          as it still does: what remains is a smallest set, marked `together`. Where limits bind
//          but none by itself for a tenth of the errors, a smallest set that saves half of what all
//          of them do is named instead, if that is a tenth. Where no set helps each limit is tried
//          once more from where the holes lie; then the fingerings are to blame. Limits that gave
//          way come first.
// Valid    within kMostReasoned evaluations of networks (as_long_as()) each time that limits are
//          tried by themselves, and four times as many for sets; a wish so far from what the tube
//          can do that they do not suffice has some of its reasons only, or a set that is not the
//          smallest.
// Error    each cost is the difference of two solutions, so as good as they are: a walk here is
//          left after a sixth of that, and what it has saved by then counts.
//   evaluations   grows by what this cost
std::vector<Binding> reasons(const LayoutTask& task, const Air& air, const Placement& unlimited,
                             const Placement& found, long& evaluations);

inline constexpr long kMostReasoned = 12000;  // about a tenth of a second

}  // namespace canewright
