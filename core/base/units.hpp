// core/base/units.hpp -- the only file with conversion factors.
//
// Inside the core everything is SI and carries its unit in its name; whoever needs another unit
// converts here. tools/ checks that no factor of 1000, 25.4 or 273.15 appears elsewhere.
// NaN in gives NaN out, everywhere in this file.
#pragma once

#include <cmath>

namespace canewright {

inline constexpr double kPi = 3.14159265358979323846;

// Exact since the international yard and pound agreement of 1959 (also ISO 31-1: 1 in = 25.4 mm).
inline constexpr double kMillimetresPerInch = 25.4;

// Exact by definition of the degree Celsius (BIPM, SI brochure, 9th edition, 2.3.4).
inline constexpr double kZeroCelsius_K = 273.15;

// Of a column of water one millimetre high [Pa]: exact by definition of the conventional millimetre
// of water, 1000 kg/m3 under the standard gravity of 9.80665 m/s2 (NIST SP 811, appendix B.8).
inline constexpr double kPascalsPerWaterMillimetre = 9.80665;

// Exact by definition: 1200 cents are an octave, 100 an equal-tempered semitone.
inline constexpr double kCentsPerOctave = 1200.0;

// Lengths. Divided by 1000 and not multiplied by 0.001: the quotient is the double nearest to the
// true value, so that 53.3 mm becomes the same double as the literal 0.0533.
inline double m_from_mm(double length_mm) { return length_mm / 1000.0; }
inline double mm_from_m(double length_m) { return length_m * 1000.0; }
inline double m_from_cm(double length_cm) { return length_cm / 100.0; }
inline double m_from_inch(double length_inch) { return length_inch * kMillimetresPerInch / 1000.0; }
inline double inch_from_m(double length_m) { return length_m * 1000.0 / kMillimetresPerInch; }

// Volume, mass.
inline double m3_from_ml(double volume_ml) { return volume_ml / 1000000.0; }
inline double ml_from_m3(double volume_m3) { return volume_m3 * 1000000.0; }
inline double kg_from_g(double mass_g) { return mass_g / 1000.0; }
inline double g_from_kg(double mass_kg) { return mass_kg * 1000.0; }

// Temperature, pressure, share.
inline double K_from_C(double temperature_C) { return temperature_C + kZeroCelsius_K; }
inline double C_from_K(double temperature_K) { return temperature_K - kZeroCelsius_K; }
inline double Pa_from_kPa(double pressure_kPa) { return pressure_kPa * 1000.0; }
inline double kPa_from_Pa(double pressure_Pa) { return pressure_Pa / 1000.0; }
inline double Pa_from_water_mm(double column_mm) { return column_mm * kPascalsPerWaterMillimetre; }
inline double water_mm_from_Pa(double pressure_Pa) {
    return pressure_Pa / kPascalsPerWaterMillimetre;
}
inline double ratio_from_percent(double share_percent) { return share_percent / 100.0; }
inline double percent_from_ratio(double share) { return share * 100.0; }

// How far `frequency_Hz` lies above `reference_Hz` [cents]; negative when below. Both > 0.
inline double cents_between(double frequency_Hz, double reference_Hz) {
    return kCentsPerOctave * std::log2(frequency_Hz / reference_Hz);
}

// The frequency that lies `interval_cents` above `frequency_Hz` [Hz].
inline double shifted_Hz(double frequency_Hz, double interval_cents) {
    return frequency_Hz * std::exp2(interval_cents / kCentsPerOctave);
}

}  // namespace canewright
