// core/verbs/link.hpp -- the verbs `link` and `unlink`.
#pragma once

#include <string>

#include "core/verbs/answer.hpp"

namespace canewright {

// {"link"}: the document, log included, as the end of an address.
Answer link_answer(const Document& document);

// The document that a link carries, whatever was pasted round it.
Answer unlink_answer(const std::string& text);

}  // namespace canewright
