// core/verbs/hand.hpp -- the verb `hand`: what several finished flutes have taught.
#pragma once

#include <string>

#include "core/verbs/answer.hpp"

namespace canewright {

// To {"documents":[..]}, oldest first, each with a log that has readings: {"of":[names],"flutes",
// "readings","unknowns","mean","between","covariance","odd":[..],"changed":[..],"converged"},
// which the key `pattern` of a document takes as it is (core/hand/pool.hpp says what it means).
//
// unknowns   those of the verb `pattern`; relative departures, for the breath cents per octave
// covariance of `mean`; of one flute round it: `between`. A flute's own bands are what both give
// burn       {"mean_mm","sigma_mm" (of the mean),"between_mm" (of one flute round it),"holes"}: how
//            much wider than its drill or rod a hole comes out. Only where logs have both sizes
// odd        {"flute" (from 0),"of","unknown","by","chance"}: unlike the others, so that it hardly
//            counted
// changed    none or one {"after" (flutes),"unknown","by","sigma"}: from then on otherwise
// Refused    what is wrong with a document, with the path documents[n]...; `needs` at
//            documents[n].log where it has no reading of its voice; more than kMostTaught
Answer hand_answer(const std::string& text);

}  // namespace canewright
