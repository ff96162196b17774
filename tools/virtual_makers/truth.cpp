// tools/virtual_makers/truth.cpp: transmission line, holes and sound hole of a virtual flute.
#include "tools/virtual_makers/truth.hpp"

#include <algorithm>
#include <cmath>
#include <complex>
#include <limits>

#include "core/base/units.hpp"

namespace virtual_makers {
namespace {

using canewright::K_from_C;
using canewright::kPi;
using canewright::kZeroCelsius_K;
using Complex = std::complex<double>;
constexpr Complex kJ(0.0, 1.0);

struct Gas {
    double c, rho, eta;  // sound speed, density, viscosity
};

// Ideal gases: dry air, vapour, CO2. Molar masses and heats as in any handbook (from memory).
Gas bore_air(double room_C, double humidity, double share) {
    const double t_C = room_C + share * (34.0 - room_C);
    const double pressure = 101325.0;
    // Magnus: saturation over water [Pa]
    const auto saturation = [](double t) { return 611.2 * std::exp(17.62 * t / (243.12 + t)); };
    const double wet =
        (1.0 - share) * humidity * saturation(room_C) + share * 0.95 * saturation(34.0);
    const double water = std::min(wet, saturation(t_C)) / pressure;
    const double co2 = 0.0004 + 0.04 * share;
    const double air = 1.0 - water - co2;
    const double molar = 0.028966 * air + 0.018015 * water + 0.04401 * co2;
    const double R = 8.314462;
    const double heat = 29.12 * air + 33.6 * water + 37.1 * co2;  // cp [J/(mol K)]
    const double T = K_from_C(t_C);
    const double gamma = heat / (heat - R);
    // Sutherland's viscosity of air
    const double eta =
        1.716e-5 * std::pow(T / kZeroCelsius_K, 1.5) * (kZeroCelsius_K + 110.4) / (T + 110.4);
    return {std::sqrt(gamma * R * T / molar), pressure * molar / (R * T), eta};
}

struct State {
    Complex p, u;  // u towards the foot
};

// Attenuation by the handbook's rule of thumb, the wave's speed with it; as wide as a plane wave.
double attenuation_1_m(double radius, double w) { return 1.2e-5 * std::sqrt(w) / radius; }

State along(const Gas& gas, double radius, double length, double w, State far) {
    const double slowed = 1.65e-3 / (radius * std::sqrt(w / (2.0 * kPi)));
    const Complex gamma(attenuation_1_m(radius, w), w / (gas.c * (1.0 - slowed)));
    const double zc = gas.rho * gas.c / (kPi * radius * radius);
    const Complex ch = std::cosh(gamma * length), sh = std::sinh(gamma * length);
    return {ch * far.p + zc * sh * far.u, sh / zc * far.p + ch * far.u};
}

// An open end: length over its radius and |R|, without a flange and with an infinite one.
struct End {
    double length, reflection;
};
End bare_end(double x) {
    return {(0.6133 + 0.027 * x * x) / (1.0 + 0.19 * x * x),
            (1.0 + 0.2 * x - 0.084 * x * x) / (1.0 + 0.2 * x + 0.416 * x * x)};
}
End flanged_end(double x) {
    return {0.8216 / (1.0 + 0.77 * x * (0.77 * x) / (1.0 + 0.77 * x)),
            (1.0 + 0.323 * x - 0.077 * x * x) / (1.0 + 0.323 * x + 0.923 * x * x)};
}

class Tube {
   public:
    Tube(const TrueFlute& flute, const std::vector<int>& open, const Gas& gas)
        : f_(flute), gas_(gas), window_m_(0.5 * flute.window_length_m) {
        for (std::size_t i = flute.holes.size(); i-- > 0;)
            if (flute.holes[i].cut)
                holes_.push_back(
                    {flute.holes[i],
                     std::find(open.begin(), open.end(), static_cast<int>(i) + 1) != open.end()});
    }

