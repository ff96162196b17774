// core/api.hpp -- text in, text out: the only header that wasm/ and tools/ include. Layer: api.
//
// Nothing here throws, whatever comes in.
#pragma once

#include <string>

namespace canewright {

// Runs one command on a document.
//
//   verb     sound, layout, fingerings (of the document); example, choices (the text is not read)
//   text     the document, JSON in UTF-8 (document.md)
//   returns  one of {"answer":{..}}, {"violations":[{"code","path","value","limit"},..]} where the
//            document is wrong, {"fault":".."} where we are, or where there is no such verb
std::string run(const std::string& verb, const std::string& text);

// A typed length.
//
//   unit     "mm" or "inch": the ruler meant where the text names none
//   returns  {"mm":53.18125,"unit":"inch"} (the unit in which it was written), or {"violations":..}
//            with path "length", or path "unit" for another unit
std::string read_length_json(const std::string& text, const std::string& unit);

// A length to show: "53.3" (mm, one decimal), "2 3/32″" (inches, nearest 1/fraction).
//
//   returns  empty when not finite or the unit is neither "mm" nor "inch"
std::string write_length_text(double value_mm, const std::string& unit, int fraction);

}  // namespace canewright
