// core/document/check_holes.cpp -- violations between values: finger holes, notes, song and shop.
#include <algorithm>
#include <numeric>

#include "core/base/units.hpp"
#include "core/document/asked.hpp"
#include "core/document/check_parts.hpp"
#include "core/document/typed.hpp"
#include "core/music/fingering.hpp"
#include "core/music/pitch_name.hpp"

namespace canewright {

namespace {

// Something under `path` was wrong already: what follows from it would only confuse.
bool faulty(const Faults& faults, const std::string& path) {
    return std::any_of(faults.all().begin(), faults.all().end(), [&](const Violation& each) {
        return each.path.compare(0, path.size(), path) == 0;
    });
}

void check_hole_size(const Document& document, std::size_t i, Faults& faults) {
    const HoleEntry& hole = (*document.finger_holes)[i];
    const std::string path = "finger_holes" + index_text(i);
    const double widest_m = widest_hole_m(document, hole.at_m);
    if (exceeds(hole.diameter_m, widest_m)) {
        add_mm(faults, Code::too_large, path + ".diameter_mm", hole.diameter_m, widest_m);
    }
    if (exceeds(hole.inner_diameter_m.value_or(0.0), widest_m)) {
        add_mm(faults, Code::too_large, path + ".inner_diameter_mm", *hole.inner_diameter_m,
               widest_m);
    }
}

void check_span(const std::optional<SpanEntry>& span, const std::string& path, Faults& faults) {
    if (!span || !span->min_m || !span->max_m || *span->min_m <= *span->max_m) return;
    add_mm(faults, Code::too_small, path + ".max", *span->max_m, *span->min_m);
}

// At least one bit has to fit between two bounds, or no hole could be drilled at all.
void check_bits(const std::vector<BitEntry>& bits, double min_m, double max_m, Faults& faults) {
    double below_m = 0.0;
    double above_m = 0.0;
    for (const BitEntry& bit : bits) {
        if (!exceeds(min_m, bit.diameter_m) && !exceeds(bit.diameter_m, max_m)) return;
        if (bit.diameter_m < min_m) below_m = std::max(below_m, bit.diameter_m);
        if (bit.diameter_m > max_m && (above_m <= 0.0 || bit.diameter_m < above_m)) {
            above_m = bit.diameter_m;
        }
    }
    if (above_m > 0.0) {
        add_mm(faults, Code::too_large, "shop.bits", above_m, max_m);
    } else if (below_m > 0.0) {
        add_mm(faults, Code::too_small, "shop.bits", below_m, min_m);
    }
}

// The song's own range, whether its lowest note has a name or a frequency.
void check_lowest(const Document& document, Faults& faults) {
    const SongEntry& song = *document.song;
    if (!song.lowest || song.lowest->is_free) return;
    const std::string given = song.lowest->note.value_or("");
    const double lowest_Hz =
        song.lowest->frequency_Hz
            ? *song.lowest->frequency_Hz
            : note_Hz(read_note(given).note, song.a4_Hz.value_or(kStandardA4_Hz));
    const std::optional<Scale> scale = asked_scale(document);
    // What is played: with more holes than steps a scale goes on past its last one.
    double top_cents = scale ? scale->step_cents.back() : 0.0;
    if (const std::optional<int> holes = asked_holes(document); scale && holes) {
        const auto steps = resolve_fingerings(*scale, *holes, song.fingerings).steps;
        if (!steps.empty()) top_cents = steps.back().step_cents;
    }
    const double most_Hz =
        std::min(limit::kLowest_Hz.max, shifted_Hz(limit::kFrequency_Hz.max, -top_cents));
    if (!(lowest_Hz >= limit::kLowest_Hz.min)) {
        faults.add({Code::too_small, "song.lowest", lowest_Hz, limit::kLowest_Hz.min, given});
    } else if (!(lowest_Hz <= most_Hz)) {
        faults.add({Code::too_large, "song.lowest", lowest_Hz, most_Hz, given});
    }
}

}  // namespace

void check_open(const Fingering& open, const std::string& path, int holes, Faults& faults) {
    for (std::size_t i = 0; i < open.size(); ++i) {
        if (open[i] >= 1 && open[i] <= holes) continue;
        faults.add(violation(Code::bad_hole_number, path + index_text(i), open[i], holes));
    }
}

void check_finger_holes(const Document& document, Faults& faults) {
    if (!document.finger_holes) return;
    const std::vector<HoleEntry>& holes = *document.finger_holes;
    for (std::size_t i = 0; i < holes.size(); ++i) {
        check_hole_size(document, i, faults);
        const std::string path = "finger_holes" + index_text(i) + ".at_mm";
        double least_m = 0.5 * holes[i].diameter_m;  // from the edge of what lies above
        if (i > 0) {
            if (holes[i].at_m <= holes[i - 1].at_m) {
                add_mm(faults, Code::out_of_order, path, holes[i].at_m, holes[i - 1].at_m);
                continue;
            }
            least_m += holes[i - 1].at_m + 0.5 * holes[i - 1].diameter_m;
        } else if (document.sound_hole) {
            least_m += document.sound_hole->length_m;
        }
        if (exceeds(least_m, holes[i].at_m)) {
            add_mm(faults, Code::overlap, path, holes[i].at_m, least_m);
        }
    }
}

void check_notes(const Document& document, Faults& faults) {
    if (!document.notes) return;
    const int holes = planned_holes(document).value_or(static_cast<int>(limit::kHoles));
    for (std::size_t i = 0; i < document.notes->size(); ++i) {
        check_open((*document.notes)[i].open, "notes" + index_text(i) + ".open", holes, faults);
    }
}

void check_song(const Document& document, Faults& faults) {
    if (!document.song || faulty(faults, "song.")) return;
    const SongEntry& song = *document.song;
    check_lowest(document, faults);
    const std::optional<int> holes = asked_holes(document);
    const std::optional<Scale> scale = asked_scale(document);
    if (!scale || !holes || *holes < kFewestHoles) return;
    faults.add(resolve_fingerings(*scale, *holes, song.fingerings).violations);
}

void check_shop(const Document& document, Faults& faults) {
    if (!document.shop) return;
    const ShopEntry& shop = *document.shop;
    check_span(shop.diameter, "shop.diameter_mm", faults);
    check_span(shop.spacing, "shop.spacing_mm", faults);
    const std::optional<int> holes = asked_holes(document);
    if (shop.hands && shop.hands->size() == 2 && holes && !faulty(faults, "song.holes")) {
        const int sum = std::accumulate(shop.hands->begin(), shop.hands->end(), 0);
        if (sum != *holes) {
            faults.add(violation(sum < *holes ? Code::too_small : Code::too_large, "shop.hands",
                                 sum, *holes));
        }
    }
    if (!shop.bits || faulty(faults, "shop.")) return;
    const SpanEntry span = shop.diameter.value_or(SpanEntry{});
    const double widest_m = widest_hole_m(document, 0.0);
    check_bits(*shop.bits, span.min_m.value_or(0.0),
               std::min(span.max_m.value_or(widest_m), widest_m), faults);
}

}  // namespace canewright
