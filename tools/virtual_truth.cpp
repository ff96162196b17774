// tools/virtual_truth.cpp: transmission line, holes and sound hole of a virtual flute.
#include "tools/virtual_truth.hpp"

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

State along(const Gas& gas, double radius, double length, double w, State far) {
    const double rv = radius * std::sqrt(gas.rho * w / gas.eta);
    const Complex gamma(w / gas.c * (1.045 / rv + 1.080 / (rv * rv) + 0.750 / (rv * rv * rv)),
                        w / gas.c * (1.0 + 1.045 / rv));
    const Complex zc =
        gas.rho * gas.c / (kPi * radius * radius) *
        Complex(1.0 + 0.369 / rv, -(0.369 / rv + 1.149 / (rv * rv) + 0.303 / (rv * rv * rv)));
    const Complex ch = std::cosh(gamma * length), sh = std::sinh(gamma * length);
    return {ch * far.p + zc * sh * far.u, sh / zc * far.p + ch * far.u};
}

class Tube {
   public:
    Tube(const TrueFlute& flute, const std::vector<int>& open, const Gas& gas)
        : f_(flute), gas_(gas), centre_m_(0.5 * flute.window_length_m) {
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

    // `push` as a ratio of pressure to the opening's own outward flow.
    Complex once(double w, const std::vector<Complex>& push, std::vector<Complex>& flow) const {
        const double k = w / gas_.c;
        const double a = radius_m(f_.foot_m);
        const double resistance = gas_.rho * gas_.c * k * k / (4.0 * kPi);
        State s{0.0, 1.0};
        flow[0] = 1.0;
        const double end_radius_m = f_.disc_opening_m > 0.0 ? 0.5 * f_.disc_opening_m : a;
        const double ratio = end_radius_m / (a + f_.wall_m);
        const double delta = end_radius_m * (0.8216 - ratio * (0.8216 - 0.6133) +
                                             0.057 * ratio * (1.0 - std::pow(ratio, 5.0)));
        const double end_area = kPi * end_radius_m * end_radius_m;
        s.p = kJ * w * gas_.rho * delta / end_area + resistance + push[0];
        if (f_.disc_opening_m > 0.0) {
            const double x = end_radius_m / a;
            s = along(gas_, end_radius_m, f_.disc_thickness_m, w, s);
            // inner end in a duct: 0.8216 b (1 - 1.25 x), from memory, for x below 0.8
            s.p += kJ * w * gas_.rho * 0.8216 * end_radius_m * std::max(0.0, 1.0 - 1.25 * x) /
                   end_area * s.u;
        }
        // pressed in until it is flush
        double at_m = f_.foot_m - (f_.disc_opening_m > 0.0 ? f_.disc_thickness_m : 0.0);
        for (std::size_t n = 0; n < holes_.size(); ++n) {
            const Hole& hole = holes_[n];
            s = line(w, at_m, hole.shape.at_m, s);
            at_m = hole.shape.at_m;
            const double A = radius_m(at_m), b = 0.5 * hole.shape.diameter_m, g = b / A;
            const double t = f_.wall_m;
            const double ti =
                b * (0.82 - 0.193 * g - 1.09 * g * g + 1.27 * g * g * g - 0.71 * g * g * g * g);
            const double tm = 0.125 * b * g * (1.0 + 0.207 * g * g * g);
            const double ta =
                -b * g * g / (1.78 / std::tanh(1.84 * t / b) + 0.940 + 0.540 * g + 0.285 * g * g);
            const double Zb = gas_.rho * gas_.c / (kPi * b * b);
            const Complex half = kJ * w * gas_.rho * ta / (2.0 * kPi * A * A);
            s.p += half * s.u;
            if (hole.open) {
                const double outer = b * (0.8216 - 0.47 * std::pow(b / (A + t), 0.8));
                // a worn edge takes about its own radius off the passage
                const double te = ti + tm + t + outer - f_.edge_m;
                const Complex Zs = kJ * Zb * std::tan(k * te) + resistance + push[n + 1];
                flow[n + 1] = s.p / Zs;
            } else {
                const double depth = std::max(0.15 * t, t + tm - f_.fingertip * b);
                const Complex Zs = kJ * Zb * (k * ti - 1.0 / std::tan(k * depth));
                flow[n + 1] = 0.0;
                s.u += s.p / Zs;
            }
            s.u += flow[n + 1];
            s.p += half * s.u;
        }
        s = line(w, at_m, centre_m_, s);
        flow.back() = -s.u;
        const double A = radius_m(centre_m_);
        const double area = kPi * A * A;
        const Complex window = kJ * gas_.rho * gas_.c / area * std::tan(k * window_m(k, A));
        return s.p / s.u + window + resistance + push.back();
    }

    // Length of bore that the sound hole is worth, from its centre [m].
    double window_m(double k, double a) const {
        const double W = f_.window_length_m, H = f_.window_width_m, t = f_.wall_m;
        const double off = f_.plug_offset_m, area = kPi * a * a;
        const double r = std::sqrt(W * H / kPi) / a, g = off / (off + 0.15 * a);
        const double h = H / (2.0 * a), aspect = std::log(H / W);
        const double E = 1.951 - 1.263 * r - 0.167 * h * h + 0.064 * aspect -
                         0.120 * aspect * aspect + 0.247 * t / a * h +
                         g * (0.163 * r - 0.449 / (1.0 + W / a));
        const double lw = f_.voice * area / (W * H) *
                          (t * (1.0 + H * H / (24.0 * a * (a + t))) + E * std::sqrt(W * H / kPi));
        const double cot = 1.0 / (k * lw) - std::tan(k * (off + 0.6 * W));
        return std::atan2(1.0, cot) / k;
    }

    void couple(double w, const std::vector<Complex>& flow, std::vector<Complex>& push) const {
        const double k = w / gas_.c;
        std::vector<double> at_m{f_.foot_m};
        for (const Hole& hole : holes_) at_m.push_back(hole.shape.at_m);
        at_m.push_back(centre_m_);
        for (std::size_t i = 0; i < at_m.size(); ++i) {
            push[i] = 0.0;
            if (flow[i] == 0.0) continue;
            for (std::size_t j = 0; j < at_m.size(); ++j) {
                if (j == i || flow[j] == 0.0) continue;
                const bool window = i + 1 == at_m.size() || j + 1 == at_m.size();
                const double d = std::abs(at_m[i] - at_m[j]);
                push[i] += kJ * w * gas_.rho * std::cos(k * d) / ((window ? 4.0 : 3.0) * kPi * d) *
                           flow[j] / flow[i];
            }
        }
    }

    const TrueFlute& f_;
    const Gas gas_;
    const double centre_m_;
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
