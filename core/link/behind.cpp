// core/link/behind.cpp -- entries behind the walk: made, and taken into the document.
#include "core/link/behind.hpp"

#include <utility>

#include "core/base/base64url.hpp"
#include "core/document/read.hpp"
#include "core/document/write.hpp"

namespace canewright {

namespace {

constexpr int kLow_bits = 7;  // of a length's byte; the highest bit says that more follows
constexpr unsigned kLow = (1U << kLow_bits) - 1;

char low_byte(std::size_t value) { return static_cast<char>(static_cast<unsigned char>(value)); }

// Version 1 knows the pattern of one flute only, and would refuse the flute for another's sake.
bool is_hand(const std::string& pattern) {
    const ParsedJson parsed = parse_json(pattern);
    return !pattern.empty() && parsed.violations.empty() && parsed.tree.contains("between");
}

bool has_voice(const Behind& behind) {
    return behind.ramp_m || behind.ramp_seen || behind.edge_m || behind.block;
}

void walk_tagged(LinkStream& stream, int tag, Behind& behind) {
    stream.is_fine = true;
    if (tag == kVoiceTag) walk_voice(stream, behind);
    if (tag == kBreathTag) walk_breaths(stream, behind);
    if (tag == kFinishTag) walk_finish(stream, behind);
    if (tag == kHandTag) walk_hand(stream, behind);
    if (tag == kBitTag) walk_bits(stream, behind);
    if (tag == kOctavesTag) walk_octaves(stream, behind);
    if (tag == kLiftTag) walk_lift(stream, behind);
}

std::optional<std::string> packed_entry(int tag, Behind& behind) {
    LinkStream stream;
    walk_tagged(stream, tag, behind);
    if (!stream.good()) return {};
    const std::string& content = stream.bytes();
    std::string entry(1, low_byte(static_cast<std::size_t>(tag)));
    std::size_t length = content.size();
    for (; length > kLow; length >>= kLow_bits) entry += low_byte((length & kLow) | (kLow + 1));
    return entry + low_byte(length) + content;
}

// The first of whole entries (are_entries() of link_rest.hpp has looked).
struct Entry {
    std::string whole;
    std::string content;
};
Entry first_entry(const std::string& entries) {
    std::size_t at = 1;
    std::size_t length = 0;
    unsigned more = 1;
    for (int shift = 0; more != 0; shift += kLow_bits) {
        const unsigned byte = static_cast<unsigned char>(entries[at++]);
        length |= static_cast<std::size_t>(byte & kLow) << shift;
        more = byte & ~kLow;
    }
    return {entries.substr(0, at + length), entries.substr(at, length)};
}

// Nothing where no page spells it so.
std::optional<Behind> unpacked(int tag, const Entry& entry) {
    LinkStream stream(entry.content);
    Behind found;
    walk_tagged(stream, tag, found);
    Behind again = found;
    if (!stream.good() || packed_entry(tag, again) != entry.whole) return {};
    return found;
}

}  // namespace

Behind taken_out(Document& document) {
    Behind behind;
    if (document.sound_hole) {
        behind.ramp_m = std::exchange(document.sound_hole->ramp_m, std::nullopt);
        behind.ramp_seen = std::exchange(document.sound_hole->ramp_seen, std::nullopt);
        behind.edge_m = std::exchange(document.sound_hole->edge_m, std::nullopt);
    }
    behind.block = std::exchange(document.block, std::nullopt);
    if (document.song) {
        behind.good_enough_cents = std::exchange(document.song->good_enough_cents, std::nullopt);
        behind.octaves_weight = std::exchange(document.song->octaves_weight, std::nullopt);
        behind.lift_cents = std::exchange(document.song->lift_cents, std::nullopt);
    }
    if (is_hand(document.pattern)) behind.hand = std::exchange(document.pattern, {});
    if (!document.log) return behind;
    std::vector<LogEntry> left;
    for (std::size_t i = 0; i < document.log->size(); ++i) {
        LogEntry& entry = (*document.log)[i];
        if (entry.bit_m) behind.bits.push_back({i, *std::exchange(entry.bit_m, std::nullopt)});
        if (entry.what == Happened::breath) {
            behind.breaths.push_back({i, std::move(entry)});
        } else {
            left.push_back(std::move(entry));
        }
    }
    document.log = std::move(left);
    return behind;
}

bool put_back(Document& document, Behind behind) {
    if (behind.ramp_m || behind.ramp_seen || behind.edge_m) {
        if (!document.sound_hole) return false;
        document.sound_hole->ramp_m = behind.ramp_m;
        document.sound_hole->ramp_seen = behind.ramp_seen;
        document.sound_hole->edge_m = behind.edge_m;
    }
    if (behind.block) document.block = std::move(behind.block);
    if (behind.good_enough_cents || behind.octaves_weight || behind.lift_cents) {
        if (!document.song) return false;
        if (behind.good_enough_cents) document.song->good_enough_cents = behind.good_enough_cents;
        if (behind.octaves_weight) document.song->octaves_weight = behind.octaves_weight;
        if (behind.lift_cents) document.song->lift_cents = behind.lift_cents;
    }
    if (!behind.hand.empty()) {
        if (!document.pattern.empty()) return false;
        document.pattern = std::move(behind.hand);
    }
    for (PlacedEntry& placed : behind.breaths) {
        if (!document.log || placed.at > document.log->size()) return false;
        document.log->insert(document.log->begin() + static_cast<std::ptrdiff_t>(placed.at),
                             std::move(placed.entry));
    }
    for (const PlacedBit& placed : behind.bits) {
        if (!document.log || placed.at >= document.log->size()) return false;
        LogEntry& entry = (*document.log)[placed.at];
        if (entry.what != Happened::hole) return false;
        entry.bit_m = placed.bit_m;
    }
    return true;
}

std::optional<std::string> packed_behind(Behind& behind) {
    std::string all;
    const auto add = [&](int tag) {
        const auto entry = packed_entry(tag, behind);
        if (entry) all += *entry;
        return entry.has_value();
    };
    if (has_voice(behind) && !add(kVoiceTag)) return {};
    if (!behind.breaths.empty() && !add(kBreathTag)) return {};
    if (behind.good_enough_cents && !add(kFinishTag)) return {};
    if (!behind.hand.empty() && !add(kHandTag)) return {};
    if (!behind.bits.empty() && !add(kBitTag)) return {};
    if (behind.octaves_weight && !add(kOctavesTag)) return {};
    if (behind.lift_cents && !add(kLiftTag)) return {};
    return all;
}

std::optional<Document> with_known_entries(Document document) {
    Document own = document;
    const Behind said = taken_out(own);
    int last = 0;  // the tag that was written last: of those that follow none is smaller
    if (has_voice(said)) last = kVoiceTag;
    if (!said.breaths.empty()) last = kBreathTag;
    if (said.good_enough_cents) last = kFinishTag;
    if (!said.hand.empty()) last = kHandTag;
    if (!said.bits.empty()) last = kBitTag;
    if (said.octaves_weight) last = kOctavesTag;
    if (said.lift_cents) last = kLiftTag;
    for (;;) {
        const std::string rest = bytes_of_base64url(document.link_rest).value_or("");
        if (rest.empty()) return document;
        const int tag = static_cast<unsigned char>(rest[0]);
        if (tag <= last || tag < kVoiceTag || tag > kLiftTag) return document;
        const Entry entry = first_entry(rest);
        const auto found = unpacked(tag, entry);
        if (!found) return {};
        Document more = document;
        more.link_rest = base64url(rest.substr(entry.whole.size()));
        if (!put_back(more, *found)) return document;
        ReadDocument read = read_document(write_document(more));
        if (!read.violations.empty()) return document;
        document = std::move(read.document);
        last = tag;
    }
}

}  // namespace canewright
