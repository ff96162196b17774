// core/layout/problem.cpp: numbers <-> flute, the notes' errors and their slopes.
#include "core/layout/problem.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "core/base/units.hpp"
#include "core/flute/resonance.hpp"
#include "core/flute/slope.hpp"
#include "core/jet/sounding.hpp"
#include "core/layout/lift.hpp"

namespace canewright {
namespace {

constexpr double kDiameterScale = 0.2;  // of the bore
// Cents for each radian of the turn, of a first register: half a wave is half a turn.
const double kHalfWave = kCentsPerOctave / (std::log(2.0) * kPi);

}  // namespace

bool Rules::leaves_out(Limit limit, int hole) const {
    return hole != kOrder &&
           std::any_of(left_out.begin(), left_out.end(), [limit, hole](const Wall& wall) {
               return wall.limit == limit && (wall.hole == hole || wall.hole == -1);
           });
}

Problem::Problem(const LayoutTask& task, const Air& air, const Rules& rules)
    : task_(task),
      air_(air),
      rules_(rules),
      bore_m_(bore_diameter_m(task.flute, 0.0)),
      lift_cents_(lifts_cents(task)) {
    if (!task_.foot_fixed && !task_.lowest_free) kinds_.push_back({Kind::foot, -1});
    const bool given = !task_.flute.holes.empty();
    for (int i = 0; i < task_.hole_count; ++i) {
        const bool freed = rules_.leaves_out(Limit::fixed, i);
        const FingerHole hole =
            given ? task_.flute.holes[static_cast<std::size_t>(i)] : FingerHole{};
        if (!hole.at_fixed || freed) kinds_.push_back({Kind::at, i});
        if (!hole.diameter_fixed || freed) kinds_.push_back({Kind::diameter, i});
    }
    if (rules_.hands_and_tools)
        build_walls();
    else
        build_order();
    fill_rows();
}

Eigen::Index Problem::index_of(Kind kind, int hole) const {
    for (Eigen::Index n = 0; n < size(); ++n) {
        const Number& number = kinds_[static_cast<std::size_t>(n)];
        if (number.kind == kind && number.hole == hole) return n;
    }
    return -1;
}

double Problem::scale_m(Eigen::Index n) const {
    const bool diameter = kinds_[static_cast<std::size_t>(n)].kind == Kind::diameter;
    return diameter ? kDiameterScale * bore_m_ : bore_m_;
}

Eigen::VectorXd Problem::numbers(const Flute& flute) const {
    Eigen::VectorXd x(size());
    for (Eigen::Index n = 0; n < size(); ++n) {
        const Number& number = kinds_[static_cast<std::size_t>(n)];
        double value_m = flute.foot_m;
        if (number.kind != Kind::foot) {
            const FingerHole& hole = flute.holes[static_cast<std::size_t>(number.hole)];
            value_m = number.kind == Kind::at ? hole.at_m : hole.diameter_m;
        }
        x(n) = value_m / scale_m(n);
    }
    return x;
}

Flute Problem::flute(const Eigen::VectorXd& x) const {
    Flute flute = task_.flute;
    flute.holes.resize(static_cast<std::size_t>(task_.hole_count));
    for (Eigen::Index n = 0; n < size(); ++n) {
        const Number& number = kinds_[static_cast<std::size_t>(n)];
        const double value_m = x(n) * scale_m(n);
        if (number.kind == Kind::foot) {
            flute.foot_m = value_m;
            continue;
        }
        FingerHole& hole = flute.holes[static_cast<std::size_t>(number.hole)];
        if (number.kind == Kind::at) {
            hole.at_m = value_m;
        } else {  // an undercut hole keeps its shape
            const double flare =
                hole.diameter_m > 0.0 ? hole.inner_diameter_m / hole.diameter_m : 1.0;
            hole.diameter_m = value_m;
            hole.inner_diameter_m = value_m * flare;
        }
        if (!(hole.wall_m > 0.0)) hole.wall_m = flute.wall_m;
    }
    return flute;
}

Eigen::VectorXd Problem::errors_cents(const std::vector<double>& frequency_Hz) const {
    Eigen::VectorXd errors(static_cast<Eigen::Index>(task_.notes.size()));
    double lowest_Hz = 0.0;
    for (std::size_t n = 0; n < task_.notes.size(); ++n)
        if (task_.notes[n].open.empty())
            lowest_Hz = shifted_Hz(frequency_Hz[n], -task_.notes[n].interval_cents);
    for (std::size_t n = 0; n < task_.notes.size(); ++n) {
        const NoteTarget& note = task_.notes[n];
        const double target_Hz =
            task_.lowest_free ? shifted_Hz(lowest_Hz, note.interval_cents) : note.target_Hz;
        const double aim_cents = n < rules_.aim_cents.size() ? rules_.aim_cents[n] : 0.0;
        errors(static_cast<Eigen::Index>(n)) =
            cents_between(frequency_Hz[n], target_Hz) - aim_cents;
    }
    return errors;
}

Sound Problem::sound(const Eigen::VectorXd& x, const std::vector<double>& near, bool every_note,
                     const std::vector<double>& cents_per_rad, bool counted) {
    Sound s;
    s.speaks = true;
    double guess_off_cents = 0.0;
    Network network(flute(x), air_);
    const bool from_below = every_note || task_.counted_throughout;
    for (std::size_t n = 0; n < task_.notes.size(); ++n) {
        network.finger(task_.notes[n].open);
        network.measure();
        const bool known = n < near.size() && n < cents_per_rad.size();
        // a guess is off about alike on every note
        const double near_Hz =
            n < near.size() ? near[n] : shifted_Hz(task_.notes[n].target_Hz, guess_off_cents);
        const bool count = !known || counted || from_below;
        Resonance r;
        if (near_Hz > 0.0 && !from_below)
            r = followed_resonance(network, 1, near_Hz, known ? cents_per_rad[n] : kHalfWave,
                                   count);
        evaluations_ += r.evaluations;
        // the count says whether what was met is the first
        if (count && !(r.found && std::abs(r.turn - kPi) < 0.1)) {
            const double at_Hz = n < near.size() ? near_Hz : 0.0;
            r = from_below ? first_resonance(network, at_Hz) : resonance(network, 1, at_Hz);
            evaluations_ += r.evaluations;
        }
        s.speaks = s.speaks && r.found && r.converged;
        if (!s.speaks && !every_note) return s;
        const double off_cents = cents_between(r.frequency_Hz, task_.notes[n].target_Hz);
        guess_off_cents = std::abs(off_cents) < kNearest_cents ? off_cents : 0.0;
        s.passive_Hz.push_back(r.frequency_Hz);
        s.beside_Hz.push_back(r.beside_Hz);
        s.beside_turn.push_back(r.beside_turn);
        evaluations_ += task_.breath != 1.0 ? 2 : 0;
        s.frequency_Hz.push_back(shifted_Hz(
            r.frequency_Hz, breath_cents(network, r.frequency_Hz, task_.breath) + lift_cents_[n]));
    }
    s.errors_cents = errors_cents(s.frequency_Hz);
    return s;
}

std::vector<Network> Problem::either_way(const Eigen::VectorXd& x) const {
    std::vector<Network> beside;
    for (Eigen::Index n = 0; n < size(); ++n)
        for (const double way : {-kNudge, kNudge}) {
            Eigen::VectorXd y = x;
            y(n) += way;
            beside.emplace_back(flute(y), air_);
        }
    return beside;
}

Eigen::MatrixXd Problem::slopes(const Eigen::VectorXd& x, Sound& sound) {
    const Eigen::Index notes = static_cast<Eigen::Index>(task_.notes.size());
    Eigen::MatrixXd slopes(notes, size());
    sound.cents_per_rad.clear();
    Network here(flute(x), air_);
    std::vector<Network> beside = either_way(x);
    for (Eigen::Index k = 0; k < notes; ++k) {
        const Fingering& open = task_.notes[static_cast<std::size_t>(k)].open;
        here.finger(open);
        here.measure();
        const std::size_t note = static_cast<std::size_t>(k);
        const Slope slope(here, sound.passive_Hz[note], sound.beside_Hz[note],
                          sound.beside_turn[note]);
        sound.cents_per_rad.push_back(slope.cents_per_rad());
        for (Eigen::Index n = 0; n < size(); ++n) {
            Network& less = beside[static_cast<std::size_t>(2 * n)];
            Network& more = beside[static_cast<std::size_t>(2 * n + 1)];
            less.finger(open);
            more.finger(open);
            slopes(k, n) = slope.cents_between(less, more) / (2.0 * kNudge);
        }
        evaluations_ += slope.evaluations();
    }
    if (task_.lowest_free)
        for (Eigen::Index k = 0; k < notes; ++k)
            if (task_.notes[static_cast<std::size_t>(k)].open.empty()) {
                const Eigen::RowVectorXd lowest = slopes.row(k);
                slopes.rowwise() -= lowest;
                break;
            }
    return slopes;
}

Pull Problem::wishes(double size_over_bore) const {
    // A fifth of a bore off counts this much: enough for a walk along what the notes leave open to
    // arrive, little enough for the pulls after it to set the notes right within micrometres.
    constexpr double kSizeWeight_cents = 0.2;
    constexpr double kPlaceWeight_cents = 0.4;
    Pull pull{Eigen::MatrixXd::Zero(size(), size()), Eigen::VectorXd::Zero(size())};
    std::vector<bool> decides(static_cast<std::size_t>(task_.hole_count), false);
    for (const NoteTarget& note : task_.notes)
        if (!note.open.empty())
            decides[static_cast<std::size_t>(*std::min_element(note.open.begin(), note.open.end()) -
                                             1)] = true;
    for (Eigen::Index n = 0; n < size(); ++n) {
        const Number& number = kinds_[static_cast<std::size_t>(n)];
        if (number.kind == Kind::diameter) {
            pull.rows(n, n) = kSizeWeight_cents;
            pull.targets(n) = kSizeWeight_cents * size_over_bore / kDiameterScale;
        } else if (number.kind == Kind::at && !decides[static_cast<std::size_t>(number.hole)]) {
            pull.rows(n, n) = kPlaceWeight_cents;
            const Eigen::Index above = index_of(Kind::at, number.hole - 1);
            const Eigen::Index below = index_of(Kind::at, number.hole + 1);
            if (above >= 0 && below >= 0)
                pull.rows(n, above) = pull.rows(n, below) = -0.5 * kPlaceWeight_cents;
            else
                pull.targets(n) = kPlaceWeight_cents * 0.6 * task_.end_m / bore_m_;
        }
    }
    return pull;
}

Pull Problem::stay_near(const Eigen::VectorXd& x, double length_m) const {
    const double weight_cents = 100.0 * kStray_cents * bore_m_ / length_m;  // of a bore's length
    Pull pull{Eigen::MatrixXd::Zero(size(), size()), x};
    for (Eigen::Index n = 0; n < size(); ++n) {
        pull.rows(n, n) = weight_cents;
        pull.targets(n) = weight_cents * x(n);
    }
    return pull;
}

Pull Problem::draw_to(const Eigen::VectorXd& x) const {
    constexpr double kWeight_cents = 0.2;
    return {kWeight_cents * Eigen::MatrixXd::Identity(size(), size()), kWeight_cents * x};
}

}  // namespace canewright
