// core/flute/geometry.cpp: the bore between its stations.
#include "core/flute/geometry.hpp"

#include <algorithm>
#include <cmath>

namespace canewright {
namespace {

double equal_area_diameter_m(const BoreStation& s) { return std::sqrt(s.diameter_m * s.across_m); }

}  // namespace

double bore_diameter_m(const std::vector<BoreStation>& bore, double at_m) {
    if (at_m <= bore.front().at_m) return equal_area_diameter_m(bore.front());
    const auto next = std::lower_bound(
        bore.begin() + 1, bore.end(), at_m,
        [](const BoreStation& station, double place_m) { return station.at_m < place_m; });
    if (next == bore.end()) return equal_area_diameter_m(bore.back());
    const BoreStation& last = *(next - 1);
    const double from_m = equal_area_diameter_m(last), to_m = equal_area_diameter_m(*next);
    return from_m + (to_m - from_m) * (at_m - last.at_m) / (next->at_m - last.at_m);
}

}  // namespace canewright
