// core/flute/geometry.cpp: the bore between its stations.
#include "core/flute/geometry.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

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

Stretch wide_stretch(const std::vector<BoreStation>& bore, double least_m, double near_m) {
    constexpr double kEndless = std::numeric_limits<double>::infinity();
    Stretch nearest{-kEndless, kEndless};
    double nearest_m = kEndless;
    const auto consider = [&](double from_m, double to_m) {
        const double off_m = std::max({0.0, from_m - near_m, near_m - to_m});
        if (!(off_m < nearest_m)) return;
        nearest_m = off_m;
        nearest = {from_m, to_m};
    };
    double before_m = equal_area_diameter_m(bore.front()), from_m = -kEndless;
    bool wide = before_m >= least_m;
    for (std::size_t i = 1; i < bore.size(); ++i) {
        const double after_m = equal_area_diameter_m(bore[i]);
        if (wide != (after_m >= least_m)) {
            const double share = (least_m - before_m) / (after_m - before_m);
            const double at_m = bore[i - 1].at_m + share * (bore[i].at_m - bore[i - 1].at_m);
            if (wide) consider(from_m, at_m);
            from_m = at_m;
            wide = !wide;
        }
        before_m = after_m;
    }
    if (wide) consider(from_m, kEndless);
    return nearest;
}

}  // namespace canewright
