// core/verbs/next.hpp -- the verb `next`: document with log in, one step out.
#pragma once

#include "core/task/build.hpp"
#include "core/verbs/answer.hpp"

namespace canewright {

// {"step":{"do":..,..},"why":code,"expect_cents","sigma_cents","overshoot","notes":[..],
//  "finger_holes":[{"at_mm","diameter_mm"}],"foot_mm","prospect":{"within_cents",
//  "good_enough_cents","tolerance_cents","chance","all_cut","steps_left"},
//  "maker":{"moment_cents","usual_moment_cents","hands","wider":code},"trouble":code,"remedies":[..],
//  "ways":[{"open","cents","sigma_cents","options":[..]}],"readings":[{"entry","trusted","off_cents","sigma_cents"}],
//  "unknowns":[{"name","mean","sigma","prior_sigma","told"}],"at_c","converged"}
//
// step     read: open. foot: at_mm, or with until: at_mm is where it should end. hole: number,
//          at_mm, and diameter_mm (the bit) or until. undercut: number, until. rescue: what, with
//          its amounts, and all `options`. wait. done: verdict [{open, name, cents, sigma_cents,
//          within}]. until: {open, hz, allowance_cents, now_hz, now_sigma_cents, moment_cents}:
//          open until it sounds so in the room of the last entry (core/bench/next_step.hpp, Until).
//          A cut has expect_hz, what its note (open: `of`) should sound after it, there.
// prospect every note within_cents, probably; about steps_left to good_enough_cents
//          (core/bench/prospect.hpp)
// maker    how this one errs, by how well the readings fit each other; wider: what of it is more
//          than usual, "none", "moment" or "hands"
// notes    open, name, target_hz, hz (expected of the finished flute), sigma_cents, before_cents
//          (the same had nothing been read), now_cents (null: not playable yet),
//          ends_cents (where it will end, opened by ear as far as its hole may be; null: it will
//          not speak; none where every hole is cut)
// ways     of each note that can be played now: how far off it is, and what would mend it
//          (core/bench/ways.hpp); options as of a rescue, and `widen`, `shorten`
// amounts  of a rescue: number, size_mm, length_mm, target_hz where they mean something;
//          shift_cents, sigma_cents, costs_cents
// unknowns `told`: the readings have made it surer than kToldShare of what it was
// Requires as build_of().
Json next_answer(const Document& document);

// Below this share of its prior standard deviation an unknown counts as told by the readings.
inline constexpr double kToldShare = 0.8;

// {"what","count","hz","sigma_cents","cents_per_stroke","mark_hz","opened_untold","first_hz",
// "first_sigma_cents","scatter_cents","scatter_blows"} to {"blows":[{"strokes","hz"}],"stop_hz",
// "now_hz"?,"now_sigma_cents"?,"moment_cents"?,"tapping"?:"tapped"|"not told",
// "scatter_cents"?,"scatter_blows"?}: core/bench/strokes.hpp. first_hz: before the first stroke, a
// reading of its own. scatter: as the answer before said it, of this maker.
Answer strokes_answer(const std::string& text);
// {"hz","sigma_cents","scatter_cents","scatter_blows"} to {"hz":[..],"scatter_cents"?,
// "scatter_blows"?}.
Answer attempts_answer(const std::string& text);
}  // namespace canewright
