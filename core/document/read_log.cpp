// core/document/read_log.cpp -- the key `log`: what happened, in order.
#include <algorithm>
#include <iterator>

#include "core/base/units.hpp"
#include "core/document/read_parts.hpp"

namespace canewright {

namespace {

constexpr const char* kHappened[] = {"read",       "foot",      "hole",  "undercut", "narrow",
                                     "sound_hole", "foot_plug", "block", "bore",     "breath"};

constexpr Range kHoleNumber{-1e6, 1e6};  // which numbers there are is checked in check.cpp

int need_number(Fields& fields) {
    if (!fields.has("number")) fields.missing("number");
    return fields.integer("number", kHoleNumber).value_or(0);
}

// A measured size may carry its error beside itself or beside the entry's other remarks.
std::optional<double> read_error(Fields& fields) {
    return read_mm(fields, "error_mm", limit::kLengthError_mm);
}

// In pascals or as a column of water, as the maker's gauge shows it; one of the two.
void read_pressure(Fields& fields, LogEntry& entry) {
    entry.in_water = fields.has("water_mm");
    if (!entry.in_water) {
        entry.pressure_Pa = fields.needed("pa", limit::kBlowing_Pa);
        return;
    }
    entry.pressure_Pa = Pa_from_water_mm(fields.needed("water_mm", limit::kBlowingWater_mm));
    if (fields.raw("pa")) fields.faults().add(violation(Code::overlap, fields.path("pa")));
}

void read_breath(Fields& fields, LogEntry& entry) {
    entry.what = Happened::breath;
    entry.open = need_open(fields);
    read_pressure(fields, entry);
    if (!fields.has("what")) fields.missing("what");
    const auto& words = kBlownToWords;
    if (const auto word = fields.choice("what", {words[0], words[1], words[2]})) {
        const auto at = std::find(std::begin(words), std::end(words), *word) - words;
        entry.blown_to = static_cast<BlownTo>(at);
    }
}

void read_what(Fields& fields, LogEntry& entry) {
    fields.object("read", [&](Fields& part) {
        entry.what = Happened::read;
        entry.open = need_open(part);
        entry.frequency_Hz = part.needed("hz", limit::kFrequency_Hz);
        entry.sigma_cents = part.number("sigma_cents", limit::kSigma_cents);
    });
    fields.object("foot", [&](Fields& part) {
        entry.what = Happened::foot;
        entry.own_error_m = read_error(part);
        entry.at_m = need_mm(part, "at_mm", limit::kEnd_mm);
    });
    fields.object("hole", [&](Fields& part) {
        entry.what = Happened::hole;
        entry.own_error_m = read_error(part);
        entry.number = need_number(part);
        entry.at_m = need_mm(part, "at_mm", limit::kHoleAt_mm);
        entry.diameter_m = read_mm(part, "diameter_mm", limit::kHole_mm);
        entry.bit_m = read_mm(part, "bit_mm", limit::kHole_mm);
    });
    fields.object("undercut", [&](Fields& part) {
        entry.what = Happened::undercut;
        entry.number = need_number(part);
    });
    fields.object("narrow", [&](Fields& part) {
        entry.what = Happened::narrow;
        entry.own_error_m = read_error(part);
        entry.number = need_number(part);
        entry.diameter_m = read_mm(part, "diameter_mm", limit::kHole_mm);
    });
    fields.object("sound_hole", [&](Fields& part) {
        entry.what = Happened::sound_hole;
        entry.own_error_m = read_error(part);
        entry.length_m = need_mm(part, "length_mm", limit::kSoundHoleLength_mm);
        entry.width_m = need_mm(part, "width_mm", limit::kSoundHoleWidth_mm);
    });
    fields.object("foot_plug", [&](Fields& part) {
        entry.what = Happened::foot_plug;
        entry.own_error_m = read_error(part);
        entry.foot_plug.opening_m = need_mm(part, "opening_mm", limit::kPlugOpening_mm);
        entry.foot_plug.thickness_m = read_mm(part, "thickness_mm", limit::kThickness_mm);
    });
    fields.object("breath", [&](Fields& part) { read_breath(part, entry); });
    if (fields.choice("block", {"moved"})) entry.what = Happened::block_moved;
    if (fields.choice("bore", {"sealed"})) entry.what = Happened::bore_sealed;
}

// Exactly one thing happens in an entry, or its place in the order would mean nothing.
void check_one(const Fields& fields, const std::string& path, Faults& faults) {
    double count = 0;
    for (const char* key : kHappened) count += fields.has(key) ? 1 : 0;
    if (count < 1) faults.add(violation(Code::missing, path));
    if (count > 1) faults.add(violation(Code::overlap, path, count, 1));
}

LogEntry read_entry(const Json& node, const std::string& path, Faults& faults) {
    Fields fields(node, path, faults);
    LogEntry entry;
    if (!node.is_object()) return entry;
    read_what(fields, entry);
    check_one(fields, path, faults);
    entry.room_C = fields.number("room_c", limit::kRoom_C);
    if (const Json* at = fields.raw("at")) {
        if (at->is_number()) {
            entry.time_number = fields.number("at", limit::kTime_s);
        } else {
            entry.time = fields.text("at", limit::kWord_bytes);
        }
    }
    entry.error_m = read_error(fields);
    entry.note = fields.text("note", limit::kNote_bytes);
    fields.close();
    return entry;
}

}  // namespace

std::vector<LogEntry> read_log(Fields& fields) {
    std::vector<LogEntry> log;
    fields.list("log", 0, limit::kLogEntries, [&](const Json& node, const std::string& path) {
        log.push_back(read_entry(node, path, fields.faults()));
    });
    return log;
}

}  // namespace canewright
