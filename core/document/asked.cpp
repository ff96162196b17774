// core/document/asked.cpp -- the song's wishes, or what stands in for them.
#include "core/document/asked.hpp"

namespace canewright {

std::optional<int> planned_holes(const Document& document) {
    if (document.finger_holes) return static_cast<int>(document.finger_holes->size());
    return document.song ? document.song->holes : std::nullopt;
}

std::optional<int> asked_holes(const Document& document) {
    return document.song && document.song->holes ? document.song->holes : planned_holes(document);
}

std::optional<Scale> asked_scale(const Document& document) {
    if (!document.song || !document.song->scale) return {};
    const ScaleEntry& scale = *document.song->scale;
    if (!scale.name) return Scale{"", scale.step_cents};
    const Scale* named = find_scale(*scale.name);
    if (!named) return {};
    return *named;
}

}  // namespace canewright
