// core/document/write_log.cpp -- the key `log`.
#include "core/document/write_parts.hpp"

namespace canewright {

namespace {

void put_what(Json& json, const LogEntry& entry) {
    Json part = Json::object();
    switch (entry.what) {
        case Happened::read:
            part["open"] = entry.open;
            part["hz"] = entry.frequency_Hz;
            put(part, "sigma_cents", entry.sigma_cents);
            json["read"] = std::move(part);
            return;
        case Happened::foot:
            put_mm(part, "at_mm", entry.at_m);
            put_mm(part, "error_mm", entry.own_error_m);
            json["foot"] = std::move(part);
            return;
        case Happened::hole:
            part["number"] = entry.number;
            put_mm(part, "at_mm", entry.at_m);
            put_mm(part, "diameter_mm", entry.diameter_m);
            put_mm(part, "bit_mm", entry.bit_m);
            put_mm(part, "error_mm", entry.own_error_m);
            json["hole"] = std::move(part);
            return;
        case Happened::undercut:
            part["number"] = entry.number;
            json["undercut"] = std::move(part);
            return;
        case Happened::narrow:
            part["number"] = entry.number;
            put_mm(part, "diameter_mm", entry.diameter_m);
            put_mm(part, "error_mm", entry.own_error_m);
            json["narrow"] = std::move(part);
            return;
        case Happened::sound_hole:
            put_mm(part, "length_mm", entry.length_m);
            put_mm(part, "width_mm", entry.width_m);
            put_mm(part, "error_mm", entry.own_error_m);
            json["sound_hole"] = std::move(part);
            return;
        case Happened::foot_plug:
            put_mm(part, "opening_mm", entry.foot_plug.opening_m);
            put_mm(part, "thickness_mm", entry.foot_plug.thickness_m);
            put_mm(part, "error_mm", entry.own_error_m);
            json["foot_plug"] = std::move(part);
            return;
        case Happened::block_moved:
            json["block"] = "moved";
            return;
        case Happened::bore_sealed:
            json["bore"] = "sealed";
            return;
        case Happened::breath:
            part["open"] = entry.open;
            if (entry.in_water) {
                part["water_mm"] = typed_water_mm(entry.pressure_Pa);
            } else {
                part["pa"] = entry.pressure_Pa;
            }
            part["what"] = kBlownToWords[static_cast<std::size_t>(entry.blown_to)];
            json["breath"] = std::move(part);
            return;
    }
}

}  // namespace

Json log_json(const std::vector<LogEntry>& log) {
    Json json = Json::array();
    for (const LogEntry& happened : log) {
        Json entry = Json::object();
        put_what(entry, happened);
        put(entry, "room_c", happened.room_C);
        put(entry, "at", happened.time);
        put(entry, "at", happened.time_number);
        put_mm(entry, "error_mm", happened.error_m);
        put(entry, "note", happened.note);
        json.push_back(std::move(entry));
    }
    return json;
}

}  // namespace canewright
