// core/layout/walls.cpp: the limits of hands, tools and tube as rows of A x <= b.
#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

#include "core/layout/problem.hpp"
#include "core/layout/quadratic_program.hpp"

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
        case Limit::planned:
            return "planned";
        case Limit::fingerings:
            return "fingerings";
    }
    return "";
}

namespace {

// Two holes are of one hand unless the split lies between them.
bool same_hand(const Shop& shop, int upper) {
    int sum = 0;
    for (int count : shop.hands) {
        sum += count;
        if (sum == upper + 1) return false;
    }
    return true;
}

}  // namespace

void Problem::wall(Limit limit, int hole, const std::vector<Term>& terms, double bound_m,
                   bool gives) {
    if (!std::isfinite(bound_m) || rules_.leaves_out(limit, hole)) return;
    const auto still_m = [this](const Term& term) {
        if (term.kind == Kind::foot) return task_.flute.foot_m;
        const FingerHole& h = task_.flute.holes[static_cast<std::size_t>(term.hole)];
        return term.kind == Kind::at ? h.at_m : h.diameter_m;
    };
    Eigen::RowVectorXd row = Eigen::RowVectorXd::Zero(size());
    for (const Term& term : terms) {
        const Eigen::Index n = index_of(term.kind, term.hole);
        if (n >= 0)
            row(n) += term.factor * scale_m(n);
        else
            bound_m -= term.factor * still_m(term);
    }
    const double length = row.norm();
    if (length == 0.0) return;  // nothing to move: not a matter for the layout
    if (gives) bound_m += rules_.give_m;
    const Eigen::Index count = rows_.rows();
    rows_.conservativeResize(count + 1, size());
    bounds_.conservativeResize(count + 1);
    gives_.conservativeResize(count + 1);
    rows_.row(count) = row / length;
    bounds_(count) = bound_m / length;
    gives_(count) = gives ? 1.0 / length : 0.0;
    walls_.push_back({limit, hole});
}

double Problem::bore_at_m(int hole) const {
    const std::size_t i = static_cast<std::size_t>(hole);
    return i < rules_.places_m.size() ? bore_diameter_m(task_.flute, rules_.places_m[i]) : bore_m_;
}

void Problem::build_walls() {
    const int holes = task_.hole_count;
    const auto at = [](int hole, double factor) { return Term{Kind::at, hole, factor}; };
    const auto diameter = [](int hole, double factor) {
        return Term{Kind::diameter, hole, factor};
    };
    const auto foot = [](double factor) { return Term{Kind::foot, -1, factor}; };

    const Shop& shop = task_.shop;
    double smallest_bit_m = 0.0, largest_bit_m = kNoLimit;
    if (!shop.bits_m.empty() && !rules_.leaves_out(Limit::bits, -1)) {
        const auto [least, most] = std::minmax_element(shop.bits_m.begin(), shop.bits_m.end());
        smallest_bit_m = *least;
        largest_bit_m = *most;
    }
    const double window_m = task_.flute.sound_hole.length_m;
    const auto& disc = task_.flute.foot_plug;
    const double disc_m = disc ? disc->thickness_m : 0.0;
    for (int i = 0; i < holes; ++i) {
        const std::size_t n = static_cast<std::size_t>(i);
        const double cut_m = n < task_.cut_diameter_m.size() ? task_.cut_diameter_m[n] : 0.0;
        const double shop_smallest_m = std::max(shop.diameter_min_m, smallest_bit_m);
        const double shop_largest_m =
            std::min(shop.diameter_max_m, (cut_m > 0.0 ? kBeyondLargestBit : 1.0) * largest_bit_m);
        double flare = 1.0;
        if (n < task_.flute.holes.size() && task_.flute.holes[n].diameter_m > 0.0)
            flare = std::max(
                1.0, task_.flute.holes[n].inner_diameter_m / task_.flute.holes[n].diameter_m);
        const double bore_m = bore_at_m(i);
        const double smallest_m = std::max(kSmallestHole * bore_m, kLeastHole_m);
        const double largest_m = std::min(kLargestHole * bore_m, kLargestUndercut * bore_m / flare);
        wall(Limit::diameter_min, i, {diameter(i, -1.0)},
             -std::max({smallest_m, shop_smallest_m, cut_m}), shop_smallest_m > smallest_m);
        wall(Limit::diameter_max, i, {diameter(i, 1.0)},
             std::max(std::min(largest_m, shop_largest_m), cut_m), shop_largest_m < largest_m);
        if (cut_m > 0.0) wall(Limit::fixed, kOrder, {diameter(i, -1.0)}, -cut_m);
        if (n < rules_.bit_m.size() && rules_.bit_m[n] > 0.0) {
            wall(Limit::bits, i, {diameter(i, 1.0)}, rules_.bit_m[n]);
            wall(Limit::bits, i, {diameter(i, -1.0)}, -rules_.bit_m[n]);
        }
        if (n < task_.planned.size()) {
            const PlannedPlace& plan = task_.planned[n];
            wall(Limit::planned, i, {at(i, 1.0)}, plan.at_m + plan.reach_m, true);
            wall(Limit::planned, i, {at(i, -1.0)}, plan.reach_m - plan.at_m, true);
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
             shop.spacing_min_m > 0.0 ? -shop.spacing_min_m : kNoLimit, true);
        if (same_hand(shop, i))
            wall(Limit::spacing_max, i + 1, {at(i, -1.0), at(i + 1, 1.0)}, shop.spacing_max_m,
                 true);
    }
    wall(Limit::tube_end, -1, {foot(1.0)}, task_.end_m);
    wall(Limit::foot_clearance, -1, {foot(-1.0)},
         -std::max(window_m + 2.0 * bore_m_ + disc_m, kLeastFoot_m));
    if (!rules_.left_out.empty()) build_order();  // whatever is left out, a flute remains
}

