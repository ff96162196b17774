// core/bench/sayable.hpp: a goal that can be said in the maker's numbers. Layer: bench.
#pragma once

#include "core/bench/belief/history.hpp"

namespace canewright {

// Beliefs far from what was measured (a caliper off by millimetres, a bit by its own size) and
// plans that what was cut has overtaken ask for flutes that no ruler can give. The document takes
// none of them, so the goal is the nearest one that it takes.

// Holes of a plan that are not cut, between those that are: where they lie if they can, else
// spread evenly over the room that is left, as small as it takes.
Flute put_in_order(Flute planned, const Stage& now);

// Sizes of a goal's holes as the maker measures them, kept to what the bore and the neighbours
// allow; what is cut is never said to be smaller than it is. Whether anything had to change.
bool make_sayable(Stage& goal, const Stage& now, const Flute& blank);

}  // namespace canewright
