// tests/core/jet/prototype.hpp: three harmonic modes, blown; in frequency and, apart from the core,
// in time.
#pragma once

#include <array>
#include <cmath>
#include <vector>

#include "core/base/noise.hpp"
#include "core/base/units.hpp"
#include "core/jet/regime.hpp"

namespace canewright::testing {

// f 350 Hz, h 1, W 4, H 12, bore 19 mm; the modes of a line open at both ends, all of one quality.
struct Prototype {
    double quality = 40.0, offset_m = 1e-4;
    double f_Hz = 350.0, height_m = 1e-3, window_m = 4e-3, width_m = 12e-3;

    Air air() const {
        Air a;
        a.sound_speed_m_s = 343.0;
        a.density_kg_m3 = 1.2;
        a.viscosity_Pa_s = 1.81e-5;
        return a;
    }
    // rho l / (2 S) of the line that is half a wave long: pressure over acceleration of flow.
    double inertance() const {
        const double length_m = air().sound_speed_m_s / (2.0 * f_Hz);
        return air().density_kg_m3 * length_m / (2.0 * kPi * 9.5e-3 * 9.5e-3);
    }
    Complex impedance(double at_Hz) const {
        const double w = 2.0 * kPi * at_Hz;
        Complex y = 0.0;
        for (int n = 1; n <= 3; ++n) {
            const double wn = 2.0 * kPi * f_Hz * n;
            y += Complex(0.0, w) / (inertance() * Complex(wn * wn - w * w, w * wn / quality));
        }
        return 1.0 / y;
    }
    NoteLoops loops() const {
        NoteLoops all;
        for (int n = 1; n <= 3; ++n)
            all.registers[static_cast<std::size_t>(n - 1)] =
                LocalImpedance([this](double at_Hz) { return impedance(at_Hz); }, n * f_Hz);
        for (std::size_t n = 0; n < all.overtones.size(); ++n)
            all.overtones[n] = overtones([this](double at_Hz) { return impedance(at_Hz); },
                                         static_cast<double>(n + 1) * f_Hz);
        return all;
    }
    // The track is of no length: the centre has Bernoulli's speed, as in the time steps below.
    Voice voice() const {
        Voice v;
        v.track = {height_m, width_m, 0.0, 0.0};
        v.window_m = window_m;
        v.width_m = width_m;
        v.edge_offset_m = offset_m;
        return v;
    }
    Drive drive() const { return Drive(air(), height_m, offset_m, window_m, width_m); }
};

// What the last half second of a blown prototype was like.
struct Heard {
    double cents = 0.0;                // of the first mode's passages through zero, from f_Hz
    std::array<double, 3> velocity{};  // peak, of each mode, m/s
};

// Steps the equations of core/jet/drive's header through time; nothing of the core is used.
// Pressure goes in a second from `from_Pa` to `to_Pa`, and is held for another three.
inline Heard blown_in_time(const Prototype& p, double from_Pa, double to_Pa) {
    const double fs = 192000.0, rho = 1.2, b = 0.4 * p.height_m;
    const double grown = std::exp(0.4 * p.window_m / p.height_m);
    const double dipole_m = 4.0 / kPi * std::sqrt(2.0 * p.height_m * p.window_m);
    const double mass = p.inertance() * p.window_m * p.width_m;
    std::vector<double> past(1U << 14U, 0.0);
    const std::size_t mask = past.size() - 1;
    std::array<double, 3> x{}, v{}, square{};
    Noise noise(1, 0);
    double last_q = 0.0, total = 0.0, before = 0.0, first_s = 0.0, last_s = 0.0;
    int passages = 0;
    const long steps = static_cast<long>(4.0 * fs), listened = static_cast<long>(0.5 * fs);
    for (long n = 0; n < steps; ++n) {
        const double t = static_cast<double>(n) / fs;
        const double pressure = t < 1.0 ? from_Pa + (to_Pa - from_Pa) * t : to_Pa;
        const double u = std::sqrt(2.0 * pressure / rho);
        // a sample less: the difference and the steps of the modes are half a one late each
        const double late = p.window_m / (0.4 * u) * fs - 1.0;
        const std::size_t whole = static_cast<std::size_t>(late);
        const double part = late - static_cast<double>(whole);
        const std::size_t now = static_cast<std::size_t>(n) + past.size();
        const double then =
            (1.0 - part) * past[(now - whole) & mask] + part * past[(now - whole - 1) & mask];
        const double eta =
            p.height_m / u * grown * then + 1e-4 * p.height_m * (2.0 * noise.uniform() - 1.0);
        const double q = b * p.width_m * u * (1.0 + std::tanh((eta - p.offset_m) / b));
        const double source = rho * dipole_m / (p.window_m * p.width_m) * (q - last_q) * fs;
        const double loss = 0.5 * rho / 0.36 * total * std::abs(total);
        last_q = q;
        total = 0.0;
        before = v[0];
        for (std::size_t m = 0; m < 3; ++m) {
            const double w = 2.0 * kPi * p.f_Hz * static_cast<double>(m + 1);
            v[m] +=
                ((n > 0 ? source - loss : 0.0) / mass - w / p.quality * v[m] - w * w * x[m]) / fs;
            x[m] += v[m] / fs;
            total += v[m];
            if (n >= steps - listened) square[m] += v[m] * v[m];
        }
        past[(now + 1) & mask] = total;
        if (n >= steps - listened && before < 0.0 && v[0] >= 0.0) {
            last_s = t - v[0] / (v[0] - before) / fs;
            if (passages++ == 0) first_s = last_s;
        }
    }
    Heard heard;
    for (std::size_t m = 0; m < 3; ++m)
        heard.velocity[m] = std::sqrt(2.0 * square[m] / static_cast<double>(listened));
    if (passages > 1) heard.cents = cents_between((passages - 1) / (last_s - first_s), p.f_Hz);
    return heard;
}

}  // namespace canewright::testing
