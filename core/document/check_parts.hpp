// core/document/check_parts.hpp -- the parts of check.cpp. Only its own files include this.
#pragma once

#include <string>

#include "core/document/document.hpp"
#include "core/document/fields.hpp"
#include "core/document/limits.hpp"

namespace canewright {

void check_block(const Document& document, Faults& faults);
void check_edge(const Document& document, Faults& faults);
void check_finger_holes(const Document& document, Faults& faults);
void check_notes(const Document& document, Faults& faults);
void check_song(const Document& document, Faults& faults);
void check_shop(const Document& document, Faults& faults);
void check_log(const Document& document, Faults& faults);

// Along the tube, that a hole takes at the very least.
inline constexpr double kLeastRoom_m = 2.5e-3 * limit::kHole_mm.min;

// More than a limit, and not by rounding alone: layout presses things against their limits, and its
// answer must be a document.
inline std::string index_text(std::size_t i) { return "[" + std::to_string(i) + "]"; }

inline bool exceeds(double value_m, double limit_m) {
    constexpr double kRounding_m = 1e-10;
    return value_m > limit_m + kRounding_m;
}

// A violation with both numbers in mm.
void add_mm(Faults& faults, Code code, const std::string& path, double value_m, double limit_m);

// The widest inner diameter at a place [m], straight between stations; infinite without a bore.
double widest_bore_m(const Document& document, double at_m);

// The widest finger hole that a place allows [m].
double widest_hole_m(const Document& document, double at_m);

// Each number must name a planned hole.
void check_open(const Fingering& open, const std::string& path, int holes, Faults& faults);

}  // namespace canewright
