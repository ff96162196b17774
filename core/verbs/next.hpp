// core/verbs/next.hpp -- the verb `next`: document with log in, one step out.
#pragma once

#include "core/task/build.hpp"
#include "core/verbs/answer.hpp"

namespace canewright {

// {"step":{"do":..,..},"why":code,"expect_cents","sigma_cents","overshoot","notes":[..],
//  "finger_holes":[{"at_mm","diameter_mm"}],"foot_mm","trouble":code,"remedies":[..],
//  "readings":[{"entry","trusted","off_cents","sigma_cents"}],
//  "unknowns":[{"name","mean","sigma","prior_sigma","told"}],"at_c","converged"}
//
// step     read: open. foot: at_mm, or with until: at_mm is where it should end. hole: number,
//          at_mm, and diameter_mm (the bit) or until. undercut: number, until. rescue: what, with
//          its amounts, and all `options`. wait. done: verdict [{open, name, cents, sigma_cents,
//          within}]. until: {open, hz}: open until it sounds so in the room of the last entry.
// notes    open, name, target_hz, hz (expected of the finished flute), sigma_cents, before_cents
//          (the same had nothing been read), now_cents (null: not playable yet)
// amounts  of a rescue: number, size_mm, length_mm, target_hz where they mean something;
//          shift_cents, costs_cents
// unknowns `told`: the readings have made it surer than kToldShare of what it was
// Requires as build_of().
Json next_answer(const Document& document);

// Below this share of its prior standard deviation an unknown counts as told by the readings.
inline constexpr double kToldShare = 0.8;

// {"what","count","hz","sigma_cents","cents_per_stroke"} to {"blows":[{"strokes","hz"}],"stop_hz",
// "meter_cents"}: core/bench/strokes.hpp.
Answer strokes_answer(const std::string& text);
// {"hz","sigma_cents"} to {"hz":[..],"usual_cents"?}.
Answer attempts_answer(const std::string& text);
}  // namespace canewright
