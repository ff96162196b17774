// core/flute/network_solve.cpp: one network at one frequency.
#include <Eigen/Core>
#include <complex>
#include <utility>

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
    // Products by two_port's own operator: Eigen's asks the library for the NaN there could be.
    void add_pressure(Complex impedance) {
        for (Eigen::Index i = 0; i < p.size(); ++i) p(i) += impedance * u(i);
    }
    void add_flow(Complex admittance) {
        for (Eigen::Index i = 0; i < p.size(); ++i) u(i) += admittance * p(i);
    }
};

// Gauss's elimination with partial pivoting, pivots by |re| + |im| (as LAPACK's zgetf2 has it).
// A dozen unknowns at most: Eigen's partial LU brings its kernels for large matrices, 10 kB of a
// first visit, and the full one asks for n^3 absolute values, a tenth of all the time.
Vector solved_for(Matrix& a, Vector& b) {
    const auto size = [](Complex z) { return std::abs(z.real()) + std::abs(z.imag()); };
    const Eigen::Index n = b.size();
    for (Eigen::Index k = 0; k < n; ++k) {
        Eigen::Index pivot = k;
        for (Eigen::Index i = k + 1; i < n; ++i)
            if (size(a(i, k)) > size(a(pivot, k))) pivot = i;
        for (Eigen::Index j = k; j < n && pivot != k; ++j) std::swap(a(k, j), a(pivot, j));
        std::swap(b(k), b(pivot));
        const Complex per_pivot = inverse(a(k, k));
        for (Eigen::Index i = k + 1; i < n; ++i) {
            const Complex share = a(i, k) * per_pivot;
            for (Eigen::Index j = k + 1; j < n; ++j) a(i, j) -= share * a(k, j);
            b(i) -= share * b(k);
        }
    }
    Vector x(n);
    for (Eigen::Index k = n; k-- > 0;) {
        Complex sum = b(k);
        for (Eigen::Index j = k + 1; j < n; ++j) sum -= a(k, j) * x(j);
        x(k) = quotient(sum, a(k, k));
    }
    return x;
}

}  // namespace

// Pressure outside one opening per flow out of another. Openings are the foot, the open holes
// upwards, and the sound hole.
Complex Network::seen(std::size_t i, std::size_t j, double w) const {
    const double along_m = port_m_[i] - port_m_[j];
    const double distance_m =
        i == 0 ? foot_distance_m(along_m, end_radius_m_, tube_radius_m_) : along_m;
    const bool along_wall = i > 0 && j + 1 < port_m_.size();
    if (along_wall && !wall_factors_.empty())
        return outer_coupling(air_, distance_m, wall_factors_[i * port_m_.size() + j], w);
    return outer_coupling(air_, distance_m, tube_radius_m_,
                          along_wall ? Sight::along_wall : Sight::free_air, w);
}

// `like` is one that is solved: a uniform bore computes its constants once.
void Network::solve_step(const Step& step, const Solved& like, double w, Solved& s) const {
    switch (step.kind) {
        case Step::Kind::piece: {
            const double radius_m = step.measured_m < 0.0 ? measured_m(step) : step.measured_m;
            s.line = radius_m == like.line_radius_m ? like.line : line_constants(air_, radius_m, w);
            s.line_radius_m = radius_m;
            s.matrix = step.near_radius_m == step.far_radius_m
                           ? cylinder(s.line, step.length_m)
                           : frustum(s.line, step.near_radius_m, step.far_radius_m, step.length_m,
                                     radius_m);
            s.length_rad = s.line.propagation_1_m.imag() * step.length_m;
            break;
        }
        case Step::Kind::widening:
            s.matrix = widening(air_, std::min(step.near_radius_m, step.far_radius_m),
                                step.measured_m < 0.0 ? measured_m(step) : step.measured_m, w);
            break;
        case Step::Kind::ridge:
            s.matrix = ridge_by_end(air_, ridge_.opening_radius_m, ridge_.thickness_m,
                                    ridge_.bore_radius_m, ridge_.to_end_m, foot_outer_radius_m_, w);
            s.matrix.b *= step.share;
            break;
        case Step::Kind::open: {
            const Hole& hole = hole_of(step);
            const OpenHole open =
                open_hole(air_, hole.shape,
                          hole.open_measured ? hole.open_lengths : open_lengths(hole.shape), w);
            s.matrix = open.passage;
            s.half = open.series_half;
            s.other = open.radiation;
            break;
        }
        case Step::Kind::covered: {
            const Hole& hole = hole_of(step);
            const CoveredHole covered = covered_hole(
                air_, hole.shape,
                hole.covered_measured ? hole.covered_lengths : covered_lengths(hole.shape), w);
            s.half = covered.series_half;
            s.other = covered.admittance;
            break;
        }
    }
}

Network::Ends Network::foot_ends(double w) const {
    Ends e;
    e.foot = open_end_impedance(air_, end_radius_m_, foot_outer_radius_m_, w);
    if (foot_plug_)
        e.disc = foot_disc(air_, end_radius_m_, foot_plug_->thickness_m, foot_radius_m_, w);
    return e;
}

Complex Network::cavity(const LineConstants& behind) const {
    return quotient(std::tanh(behind.propagation_1_m * plug_cavity_m_), behind.impedance);
}

Network::Ends Network::ends(double w) const {
    Ends e = foot_ends(w);
    e.behind = line_constants(air_, window_.bore_radius_m, w);
    e.cavity = cavity(e.behind);
    e.window = window_impedance(air_, window_, window_inertance_m_, w);
    return e;
}

