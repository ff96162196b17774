// core/verbs/choose/mends.hpp -- the verb `mends`: what would do, where limits cost notes their
// pitch.
#pragma once

#include "core/verbs/answer.hpp"

namespace canewright {

// For each kind of limit that binds the document's layout, the least change of that limit, or of
// the wish, that brings every note within the song's tolerance; else, of a limit, the one that
// comes nearest: each found by laying out with it. Fingers are moved as far as a hand goes
// (core/choose/reach), the lowest note up to the next that is in tune.
//
// {"worst_cents","heard","mends":[{"code","set":[{"path","value"}],"amount_mm"|"lowest"|"holes",
//   "worst_cents","gains_cents","in_tune"}]}, the best first. `set` are keys of the document and
// what they become. Codes: "wider_spacing", "closer_spacing", "larger_holes", "smaller_holes",
// "one_more_bit" (the size that gains most of those that core/choose/drills offers; with its
// "label" where it goes by one), "higher_lowest", "fewer_holes". `in_tune`: every note within the
// song's tolerance. `heard`: readings or a pattern have told about this flute, and its layout is
// the bench's; then there are no mends.
//
// Error    each layout's own. A mend that gains less than kWorthTelling_cents is not told, nor one
//          that leaves a note nearer to another.
// Needs    as layout.
Json mends_answer(const Document& document);

inline constexpr double kWorthTelling_cents = 1.0;

}  // namespace canewright
