// core/verbs/example.hpp -- the flute that the page opens with.
#pragma once

#include "core/document/document.hpp"
#include "core/document/json_text.hpp"

namespace canewright {

// A complete document, invented: every key that the page can change is written out. Its layout
// solves with nothing binding (tests/core/verbs/example_test.cpp).
const Document& example();
// The verb `example`.
Json example_json();

}  // namespace canewright
