// core/verbs/bore.hpp -- the verb `bore`: what a maker weighed or wound to a bore.
#pragma once

#include <string>

#include "core/verbs/answer.hpp"

namespace canewright {

// One of
//   {"way":"water_g","amount":101.5,"length_mm":400,"water_c"?:20,"scale_step_g"?:0.1}
//   {"way":"water_ml","amount":102,"length_mm":400}
//   {"way":"gauges","go_mm":17.5,"no_go_mm":18}
//   {"way":"girth","girth_mm":75.7,"paper_mm"?:0.1}
// to {"way","diameter_mm","sigma_mm"}; for girth {"way","outer_mm","sigma_mm"}. Water: the mean
// bore of the filled piece, closed at one end, level full, the scale set to zero with the tube dry.
Answer bore_answer(const std::string& text);

}  // namespace canewright
