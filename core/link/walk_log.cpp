// core/link/walk_log.cpp -- what happened, each entry told by what is new against the
// last.
#include <cmath>
#include <cstring>
#include <iterator>

#include "core/document/limits.hpp"
#include "core/link/time.hpp"
#include "core/link/walk.hpp"

namespace canewright {

namespace {

constexpr Happened kHappened[] = {
    Happened::read,      Happened::foot,        Happened::hole,
    Happened::undercut,  Happened::narrow,      Happened::sound_hole,
    Happened::foot_plug, Happened::block_moved, Happened::bore_sealed};

std::uint64_t number_of(Happened what) {
    std::uint64_t number = 0;
    while (number < std::size(kHappened) && kHappened[number] != what) ++number;
    return number;
}

void walk_number(LinkStream& stream, int& number) {
    constexpr std::int64_t kMost = 1000000;  // what read_document() takes for a hole's number
    const std::int64_t found = stream.either_sign(number, 4);
    if (found < -kMost || found > kMost) stream.spoil();
    number = stream.good() ? static_cast<int>(found) : 0;
}

void walk_what(LinkStream& stream, LogEntry& entry) {
    const auto which = stream.bits(number_of(entry.what), 4);
    if (which >= std::size(kHappened)) return stream.spoil();
    entry.what = kHappened[which];
    switch (entry.what) {
        case Happened::read:
            stream.open(entry.open);
            stream.number(entry.frequency_Hz, grid::kPitch_Hz);
            return stream.number(entry.sigma_cents, grid::kError_cents);
        case Happened::foot:
            stream.length(entry.at_m, grid::kAlong_mm);
            return stream.length(entry.own_error_m, grid::kSlight_mm);
        case Happened::hole:
            walk_number(stream, entry.number);
            stream.length(entry.at_m, grid::kAlong_mm);
            stream.length(entry.diameter_m, grid::kAcross_mm);
            return stream.length(entry.own_error_m, grid::kSlight_mm);
        case Happened::undercut:
            return walk_number(stream, entry.number);
        case Happened::narrow:
            walk_number(stream, entry.number);
            stream.length(entry.diameter_m, grid::kAcross_mm);
            return stream.length(entry.own_error_m, grid::kSlight_mm);
        case Happened::sound_hole:
            stream.length(entry.length_m, grid::kAcross_mm);
            stream.length(entry.width_m, grid::kAcross_mm);
            return stream.length(entry.own_error_m, grid::kSlight_mm);
        case Happened::foot_plug:
            stream.length(entry.foot_plug.opening_m, grid::kAcross_mm);
            stream.length(entry.foot_plug.thickness_m, grid::kAcross_mm);
            return stream.length(entry.own_error_m, grid::kSlight_mm);
        case Happened::block_moved:
        case Happened::bore_sealed:
            return;
        case Happened::breath:  // came later and travels behind: walk_voice.cpp
            return stream.spoil();
    }
}

void walk_room(LinkStream& stream, LogEntry& entry, LastSaid& last) {
    if (!stream.present(entry.room_C)) return;
    const bool same = last.room_C && stream.placed(*entry.room_C, grid::kRoom_C) == *last.room_C;
    if (stream.flag(same)) {
        if (!last.room_C) return stream.spoil();
        entry.room_C = last.room_C;
    } else {
        stream.number(*entry.room_C, grid::kRoom_C);
        last.room_C = entry.room_C;
    }
}

// As the text is written; or in full.
void walk_text_time(LinkStream& stream, std::string& time, LastSaid& last) {
    constexpr int kBits = 3;
    std::uint64_t form = std::size(kTimeForms);
    std::optional<std::int64_t> ms;
    for (std::uint64_t i = 0; stream.writing() && i < std::size(kTimeForms) && !ms; ++i) {
        ms = time_ms(time, kTimeForms[i]);
        if (ms) form = i;
    }
    form = stream.bits(form, kBits);
    if (form == std::size(kTimeForms)) return stream.text(time, limit::kWord_bytes, 5);
    if (form > std::size(kTimeForms)) return stream.spoil();
    const std::int64_t unit = unit_ms(kTimeForms[form]);
    const std::int64_t base = last.ms / unit;
    const std::int64_t later = stream.either_sign(ms.value_or(0) / unit - base, 8);
    constexpr std::int64_t kMostLater = INT64_C(1) << 50;
    if (later < -kMostLater || later > kMostLater) return stream.spoil();
    // Not past the year 9999, so that the product cannot overflow either.
    constexpr std::int64_t kMost_ms = INT64_C(253402300800000);
    const std::int64_t found = base + later;
    if (found < 0 || found >= kMost_ms / unit) return stream.spoil();
    last.ms = found * unit;
    time = time_text(last.ms, kTimeForms[form]);
}

void walk_number_time(LinkStream& stream, double& time, LastSaid& last) {
    const bool fits = time >= limit::kTime_s.min && time <= limit::kTime_s.max;
    if (stream.writing() && !fits) return stream.spoil();
    const bool is_whole = std::trunc(time) == time;
    if (!stream.flag(is_whole)) {
        std::uint64_t as_bits = 0;
        std::memcpy(&as_bits, &time, sizeof time);
        as_bits = stream.bits(as_bits, 64);
        std::memcpy(&time, &as_bits, sizeof time);
        if (!(time >= limit::kTime_s.min && time <= limit::kTime_s.max)) stream.spoil();
        return;
    }
    const auto given = static_cast<std::int64_t>(time);
    const std::int64_t later = stream.either_sign(given - last.number, 8);
    const double found = static_cast<double>(last.number) + static_cast<double>(later);
    if (!(found >= limit::kTime_s.min && found <= limit::kTime_s.max)) return stream.spoil();
    last.number = static_cast<std::int64_t>(found);
    time = found;
}

}  // namespace

void walk_remarks(LinkStream& stream, LogEntry& entry, LastSaid& last) {
    if (!any_of_them(stream, entry.room_C, entry.time, entry.time_number, entry.error_m,
                     entry.note)) {
        return;
    }
    walk_room(stream, entry, last);
    if (stream.present(entry.time)) {
        walk_text_time(stream, *entry.time, last);
    } else if (stream.present(entry.time_number)) {
        walk_number_time(stream, *entry.time_number, last);
    }
    stream.length(entry.error_m, grid::kSlight_mm);
    if (stream.present(entry.note)) stream.text(*entry.note, limit::kNote_bytes, 6);
}

void walk_log(LinkStream& stream, std::vector<LogEntry>& log) {
    LastSaid last;
    walk_list(stream, log, limit::kLogEntries, 4, [&](LogEntry& entry) {
        walk_what(stream, entry);
        walk_remarks(stream, entry, last);
    });
}

}  // namespace canewright
