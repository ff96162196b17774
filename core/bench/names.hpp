// core/bench/names.hpp: the stable names of what a step is, for the command and the page.
// Layer: bench.
#pragma once

#include "core/bench/belief/unknowns.hpp"
#include "core/bench/next_step.hpp"
#include "core/bench/strokes.hpp"

namespace canewright {

// The one place where each gets its name; the page keys its texts on them.
const char* name(Do what);
const char* name(Why why);
const char* name(Trouble trouble);
const char* name(Remedy remedy);
const char* name(Stroke stroke);
const char* name(Wider wider);
const char* name(Unknown unknown);  // of those that every flute has

}  // namespace canewright
