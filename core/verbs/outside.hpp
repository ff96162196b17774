// core/verbs/outside.hpp -- which elements lie beyond the range they were checked for.
#pragma once

#include "core/verbs/answer.hpp"

namespace canewright {

// The bores for which the models have been compared with finite elements [m].
inline constexpr double kBoreMin_m = 0.006;
inline constexpr double kBoreMax_m = 0.025;
// A wall of more than this share of the bore is outside what has been compared.
inline constexpr double kWallToBore = 0.3;

// [{"path","value","limit"}], lengths in mm as the path's key has them; empty where none is. Of a
// finger hole's place `value` is the wood left to its lower neighbour and `limit` the wider of the
// two; of the plug's offset and the sound hole's sizes the nearer end of kWindowRange. Holes are
// those of `answer` where it has any (a layout), else the document's.
// Requires   tube and sound hole.
Json outside_json(const Document& document, const Json& answer);

// An answer of a verb with `outside` in it.
inline void add_outside(const Document& document, Json& json) {
    json["outside"] = outside_json(document, json);
}
inline void add_outside(const Document& document, Answer& answer) {
    if (answer.violations.empty()) add_outside(document, answer.json);
}
template <auto answer>
auto with_outside(const Document& document) {
    auto whole = answer(document);
    add_outside(document, whole);
    return whole;
}

}  // namespace canewright
