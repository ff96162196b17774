// core/verbs/pattern.hpp -- the verb `pattern`: what a finished flute has taught.
#pragma once

#include "core/document/document.hpp"
#include "core/document/json_text.hpp"

namespace canewright {

// The pattern of a finished flute: {"of":name,"unknowns":[..],"mean":[..],"covariance":[[..]],
// "readings":n}. Carried are the voice, the air, the edges of holes and the breath; bore and wall
// are each tube's own. Relative departures, for the breath cents per octave.
// Requires as build_of().
Json pattern_answer(const Document& document);

// Five digits: a belief is no surer than that, and a link that carries it is short.
double shortly(double value);

}  // namespace canewright
