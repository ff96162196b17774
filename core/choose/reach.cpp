// core/choose/reach.cpp -- what a hand allows.
#include "core/choose/reach.hpp"

#include <algorithm>
#include <cmath>

#include "core/choose/merit.hpp"

namespace canewright {

namespace {

// A layout that rests on a limit is a hair beyond it.
constexpr double kHandHair_m = 1e-8;

}  // namespace

HandLimits limits_of_hand(double span_m, double pad_m) {
    return {pad_m + 2.0 * kBeside_m, 0.5 * span_m, pad_m - 2.0 * kSeal_m};
}

const std::vector<HandSize>& hand_sizes() {
    static const std::vector<HandSize> sizes{{"child of 6 to 8", 0.046, 0.010},
                                             {"child of 9 to 12", 0.056, 0.0115},
                                             {"small grown-up", 0.062, 0.012},
                                             {"grown-up", 0.070, 0.013}};
    return sizes;
}

std::vector<int> hand_of_holes(const Shop& shop, int holes) {
    const int upper = shop.hands.empty() ? holes / 2 : shop.hands.front();
    std::vector<int> hands;
    for (int i = 0; i < holes; ++i) hands.push_back(i < upper ? 0 : 1);
    return hands;
}

std::vector<HandWarning> hand_warnings(const Shop& shop, const std::vector<FingerHole>& holes) {
    using Kind = HandWarning::Kind;
    std::vector<HandWarning> all;
    const bool own_far = std::isfinite(shop.spacing_max_m);
    const bool own_near = shop.spacing_min_m > 0.0 && !shop.own_width_apart;
    const bool own_wide = std::isfinite(shop.diameter_max_m);
    const double far_m = own_far ? shop.spacing_max_m : kStretch_m;
    const double near_m = own_near ? shop.spacing_min_m : kFinger_m;
    const double wide_m = own_wide ? shop.diameter_max_m : kPad_m;
    const std::vector<int> hands = hand_of_holes(shop, static_cast<int>(holes.size()));
    for (std::size_t i = 0; i < holes.size(); ++i) {
        const int hole = static_cast<int>(i);
        if (i > 0) {
            const double way_m = holes[i].at_m - holes[i - 1].at_m;
            if (hands[i] == hands[i - 1] && way_m > far_m + kHandHair_m)
                all.push_back({Kind::far, hole - 1, hole, way_m, far_m, own_far});
            if (way_m < near_m - kHandHair_m)
                all.push_back({Kind::near, hole - 1, hole, way_m, near_m, own_near});
        }
        if (holes[i].diameter_m > wide_m + kHandHair_m)
            all.push_back({Kind::wide, hole, -1, holes[i].diameter_m, wide_m, own_wide});
    }
    return all;
}

}  // namespace canewright
