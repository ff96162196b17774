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
        case Limit::bore_share:
            return "bore_share";
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
    std::vector<double> row(static_cast<std::size_t>(size()), 0.0);
    double squares = 0.0;
    for (const Term& term : terms) {
        const Eigen::Index n = index_of(term.kind, term.hole);
        if (n >= 0) {  // no number stands twice in a sum
            const double share = term.factor * scale_m(n);
            row[static_cast<std::size_t>(n)] = share;
            squares += share * share;
        } else {
            bound_m -= term.factor * still_m(term);
        }
    }
    if (squares == 0.0) return;  // nothing to move: not a matter for the layout
    const double length = std::sqrt(squares);
    if (gives) bound_m += rules_.give_m;
    row.push_back(bound_m);
    row.push_back(gives ? 1.0 : 0.0);
    for (const double each : row) table_.push_back(each / length);
    walls_.push_back({limit, hole});
}

void Problem::fill_rows() {
    const Eigen::Index count = static_cast<Eigen::Index>(walls_.size()), n = size();
    rows_ = Eigen::MatrixXd::Zero(count, n);
    bounds_ = Eigen::VectorXd::Zero(count);
    gives_ = Eigen::VectorXd::Zero(count);
    std::size_t k = 0;
    for (Eigen::Index i = 0; i < count; ++i) {
        for (Eigen::Index j = 0; j < n; ++j) rows_(i, j) = table_[k++];
        bounds_(i) = table_[k++];
        gives_(i) = table_[k++];
    }
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
    const auto is_cut = [this](int hole) {
        const std::size_t n = static_cast<std::size_t>(hole);
        return n < task_.cut_diameter_m.size() && task_.cut_diameter_m[n] > 0.0;
    };
    // Of a size that the maker holds, or cut both of them: no default has a say. What is still to
    // be drilled keeps the distance with which it was planned from what is cut.
    const auto is_settled = [&](int upper, int lower) {
        return (is_cut(upper) && is_cut(lower)) || index_of(Kind::diameter, upper) < 0 ||
               index_of(Kind::diameter, lower) < 0;
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
            flare = task_.flute.holes[n].inner_diameter_m / task_.flute.holes[n].diameter_m;
        const double bore_m = bore_at_m(i);
        const double smallest_m =
            std::max(kSmallestHole * bore_m, kLeastHole_m / std::min(1.0, flare));
        const double most_m =
            n < task_.most_diameter_m.size() ? task_.most_diameter_m[n] : kNoLimit;
        const double largest_m = std::min(
            {kLargestHole * bore_m, most_m,
             std::min(kLargestUndercut, task_.widest_share) * bore_m / std::max(1.0, flare)});
        // Each names whose limit it is: one can be changed, the other is the tube's.
        const bool small = shop_smallest_m > smallest_m, large = shop_largest_m < largest_m;
        wall(small ? Limit::diameter_min : Limit::bore_share, i, {diameter(i, -1.0)},
             -std::max({smallest_m, shop_smallest_m, cut_m}), small);
        wall(large ? Limit::diameter_max : Limit::bore_share, i, {diameter(i, 1.0)},
             std::max(std::min(largest_m, shop_largest_m), cut_m), large);
        if (cut_m > 0.0) wall(Limit::fixed, kOrder, {diameter(i, -1.0)}, -cut_m);
        // The shop's limits can give way, what the model and the tube allow cannot.
        if (small) wall(Limit::bore_share, i, {diameter(i, -1.0)}, -std::max(smallest_m, cut_m));
        if (large) wall(Limit::bore_share, i, {diameter(i, 1.0)}, std::max(largest_m, cut_m));
        keep_in_bore(i, i);
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
        if (i == holes - 1) {
            const double below_m = kFootClearance_bores * bore_m_ + disc_m;
            wall(Limit::foot_clearance, i, {at(i, 1.0), diameter(i, 0.5), foot(-1.0)}, -below_m);
            if (!(cut_m > 0.0))
                wall(Limit::foot_clearance, i, {at(i, 1.0), diameter(i, 0.5)},
                     task_.said_end_m - below_m);
        }
        if (i + 1 == holes) continue;
        wall(Limit::edge, i + 1,
             {at(i, 1.0), at(i + 1, -1.0), diameter(i, 0.5), diameter(i + 1, 0.5)}, -kBridge_m);
        wall(Limit::spacing_min, i + 1, {at(i, 1.0), at(i + 1, -1.0)},
             shop.spacing_min_m > 0.0 ? -shop.spacing_min_m : kNoLimit, true);
        if (shop.own_width_apart && !(shop.spacing_min_m > 0.0) && !is_settled(i, i + 1))
            for (const double upper : {1.5, 0.5})  // in widths: half of each, and one of the two
                wall(
                    Limit::spacing_min, i + 1,
                    {at(i, 1.0), at(i + 1, -1.0), diameter(i, upper), diameter(i + 1, 2.0 - upper)},
                    0.0, true);
        if (same_hand(shop, i))
            wall(Limit::spacing_max, i + 1, {at(i, -1.0), at(i + 1, 1.0)}, shop.spacing_max_m,
                 true);
    }
    wall(Limit::tube_end, -1, {foot(1.0)}, task_.end_m);
    wall(Limit::foot_clearance, -1, {foot(-1.0)},
         -std::max(window_m + 2.0 * bore_m_ + disc_m, kLeastFoot_m));
    if (!rules_.left_out.empty()) build_order();  // whatever is left out, a flute remains
}

