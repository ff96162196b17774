// core/layout/place_holes.hpp: from target notes to a foot, hole places and sizes. Layer: layout.
#pragma once

#include "core/air/air.hpp"
#include "core/layout/plan.hpp"

namespace canewright {

// Places and sizes all holes and the foot so that all notes sound at their targets together.
//
// Model    least squares of the notes' errors in cents, between the walls that hands, tools and
//          tube set, plus mild wishes that decide what the notes leave open (kLayoutError_cents
//          bounds what the wishes cost). Gauss-Newton; each step is a quadratic program; starts
//          from kSizesTried hole sizes until one meets the notes. With bits: the free answer, each
//          hole to its nearest bit, places solved again, then single changes of bit that help.
// Valid    what core/element and core/flute allow; holes in one line, opened in any combination.
// Error    with nothing binding every note is within kLayoutError_cents of its target in the model.
// Errors   a note that does not speak or steps that run out: converged is false.
// Source   Gauss-Newton: textbook; the quadratic program names its own.
// Requires a validated task: at least one note, targets rising above kLowest_Hz, hole numbers that
//          exist; with lowest_free one note with all holes covered.
LayoutResult place_holes(const LayoutTask& task, const Air& air);

inline constexpr double kLayoutError_cents = 0.02;
// A limit counts as binding when leaving it out lowers the errors by more than this.
inline constexpr double kBindingCost_cents = 0.05;

}  // namespace canewright
