// tests/support/flutes.hpp: flutes, airs and random numbers that several tests use.
#pragma once

#include <algorithm>
#include <cstdint>
#include <random>

#include "core/air/air.hpp"
#include "core/flute/geometry.hpp"
#include "core/flute/resonance.hpp"
#include "tests/support/table.hpp"

namespace canewright::testing {

// D.H. Keefe, J. Acoust. Soc. Am. 75 (1984) 58-62: air at 26.85 C (rows KEEFE-*).
inline Air keefe_air() {
    Air air;
    air.sound_speed_m_s = check_value("KEEFE-speed").number("value");
    air.density_kg_m3 = check_value("KEEFE-density").number("value");
    air.heat_capacity_ratio = check_value("KEEFE-gamma").number("value");
    air.viscosity_Pa_s = check_value("KEEFE-viscosity").number("value");
    const double root = check_value("KEEFE-sqrt(Prandtl)").number("value");
    air.specific_heat_J_kgK = 1000.0;  // only the Prandtl number matters
    air.thermal_conductivity_W_mK = air.viscosity_Pa_s * air.specific_heat_J_kgK / (root * root);
    return air;
}

inline Air lossless_air(double sound_speed_m_s = 345.0, double density_kg_m3 = 1.18) {
    Air air;
    air.sound_speed_m_s = sound_speed_m_s;
    air.density_kg_m3 = density_kg_m3;
    air.heat_capacity_ratio = 1.4;
    air.lossless = true;
    return air;
}

// A played flute in a room of 20 C.
inline Air played_air() { return moist_air(sounding_air(AirState{})); }

// The same numbers on every machine; the standard's distributions are not.
class Dice {
   public:
    explicit Dice(std::uint32_t seed) : engine_(seed) {}
    double between(double low, double high) {
        return low + (high - low) * static_cast<double>(engine_()) / 4294967296.0;
    }
    int whole(int low, int high) {
        return low + static_cast<int>(engine_() % static_cast<std::uint32_t>(high - low + 1));
    }

   private:
    std::mt19937 engine_;
};

inline FingerHole round_hole(double at_m, double diameter_m, double wall_m) {
    FingerHole hole;
    hole.at_m = at_m;
    hole.diameter_m = hole.inner_diameter_m = diameter_m;
    hole.wall_m = wall_m;
    return hole;
}

// A tube with a sound hole and a plug against its edge; no finger holes.
inline Flute plain_tube(double bore_m, double wall_m, double foot_m) {
    Flute flute;
    flute.bore = {{0.0, bore_m, bore_m}};
    flute.wall_m = wall_m;
    flute.sound_hole = {0.4 * bore_m, 0.55 * bore_m, wall_m};
    flute.foot_m = foot_m;
    return flute;
}

// Any flute a maker might hold: oval or tapered, up to six holes, some undercut.
inline Flute random_flute(Dice& dice) {
    const double bore_m = dice.between(0.006, 0.025);
    const double wall_m = std::min(dice.between(0.0008, 0.005), 0.3 * bore_m);
    Flute flute = plain_tube(bore_m, wall_m, bore_m * dice.between(12.0, 28.0));
    flute.bore.push_back({flute.foot_m, bore_m * dice.between(0.9, 1.1), bore_m});
    flute.plug_offset_m = bore_m * dice.between(0.0, 0.35);
    const int holes = dice.whole(0, 6);
    double at_m = flute.foot_m * dice.between(0.3, 0.5);
    for (int i = 0; i < holes && at_m < flute.foot_m - bore_m; ++i) {
        FingerHole hole = round_hole(at_m, bore_m * dice.between(0.2, 0.6), wall_m);
        hole.inner_diameter_m *= dice.between(1.0, 1.2);
        flute.holes.push_back(hole);
        at_m += bore_m * dice.between(0.9, 1.8);
    }
    return flute;
}

inline Fingering random_fingering(Dice& dice, const Flute& flute) {
    Fingering open;
    for (int i = 1; i <= static_cast<int>(flute.holes.size()); ++i)
        if (dice.whole(0, 1) == 1) open.push_back(i);
    return open;
}

inline double pitch_Hz(const Flute& flute, const Air& air, const Fingering& open,
                       int register_number = 1) {
    return resonance(flute, air, open, register_number).frequency_Hz;
}

}  // namespace canewright::testing
