// core/verbs/spread_json.hpp -- what the two answers about errors share.
#pragma once

#include "core/document/json_text.hpp"
#include "core/layout/tolerance.hpp"

namespace canewright {

// {"5":0.31,"10":0.7,"20":0.98}
Json shares_json(const Shares& shares);

}  // namespace canewright