Loop Network::solve(double frequency_Hz, Count count, State* state) const {
    const double w = 2.0 * kPi * frequency_Hz;
    const Eigen::Index ports = static_cast<Eigen::Index>(port_m_.size());
    const Eigen::Index unknowns = ports - 1;  // flows out of open holes and the sound hole
    const Eigen::Index window = ports - 1;

    std::vector<Solved> solved(steps_.size());
    const Solved* piece = nullptr;
    for (std::size_t n = 0; n < steps_.size(); ++n) {
        solve_step(steps_[n], piece ? *piece : solved[n], w, solved[n]);
        if (steps_[n].kind == Step::Kind::piece) piece = &solved[n];
    }
    const auto [end, disc, behind, cavity, across] = ends(w);
    Matrix outside = Matrix::Zero(ports, ports);
    for (Eigen::Index i = 0; i < ports; ++i)
        for (Eigen::Index j = i + 1; j < ports; ++j)
            outside(i, j) = outside(j, i) =
                seen(static_cast<std::size_t>(i), static_cast<std::size_t>(j), w);

    // First pass: the forms, with a flow of 1 out of the foot. Each open hole gives one equation
    // (pressure in the bore = pressure outside, through the hole), the sound hole one of flow.
    Matrix equations(unknowns, unknowns);
    Vector constants(unknowns);
    const auto equate_to_zero = [&](Eigen::Index row, Eigen::Index j, Complex factor) {
        (j == 0 ? constants(row) : equations(row, j - 1)) = j == 0 ? -factor : factor;
    };
    Forms forms{outside.row(0).transpose(), Vector::Unit(ports, 0)};
    forms.p(0) = end;
    forms.carry(disc);
    Eigen::Index port = 0;
    TwoPort run;  // the steps since the last hole: the forms are carried over all of them at once
    for (std::size_t n = 0; n < steps_.size(); ++n) {
        const Solved& s = solved[n];
        const bool open = steps_[n].kind == Step::Kind::open;
        if (steps_[n].kind == Step::Kind::piece) {
            run = s.matrix * run;
            continue;
        }
        if (steps_[n].hole < 0) {  // a series impedance
            run.a += s.matrix.b * run.c;
            run.b += s.matrix.b * run.d;
            continue;
        }
        forms.carry(run);
        run = TwoPort{};
        forms.add_pressure(s.half);
        if (open) {
            ++port;
            for (Eigen::Index j = 0; j < ports; ++j) {
                const Complex own = j == port ? 1.0 : 0.0;
                const Complex outer = outside(port, j) + own * s.other;
                equate_to_zero(port - 1, j, forms.p(j) - s.matrix.a * outer - own * s.matrix.b);
                forms.u(j) += s.matrix.c * outer + own * s.matrix.d;
            }
        } else {
            forms.add_flow(s.other);
        }
        forms.add_pressure(s.half);
    }
    forms.carry(run);
    forms.add_flow(cavity);
    forms.u(window) += 1.0;
    for (Eigen::Index j = 0; j < ports; ++j) equate_to_zero(unknowns - 1, j, forms.u(j));
    Vector flow(ports);
    flow(0) = 1.0;
    flow.tail(unknowns) = solved_for(equations, constants);
    Vector pressure(ports);
    for (Eigen::Index i = 0; i < ports; ++i) {
        pressure(i) = 0.0;
        for (Eigen::Index j = 0; j < ports; ++j) pressure(i) += outside(i, j) * flow(j);
    }
    if (count == Count::none) {
        // what goes into the bore comes in at the sound hole
        const Complex p = pressure(window) + across * flow(window);
        Complex bore_p = 0.0;
        for (Eigen::Index j = 0; j < ports; ++j) bore_p += forms.p(j) * flow(j);
        const Complex loop = quotient(p - bore_p, flow(window));
        const double bore = behind.impedance.real();
        const double back = std::arg((loop - bore) * std::conj(loop + bore));
        return {loop, 0.5 * (kPi - back), bore};
    }

    // Second pass: the numbers themselves, and how far the reflection turns on the way.
    const Complex p_end = end + pressure(0);
    Turn turn(disc.a * p_end + disc.b, disc.c * p_end + disc.d, behind.impedance);
    port = 0;
    if (state) state->planes.reserve(steps_.size() + 1);
    const std::size_t pieces = piece ? static_cast<std::size_t>(piece - solved.data()) : 0;
    for (std::size_t n = 0; n < steps_.size(); ++n) {
        const Solved& s = solved[n];
        const TwoPort& m = s.matrix;
        turn.roughly(n < pieces);  // the last piece's own way knows all but the half turns
        if (state) state->planes.push_back({turn.p(), turn.u()});
        switch (steps_[n].kind) {
            case Step::Kind::piece:
                turn.refer_to(s.line.impedance);
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
    if (state) state->planes.push_back({turn.p(), turn.u()});
    turn.refer_to(behind.impedance.real());
    turn.add_flow(cavity * turn.p());
    turn.add_pressure(across * turn.u() - pressure(window));
    const Loop loop{quotient(turn.p(), turn.u()), turn.angle_rad(), behind.impedance.real()};
    if (!state) return loop;
    state->angular_Hz = w;
    state->loop = loop;
    state->ends = {end, disc, behind, cavity, across};
    state->solved = std::move(solved);
    for (Eigen::Index i = 0; i < ports; ++i) state->openings.push_back({pressure(i), flow(i)});
    return loop;
}

Network::State Network::state(double frequency_Hz) const {
    State state;
    solve(frequency_Hz, Count::turns, &state);
    return state;
}

}  // namespace canewright
