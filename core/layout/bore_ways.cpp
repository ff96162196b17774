// core/layout/bore_ways.cpp: conversions, and what each way is worth.
#include "core/layout/bore_ways.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "core/base/stable_order.hpp"
#include "core/base/units.hpp"

namespace canewright {
namespace {

constexpr double kWaterExpansion_1_C = 2.1e-4;  // at 20 C, slope of water_density_kg_m3()
// Air 1.2 kg/m^3 over water 998, less over a scale's steel weights of 8000 (conventional mass,
// OIML D 28, from memory).
constexpr double kBuoyancy = 1.2 / 998.0 - 1.2 / 8000.0;
constexpr double kUniform = 0.28867513459481287;  // 1 / sqrt(12): one step, evenly spread

double diameter_m(double volume_m3, double length_m) {
    return std::sqrt(4.0 * volume_m3 / (kPi * length_m));
}

// One weighing empty, one full, each read to the scale's step.
double mass_sigma_kg(const BoreTools& tools) {
    return kg_from_g(std::hypot(std::sqrt(2.0) * kUniform * tools.scale_g, tools.left_g));
}

double volume_sigma_m3(double volume_m3, const BoreTools& tools) {
    return std::hypot(m3_from_ml(tools.syringe_ml), tools.syringe * volume_m3);
}

// Half of the relative errors of volume and length.
double filled_sigma_m(double bore_m, double volume_error, double length_m, const BoreTools& tools) {
    return 0.5 * bore_m * std::hypot(volume_error, tools.length_m / length_m);
}

double volume_m3(double bore_m, double length_m) { return 0.25 * kPi * bore_m * bore_m * length_m; }

double outer_sigma_m(const BoreTools& tools) {
    return std::hypot(tools.girth_m / kPi, 0.5 * tools.paper_m);
}

double weighed_error(double mass_kg, const BoreTools& tools) {
    return std::hypot(mass_sigma_kg(tools) / mass_kg, kWaterExpansion_1_C * tools.water_C);
}

}  // namespace

double water_density_kg_m3(double t) {
    return (999.83952 +
            t * (16.945176 + t * (-7.9870401e-3 +
                                  t * (-46.170461e-6 + t * (105.56302e-9 - 280.54253e-12 * t))))) /
           (1.0 + 16.879850e-3 * t);
}

MeasuredLength bore_from_mass(double mass_kg, double length_m, double water_C,
                              const BoreTools& tools) {
    const double volume = mass_kg * (1.0 + kBuoyancy) / water_density_kg_m3(water_C);
    const double bore_m = diameter_m(volume, length_m);
    return {bore_m, filled_sigma_m(bore_m, weighed_error(mass_kg, tools), length_m, tools)};
}

MeasuredLength bore_from_volume(double volume, double length_m, const BoreTools& tools) {
    const double bore_m = diameter_m(volume, length_m);
    return {bore_m,
            filled_sigma_m(bore_m, volume_sigma_m3(volume, tools) / volume, length_m, tools)};
}

MeasuredLength bore_from_gauges(double go_m, double no_go_m) {
    return {0.5 * (go_m + no_go_m), kUniform * (no_go_m - go_m)};
}

MeasuredLength outer_from_girth(double girth_m, const BoreTools& tools) {
    return {girth_m / kPi - tools.paper_m, outer_sigma_m(tools)};
}

const char* name(BoreWay way) {
    switch (way) {
        case BoreWay::calipers:
            return "calipers";
        case BoreWay::gauges:
            return "gauges";
        case BoreWay::syringe:
            return "syringe";
        case BoreWay::scale:
            return "scale";
        case BoreWay::girth:
            return "girth";
    }
    return "";
}

std::vector<BoreWayWorth> bore_ways(double bore_m, double length_m,
                                    const std::vector<double>& cents_per_bore_m,
                                    const BoreTools& tools) {
    double sum = 0.0;
    for (const double each : cents_per_bore_m) sum += each * each;
    const double slope =
        std::sqrt(sum / std::max<double>(1.0, static_cast<double>(cents_per_bore_m.size())));
    const double none = std::numeric_limits<double>::quiet_NaN();
    const double volume = volume_m3(bore_m, length_m);
    const double mass_kg = volume * water_density_kg_m3(20.0);
    const double unseen_m = tools.unseen * bore_m;
    const double scale_step_m = 0.5 * bore_m * kg_from_g(tools.scale_g) / mass_kg;

    std::vector<BoreWayWorth> ways;
    const auto add = [&](BoreWay way, double sigma_m, double step_m) {
        ways.push_back({way, sigma_m, slope * sigma_m, slope * step_m});
    };
    add(BoreWay::calipers, std::hypot(tools.caliper_m / std::sqrt(2.0), unseen_m), none);
    // a shank finds the narrowest place, not the mean
    add(BoreWay::gauges, std::hypot(kUniform * tools.gauge_step_m, unseen_m), tools.gauge_step_m);
    add(BoreWay::syringe,
        filled_sigma_m(bore_m, volume_sigma_m3(volume, tools) / volume, length_m, tools), none);
    add(BoreWay::scale, filled_sigma_m(bore_m, weighed_error(mass_kg, tools), length_m, tools),
        scale_step_m);
    add(BoreWay::girth, std::hypot(outer_sigma_m(tools), 2.0 * tools.wall_m), none);
    stable_order(
        ways, [](const BoreWayWorth& a, const BoreWayWorth& b) { return a.sigma_m < b.sigma_m; });
    return ways;
}

}  // namespace canewright
