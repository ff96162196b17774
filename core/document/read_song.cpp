// core/document/read_song.cpp -- the keys `song` and `shop`.
#include <limits>

#include "core/base/units.hpp"
#include "core/document/read_parts.hpp"
#include "core/music/pitch_name.hpp"
#include "core/music/scale.hpp"

namespace canewright {

namespace {

constexpr double kInfinity = std::numeric_limits<double>::infinity();

// Which numbers there are, and that none comes twice, is checked with the fingerings (check_song).
constexpr Range kAnyInt{-1e6, 1e6};

LowestEntry read_lowest(const Json& node, const std::string& path, Faults& faults) {
    LowestEntry lowest;
    if (node.is_object()) {
        Fields fields(node, path, faults);
        lowest.frequency_Hz = fields.needed("hz", limit::kLowest_Hz);
        fields.close();
        return lowest;
    }
    const auto text = read_text(node, path, limit::kWord_bytes, faults);
    if (!text) return lowest;
    if (*text == "free") {
        lowest.is_free = true;
        return lowest;
    }
    lowest.note = *text;
    const ParsedNote note = read_note(*text);
    if (!note.ok) faults.add(violation_of_text(note.error, path, shortened(*text)));
    return lowest;
}

ScaleEntry read_scale(const Json& node, const std::string& path, Faults& faults) {
    ScaleEntry scale;
    if (!node.is_object()) {
        scale.name = read_text(node, path, limit::kName_bytes, faults);
        if (scale.name && !find_scale(*scale.name)) {
            faults.add(violation_of_text(Code::unknown_name, path, shortened(*scale.name)));
        }
        return scale;
    }
    Fields fields(node, path, faults);
    const std::size_t before = faults.count();
    const bool is_list = fields.list(
        "cents", kFewestSteps, kMostSteps, [&](const Json& entry, const std::string& here) {
            const auto cents = read_number(entry, here, {-kInfinity, kInfinity}, faults);
            if (cents) scale.step_cents.push_back(*cents);
        });
    if (!fields.has("cents")) fields.missing("cents");
    if (is_list && faults.count() == before) {
        faults.add(check_steps(scale.step_cents, fields.path("cents")));
    }
    fields.close();
    return scale;
}

SpanEntry read_span(Fields& fields, Range range_mm) {
    return {read_mm(fields, "min", range_mm), read_mm(fields, "max", range_mm)};
}

BitEntry read_bit(const Json& node, const std::string& path, Faults& faults) {
    Fields fields(node, path, faults);
    BitEntry bit;
    bit.diameter_m = need_mm(fields, "mm", limit::kHole_mm);
    bit.label = fields.text("label", limit::kWord_bytes);
    fields.close();
    return bit;
}

}  // namespace

SongEntry read_song(Fields& fields) {
    Faults& faults = fields.faults();
    SongEntry song;
    if (const Json* lowest = fields.raw("lowest")) {
        song.lowest = read_lowest(*lowest, fields.path("lowest"), faults);
    }
    if (const Json* scale = fields.raw("scale")) {
        song.scale = read_scale(*scale, fields.path("scale"), faults);
    }
    song.holes = fields.integer("holes", limit::kHoleCount);
    song.a4_Hz = fields.number("a4_hz", limit::kA4_Hz);
    song.tolerance_cents = fields.number("tolerance_cents", limit::kTolerance_cents);
    song.good_enough_cents = fields.number("good_enough_cents", limit::kGoodEnough_cents);
    song.octaves_weight = fields.number("octaves_weight", limit::kOctavesWeight);
    song.play_C = fields.number("play_c", limit::kRoom_C);
    song.breath = fields.number("breath", limit::kBreath);
    song.lift_cents = fields.number("lift_cents", limit::kLift_cents);
    std::vector<Fingering> fingerings;
    if (fields.list("fingerings", 1, limit::kNotes, [&](const Json& node, const std::string& path) {
            fingerings.push_back(
                read_integers(node, path, kAnyInt, limit::kHoles, faults).value_or(Fingering()));
        })) {
        song.fingerings = std::move(fingerings);
    }
    return song;
}

ShopEntry read_shop(Fields& fields) {
    ShopEntry shop;
    std::vector<BitEntry> bits;
    // An empty list would mean that there is nothing to drill with; "any diameter" is no list.
    if (fields.list("bits", 1, limit::kBits, [&](const Json& node, const std::string& path) {
            bits.push_back(read_bit(node, path, fields.faults()));
        })) {
        shop.bits = std::move(bits);
    }
    fields.object("diameter_mm",
                  [&](Fields& part) { shop.diameter = read_span(part, limit::kHole_mm); });
    fields.object("spacing_mm",
                  [&](Fields& part) { shop.spacing = read_span(part, limit::kSpacing_mm); });
    shop.hands = fields.integers("hands", {0, static_cast<double>(limit::kHoles)}, 2);
    if (shop.hands && shop.hands->size() != 2) {
        fields.faults().add(violation(Code::too_small, fields.path("hands"),
                                      static_cast<double>(shop.hands->size()), 2));
    }
    shop.ruler_error_m = read_mm(fields, "ruler_mm", limit::kLengthError_mm);
    shop.bit_error_m = read_mm(fields, "bit_mm", limit::kLengthError_mm);
    shop.bore_error_m = read_mm(fields, "bore_mm", limit::kLengthError_mm);
    shop.wall_error_m = read_mm(fields, "wall_mm", limit::kLengthError_mm);
    shop.sound_hole_error_m = read_mm(fields, "sound_hole_mm", limit::kLengthError_mm);
    shop.temperature_error_C = fields.number("temperature_c", limit::kTemperatureError_C);
    if (const auto percent = fields.number("risk_percent", limit::kRisk_percent)) {
        shop.risk_fraction = ratio_from_percent(*percent);
    }
    return shop;
}

}  // namespace canewright
