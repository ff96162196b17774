// core/verbs/example.cpp -- the example's text, in the format itself so that it is easy to edit.
#include "core/verbs/example.hpp"

#include "core/document/read.hpp"
#include "core/document/write.hpp"

namespace canewright {

namespace {

// A bamboo of a riverside garden, a little narrower towards the foot, wall shaved under the block.
// Hole sizes and spacings for grown-up hands; bits as in a common metric set.
constexpr const char* kText = R"json({
  "format": "canewright/1",
  "name": "Willow bank, autumn thinning",
  "show": {"unit": "mm", "fraction": 32, "datum": "centre"},
  "air": {"room_c": 19, "humidity_percent": 55, "pressure_kpa": 101.325},
  "tube": {
    "material": "bamboo",
    "bore": [{"at_mm": 0, "diameter_mm": 18.2}, {"at_mm": 400, "diameter_mm": 17.8}],
    "wall_mm": 2.9, "end_mm": 420, "above_mm": 150
  },
  "plug": {"offset_mm": 0, "thickness_mm": 10},
  "sound_hole": {"length_mm": 5.5, "width_mm": 9, "wall_mm": 2.5},
  "track": {"depth_mm": 0.9, "width_mm": 9, "length_mm": 18, "block_gap_mm": 0},
  "chamber": {"length_mm": 100, "air_hole_mm": 10},
  "fingers": "soft",
  "song": {
    "lowest": "G4", "scale": "minor pentatonic", "holes": 5,
    "a4_hz": 440, "tolerance_cents": 10, "play_c": 20
  },
  "shop": {
    "diameter_mm": {"min": 4, "max": 9}, "spacing_mm": {"min": 20, "max": 38}, "hands": [2, 3],
    "ruler_mm": 0.3, "bit_mm": 0.1, "bore_mm": 0.1, "wall_mm": 0.1, "temperature_c": 2
  }
})json";

}  // namespace

const Document& example() {
    static const Document document = read_document(kText).document;
    return document;
}

Json example_json() { return document_json(example()); }

}  // namespace canewright