    // Imaginary part of the impedance round the loop; 0 at a resonance, rising through it.
    double reactance(double frequency_Hz) const {
        const double w = 2.0 * kPi * frequency_Hz;
        std::vector<Complex> push(holes_.size() + 2, 0.0);  // pressure from the other openings
        std::vector<Complex> flow(holes_.size() + 2, 0.0);
        Complex loop = 0.0;
        for (int trip = 0; trip < 3; ++trip) {  // flows and coupled pressures in turn
            loop = once(w, push, flow);
            couple(w, flow, push);
        }
        return loop.imag();
    }

    double start_Hz() const {
        double end_m = f_.foot_m;
        for (const Hole& hole : holes_)
            if (hole.open) end_m = hole.shape.at_m;
        return 0.30 * gas_.c / (2.0 * (end_m + f_.bore_m));
    }

   private:
    struct Hole {
        TrueHole shape;
        bool open;
    };
    double radius_m(double at_m) const { return 0.5 * f_.bore_m * (1.0 - f_.taper * at_m / 0.4); }

    State line(double w, double from_m, double to_m, State s) const {
        constexpr double kSlice_m = 0.025;
        while (from_m > to_m + 1e-12) {
            const double next_m = std::max(to_m, from_m - kSlice_m);
            s = along(gas_, radius_m(0.5 * (from_m + next_m)), from_m - next_m, w, s);
            from_m = next_m;
        }
        return s;
    }

    // Impedance of an open end of this radius in a wall of that outer one.
    Complex end(double k, double radius, double outer) const {
        const double ratio = radius / outer;
        const End bare = bare_end(k * radius), flanged = flanged_end(k * radius);
        const double delta =
            radius * (flanged.length + ratio * (bare.length - flanged.length) +
                      0.057 * ratio * (1.0 - std::pow(ratio, 5.0)));  // flange of a real wall
        const double size = flanged.reflection + ratio * (bare.reflection - flanged.reflection);
        const Complex R = -size * std::exp(-2.0 * kJ * k * delta);
        return gas_.rho * gas_.c / (kPi * radius * radius) * (1.0 + R) / (1.0 - R);
    }

    // `push` as a ratio of pressure to the opening's own outward flow.
    Complex once(double w, const std::vector<Complex>& push, std::vector<Complex>& flow) const {
        const double k = w / gas_.c;
        const double a = radius_m(f_.foot_m), outer = a + f_.wall_m;
        State s{0.0, 1.0};
        flow[0] = 1.0;
        double at_m = f_.foot_m;
        if (f_.disc_opening_m > 0.0) {
            const double b = 0.5 * f_.disc_opening_m;
            s.p = end(k, b, outer) + push[0];
            s = along(gas_, b, f_.disc_thickness_m, w, s);
            // inner end in a duct: 0.8216 b (1 - 1.25 b/a), below b/a = 0.8
            s.p += kJ * w * gas_.rho * 0.8216 * std::max(0.0, 1.0 - 1.25 * b / a) / (kPi * b) * s.u;
            at_m -= f_.disc_thickness_m;  // pressed in until it is flush
        } else {
            s.p = end(k, a, outer) + push[0];
        }
        for (std::size_t n = 0; n < holes_.size(); ++n) {
            s = line(w, at_m, holes_[n].shape.at_m, s);
            at_m = holes_[n].shape.at_m;
            s = past_hole(w, holes_[n], push[n + 1], flow[n + 1], s);
        }
        s = line(w, at_m, window_m_,
                 s);  // the elements' inertance counts from the opening's middle
        const double A = radius_m(0.0), area = kPi * A * A;
        s.u += s.p * kJ * std::tan(k * (f_.plug_offset_m + window_m_)) * area / (gas_.rho * gas_.c);
        flow.back() = -s.u;
        return s.p / s.u + mouth(w, A) + push.back();
    }

