// core/document/write_parts.hpp -- the parts of write.cpp. Only its own files include this.
#pragma once

#include <optional>

#include "core/document/document.hpp"
#include "core/document/json_text.hpp"
#include "core/document/typed.hpp"

namespace canewright {

Json tube_json(const TubeEntry& tube);
Json sound_hole_json(const SoundHoleEntry& hole);
Json block_json(const BlockEntry& block);
Json hole_json(const HoleEntry& hole);
Json song_json(const SongEntry& song);
Json shop_json(const ShopEntry& shop);
Json log_json(const std::vector<LogEntry>& log);

template <class Value>
void put(Json& json, const char* key, const std::optional<Value>& value) {
    if (value) json[key] = *value;
}

inline void put_mm(Json& json, const char* key, const std::optional<double>& length_m) {
    if (length_m) json[key] = typed_mm(*length_m);
}

}  // namespace canewright
