// core/verbs/choose/reach.hpp -- the verbs `reach` and `grip`: what a hand allows, and what of a
// flute it will find hard.
#pragma once

#include <string>

#include "core/verbs/answer.hpp"

namespace canewright {

// Of {"span_mm","pad_mm"}, both or none (core/choose/reach says how they are taken):
// {"sizes":[{"name","span_mm","pad_mm"}],"limits":null|{"apart_min_mm","apart_max_mm","hole_max_mm"}},
// the limits in half millimetres, rounded to what is easier for the hand.
// Error    common practice.
Answer reach_answer(const std::string& text);

// {"holes":[{"number","hand":"upper"|"lower"}],"warnings":[{"code","holes":[..],"mm","limit_mm",
// "own"}]}. Codes: "far" and "near" (two neighbours), "wide" (one hole); `own`: the limit is the
// shop's, else what a grown-up's hand does (core/choose/merit). Of the document's finger_holes.
Json grip_answer(const Document& document);

}  // namespace canewright
