// core/link/walk.hpp -- the order in which a link packs a document. Only this room
// includes it.
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "core/document/document.hpp"
#include "core/link/stream.hpp"

namespace canewright {

// Packs the document into the stream, or fills it from the stream. Either way it is on the link's
// grid then. `link_rest` is not part of it, nor is what version 1 did not know: behind.hpp.
void walk(LinkStream& stream, Document& document);

// Its larger parts.
void walk_song(LinkStream& stream, SongEntry& song);
void walk_shop(LinkStream& stream, ShopEntry& shop);
void walk_log(LinkStream& stream, std::vector<LogEntry>& log);

// Room, time, error and remark of an entry of a log. A room and a time are told by what is new
// against those of the entry before.
struct LastSaid {
    std::optional<double> room_C;
    std::int64_t ms = 1767225600000;  // the start of 2026
    std::int64_t number = 1767225600;
};
void walk_remarks(LinkStream& stream, LogEntry& entry, LastSaid& last);

// A share, counted in per cent as it is typed.
void walk_percent(LinkStream& stream, std::optional<double>& fraction);

// One of `names`, by its number in `bits` bits; any other text in full. Names are frozen with the
// version: a new one would be packed as text by older pages and has to stay text.
struct Names {
    const char* const* list;
    int count;  // at most 2^bits - 1
    int bits;
};
// A JSON text, or its absence.
void walk_json(LinkStream& stream, std::string& json);
void walk_word(LinkStream& stream, std::string& word, Names names, std::size_t most_bytes);

// A list of plain parts: how many, and each of them. A damaged count can be huge, so that reading
// makes room for one part at a time and ends where the bits do.
template <class Part, class Walk>
void walk_list(LinkStream& stream, std::vector<Part>& list, std::size_t most, int width,
               Walk walk_part) {
    const std::size_t entries = stream.count(list.size(), most, width);
    if (!stream.writing()) list.clear();
    for (std::size_t i = 0; i < entries && stream.good(); ++i) {
        if (!stream.writing()) list.emplace_back();
        walk_part(list[i]);
    }
}

// One bit for several values of which mostly none is there.
template <class... Values>
bool any_of_them(LinkStream& stream, const Values&... values) {
    return stream.flag((values.has_value() || ...));
}

}  // namespace canewright
