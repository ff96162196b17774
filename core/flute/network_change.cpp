// core/flute/network_change.cpp: what a small change does to a network that is solved.
#include <cmath>

#include "core/base/units.hpp"
#include "core/flute/network.hpp"

namespace canewright {
namespace {

// A two-port's share of the loop's impedance, from what changes above it while below all stays.
Complex share(const TwoPort& before, const TwoPort& after, Complex p_above, Complex u_above,
              Complex p_below, Complex u_below) {
    const Complex p = (after.a - before.a) * p_below + (after.b - before.b) * u_below;
    const Complex u = (after.c - before.c) * p_below + (after.d - before.d) * u_below;
    return u_above * p - p_above * u;
}

bool same(const HoleShape& a, const HoleShape& b) {
    return a.bore_radius_m == b.bore_radius_m && a.tube_radius_m == b.tube_radius_m &&
           a.wall_m == b.wall_m && a.radius_m == b.radius_m &&
           a.inner_radius_m == b.inner_radius_m && a.aspect == b.aspect;
}

bool same(const WindowShape& a, const WindowShape& b) {
    return a.bore_radius_m == b.bore_radius_m && a.length_m == b.length_m &&
           a.width_m == b.width_m && a.wall_m == b.wall_m && a.plug_offset_m == b.plug_offset_m &&
           a.inertance_factor == b.inertance_factor && a.voice == b.voice;
}

bool same(const Air& a, const Air& b) {
    return a.sound_speed_m_s == b.sound_speed_m_s && a.density_kg_m3 == b.density_kg_m3 &&
           a.heat_capacity_ratio == b.heat_capacity_ratio && a.viscosity_Pa_s == b.viscosity_Pa_s &&
           a.thermal_conductivity_W_mK == b.thermal_conductivity_W_mK &&
           a.specific_heat_J_kgK == b.specific_heat_J_kgK && a.lossless == b.lossless;
}

}  // namespace

// The same elements in the same order, where the tube is not another one altogether.
bool Network::is_like(const Network& other) const {
    if (!same(air_, other.air_) || fingers_ != other.fingers_ ||
        foot_plug_.has_value() != other.foot_plug_.has_value() ||
        window_.bore_radius_m != other.window_.bore_radius_m ||
        tube_radius_m_ != other.tube_radius_m_ || port_m_.size() != other.port_m_.size() ||
        steps_.size() != other.steps_.size())
        return false;
    for (std::size_t n = 0; n < steps_.size(); ++n)
        if (steps_[n].kind != other.steps_[n].kind) return false;
    return true;
}

bool Network::same_step(std::size_t n, const Network& other) const {
    const Step &a = steps_[n], &b = other.steps_[n];
    if (a.kind == Step::Kind::ridge)
        return a.share == b.share && ridge_.opening_radius_m == other.ridge_.opening_radius_m &&
               ridge_.thickness_m == other.ridge_.thickness_m &&
               ridge_.bore_radius_m == other.ridge_.bore_radius_m &&
               ridge_.to_end_m == other.ridge_.to_end_m &&
               foot_outer_radius_m_ == other.foot_outer_radius_m_;
    if (a.hole >= 0) return same(hole_of(a).shape, other.hole_of(b).shape);
    return a.near_radius_m == b.near_radius_m && a.far_radius_m == b.far_radius_m &&
           a.length_m == b.length_m;
}

// For the flow round the loop that `here` has, times that flow squared.
Complex Network::impedance_change(const State& here, const Network& less,
                                  const Network& more) const {
    const double w = here.angular_Hz;
    Complex sum = 0.0;
    std::size_t port = 0;
    for (std::size_t n = 0; n < steps_.size(); ++n) {
        const Plane &below = here.planes[n], &above = here.planes[n + 1];
        const Solved& now = here.solved[n];
        const Step &from = less.steps_[n], &to = more.steps_[n];
        const bool open = to.kind == Step::Kind::open;
        port += open ? 1 : 0;
        if (less.same_step(n, more)) continue;
        const bool piece = to.kind == Step::Kind::piece;
        if (piece && now.line_radius_m == to.near_radius_m && to.near_radius_m == to.far_radius_m &&
            from.near_radius_m == to.near_radius_m && from.far_radius_m == to.far_radius_m) {
            // a cylinder's length: d(p, u) = (series u, shunt p) dx, and the same all along it
            sum += (to.length_m - from.length_m) * now.line.propagation_1_m *
                   (now.line.impedance * above.u * above.u -
                    quotient(above.p * above.p, now.line.impedance));
            continue;
        }
        Solved before = now, after;
        if (&less != this) less.solve_step(from, now, w, before);
        more.solve_step(to, now, w, after);
        if (to.hole < 0) {
            sum += share(before.matrix, after.matrix, above.p, above.u, below.p, below.u);
            continue;
        }
        sum += (after.half - before.half) * (below.u * below.u + above.u * above.u);
        const Complex p = below.p + now.half * below.u;  // at the hole's axis
        if (open) {
            const Plane& out = here.openings[port];
            sum += (after.other - before.other) * out.u * out.u;
            sum += share(before.matrix, after.matrix, p, above.u - below.u,
                         out.p + now.other * out.u, out.u);
        } else {
            sum -= (after.other - before.other) * p * p;
        }
    }
    // Openings that moved are seen from elsewhere.
    const std::size_t ports = port_m_.size();
    for (std::size_t i = 0; i < ports; ++i)
        for (std::size_t j = i + 1; j < ports; ++j)
            if (less.port_m_[i] != more.port_m_[i] || less.port_m_[j] != more.port_m_[j] ||
                (i == 0 && less.end_radius_m_ != more.end_radius_m_))
                sum += 2.0 * here.openings[i].u * here.openings[j].u *
                       (more.seen(i, j, w) - less.seen(i, j, w));
    return sum + end_change(here, less, more);
}

// The same of what ends the network.
Complex Network::end_change(const State& here, const Network& less, const Network& more) const {
    const double w = here.angular_Hz;
    const Plane &foot = here.openings.front(), &top = here.planes.back();
    const Complex loop_flow = here.openings.back().u;
    Complex sum = 0.0;
    if (less.end_radius_m_ != more.end_radius_m_ || less.foot_radius_m_ != more.foot_radius_m_ ||
        less.foot_outer_radius_m_ != more.foot_outer_radius_m_ ||
        (foot_plug_ && less.foot_plug_->thickness_m != more.foot_plug_->thickness_m)) {
        const Ends before = less.foot_ends(w), after = more.foot_ends(w);
        sum += (after.foot - before.foot) * foot.u * foot.u;
        const Plane &in = here.planes.front(), out{foot.p + here.ends.foot * foot.u, foot.u};
        sum += share(before.disc, after.disc, in.p, in.u, out.p, out.u);
    }
    if (less.plug_cavity_m_ != more.plug_cavity_m_)
        sum -= (more.cavity(here.ends.behind) - less.cavity(here.ends.behind)) * top.p * top.p;
    if (less.window_inertance_m_ != more.window_inertance_m_ || !same(less.window_, more.window_))
        sum += (window_impedance(air_, more.window_, more.window_inertance_m_, w) -
                window_impedance(air_, less.window_, less.window_inertance_m_, w)) *
               loop_flow * loop_flow;
    return sum;
}

double Network::turn_change(const State& here, const Network& less, const Network& more) const {
    if (!is_like(less) || !is_like(more)) {
        const double f_Hz = here.angular_Hz / (2.0 * kPi);
        return more.at(f_Hz).turn - (&less == this ? here.loop.turn : less.at(f_Hz).turn);
    }
    const Complex flow = here.openings.back().u;
    const Complex half = 0.5 * quotient(impedance_change(here, less, more), flow * flow);
    const double bore = here.loop.bore_impedance;
    const auto wave = [&](Complex impedance) {
        return (impedance - bore) * std::conj(impedance + bore);
    };
    const Complex one = wave(here.loop.impedance - half), other = wave(here.loop.impedance + half);
    return -0.5 * std::arg(other * std::conj(one));
}

}  // namespace canewright
