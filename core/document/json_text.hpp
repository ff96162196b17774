// core/document/json_text.hpp -- text to a JSON tree that is safe to walk, or what is wrong with
// it.
#pragma once

#include <nlohmann/json.hpp>
#include <optional>
#include <string>
#include <vector>

#include "core/base/violation.hpp"

namespace canewright {

// Keys keep the order in which they were written.
using Json = nlohmann::ordered_json;

// A figure that may be missing, by what the answer's comment says (the pitch of a note that does
// not speak): null where it is no finite number. Every other number of an answer has to exist.
Json number_json(double value);

// Where in an answer a number stands that does not exist (a JSON pointer), or nothing. The library
// would write it as null, in the place of a mark.
std::optional<std::string> no_number_at(const Json& json);

// A tree of JSON that is known to be safe; discarded where it is none. As the library's parse(),
// which brings a second parser along, for callbacks: 2 kB of the first visit.
Json json_of(const std::string& text);

struct ParsedJson {
    Json tree;
    std::vector<Violation> violations;  // empty: the tree is good
};

// Reads any text. Refused, each with its path where it has one: what is no JSON or no UTF-8
// (`not_json`, value = the byte at which it ends to be), more than limit::kDocument_bytes
// (`too_long`), numbers beyond the range of a double (`not_finite`), nesting beyond limit::kDepth
// and objects with more than kMostMembers keys (`too_large`), a key twice in one object
// (`overlap`: one of the two would be lost without a word).
ParsedJson parse_json(const std::string& text);

// The tree's objects are searched key by key, so that their size has to be bounded.
inline constexpr std::size_t kMostMembers = 256;

// A text that came from outside, for use in an answer: cut at a character boundary.
std::string shortened(const std::string& text);

}  // namespace canewright
