// core/link/behind.hpp -- keys that came after version 1 was frozen, packed behind its walk.
//
// Each group of them is an entry under a tag of its own (core/document/link_rest.hpp): a page that
// is older keeps and passes on what it cannot read, and its maker may have changed the rest of the
// flute meanwhile. So an entry leans on nothing outside itself: neither on the unit that is shown,
// nor on how many holes there are, nor on the document's grid. All its numbers keep six decimals
// more than the grids say (LinkStream::is_fine).
//
// Only this room includes it. An entry's content is frozen with the first release that writes it;
// later keys take new tags. The order of tags is the order in the link, those not known come last.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "core/document/document.hpp"
#include "core/link/stream.hpp"

namespace canewright {

// 1 and 200 stand for unknown ones in golden links and tests.
inline constexpr int kVoiceTag = 2;    // ramp, splitting edge, block
inline constexpr int kBreathTag = 3;   // the log's entries of that kind
inline constexpr int kFinishTag = 4;   // song.good_enough_cents
inline constexpr int kHandTag = 5;     // pattern, where several flutes taught it
inline constexpr int kBitTag = 6;      // what drill or rod made the log's holes
inline constexpr int kOctavesTag = 7;  // song.octaves_weight
inline constexpr int kLiftTag = 8;     // song.lift_cents

// An entry of the log, and where in the whole log it stands.
struct PlacedEntry {
    std::size_t at = 0;
    LogEntry entry;
};

// What made the hole that an entry of the log tells of.
struct PlacedBit {
    std::size_t at = 0;
    double bit_m = 0.0;
};

// What of a document travels behind.
struct Behind {
    std::optional<double> ramp_m;
    std::optional<Seen> ramp_seen;
    std::optional<double> edge_m;
    std::optional<BlockEntry> block;
    std::vector<PlacedEntry> breaths;  // in the order of the log
    std::optional<double> good_enough_cents;
    std::string hand;             // JSON text as in Document::pattern; empty where there is none
    std::vector<PlacedBit> bits;  // in the order of the log
    std::optional<double> octaves_weight;
    std::optional<double> lift_cents;
};

// The contents of the entries (walk_voice.cpp).
void walk_voice(LinkStream& stream, Behind& behind);
void walk_breaths(LinkStream& stream, Behind& behind);
void walk_finish(LinkStream& stream, Behind& behind);
void walk_hand(LinkStream& stream, Behind& behind);
void walk_bits(LinkStream& stream, Behind& behind);
void walk_octaves(LinkStream& stream, Behind& behind);
void walk_lift(LinkStream& stream, Behind& behind);

// Takes it out of the document, so that the walk of version 1 can pack what is left.
Behind taken_out(Document& document);
// The other way round. False, and half done, where there is no place for it: a ramp of a sound hole
// that is not there, an entry beyond the end of the log, a finish line, octaves or a lift without
// a song, a bit of what is no hole.
bool put_back(Document& document, Behind behind);

// As entries, and at the same time on its grid; empty where there is none of it. Nothing where a
// number is beyond all grids.
std::optional<std::string> packed_behind(Behind& behind);

// The document with what the first entries of its `link_rest` say, as far as this version knows
// them and they are in the order in which it writes them. An entry that contradicts the rest of the
// document (an older page shortened the log) stays where it is, with all behind it: not lost, and
// no reason to refuse a flute. Nothing where an entry is spelled as no page spells it.
std::optional<Document> with_known_entries(Document document);

}  // namespace canewright
