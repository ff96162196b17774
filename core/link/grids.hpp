// core/link/grids.hpp -- the steps in which a link counts, one grid for each quantity.
//
// Frozen: a link of version 1 is read by these numbers for ever. What a maker types is mostly a
// whole number, a half or one decimal, so that each number says first (two bits) in which of four
// units it is counted; `width` is how many bits are enough for the usual number of them.
#pragma once

#include <cstdint>

namespace canewright {

struct Grid {
    double per_unit;       // steps in one unit of the key
    bool is_signed;        // may be negative
    std::int64_t unit[4];  // in steps, falling, the last is 1
    int width[4];          // bits
};

// How much finer everything is where the plain grid would make a right document wrong.
inline constexpr std::int64_t kFiner = 1000000;

namespace grid {

// Lengths, 0.01 mm: half a step is a tenth of what a caliper in a workshop tells.
inline constexpr Grid kAlong_mm{100, false, {100, 50, 10, 1}, {9, 10, 12, 16}};   // to 655 mm
inline constexpr Grid kStation_mm{100, true, {100, 50, 10, 1}, {9, 10, 12, 16}};  // both ways
inline constexpr Grid kAcross_mm{100, false, {100, 50, 10, 1}, {5, 6, 8, 11}};    // to 20 mm
inline constexpr Grid kSlight_mm{100, false, {100, 50, 10, 1}, {2, 3, 4, 7}};     // to 1.2 mm
// 0.001 Hz: at 300 Hz half of it is 0.003 cent.
inline constexpr Grid kPitch_Hz{1000, false, {1000, 100, 10, 1}, {10, 13, 16, 19}};
// 0.01 cent.
inline constexpr Grid kStep_cents{100, true, {10000, 100, 10, 1}, {4, 11, 14, 17}};
// Both ways, what the breath adds: to 12.7 cents.
inline constexpr Grid kLift_cents{100, true, {100, 50, 10, 1}, {4, 5, 8, 11}};
inline constexpr Grid kError_cents{100, false, {100, 50, 10, 1}, {4, 5, 7, 10}};
// 0.01 C: 0.02 cent.
inline constexpr Grid kRoom_C{100, true, {100, 50, 10, 1}, {5, 6, 9, 12}};
inline constexpr Grid kError_C{100, false, {100, 50, 10, 1}, {2, 3, 5, 8}};
inline constexpr Grid kShare_percent{100, false, {500, 100, 10, 1}, {4, 7, 10, 13}};
// 1 Pa.
inline constexpr Grid kPressure_kPa{1000, false, {1000, 100, 10, 1}, {7, 10, 14, 17}};
// 0.001 m/s and 0.000001 kg/m3: 0.005 cent and less.
inline constexpr Grid kSpeed_m_s{1000, false, {1000, 100, 10, 1}, {9, 12, 15, 19}};
inline constexpr Grid kDensity_kg_m3{1000000, false, {10000, 1000, 100, 1}, {8, 11, 14, 21}};
inline constexpr Grid kBreath{1000, false, {100, 50, 10, 1}, {4, 5, 7, 10}};
// Both ways, a block's front.
inline constexpr Grid kFront_mm{100, true, {100, 50, 10, 1}, {2, 3, 5, 8}};  // to 2.5 mm
// 0.1 Pa.
inline constexpr Grid kBlowing_Pa{10, false, {1000, 100, 10, 1}, {5, 7, 11, 14}};
inline constexpr Grid kAspect{10000, false, {1000, 100, 10, 1}, {4, 7, 10, 14}};

}  // namespace grid
}  // namespace canewright
