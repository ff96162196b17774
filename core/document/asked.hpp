// core/document/asked.hpp -- how many holes and which scale a document asks for.
#pragma once

#include <optional>

#include "core/document/document.hpp"
#include "core/music/scale.hpp"

namespace canewright {

// How many finger holes the document plans: those it lists, else those the song asks for.
std::optional<int> planned_holes(const Document& document);

// How many the song asks for, else those that are planned.
std::optional<int> asked_holes(const Document& document);

// The song's scale with its steps; nothing where there is none, or no such name.
std::optional<Scale> asked_scale(const Document& document);

}  // namespace canewright
