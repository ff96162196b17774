// core/document/write.hpp -- a Document to the JSON text it came from.
#pragma once

#include <string>

#include "core/document/document.hpp"
#include "core/document/json_text.hpp"

namespace canewright {

// What was read comes back with the same keys and the same numbers (typed.hpp), keys in the order
// of the format. Nothing is added: a key that was absent stays absent.
Json document_json(const Document& document);

// One line. Never throws: bytes that are no UTF-8 become U+FFFD.
std::string json_text(const Json& json);

std::string write_document(const Document& document);

}  // namespace canewright
