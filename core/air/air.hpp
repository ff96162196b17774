// core/air/air.hpp: what the air is like that a tube holds. Layer: air. Includes base only.
#pragma once

namespace canewright {

// A state of moist air.
//   temperature_C       [C]
//   humidity_fraction   relative humidity, 0 to 1
//   co2_fraction        mole fraction of CO2 (fresh air 0.0004)
//   pressure_Pa         static pressure [Pa]
struct AirState {
    double temperature_C = 20.0;
    double humidity_fraction = 0.5;
    double co2_fraction = 0.0004;
    double pressure_Pa = 101325.0;
};

// The properties that the acoustics needs. `lossless` switches friction and heat conduction off
// (for comparison with lossless references); viscosity and conductivity are then not read.
struct Air {
    double sound_speed_m_s = 0.0;
    double density_kg_m3 = 0.0;
    double heat_capacity_ratio = 0.0;        // gamma [-]
    double viscosity_Pa_s = 0.0;             // dynamic [Pa s]
    double thermal_conductivity_W_mK = 0.0;  // [W/(m K)]
    double specific_heat_J_kgK = 0.0;        // at constant pressure [J/(kg K)]
    bool lossless = false;

    double thermal_diffusivity_m2_s() const {
        return thermal_conductivity_W_mK / (density_kg_m3 * specific_heat_J_kgK);
    }
    double prandtl() const {
        return viscosity_Pa_s * specific_heat_J_kgK / thermal_conductivity_W_mK;
    }
};

// Properties of moist air at a state.
//
// Model    density CIPM-2007; sound speed and gamma Cramer 1993; viscosity, conductivity and
//          specific heat as in the standard.
// Valid    15 to 27 C, 60 to 110 kPa, 10 to 90 % humidity (standard); Cramer's fit 0 to 30 C,
//          CO2 up to 0.01. A breath's CO2 (0.02) is an extrapolation: within 0.3 cent of an ideal
//          gas mixture (tests/core/air/air_test.cpp).
// Error    kSoundSpeedError, relative (Cramer's own estimate, quoted from memory).
// Source   IEC 61094-2:2009 Annex F; O. Cramer, J. Acoust. Soc. Am. 93 (1993) 2510-2516;
//          A. Picard et al., Metrologia 45 (2008) 149-155.
// Requires finite values; NaN in gives NaN out.
Air moist_air(const AirState& state);

inline constexpr double kSoundSpeedError = 3e-4;

// Saturation vapour pressure over water [Pa].
// Source   R.S. Davis, Metrologia 29 (1992) 67-70, as in IEC 61094-2:2009 Annex F.
double saturation_pressure_Pa(double temperature_C);

// The breath of a player as it reaches the sound hole.
// Source   temperature 31.4 to 35.4 C and 42 to 91 % humidity exhaled at rest (Mansour et al. 2020,
//          second-hand); CO2 4 % (from memory). Means chosen here: kBreath.
inline constexpr AirState kBreath{34.0, 0.95, 0.04, 101325.0};

// Share of breath in the air of a sounding bore, by moles; the rest is air of the room.
// Source   mid-bore 25 to 28 C in a room of 20 C (J. Coltman, from memory) gives 0.36 to 0.57.
inline constexpr double kBreathShare = 0.45;

// One effective state of the air in a sounding flute: breath and room air mixed.
//   breath_share   0 (room air) to 1 (breath) [-]
// Model    ideal mixing: temperature (equal molar heats), vapour and CO2 by moles; humidity is
//          capped at saturation (the rest condenses on the wall).
// Error    the share is uncertain by about 0.1, which is about 4 cents on every note alike.
AirState sounding_air(const AirState& room, double breath_share = kBreathShare);

}  // namespace canewright
