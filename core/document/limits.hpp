// core/document/limits.hpp -- what counts as a sensible value: the one table.
//
// Every bound is in the unit of its key and included in what is allowed. They catch typing errors
// (a slipped decimal point, inches for millimetres), they do not say where the acoustics is good:
// that is said beside each formula. Bounds are our choice where no reason is given.
#pragma once

#include <cstddef>

namespace canewright {

struct Range {
    double min;
    double max;
};

namespace limit {

// The document as a whole. A full log of 400 entries is about 60 kB.
inline constexpr std::size_t kDocument_bytes = 262144;
inline constexpr std::size_t kDepth = 16;  // the format itself needs 5, the rest is for "x"
inline constexpr std::size_t kName_bytes = 80;
inline constexpr std::size_t kWord_bytes = 40;   // material, label, time
inline constexpr std::size_t kNote_bytes = 400;  // remark in the log
inline constexpr std::size_t kStations = 64;
inline constexpr std::size_t kHoles = 8;
inline constexpr std::size_t kNotes = 32;
inline constexpr std::size_t kBits = 128;  // a whole set of number, letter and inch bits
inline constexpr std::size_t kLogEntries = 400;
inline constexpr std::size_t kLinkRest_bytes = 4096;  // as many letters as a link has

// Air. The lower ends allow a shed in winter and a village at 5000 m.
inline constexpr Range kRoom_C{-10, 50};
inline constexpr Range kHumidity_percent{0, 100};
inline constexpr Range kPressure_kPa{50, 110};
inline constexpr Range kSoundSpeed_m_s{250, 450};
inline constexpr Range kDensity_kg_m3{0.5, 2};

// Tube. Below 3 mm the boundary layers fill the bore at audible pitch.
inline constexpr Range kBore_mm{3, 60};
inline constexpr Range kWall_mm{0.3, 20};
inline constexpr Range kOuter_mm{3.6, 100};
inline constexpr Range kStation_mm{-1000, 2000};  // stations may lie above the sound hole
inline constexpr Range kEnd_mm{20, 2000};
inline constexpr Range kAbove_mm{0, 1000};
inline constexpr Range kRidgeOpening_mm{1, 60};
inline constexpr Range kPlugOffset_mm{0, 50};
inline constexpr Range kThickness_mm{0.3, 100};
inline constexpr Range kPlugOpening_mm{1, 60};

// Sound hole, track, chamber. The wall under the block may be shaved thinner than a tube is.
inline constexpr Range kSoundHoleLength_mm{1, 40};
inline constexpr Range kSoundHoleWidth_mm{1, 60};
inline constexpr Range kThinnedWall_mm{0.2, 20};
// The wall at the sound hole bounds the edge's height (check_voice.cpp).
inline constexpr Range kRamp_mm{0, 60};
inline constexpr Range kEdge_mm{0, 20};
inline constexpr Range kBlockHeight_mm{0.5, 60};
inline constexpr Range kBlockWidth_mm{1, 120};
inline constexpr Range kBlockFront_mm{-3, 10};
inline constexpr Range kSideWallHeight_mm{0.1, 40};
inline constexpr Range kSideWallThickness_mm{0.2, 20};
inline constexpr Range kSideWallLength_mm{0.2, 60};
// A track may be shaved to a slit.
inline constexpr Range kTrackDepth_mm{0.05, 5};
inline constexpr Range kTrackWidth_mm{1, 60};
inline constexpr Range kTrackLength_mm{1, 200};
inline constexpr Range kBlockGap_mm{0, 5};
inline constexpr Range kChamber_mm{5, 1000};
inline constexpr Range kAirHole_mm{1, 60};

// Finger holes.
inline constexpr Range kHoleAt_mm{1, 2000};
inline constexpr double kHoleToBore = 0.95;  // a wider hole would cut the tube's sides open
inline constexpr Range kHole_mm{0.3, kHoleToBore * 60};
inline constexpr Range kHoleAspect{0.5, 2.0};  // where the oval factors were checked
inline constexpr Range kRidgeThickness_mm{0.1, 20};

// Song. A4 spans the standards known from history with room to spare.
inline constexpr Range kFrequency_Hz{20, 10000};
inline constexpr Range kLowest_Hz{40, 5000};
inline constexpr Range kA4_Hz{300, 600};
inline constexpr Range kTolerance_cents{0.1, 100};
inline constexpr Range kGoodEnough_cents{1, 50};
inline constexpr Range kOctavesWeight{0, 1};
inline constexpr Range kBreath{0.65, 1.75};  // where core/jet/sounding holds
inline constexpr Range kLift_cents{-30, 60};
inline constexpr Range kHoleCount{1, static_cast<double>(kHoles)};

// Shop.
inline constexpr Range kSpacing_mm{1, 500};
inline constexpr Range kLengthError_mm{0, 10};
// What a scale makes of a lowest note that floats: said, not asked for.
inline constexpr Range kTarget_Hz{20, 1e6};
inline constexpr Range kTemperatureError_C{0, 20};
// Of cutting too far: none at all would mean not to cut.
inline constexpr Range kRisk_percent{0.1, 50};

// Log.
inline constexpr Range kSigma_cents{0.01, 200};
inline constexpr Range kTime_s{0, 1e15};
// The same pressures twice, in round figures of either key.
inline constexpr Range kBlowing_Pa{1, 10000};
inline constexpr Range kBlowingWater_mm{0.2, 1000};

// Two statements of the wall (wall_mm, and outer_mm less the bore) may differ by a caliper's error.
inline constexpr double kWallsAgree_mm = 0.1;

}  // namespace limit
}  // namespace canewright
