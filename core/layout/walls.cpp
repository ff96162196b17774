// core/layout/walls.cpp: the limits of hands, tools and tube as rows of A x <= b.
#include <algorithm>
#include <cmath>
#include <utility>

#include "core/layout/problem.hpp"

namespace canewright {

const char* name(Limit limit) {
    switch (limit) {
        case Limit::spacing_min:
            return "spacing_min";
        case Limit::spacing_max:
            return "spacing_max";
        case Limit::diameter_min:
            return "diameter_min";
        case Limit::diameter_max:
            return "diameter_max";
        case Limit::bits:
            return "bits";
        case Limit::edge:
            return "edge";
        case Limit::sound_hole:
            return "sound_hole";
        case Limit::foot_clearance:
            return "foot_clearance";
        case Limit::tube_end:
            return "tube_end";
        case Limit::fixed:
            return "fixed";
    }
    return "";
}

void Problem::build_walls(const std::optional<Wall>& left_out) {
    std::vector<Eigen::RowVectorXd> rows;
    std::vector<double> bounds;
    const int holes = task_.hole_count;

    // A sum of quantities (each a moving number, or held still) at most a bound; all in metres.
    struct Term {
        Kind kind;
        int hole;
        double factor;
    };
    const auto still_m = [this](Kind kind, int hole) {
        if (kind == Kind::foot) return task_.flute.foot_m;
        const FingerHole& h = task_.flute.holes[static_cast<std::size_t>(hole)];
        return kind == Kind::at ? h.at_m : h.diameter_m;
    };
    const auto wall = [&](Limit limit, int hole, const std::vector<Term>& terms, double bound_m) {
        if (!std::isfinite(bound_m)) return;
        if (left_out && left_out->limit == limit && left_out->hole == hole) return;
        Eigen::RowVectorXd row = Eigen::RowVectorXd::Zero(size());
        for (const Term& t : terms) {
            bool moves = false;
            for (Eigen::Index n = 0; n < size(); ++n) {
                const Number& number = kinds_[static_cast<std::size_t>(n)];
                if (number.kind != t.kind || number.hole != t.hole) continue;
                row(n) += t.factor * scale_m(n);
                moves = true;
            }
            if (!moves) bound_m -= t.factor * still_m(t.kind, t.hole);
        }
        const double length = row.norm();
        if (length == 0.0) return;  // nothing to move: not a matter for the layout
        rows.push_back(row / length);
        bounds.push_back(bound_m / length);
        walls_.push_back({limit, hole});
    };
    const auto at = [](int hole, double factor) { return Term{Kind::at, hole, factor}; };
    const auto diameter = [](int hole, double factor) {
        return Term{Kind::diameter, hole, factor};
    };
    const auto foot = [](double factor) { return Term{Kind::foot, -1, factor}; };

    const Shop& shop = task_.shop;
    double smallest_m = std::max(shop.diameter_min_m, kSmallestHole * bore_m_);
    double largest_m = std::min(shop.diameter_max_m, kLargestHole * bore_m_);
    if (!shop.bits_m.empty()) {
        const auto [least, most] = std::minmax_element(shop.bits_m.begin(), shop.bits_m.end());
        smallest_m = std::max(smallest_m, *least);
        largest_m = std::min(largest_m, *most);
    }
    // Two holes are of one hand unless the split lies between them.
    const auto same_hand = [&shop](int upper) {
        int sum = 0;
        for (int count : shop.hands) {
            sum += count;
            if (sum == upper + 1) return false;
        }
        return true;
    };

    const double window_m = task_.flute.sound_hole.length_m;
    const auto& disc = task_.flute.foot_plug;
    const double disc_m = disc ? disc->thickness_m : 0.0;
    for (int i = 0; i < holes; ++i) {
        const double cut_m = static_cast<std::size_t>(i) < task_.cut_diameter_m.size()
                                 ? task_.cut_diameter_m[static_cast<std::size_t>(i)]
                                 : 0.0;
        wall(Limit::diameter_min, i, {diameter(i, -1.0)}, -std::max(smallest_m, cut_m));
        wall(Limit::diameter_max, i, {diameter(i, 1.0)}, std::max(largest_m, cut_m));
        // with one limit left out, the model's own range still holds
        if (left_out && left_out->hole == i) {
            if (left_out->limit == Limit::diameter_min)
                wall(Limit::fixed, -2, {diameter(i, -1.0)}, -0.5 * kSmallestHole * bore_m_);
            if (left_out->limit == Limit::diameter_max)
                wall(Limit::fixed, -2, {diameter(i, 1.0)}, 0.95 * bore_m_);
        }
        if (i == 0)
            wall(Limit::sound_hole, i, {at(i, -1.0), diameter(i, 0.5)},
                 -window_m - kSoundHoleClearance_bores * bore_m_);
        if (i == holes - 1)
            wall(Limit::foot_clearance, i, {at(i, 1.0), diameter(i, 0.5), foot(-1.0)},
                 -kFootClearance_bores * bore_m_ - disc_m);
        if (i + 1 == holes) continue;
        wall(Limit::edge, i + 1,
             {at(i, 1.0), at(i + 1, -1.0), diameter(i, 0.5), diameter(i + 1, 0.5)}, -kBridge_m);
        wall(Limit::spacing_min, i + 1, {at(i, 1.0), at(i + 1, -1.0)},
             shop.spacing_min_m > 0.0 ? -shop.spacing_min_m : kNoLimit);
        if (same_hand(i))
            wall(Limit::spacing_max, i + 1, {at(i, -1.0), at(i + 1, 1.0)}, shop.spacing_max_m);
    }
    wall(Limit::tube_end, -1, {foot(1.0)}, task_.end_m);
    wall(Limit::foot_clearance, -1, {foot(-1.0)}, -window_m - 2.0 * bore_m_ - disc_m);

    rows_.resize(static_cast<Eigen::Index>(rows.size()), size());
    bounds_.resize(static_cast<Eigen::Index>(rows.size()));
    for (Eigen::Index n = 0; n < rows_.rows(); ++n) {
        rows_.row(n) = rows[static_cast<std::size_t>(n)];
        bounds_(n) = bounds[static_cast<std::size_t>(n)];
    }
}

}  // namespace canewright
