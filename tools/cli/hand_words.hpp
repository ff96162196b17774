// tools/cli/hand_words.hpp -- what the verb `hand` found, in words.
#pragma once

#include <string>

namespace canewright {

// Of an answer of run_workshop("hand"), as it comes: a line each for the voice, the holes and the
// breath, and for what is odd or has changed.
std::string hand_words(const std::string& answer);

// Whether a file holds {"documents":..} rather than a flute.
bool is_question(const std::string& text);

}  // namespace canewright
