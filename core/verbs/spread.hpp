// core/verbs/spread.hpp -- the verb `spread`: what errors do to the notes, as JSON.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "core/layout/tolerance.hpp"
#include "core/verbs/answer.hpp"

namespace canewright {

// The plan in a document with what may be off: with a log too it is the plan that is asked about.
// Absent errors in `shop` are those of ShopErrors; the model's own are ModelErrors.
// Requires  as for `sound`.
SpreadTask spread_task(const Document& document);

// {"notes":[{"open","name","target_hz"?,"hz","off_cents"?,"sigma_cents","shop_cents","model_cents",
// "parts":{"ruler",..},"cents_10_to_30_c"?,"quality"}],"within":{"5":..},"within_shop":{..},
// "ranked":[{"cause","of","path","hole"?,"share","cents"}],"worth_repeating":{"cause","path",
// "cents"}|null,"climate":{"cents_10_to_30_c","per_c"}|null,"bore_ways":[{"way","sigma_mm","cents",
// "step_cents"?,"best"}],"errors":{..as used..}}. A note that does not speak has "hz":null.
Json spread_answer(const Document& document);
Json spread_of(const Document& document, const SpreadTask& task);

// Some builds of the full model, added to those before.
//   before   "sums" of the answer for the builds before these, as JSON text; empty at the start
// {"monte_carlo":{"builds","failed","seed","notes":[{"open","sigma_cents","mean_cents",
// "over_linear"}],"within":{..},"agrees"},"sums":{..}}. `agrees`: every note's standard deviation
// is within kLinearError of the linear one.
Answer builds_answer(const SpreadTask& task, long from, long to, std::uint64_t seed,
                     const std::string& before);

inline constexpr long kMostBuilds = 1000000;

}  // namespace canewright
