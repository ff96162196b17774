// core/document/example.hpp -- the flute that the page opens with.
#pragma once

#include "core/document/document.hpp"

namespace canewright {

// A complete document, invented: every key that the page can change is written out. Its layout
// solves with nothing binding (tests/core/document/example_test.cpp).
const Document& example();

}  // namespace canewright
