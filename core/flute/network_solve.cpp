// core/flute/network_solve.cpp: one network at one frequency.
#include <Eigen/LU>
#include <complex>

#include "core/base/units.hpp"
#include "core/element/line.hpp"
#include "core/element/orifice.hpp"
#include "core/element/radiation.hpp"
#include "core/element/widening.hpp"
#include "core/flute/network.hpp"
#include "core/flute/turn.hpp"

namespace canewright {
namespace {

constexpr int kMostPorts = kMostHolesOpen + 2;  // and the foot and the sound hole
using Matrix = Eigen::Matrix<Complex, Eigen::Dynamic, Eigen::Dynamic, 0, kMostPorts, kMostPorts>;
using Vector = Eigen::Matrix<Complex, Eigen::Dynamic, 1, 0, kMostPorts, 1>;

// Pressure at opening i per flow out of opening j; an opening's own radiation is not in it.
// Openings are the foot, the open holes upwards, and the sound hole.
Matrix coupling(const Air& air, const std::vector<double>& port_m, double tube_radius_m,
                double end_radius_m, double angular_Hz) {
    const std::size_t ports = port_m.size();
    Matrix outside =
        Matrix::Zero(static_cast<Eigen::Index>(ports), static_cast<Eigen::Index>(ports));
    for (std::size_t i = 0; i < ports; ++i)
        for (std::size_t j = i + 1; j < ports; ++j) {
            const double along_m = port_m[i] - port_m[j];
            const double distance_m =
                i == 0 ? foot_distance_m(along_m, end_radius_m, tube_radius_m) : along_m;
            const Sight sight = i > 0 && j + 1 < ports ? Sight::along_wall : Sight::free_air;
            const auto row = static_cast<Eigen::Index>(i), column = static_cast<Eigen::Index>(j);
            outside(row, column) = outside(column, row) =
                outer_coupling(air, distance_m, tube_radius_m, sight, angular_Hz);
        }
    return outside;
}

// (p, U) at one place as linear forms in the flows out of all openings.
struct Forms {
    Vector p, u;
    void carry(const TwoPort& m) {
        for (Eigen::Index i = 0; i < p.size(); ++i) {
            const Complex before = p(i);
            p(i) = m.a * before + m.b * u(i);
            u(i) = m.c * before + m.d * u(i);
        }
    }
};

}  // namespace

void Network::solve_steps(double w, std::vector<Solved>& solved) const {
    solved.resize(steps_.size());
    double known_radius_m = 0.0;  // a uniform bore computes its constants once
    LineConstants line{};
    for (std::size_t n = 0; n < steps_.size(); ++n) {
        const Step& step = steps_[n];
        Solved& s = solved[n];
        switch (step.kind) {
            case Step::Kind::piece: {
                const double radius_m = 0.5 * (step.near_radius_m + step.far_radius_m);
                if (radius_m != known_radius_m) line = line_constants(air_, radius_m, w);
                known_radius_m = radius_m;
                s.matrix =
                    step.near_radius_m == step.far_radius_m
                        ? cylinder(line, step.length_m)
                        : frustum(air_, step.near_radius_m, step.far_radius_m, step.length_m, w);
                s.reference = line.impedance;
                s.length_rad = line.propagation_1_m.imag() * step.length_m;
                break;
            }
            case Step::Kind::widening:
                s.matrix = widening(air_, step.near_radius_m, step.length_m, w);
                break;
            case Step::Kind::ridge:
                s.matrix =
                    ridge_by_end(air_, ridge_.opening_radius_m, ridge_.thickness_m,
                                 ridge_.bore_radius_m, ridge_.to_end_m, foot_outer_radius_m_, w);
                s.matrix.b *= step.share;
                break;
            case Step::Kind::open: {
                const OpenHole hole = open_hole(air_, step.shape, w);
                s.matrix = hole.passage;
                s.half = hole.series_half;
                s.other = hole.radiation;
                break;
            }
            case Step::Kind::covered: {
                const CoveredHole hole = fingers_ == Fingers::flat
                                             ? lidded_hole(air_, step.shape, w)
                                             : fingered_hole(air_, step.shape, w);
                s.half = hole.series_half;
                s.other = hole.admittance;
                break;
            }
        }
    }
}

Loop Network::at(double frequency_Hz) const {
    const double w = 2.0 * kPi * frequency_Hz;
    const Eigen::Index ports = static_cast<Eigen::Index>(port_m_.size());
    const Eigen::Index unknowns = ports - 1;  // flows out of open holes and the sound hole
    const Eigen::Index window = ports - 1;

    std::vector<Solved> solved;
    solve_steps(w, solved);
    const double end_radius_m = foot_plug_ ? 0.5 * foot_plug_->opening_m : foot_radius_m_;
    const Matrix outside = coupling(air_, port_m_, tube_radius_m_, end_radius_m, w);
    const Complex end = open_end_impedance(air_, end_radius_m, foot_outer_radius_m_, w);
    const TwoPort disc =
        foot_plug_ ? foot_disc(air_, end_radius_m, foot_plug_->thickness_m, foot_radius_m_, w)
                   : TwoPort{};
    const LineConstants behind = line_constants(air_, window_.bore_radius_m, w);
    const Complex cavity = std::tanh(behind.propagation_1_m * plug_cavity_m_) / behind.impedance;

    // First pass: the forms, with a flow of 1 out of the foot. Each open hole gives one equation
    // (pressure in the bore = pressure outside, through the hole), the sound hole one of flow.
    Matrix equations(unknowns, unknowns);
    Vector constants(unknowns);
    const auto equate_to_zero = [&](Eigen::Index row, const Vector& form) {
        constants(row) = -form(0);
        equations.row(row) = form.tail(unknowns).transpose();
    };
    Forms forms{outside.row(0).transpose(), Vector::Unit(ports, 0)};
    forms.p(0) = end;
    forms.carry(disc);
    Eigen::Index port = 0;
    for (std::size_t n = 0; n < steps_.size(); ++n) {
        const Solved& s = solved[n];
        const bool open = steps_[n].kind == Step::Kind::open;
        if (!open && steps_[n].kind != Step::Kind::covered) {
            forms.carry(s.matrix);
            continue;
        }
        forms.p += s.half * forms.u;
        if (open) {
            ++port;
            Vector outer = outside.row(port).transpose();
            outer(port) += s.other;
            Vector equation = forms.p - s.matrix.a * outer;
            equation(port) -= s.matrix.b;
            equate_to_zero(port - 1, equation);
            forms.u += s.matrix.c * outer;
            forms.u(port) += s.matrix.d;
        } else {
            forms.u += s.other * forms.p;
        }
        forms.p += s.half * forms.u;
    }
    forms.u += cavity * forms.p;
    forms.u(window) += 1.0;
    equate_to_zero(unknowns - 1, forms.u);
    Vector flow(ports);
    flow(0) = 1.0;
    flow.tail(unknowns) = equations.fullPivLu().solve(constants);
    const Vector pressure = outside.lazyProduct(flow);

    // Second pass: the numbers themselves, and how far the reflection turns on the way.
    const Complex p_end = end + pressure(0);
    Turn turn(disc.a * p_end + disc.b, disc.c * p_end + disc.d, behind.impedance);
    port = 0;
    for (std::size_t n = 0; n < steps_.size(); ++n) {
        const Solved& s = solved[n];
        const TwoPort& m = s.matrix;
        switch (steps_[n].kind) {
            case Step::Kind::piece:
                turn.refer_to(s.reference);
                turn.travel(m, s.length_rad);
                break;
            case Step::Kind::widening:
            case Step::Kind::ridge:
                turn.add_pressure(m.b * turn.u());
                break;
            case Step::Kind::open: {
                ++port;
                const Complex outer = pressure(port) + s.other * flow(port);
                turn.add_pressure(s.half * turn.u());
                turn.add_flow(m.c * outer + m.d * flow(port));
                turn.add_pressure(s.half * turn.u());
                break;
            }
            case Step::Kind::covered:
                turn.add_pressure(s.half * turn.u());
                turn.add_flow(s.other * turn.p());
                turn.add_pressure(s.half * turn.u());
                break;
        }
    }
    turn.refer_to(behind.impedance.real());
    turn.add_flow(cavity * turn.p());
    turn.add_pressure(window_impedance(air_, window_, window_inertance_m_, w) * turn.u() -
                      pressure(window));
    return {turn.p() / turn.u(), turn.angle_rad(), behind.impedance.real()};
}

}  // namespace canewright
