// core/flute/network.cpp: lines a flute up as steps from the foot to the sound hole.
#include "core/flute/network.hpp"

#include <algorithm>
#include <cmath>

#include "core/element/radiation.hpp"
#include "core/element/widening.hpp"

namespace canewright {

Network::Network(const Flute& flute, const Air& air)
    : air_(air), bore_(flute.bore), foot_plug_(flute.foot_plug), fingers_(flute.fingers) {
    centre_m_ = 0.5 * flute.sound_hole.length_m;
    const double window_radius_m = 0.5 * bore_diameter_m(bore_, centre_m_);
    window_ = {window_radius_m,          flute.sound_hole.length_m,
               flute.sound_hole.width_m, flute.sound_hole.wall_m,
               flute.plug_offset_m,      flute.sound_hole.inertance_factor,
               flute.sound_hole.voice};
    window_inertance_m_ = window_inertance_length_m(window_);
    plug_cavity_m_ = plug_cavity_length_m(window_);
    tube_radius_m_ = window_radius_m + flute.wall_m;
    // A disc is flush with the foot, and cannot reach past the sound hole.
    const double disc_m = foot_plug_ ? foot_plug_->thickness_m : 0.0;
    const double bore_end_m = std::max(flute.foot_m - disc_m, centre_m_);
    foot_radius_m_ = 0.5 * bore_diameter_m(bore_, bore_end_m);
    foot_outer_radius_m_ = foot_radius_m_ + flute.wall_m;
    end_radius_m_ =
        foot_plug_ ? std::min(0.5 * foot_plug_->opening_m, foot_radius_m_) : foot_radius_m_;
    ridge_at_m_ = flute.ridge ? flute.ridge->at_m : 0.0;
    ridge_ = placed_ridge(flute, bore_end_m);

    const std::size_t holes = flute.holes.size();
    // pieces between holes, stations and a ridge in two parts, each with a widening where it tapers
    const std::size_t pieces = holes + bore_.size() + 3;
    steps_.reserve(holes + 2 + (bore_.size() > 1 ? 2 : 1) * pieces);
    holes_.reserve(holes);
    port_m_.reserve(holes + 2);
    port_m_.push_back(flute.foot_m);
    double at_m = bore_end_m;
    for (std::size_t i = holes; i-- > 0;) {
        const FingerHole& hole = flute.holes[i];
        add_ridge(at_m, hole.at_m, ridge_.shares[i + 1]);
        add_pieces(at_m, hole.at_m);
        at_m = hole.at_m;
        const double bore_radius_m = 0.5 * bore_diameter_m(bore_, hole.at_m);
        steps_.push_back({Step::Kind::covered, static_cast<int>(holes_.size())});
        holes_.push_back({at_m,
                          {bore_radius_m, bore_radius_m + flute.wall_m, hole.wall_m,
                           0.5 * hole.diameter_m, 0.5 * hole.inner_diameter_m, hole.aspect}});
    }
    add_ridge(at_m, centre_m_, ridge_.shares.front());
    add_pieces(at_m, centre_m_);
    finger({});
}

Network::Network(const Flute& flute, const Air& air, const Fingering& open) : Network(flute, air) {
    finger(open);
    measure();
}

void Network::measure() {
    for (Step& step : steps_) {
        if (step.hole < 0) {
            if (step.measured_m < 0.0) step.measured_m = measured_m(step);
            continue;
        }
        Hole& hole = holes_[static_cast<std::size_t>(step.hole)];
        if (step.kind == Step::Kind::open && !hole.open_measured) {
            hole.open_lengths = open_lengths(hole.shape);
            hole.open_measured = true;
        } else if (step.kind == Step::Kind::covered && !hole.covered_measured) {
            hole.covered_lengths = covered_lengths(hole.shape);
            hole.covered_measured = true;
        }
    }
    const std::size_t ports = port_m_.size();
    wall_factors_.assign(ports * ports, 1.0);
    for (std::size_t i = 1; i + 1 < ports; ++i)
        for (std::size_t j = i + 1; j + 1 < ports; ++j)
            wall_factors_[i * ports + j] = wall_factor(port_m_[i] - port_m_[j], tube_radius_m_);
}

HoleLengths Network::covered_lengths(const HoleShape& shape) const {
    return fingers_ == Fingers::flat ? lidded_lengths(shape) : fingered_lengths(shape);
}

double Network::measured_m(const Step& step) {
    if (step.kind == Step::Kind::piece)
        return equivalent_radius_m(step.near_radius_m, step.far_radius_m);
    if (step.kind == Step::Kind::ridge) return 0.0;
    return widening_excess_m(std::min(step.near_radius_m, step.far_radius_m),
                             std::max(step.near_radius_m, step.far_radius_m), step.length_m);
}

void Network::finger(const Fingering& open) {
    wall_factors_.clear();
    port_m_.resize(1);
    for (Step& step : steps_) {
        if (step.hole < 0) continue;
        const int number = static_cast<int>(holes_.size()) - step.hole;
        const bool is_open = std::find(open.begin(), open.end(), number) != open.end();
        step.kind = is_open ? Step::Kind::open : Step::Kind::covered;
        if (is_open) port_m_.push_back(hole_of(step).at_m);
    }
    first_open_m_ = port_m_.back() - centre_m_;
    port_m_.push_back(centre_m_);
}

void Network::add_ridge(double& at_m, double until_m, double share) {
    if (!(share > 0.0)) return;
    const double place_m = std::max(std::min(ridge_at_m_, at_m), until_m);
    add_pieces(at_m, place_m);
    at_m = place_m;
    Step step{Step::Kind::ridge};
    step.share = share;
    steps_.push_back(step);
}

// Pieces of bore between two places, split at the stations, where the slope of the bore changes.
void Network::add_pieces(double far_m, double near_m) {
    const auto add = [this](double from_m, double to_m) {
        if (from_m <= to_m) return;
        Step step{Step::Kind::piece};
        step.far_radius_m = 0.5 * bore_diameter_m(bore_, from_m);
        step.near_radius_m = 0.5 * bore_diameter_m(bore_, to_m);
        step.length_m = from_m - to_m;
        Step more = step;
        more.kind = Step::Kind::widening;
        // At the narrow end, where the air is fastest.
        if (step.far_radius_m < step.near_radius_m) steps_.push_back(more);
        steps_.push_back(step);
        if (step.near_radius_m < step.far_radius_m) steps_.push_back(more);
    };
    double at_m = far_m;
    for (auto s = bore_.rbegin(); s != bore_.rend(); ++s) {
        if (s->at_m >= at_m || s->at_m <= near_m) continue;
        add(at_m, s->at_m);
        at_m = s->at_m;
    }
    add(at_m, near_m);
}

}  // namespace canewright