void Problem::keep_in_bore(int hole, int named) {
    if (index_of(Kind::diameter, hole) >= 0 || index_of(Kind::at, hole) < 0) return;
    const std::size_t i = static_cast<std::size_t>(hole);
    const FingerHole& given = task_.flute.holes[i];
    const double least_bore_m =
        std::max(given.diameter_m, given.inner_diameter_m) / kLargestUndercut;
    const double near_m = i < rules_.places_m.size() ? rules_.places_m[i] : given.at_m;
    const Stretch wide = wide_stretch(task_.flute.bore, least_bore_m, near_m);
    wall(Limit::fixed, named, {{Kind::at, hole, 1.0}}, wide.to_m);
    wall(Limit::fixed, named, {{Kind::at, hole, -1.0}}, -wide.from_m);
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
        keep_in_bore(i, kOrder);
        if (i == 0) order({{Kind::at, i, -1.0}}, -task_.flute.sound_hole.length_m - away_m);
        if (i == holes - 1)
            order({{Kind::at, i, 1.0}, {Kind::foot, -1, -1.0}}, -away_m);
        else
            order({{Kind::at, i, 1.0}, {Kind::at, i + 1, -1.0}}, -apart_m);
    }
    order({{Kind::foot, -1, -1.0}}, -task_.flute.sound_hole.length_m - 2.0 * bore_m_);
}

bool Problem::inside(const Eigen::VectorXd& x) const {
    constexpr double kRounding = 1e-9;
    for (Eigen::Index i = 0; i < rows_.rows(); ++i) {
        double over = -bounds_(i);
        for (Eigen::Index k = 0; k < x.size(); ++k) over += rows_(i, k) * x(k);
        if (over > kRounding) return false;
    }
    return true;
}

double Problem::give_needed_m(const Eigen::VectorXd& x) const {
    const Eigen::Index n = size(), walls = rows_.rows();
    // One number more, the metres given: its square counts, moving hardly does. First none is
    // given.
    constexpr double kMoving = 1e-6;
    for (const bool giving : {false, true}) {
        const Eigen::Index all = giving ? n + 1 : n, rows = giving ? walls + 1 : walls;
        QuadraticProgram give;
        give.hessian = Eigen::MatrixXd::Zero(all, all);
        give.gradient = Eigen::VectorXd::Zero(all);
        give.rows = Eigen::MatrixXd::Zero(rows, all);
        give.bounds = Eigen::VectorXd::Zero(rows);
        for (Eigen::Index k = 0; k < all; ++k) give.hessian(k, k) = k < n ? kMoving : 1.0;
        for (Eigen::Index i = 0; i < walls; ++i) {
            double over = -bounds_(i);
            for (Eigen::Index k = 0; k < n; ++k) {
                give.rows(i, k) = rows_(i, k);
                over += rows_(i, k) * x(k);
            }
            give.bounds(i) = -over;
            if (giving) give.rows(i, n) = -bore_m_ * gives_(i);
        }
        if (giving) give.rows(walls, n) = -1.0;
        const QuadraticSolution s = solve(give);
        if (!s.feasible) continue;
        // a little more, so that rounding does not take it back
        return giving ? bore_m_ * std::max(0.0, s.x(n)) * (1.0 + 1e-6) + 1e-9 : 0.0;
    }
    return std::numeric_limits<double>::quiet_NaN();
}

}  // namespace canewright
