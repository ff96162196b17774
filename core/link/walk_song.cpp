// core/link/walk_song.cpp -- song and shop: a named note in ten bits, a bit in five.
#include <algorithm>
#include <cmath>
#include <numeric>

#include "core/base/units.hpp"
#include "core/document/limits.hpp"
#include "core/link/walk.hpp"
#include "core/music/scale.hpp"

namespace canewright {

namespace {

constexpr const char* kScales[] = {"minor pentatonic", "major pentatonic", "natural minor",
                                   "major"};
constexpr const char* kAccidentals[] = {"", "#", "b", "\u266F", "\u266D"};
constexpr int kLetters = 7;  // A to G
constexpr int kOctaves = 8;  // 0 to 7

// Letter, accidental and octave as typed: G4, Bb4, F♯5. In 9 bits; nothing for other spellings.
std::string note_text(std::uint64_t code) {
    const auto letter = code / 64;
    const auto accidental = code / kOctaves % 8;
    if (letter >= kLetters || accidental >= std::size(kAccidentals)) return {};
    return std::string(1, static_cast<char>('A' + static_cast<int>(letter))) +
           kAccidentals[accidental] +
           std::string(1, static_cast<char>('0' + static_cast<int>(code % kOctaves)));
}

std::optional<std::uint64_t> note_code(const std::string& text) {
    for (std::uint64_t code = 0; code < 64 * kLetters; ++code) {
        if (!text.empty() && note_text(code) == text) return code;
    }
    return {};
}

void walk_lowest(LinkStream& stream, LowestEntry& lowest) {
    enum : std::uint64_t { kFree, kHz, kNote, kText };
    const auto code = lowest.note ? note_code(*lowest.note) : std::nullopt;
    const std::uint64_t kind = lowest.is_free        ? kFree
                               : lowest.frequency_Hz ? kHz
                               : code                ? kNote
                                                     : kText;
    switch (stream.bits(kind, 2)) {
        case kFree:
            lowest.is_free = true;
            return;
        case kHz:
            if (!lowest.frequency_Hz) lowest.frequency_Hz.emplace();
            return stream.number(*lowest.frequency_Hz, grid::kPitch_Hz);
        case kNote:
            lowest.note = note_text(stream.bits(code.value_or(0), 9));
            if (lowest.note->empty()) stream.spoil();
            return;
        default:
            if (!lowest.note) lowest.note.emplace();
            return stream.text(*lowest.note, limit::kWord_bytes, 4);
    }
}

void walk_scale(LinkStream& stream, ScaleEntry& scale) {
    if (stream.present(scale.name)) {
        return walk_word(stream, *scale.name, {kScales, 4, 3}, limit::kName_bytes);
    }
    walk_list(stream, scale.step_cents, kMostSteps, 3,
              [&](double& step_cents) { stream.number(step_cents, grid::kStep_cents); });
}

// A bit of an inch set: its size is what its label says, "7/64 in" and the like.
constexpr const char* kInchMarks[] = {" in", "\"", "\u2033", "in"};

std::string inch_label(std::int64_t marks, std::uint64_t style) {
    const std::int64_t shared = std::gcd(marks, std::int64_t{64});
    return std::to_string(marks / shared) + "/" + std::to_string(64 / shared) + kInchMarks[style];
}

struct LastBits {
    std::int64_t hundredths = 0;  // of a millimetre
    std::int64_t marks = 0;       // 64ths of an inch
};

// How its label is written, where it is one that says the size.
std::optional<std::uint64_t> inch_style(const BitEntry& bit) {
    const auto marks = inch_64ths(bit.diameter_m);
    if (!marks || *marks < 1 || !bit.label) return {};
    for (std::uint64_t style = 0; style < std::size(kInchMarks); ++style) {
        if (*bit.label == inch_label(*marks, style)) return style;
    }
    return {};
}

// How many units of 0.01 mm a length is; nothing where it lies between them.
std::optional<std::int64_t> hundredths_of(double length_m) {
    const double exact = mm_from_m(length_m) * 100.0;
    const double whole = std::round(exact);
    if (!(std::abs(whole) < 1e6) || m_from_mm(whole / 100.0) != length_m) return {};
    return static_cast<std::int64_t>(whole);
}

// Sets are mostly sorted, in halves or tenths of a millimetre or 64ths of an inch.
void walk_bit(LinkStream& stream, BitEntry& bit, LastBits& last) {
    enum : std::uint64_t { kHalves, kTenths, k64ths, kAny };
    std::uint64_t kind = kAny;
    std::int64_t further = 0;
    std::uint64_t style = 0;
    if (stream.writing()) {
        // An inch bit keeps its exact size also where lengths are shown in millimetres.
        if (!inch_style(bit)) bit.diameter_m = stream.placed_m(bit.diameter_m, grid::kAcross_mm);
        const auto known = inch_style(bit);
        const auto marks = inch_64ths(bit.diameter_m);
        const auto hundredths = hundredths_of(bit.diameter_m);
        if (known && *marks > last.marks) {
            kind = k64ths;
            further = *marks - last.marks;
            style = *known;
        } else if (!bit.label && hundredths && *hundredths > last.hundredths) {
            further = *hundredths - last.hundredths;
            kind = further % 50 == 0 ? kHalves : further % 10 == 0 ? kTenths : kAny;
        }
    }
    kind = stream.bits(kind, 2);
    if (kind == kAny) {
        stream.length(bit.diameter_m, grid::kAcross_mm);
        if (stream.present(bit.label)) stream.text(*bit.label, limit::kWord_bytes, 4);
        last.hundredths = hundredths_of(bit.diameter_m).value_or(last.hundredths);
        return;
    }
    const std::int64_t unit = kind == kHalves ? 50 : kind == kTenths ? 10 : 1;
    constexpr std::int64_t kMost = 1000000;
    const auto units =
        static_cast<std::int64_t>(stream.whole(static_cast<std::uint64_t>(further / unit), 2));
    if (units <= 0 || units > kMost / unit) return stream.spoil();
    further = units * unit;
    if (kind == k64ths) {
        last.marks += further;
        style = stream.bits(style, 2);
        bit.diameter_m = m_from_inch(static_cast<double>(last.marks) / 64.0);
        bit.label = inch_label(last.marks, style);
    } else {
        last.hundredths += further;
        bit.diameter_m = m_from_mm(static_cast<double>(last.hundredths) / 100.0);
    }
}

void walk_span(LinkStream& stream, SpanEntry& span) {
    stream.length(span.min_m, grid::kAcross_mm);
    stream.length(span.max_m, grid::kAcross_mm);
}

}  // namespace

void walk_song(LinkStream& stream, SongEntry& song) {
    const auto whole = [&](int& value, int width) {
        constexpr std::uint64_t kMost = 1000;
        const std::uint64_t found =
            stream.whole(value < 0 ? kMost + 1 : static_cast<std::uint64_t>(value), width);
        if (found > kMost) stream.spoil();
        value = stream.good() ? static_cast<int>(found) : 0;
    };
    if (stream.present(song.lowest)) walk_lowest(stream, *song.lowest);
    if (stream.present(song.scale)) walk_scale(stream, *song.scale);
    if (stream.present(song.holes)) whole(*song.holes, 3);
    stream.number(song.a4_Hz, grid::kPitch_Hz);
    stream.number(song.tolerance_cents, grid::kError_cents);
    stream.number(song.play_C, grid::kRoom_C);
    stream.number(song.breath, grid::kBreath);
    if (stream.present(song.fingerings)) {
        if (song.holes) stream.holes = std::clamp(*song.holes, 1, static_cast<int>(limit::kHoles));
        walk_list(stream, *song.fingerings, limit::kNotes, 3,
                  [&](Fingering& open) { stream.open(open); });
    }
}

void walk_shop(LinkStream& stream, ShopEntry& shop) {
    if (stream.present(shop.bits)) {
        LastBits last;
        walk_list(stream, *shop.bits, limit::kBits, 4,
                  [&](BitEntry& bit) { walk_bit(stream, bit, last); });
    }
    if (stream.present(shop.diameter)) walk_span(stream, *shop.diameter);
    if (stream.present(shop.spacing)) walk_span(stream, *shop.spacing);
    if (stream.present(shop.hands)) {
        walk_list(stream, *shop.hands, 2, 2, [&](int& hand) {
            const std::int64_t found = stream.either_sign(hand, 4);
            hand = found >= 0 && found <= 1000 ? static_cast<int>(found) : 0;
            if (found != hand) stream.spoil();
        });
    }
    if (!any_of_them(stream, shop.ruler_error_m, shop.bit_error_m, shop.bore_error_m,
                     shop.wall_error_m, shop.sound_hole_error_m, shop.temperature_error_C,
                     shop.risk_fraction)) {
        return;
    }
    stream.length(shop.ruler_error_m, grid::kSlight_mm);
    stream.length(shop.bit_error_m, grid::kSlight_mm);
    stream.length(shop.bore_error_m, grid::kSlight_mm);
    stream.length(shop.wall_error_m, grid::kSlight_mm);
    stream.length(shop.sound_hole_error_m, grid::kSlight_mm);
    stream.number(shop.temperature_error_C, grid::kError_C);
    walk_percent(stream, shop.risk_fraction);
}

}  // namespace canewright
