// core/flute/geometry.cpp: the bore between its stations.
#include "core/flute/geometry.hpp"

#include <cmath>

namespace canewright {
namespace {

double equal_area_diameter_m(const BoreStation& s) { return std::sqrt(s.diameter_m * s.across_m); }

}  // namespace

double bore_diameter_m(const std::vector<BoreStation>& bore, double at_m) {
    if (at_m <= bore.front().at_m) return equal_area_diameter_m(bore.front());
    for (std::size_t i = 1; i < bore.size(); ++i) {
        if (at_m > bore[i].at_m) continue;
        const double from_m = equal_area_diameter_m(bore[i - 1]);
        const double to_m = equal_area_diameter_m(bore[i]);
        const double span_m = bore[i].at_m - bore[i - 1].at_m;
        return from_m + (to_m - from_m) * (at_m - bore[i - 1].at_m) / span_m;
    }
    return equal_area_diameter_m(bore.back());
}

}  // namespace canewright
