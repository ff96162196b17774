// core/verbs/choose/drills.hpp -- the verb `drills`: the sizes in which drills are sold, to tick.
#pragma once

#include "core/document/json_text.hpp"

namespace canewright {

// {"sets":[{"name":"metric"|"inch fractions"|"numbers"|"letters","bits":[{"mm","label"}]}]}: each
// as `shop.bits` of a document has it; from 3 to 12.7 mm (core/choose/drills).
Json drills_answer();

}  // namespace canewright