// Holes in their order, within the tube and of a size that the network can solve.
void Problem::build_order() {
    const double apart_m = 0.05 * bore_m_, away_m = 0.1 * bore_m_;
    const int holes = task_.hole_count;
    const auto order = [this](const std::vector<Term>& terms, double bound_m) {
        wall(Limit::fixed, kOrder, terms, bound_m);
    };
    for (int i = 0; i < holes; ++i) {
        order({{Kind::diameter, i, -1.0}},
              -std::max(0.5 * kSmallestHole * bore_at_m(i), kLeastHole_m));
        order({{Kind::diameter, i, 1.0}}, kLargestUndercut * bore_at_m(i));
        if (i == 0) order({{Kind::at, i, -1.0}}, -task_.flute.sound_hole.length_m - away_m);
        if (i == holes - 1)
            order({{Kind::at, i, 1.0}, {Kind::foot, -1, -1.0}}, -away_m);
        else
            order({{Kind::at, i, 1.0}, {Kind::at, i + 1, -1.0}}, -apart_m);
    }
    order({{Kind::foot, -1, -1.0}}, -task_.flute.sound_hole.length_m - 2.0 * bore_m_);
}

double Problem::give_needed_m(const Eigen::VectorXd& x) const {
    const Eigen::Index n = size(), walls = rows_.rows();
    QuadraticProgram stay;
    stay.hessian = Eigen::MatrixXd::Identity(n, n);
    stay.gradient = Eigen::VectorXd::Zero(n);
    stay.rows = rows_;
    stay.bounds = bounds_ - rows_.lazyProduct(x);
    if (solve(stay).feasible) return 0.0;
    // One number more, the metres given: its square counts, moving hardly does.
    QuadraticProgram give;
    constexpr double kMoving = 1e-6;  // against the metres given
    give.hessian = kMoving * Eigen::MatrixXd::Identity(n + 1, n + 1);
    give.hessian(n, n) = 1.0;
    give.gradient = Eigen::VectorXd::Zero(n + 1);
    give.rows = Eigen::MatrixXd::Zero(walls + 1, n + 1);
    give.rows.topLeftCorner(walls, n) = rows_;
    give.rows.topRightCorner(walls, 1) = -bore_m_ * gives_;
    give.rows(walls, n) = -1.0;
    give.bounds.resize(walls + 1);
    give.bounds << bounds_ - rows_.lazyProduct(x), 0.0;
    const QuadraticSolution s = solve(give);
    // a little more, so that rounding does not take it back
    return s.feasible ? bore_m_ * std::max(0.0, s.x(n)) * (1.0 + 1e-6) + 1e-9
                      : std::numeric_limits<double>::quiet_NaN();
}

}  // namespace canewright
