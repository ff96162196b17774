// core/document/read.cpp -- the top of the document, and its small parts.
#include "core/document/read.hpp"

#include "core/base/units.hpp"
#include "core/document/link_rest.hpp"
#include "core/document/read_parts.hpp"

namespace canewright {

namespace {

ShowEntry read_show(Fields& fields) {
    ShowEntry show;
    show.unit = fields.choice("unit", {"mm", "inch"});
    show.datum = fields.choice("datum", {"centre", "upstream edge", "splitting edge"});
    show.fraction = fields.integer("fraction", {16, 64});
    if (show.fraction && *show.fraction != 16 && *show.fraction != 32 && *show.fraction != 64) {
        fields.faults().add(violation_of_text(Code::unknown_name, fields.path("fraction"),
                                              std::to_string(*show.fraction)));
    }
    return show;
}

AirEntry read_air(Fields& fields) {
    AirEntry air;
    air.room_C = fields.number("room_c", limit::kRoom_C);
    if (const auto percent = fields.number("humidity_percent", limit::kHumidity_percent)) {
        air.humidity_fraction = ratio_from_percent(*percent);
    }
    if (const auto pressure = fields.number("pressure_kpa", limit::kPressure_kPa)) {
        air.pressure_Pa = Pa_from_kPa(*pressure);
    }
    air.sound_speed_m_s = fields.number("sound_speed_m_s", limit::kSoundSpeed_m_s);
    air.density_kg_m3 = fields.number("density_kg_m3", limit::kDensity_kg_m3);
    air.lossless = fields.boolean("lossless");
    // Without friction and heat conduction nothing but these two is needed, and with them more.
    const bool lossless = air.lossless.value_or(false);
    const char* const given[] = {"sound_speed_m_s", "density_kg_m3"};
    const char* const room[] = {"room_c", "humidity_percent", "pressure_kpa"};
    for (const char* key : given) {
        if (lossless && !fields.has(key)) fields.missing(key);
        if (!lossless && fields.has(key) && !fields.has("lossless")) {
            fields.missing("lossless");
            break;
        }
        if (!lossless && fields.has(key)) {
            fields.faults().add(violation(Code::overlap, fields.path(key)));
        }
    }
    for (const char* key : room) {
        if (lossless && fields.has(key)) {
            fields.faults().add(violation(Code::overlap, fields.path(key)));
        }
    }
    return air;
}

PlugEntry read_plug(Fields& fields) {
    return {read_mm(fields, "offset_mm", limit::kPlugOffset_mm),
            read_mm(fields, "thickness_mm", limit::kThickness_mm)};
}

TrackEntry read_track(Fields& fields) {
    return {read_mm(fields, "depth_mm", limit::kTrackDepth_mm),
            read_mm(fields, "width_mm", limit::kTrackWidth_mm),
            read_mm(fields, "length_mm", limit::kTrackLength_mm),
            read_mm(fields, "block_gap_mm", limit::kBlockGap_mm)};
}

ChamberEntry read_chamber(Fields& fields) {
    return {read_mm(fields, "length_mm", limit::kChamber_mm),
            read_mm(fields, "air_hole_mm", limit::kAirHole_mm)};
}

FootPlugEntry read_foot_plug(Fields& fields) {
    return {need_mm(fields, "opening_mm", limit::kPlugOpening_mm),
            need_mm(fields, "thickness_mm", limit::kThickness_mm)};
}

void read_format(Fields& fields) {
    const auto format = fields.text("format", limit::kName_bytes);
    if (!fields.has("format")) fields.missing("format");
    if (format && *format != kFormat) {
        fields.faults().add(violation_of_text(Code::wrong_format, "format", shortened(*format)));
    }
}

// Kept as text: nobody here reads what is inside.
std::string kept(Fields& fields, const char* key) {
    const Json* node = fields.raw(key);
    return node ? node->dump() : std::string();
}

std::string read_link_rest(Fields& fields) {
    const auto rest = fields.text("link_rest", limit::kLinkRest_bytes);
    if (rest && !is_link_rest(*rest)) {
        fields.faults().add(violation(Code::link_damaged, "link_rest"));
    }
    return rest.value_or("");
}

}  // namespace

std::optional<double> read_mm(Fields& fields, const char* key, Range range_mm) {
    const auto value_mm = fields.number(key, range_mm);
    if (!value_mm) return {};
    return m_from_mm(*value_mm);
}

double need_mm(Fields& fields, const char* key, Range range_mm) {
    return m_from_mm(fields.needed(key, range_mm));
}

ReadDocument read_document(const std::string& text) {
    const ParsedJson parsed = parse_json(text);
    if (!parsed.violations.empty()) return {{}, parsed.violations, false};
    Faults faults;
    Fields fields(parsed.tree, "", faults);
    if (faults.count() > 0) return {{}, faults.all(), false};

    Document document;
    read_format(fields);
    document.name = fields.text("name", limit::kName_bytes);
    fields.object("show", [&](Fields& part) { document.show = read_show(part); });
    fields.object("air", [&](Fields& part) { document.air = read_air(part); });
    fields.object("tube", [&](Fields& part) { document.tube = read_tube(part); });
    fields.object("plug", [&](Fields& part) { document.plug = read_plug(part); });
    fields.object("sound_hole", [&](Fields& part) { document.sound_hole = read_sound_hole(part); });
    document.block = read_block(fields);
    fields.object("track", [&](Fields& part) { document.track = read_track(part); });
    fields.object("chamber", [&](Fields& part) { document.chamber = read_chamber(part); });
    document.foot_m = read_mm(fields, "foot_mm", limit::kEnd_mm);
    fields.object("foot_plug", [&](Fields& part) { document.foot_plug = read_foot_plug(part); });
    if (const auto fingers = fields.choice("fingers", {"soft", "flat"})) {
        document.fingers = *fingers == "flat" ? Fingers::flat : Fingers::soft;
    }
    if (fields.has("finger_holes")) document.finger_holes = read_finger_holes(fields);
    if (fields.has("notes")) document.notes = read_notes(fields);
    fields.object("song", [&](Fields& part) { document.song = read_song(part); });
    fields.object("shop", [&](Fields& part) { document.shop = read_shop(part); });
    if (fields.has("pattern")) {
        fields.object("pattern", [](Fields& part) { part.ignore_rest(); });
        document.pattern = kept(fields, "pattern");
    }
    if (fields.has("log")) document.log = read_log(fields);
    if (const auto as = fields.choice("sounds_as", {"standing", "planned"})) {
        document.sounds_as = *as == "planned" ? SoundsAs::planned : SoundsAs::standing;
    }
    document.x = kept(fields, "x");
    document.link_rest = read_link_rest(fields);
    fields.ignore({"binding", "converged", "worst_cents", "cane", "at_c", "loose_mm",
                   "octaves_counted", "outside"});
    fields.close();
    check_document(document, faults);
    return {std::move(document), faults.all(), true};
}

}  // namespace canewright
