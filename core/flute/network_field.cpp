// core/flute/network_field.cpp: pressure and flow along the bore.
#include <cmath>

#include "core/flute/network.hpp"

namespace canewright {

std::vector<FieldPlace> Network::field(double frequency_Hz, double step_m) const {
    const State here = state(frequency_Hz);
    const Complex per_flow = inverse(here.openings.back().u) * -1.0;
    std::vector<FieldPlace> all;
    double at_m = port_m_.back();
    for (const Step& step : steps_)
        if (step.kind == Step::Kind::piece) at_m += step.length_m;
    const auto add = [&](double place_m, Complex p, Complex u) {
        all.push_back({place_m, p * per_flow, u * per_flow});
    };
    for (std::size_t n = 0; n < steps_.size(); ++n) {
        const Step& step = steps_[n];
        const Plane& plane = here.planes[n];
        add(at_m, plane.p, plane.u);
        if (step.kind != Step::Kind::piece) continue;
        const LineConstants& line = here.solved[n].line;
        const int parts = static_cast<int>(std::ceil(step.length_m / step_m));
        for (int k = 1; k < parts; ++k) {
            const double share = static_cast<double>(k) / parts, way_m = share * step.length_m;
            const double radius_m =
                step.far_radius_m + share * (step.near_radius_m - step.far_radius_m);
            const TwoPort m = step.near_radius_m == step.far_radius_m
                                  ? cylinder(line, way_m)
                                  : frustum(line, radius_m, step.far_radius_m, way_m);
            add(at_m - way_m, m.a * plane.p + m.b * plane.u, m.c * plane.p + m.d * plane.u);
        }
        at_m -= step.length_m;
    }
    add(at_m, here.planes.back().p, here.planes.back().u);
    return all;
}

}  // namespace canewright
