// core/flute/geometry.hpp: the flute as plain numbers. Layer: flute. SI units throughout.
#pragma once

#include <optional>
#include <vector>

#include "core/element/voice_shape.hpp"

namespace canewright {

// Every position is measured from the sound hole's upstream edge (where the track ends),
// positive towards the foot.

// Bore at one place; `across_m` is the second diameter where the tube is oval, else the same.
struct BoreStation {
    double at_m = 0.0;
    double diameter_m = 0.0;
    double across_m = 0.0;
};

// A ring left standing where a node was not knocked out fully.
struct Ridge {
    double at_m = 0.0;
    double opening_m = 0.0;
    double thickness_m = 2.0e-3;  // along the tube; a node's wall is a few millimetres
};

// Rectangular opening through the wall. `wall_m` is the wall there (perhaps thinned).
struct SoundHole {
    double length_m = 0.0;  // along the tube
    double width_m = 0.0;   // across it
    double wall_m = 0.0;
    double inertance_factor = 1.0;  // of this very voice over the model's; learnt from readings
    VoiceShape voice{};             // what was cut from it and stands round it
};

// A disc pressed into the foot until it is flush, with a round opening: the bore ends at its inner
// face, the flute at its outer one, which is `foot_m`.
struct FootPlug {
    double opening_m = 0.0;
    double thickness_m = 0.0;
};

// A hole through the wall. `diameter_m` is at the outer surface, where a bit enters;
// `inner_diameter_m` at the bore, where a hot rod or a knife may have widened it.
struct FingerHole {
    double at_m = 0.0;
    double diameter_m = 0.0;
    double inner_diameter_m = 0.0;
    double wall_m = 0.0;
    // Oval: length along the tube over width across it, `diameter_m` being that of the round hole
    // of the same area.
    double aspect = 1.0;
    bool at_fixed = false;        // layout may not move it
    bool diameter_fixed = false;  // layout may not change its size
};

// How a covered hole ends: by a fingertip that enters it a little, or by a rigid flat lid
// at the outer surface (for comparison with calculations).
enum class Fingers { soft, flat };

struct Flute {
    std::vector<BoreStation> bore;  // rising at_m; one entry is a uniform bore
    double wall_m = 0.0;
    double plug_offset_m = 0.0;  // plug face behind the sound hole's upstream edge
    SoundHole sound_hole;
    double foot_m = 0.0;
    std::optional<FootPlug> foot_plug;
    std::optional<Ridge> ridge;
    Fingers fingers = Fingers::soft;
    std::vector<FingerHole> holes;  // from the sound hole to the foot
};

// Numbers of the open holes, 1 nearest the sound hole; the others are covered.
using Fingering = std::vector<int>;

// Diameter of the round bore with the same area at a place [m]; straight lines between stations,
// the end stations' diameters beyond them.
double bore_diameter_m(const std::vector<BoreStation>& bore, double at_m);

inline double bore_diameter_m(const Flute& flute, double at_m) {
    return bore_diameter_m(flute.bore, at_m);
}

// The stretch of a bore round a place, or the nearest to it, where it is at least so wide: endless
// where it is so beyond the last station, and both ways where it is so nowhere.
struct Stretch {
    double from_m, to_m;
};
Stretch wide_stretch(const std::vector<BoreStation>& bore, double least_m, double near_m);

}  // namespace canewright
