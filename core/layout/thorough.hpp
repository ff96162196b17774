// core/layout/thorough.hpp: what a layout is worth at its best. Layer: layout.
#pragma once

#include "core/layout/plan.hpp"

namespace canewright {

// `task` with what the module that a page loads first does without: octaves where they weigh, and
// notes counted anew where a walk has lost their first register. Without it such a layout answers
// that it did not converge.
LayoutTask thorough(LayoutTask task);

}  // namespace canewright
