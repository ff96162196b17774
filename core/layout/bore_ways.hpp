// core/layout/bore_ways.hpp: how makers find a bore they cannot see into. Layer: layout.
#pragma once

#include <vector>

#include "core/flute/geometry.hpp"

namespace canewright {

// A length found and its standard deviation [m].
struct MeasuredLength {
    double value_m = 0.0;
    double sigma_m = 0.0;
};

// What the tools are good for: one standard deviation each unless said otherwise. Judgement, no
// source, but where one is named; all of them are meant to be the maker's to change.
struct BoreTools {
    double caliper_m = 0.1e-3;     // inside jaws on a rough edge, each end
    double unseen = 0.005;         // of the bore: how far the middle may differ from both ends
    double gauge_step_m = 0.5e-3;  // between a shank that goes and the next that does not
    double syringe_ml = 0.5;       // reading it, all fillings together
    double syringe = 0.02;         // of the volume: its marks (ISO 7886-1 allows 4 %, from memory)
    double scale_g = 0.1;          // the scale's step
    double left_g = 0.2;           // drops left on the wall, meniscus, bubbles
    double water_C = 2.0;          // temperature of the water
    double length_m = 0.5e-3;      // of the filled piece
    double girth_m = 0.3e-3;       // a strip of paper round the tube, marked with a pencil
    double paper_m = 0.1e-3;       // its thickness (office paper)
    double wall_m = 0.1e-3;        // the wall, wanted where only the outside is found
};

// Density of air-free water at 1 atm [kg/m^3].
// Valid    0 to 40 C.
// Error    kWaterDensityError_kg_m3 against the table that metrology uses (M. Tanaka et al.,
//          Metrologia 38 (2001) 301-309).
// Source   G.S. Kell, J. Chem. Eng. Data 20 (1975) 97-105, eq. 16 (from memory, checked against
//          Tanaka's table).
double water_density_kg_m3(double temperature_C);
inline constexpr double kWaterDensityError_kg_m3 = 0.02;

// Mean bore of a tube (equal area, so an oval one too) from the water that fills it.
//   mass_kg   as a scale in air shows it; the air's buoyancy (0.105 %) is taken off
//   length_m  of the filled piece, closed at one end, level full
MeasuredLength bore_from_mass(double mass_kg, double length_m, double water_C,
                              const BoreTools& tools = {});
MeasuredLength bore_from_volume(double volume_m3, double length_m, const BoreTools& tools = {});

// Narrowest place of a bore, between a shank that goes through and one that does not: anything
// between is as likely (standard deviation: the span over the root of 12).
MeasuredLength bore_from_gauges(double go_m, double no_go_m);

// Outside diameter from a strip of paper: its middle lies half its thickness off the tube.
MeasuredLength outer_from_girth(double girth_m, const BoreTools& tools = {});

enum class BoreWay { calipers, gauges, syringe, scale, girth };
const char* name(BoreWay way);

// What a way is worth on one tube.
struct BoreWayWorth {
    BoreWay way;
    double sigma_m;     // of the bore
    double cents;       // root mean square over the notes
    double step_cents;  // the same for one step of the gauges or of the scale; else NaN
};

// All ways, the most precise first.
//   length_m         of the piece that can be filled: from the plug to the tube's end
//   cents_per_bore_m  of each note: what a wider bore does to it (spread()'s slope)
// Model    each way's error as by BoreTools, added up by the root of the sum of squares; a volume
//          gives the diameter by its square root, so half its relative error.
std::vector<BoreWayWorth> bore_ways(double bore_m, double length_m,
                                    const std::vector<double>& cents_per_bore_m,
                                    const BoreTools& tools = {});

}  // namespace canewright