    State past_hole(double w, const Hole& hole, Complex push, Complex& flow, State s) const {
        const double k = w / gas_.c, A = radius_m(hole.shape.at_m), t = f_.wall_m;
        const double b = 0.5 * hole.shape.diameter_m, g = b / A;
        const double Zb = gas_.rho * gas_.c / (kPi * b * b);
        const double deep = std::tanh(1.84 * t / b);
        const double ta =
            0.47 * b * g * g / ((hole.open ? deep : 1.0 / deep) + 0.62 * g * g + 0.64 * g);
        const Complex half = -kJ * w * gas_.rho * ta / (2.0 * kPi * A * A);
        s.p += half * s.u;
        flow = 0.0;
        if (hole.open) {
            // wall, matching volume, inner end, outer end on a cylinder (Dalmont et al. 2002)
            const double matching = 0.125 * b * g * (1.0 + 0.207 * g * g * g);
            const double inner = b * (0.82 - 1.4 * g * g + 0.75 * std::pow(g, 2.7));
            const double outer = b * (0.82 - 0.47 * std::pow(b / (A + t), 0.8));
            // a worn edge takes about its own radius off the passage
            // the boundary layer's air is carried along: 1 + layer / b of the wall's mass
            const double layer = std::sqrt(2.0 * gas_.eta / (gas_.rho * w));
            const double te =
                std::tan(k * (t + matching + outer)) / k + inner + t * layer / b - f_.edge_m;
            const double edge_m = std::max(f_.edge_m, 0.05e-3);
            const double xi = 0.25 * k * b * k * b + attenuation_1_m(b, w) * t +
                              0.25 * k * layer * std::log(2.0 * b / edge_m);
            flow = s.p / (Zb * (kJ * k * te + xi) + push);
            s.u += flow;
        } else {
            const double depth = std::max(0.15 * t, t - f_.fingertip * b);
            s.u += s.p * kJ * std::tan(k * depth) / Zb;
        }
        s.p += half * s.u;
        return s;
    }

    // The sound hole as finite elements have it, and what they do not know.
    Complex mouth(double w, double a) const {
        const double k = w / gas_.c;
        return kJ * w * gas_.rho * f_.voice * f_.mouth_m / (kPi * a * a) +
               gas_.rho * gas_.c * k * k / (f_.space * kPi);
    }

    void couple(double w, const std::vector<Complex>& flow, std::vector<Complex>& push) const {
        const double k = w / gas_.c;
        std::vector<double> at_m{f_.foot_m};
        for (const Hole& hole : holes_) at_m.push_back(hole.shape.at_m);
        at_m.push_back(window_m_);
        for (std::size_t i = 0; i < at_m.size(); ++i) {
            push[i] = 0.0;
            if (flow[i] == 0.0) continue;
            for (std::size_t j = 0; j < at_m.size(); ++j) {
                if (j == i || flow[j] == 0.0) continue;
                const double d = std::abs(at_m[i] - at_m[j]);
                push[i] += kJ * w * gas_.rho * std::exp(-kJ * k * d) / (f_.space * kPi * d) *
                           flow[j] / flow[i];
            }
        }
    }

    const TrueFlute& f_;
    const Gas gas_;
    const double window_m_;    // its centre
    std::vector<Hole> holes_;  // from the foot up
};

}  // namespace

double sounding_Hz(const TrueFlute& flute, const std::vector<int>& open, double room_C,
                   double warmth, double near_Hz) {
    const Tube tube(flute, open, bore_air(room_C, flute.humidity, warmth * flute.breath_share));
    double low = near_Hz > 0.0 ? near_Hz * 0.97 : tube.start_Hz();
    double at_low = tube.reactance(low);
    double high = low;
    bool found = false;
    for (int n = 0; n < 300 && !found; ++n) {  // a zero, not a pole: from below to above
        high = low * 1.013;
        const double at_high = tube.reactance(high);
        found = at_low < 0.0 && at_high >= 0.0;
        if (!found) low = high, at_low = at_high;
    }
    if (!found) return std::numeric_limits<double>::quiet_NaN();
    for (int n = 0; n < 24; ++n) {
        const double middle = 0.5 * (low + high);
        (tube.reactance(middle) < 0.0 ? low : high) = middle;
    }
    const double passive_Hz = 0.5 * (low + high);
    // players push high notes: the lift grows with frequency, not with cents
    const double lift = flute.breath_drift_cents * (passive_Hz / flute.lowest_Hz - 1.0);
    return canewright::shifted_Hz(passive_Hz, std::max(lift, 0.0));
}

}  // namespace virtual_makers
