// core/verbs/choose/suits.hpp -- the verb `suits`: what this tube carries well.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/choose/merit.hpp"
#include "core/layout/place_holes.hpp"
#include "core/verbs/answer.hpp"

namespace canewright {

// What a tube might become, the best first, each with what speaks for and against it; and what tube
// to look for, for the lowest note that the document wishes.
//
// {"reaches":{"hz","lowest"},"choices":[{"lowest","scale","holes","score","reasons":[{"code","value",
//   "limit","ok"}],"layout":{"foot_mm","finger_holes":[{"at_mm","diameter_mm"}],"worst_cents"}}],
//  "refused":[{"lowest","scale","holes","code","value","limit"}],"not_tried","carries","worth",
//  "without_shop","wish":null|
//   {"reached","nearest":[{"lowest","foot_mm"}]},"look_for":null|{"lowest_hz","carries","bore_mm":{"min","max"},
//   "length_mm":{"min","max"},"wall_mm":{"min","max"},"above_mm"},"instead":null|{"fewer_holes":null|
//   {"lowest","scale","holes","score","foot_mm"},"fewer_tried","no_holes":{"hz","name","second_hz","bores"}}}
//
// Model    every wish of core/choose/grid, and the document's own scale and holes on the same
// notes,
//          laid out on the bare tube (no hole yet, no pattern, the maker's bits and hands); carried
//          is one that lays out with nothing binding. The kMostChoices best by core/choose/merit,
//          laid out in full, then with the breath of their lowest note (core/jet), ordered again.
//          `carries` counts all that are carried; `worth` is false where none is good enough, and
//          then `instead` says what is left: three or two holes (the best that is worth it), or
//          none: what the whole tube sounds, and overblown. Refused: "too_short" (sounding length
//          below kLeast_bores bores, not laid out), "limits" (value: worst note; limit: the song's
//          tolerance), both in the units of their value.
// Error    each layout's own; scores are judgement.
// Needs    tube and sound hole.
Answer suits_answer(const Document& document);

// The same in parts, so that a page can say how far it is, and leave it for another wish:
// {"of","tried":[verdicts],"best":null|as in choices, without its breath} for {"document","from",
// "to"}, places in an order in which a good one comes soon (sounding lengths near the middle of
// what small flutes have); then suits_of() of {"document","tried"}, all of them, is suits(). Errors
// "tried" that is not each of the grid once: wrong_type.
Answer suits_part_answer(const Document& document, const Json& asked);
Answer suits_of_answer(const Document& document, const Json& asked);

inline constexpr std::size_t kMostChoices = 12;
inline constexpr std::size_t kMostNearest = 3;
inline constexpr std::size_t kMostOthers = 12;
// Shorter ones speak weakly, and cost seven times as long to lay out: not tried. Judgement.
inline constexpr double kLeast_bores = 8.0;
// A lowest note's sounding length over the bore, nearly: half a wave less than the whole tube's.
double bores_near(const Flute& flute, const Air& air, double whole_Hz, double lowest_Hz);
// Below this score of the best choice a tube is kept for something else. Judgement.
inline constexpr double kWorthIt = 45.0;

// The tube as it stands, with no song, hole or log on it.
Document bare_tube(const Document& document);
// The bare tube with a song. Hands of another number of holes are left out.
Document with_song(const Document& tube, const std::string& lowest, const ScaleEntry& scale,
                   int holes);
// Lays out without looking for what limits it.
struct LaidOut {
    LayoutTask task;
    LayoutResult plan;
    Air air;
    // Every note at its pitch, and no limit in the way.
    bool carried() const { return plan.converged && plan.worst_cents < kBindingCost_cents; }
};
// `carried_only`: of what is not carried nothing is asked but that.
LaidOut laid_out(const Document& document, bool carried_only = false);

// What a tube could become that is not worth the work with the grid's holes (`instead`, above).
//   air   of the bore;  whole_Hz  of the whole tube without holes; 0: null
Json instead_json(const Document& tube, const Air& air, double whole_Hz, double a4_Hz);

// What tube to look for, for the song of the tube's document, whose lowest note [Hz] is given;
// sizes of wall and sound hole in proportion. Of bores whose sounding length is what small flutes
// have, those that carry the song with the maker's hands and bits; `carries` false: none that was
// tried does, and the span is what the lowest note alone wants.
Json look_for_json(const Document& tube, double lowest_Hz);

}  // namespace canewright
