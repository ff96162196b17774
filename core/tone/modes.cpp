// core/tone/modes.cpp: vector fitting of a network's admittance.
#include "core/tone/modes.hpp"

#include <Eigen/Dense>
#include <algorithm>
#include <cmath>

#include "core/base/units.hpp"

namespace canewright {
namespace {

using Matrix = Eigen::MatrixXd;
using Vector = Eigen::VectorXd;

constexpr double kUnit_rad_s = 2.0 * kPi * 1000.0;  // frequencies near 1 keep the sums well posed
constexpr double kPlacesPerMode = 24.0;
constexpr int kRounds = 4;        // of moving the poles
constexpr int kMostPlaces = 900;  // a tube that is longer has them further apart
constexpr double kStartQuality = 20.0;

// The response where it is asked for; s in units of kUnit_rad_s.
struct Place {
    Complex s, flow, radiated;
};

struct Sampled {
    std::vector<Place> places;
    std::vector<double> passages_Hz;
};

// What a flow out of one opening is worth where it is heard, against that out of the sound hole.
Complex heard(const Network& network, std::size_t opening, double f_Hz) {
    const double along_m = network.openings_m()[opening] - network.openings_m().back();
    const double away_m = std::hypot(kHeardFrom_m, along_m);
    const double late_s = (away_m - kHeardFrom_m) / network.air().sound_speed_m_s;
    return std::polar(kHeardFrom_m / away_m, -2.0 * kPi * f_Hz * late_s);
}

Sampled sampled(const Network& network, double top_Hz) {
    const double first_Hz = network.air().sound_speed_m_s / (2.0 * network.first_open_m());
    const double step_Hz = std::max(std::min(first_Hz, 600.0) / kPlacesPerMode,
                                    (top_Hz - kModesFrom_Hz) / kMostPlaces);
    const int count = static_cast<int>((top_Hz - kModesFrom_Hz) / step_Hz) + 1;
    Sampled all;
    double before = 0.0;
    for (int n = 0; n < count; ++n) {
        const double f_Hz = kModesFrom_Hz + n * step_Hz;
        const Network::State state = network.state(f_Hz);
        Complex out = 0.0;
        for (std::size_t i = 0; i < state.openings.size(); ++i)
            out += state.openings[i].u * heard(network, i, f_Hz);
        // what flows into the bore at the sound hole is the opening's flow turned round
        const Complex y = inverse(state.loop.impedance);
        all.places.push_back({Complex(0.0, 2.0 * kPi * f_Hz / kUnit_rad_s), y,
                              y * quotient(out, -state.openings.back().u)});
        const double turns = state.loop.turn / kPi;
        if (n > 0 && std::floor(turns) > std::floor(before))
            all.passages_Hz.push_back(f_Hz -
                                      step_Hz * (turns - std::floor(turns)) / (turns - before));
        before = turns;
    }
    return all;
}

// Poles: real ones, then one of each pair.
using Poles = std::vector<Complex>;

std::size_t unknowns(const Poles& poles) {
    std::size_t n = 0;
    for (const Complex& p : poles) n += p.imag() > 0.0 ? 2 : 1;
    return n;
}

// The functions whose real multiples make a real response.
std::vector<Complex> basis(const Poles& poles, Complex s) {
    std::vector<Complex> all;
    for (const Complex& p : poles) {
        const Complex one = inverse(s - p);
        if (!(p.imag() > 0.0)) {
            all.push_back(one);
            continue;
        }
        const Complex other = inverse(s - std::conj(p));
        all.push_back(one + other);
        all.push_back(Complex(0.0, 1.0) * (one - other));
    }
    return all;
}

std::vector<Complex> residues(const Poles& poles, const Vector& x) {
    std::vector<Complex> all;
    Eigen::Index n = 0;
    for (const Complex& p : poles) {
        if (p.imag() > 0.0) {
            all.push_back({x(n), x(n + 1)});
            n += 2;
        } else {
            all.push_back(x(n++));
        }
    }
    return all;
}

// Least squares by the normal equations, columns scaled.
Vector least_squares(const Matrix& a, const Vector& b) {
    const Vector scale = a.colwise().norm().cwiseMax(1e-300).cwiseInverse().transpose();
    const Matrix scaled = a * scale.asDiagonal();
    Matrix normal = scaled.transpose() * scaled;
    normal.diagonal().array() += 1e-15;
    const Vector x = normal.ldlt().solve(scaled.transpose() * b);
    return scale.cwiseProduct(x);
}

// Zeros of 1 + sum of residues / (s - pole), from the poles.
Poles zeros(const Poles& poles, const std::vector<Complex>& c) {
    Poles all, c_all;
    for (std::size_t n = 0; n < poles.size(); ++n) {
        all.push_back(poles[n]);
        c_all.push_back(c[n]);
        if (!(poles[n].imag() > 0.0)) continue;
        all.push_back(std::conj(poles[n]));
        c_all.push_back(std::conj(c[n]));
    }
    Poles z = all;
    for (Complex& each : z) each *= 1.001;
    for (int round = 0; round < 60; ++round) {
        double moved = 0.0;
        for (std::size_t i = 0; i < z.size(); ++i) {
            Complex sum = 1.0, slope = 0.0, poles_sum = 0.0, others = 0.0;
            for (std::size_t k = 0; k < all.size(); ++k) {
                const Complex one = inverse(z[i] - all[k]);
                sum += c_all[k] * one;
                slope -= c_all[k] * one * one;
                poles_sum += one;
                if (k != i) others += inverse(z[i] - z[k]);
            }
            const Complex step = inverse(slope / sum + poles_sum - others);
            if (!std::isfinite(step.real() + step.imag())) continue;
            z[i] -= step;
            moved = std::max(moved, std::abs(step) / std::abs(z[i]));
        }
        if (moved < 1e-10) break;
    }
    Poles kept;
    for (std::size_t n = 0, i = 0; n < poles.size(); ++n) {
        const bool pair = poles[n].imag() > 0.0;
        Complex p = z[i];
        // what would grow decays; what came to lie on the axis stays a pair beside it
        p = {-std::max(std::abs(p.real()), 1e-6), pair ? std::max(std::abs(p.imag()), 1e-3) : 0.0};
        kept.push_back(p);
        i += pair ? 2 : 1;
    }
    return kept;
}

Poles moved(const Poles& poles, const std::vector<Place>& places) {
    const auto rows = static_cast<Eigen::Index>(2 * places.size());
    const auto n = static_cast<Eigen::Index>(unknowns(poles));
    Matrix a(rows, 2 * n);
    Vector b(rows);
    for (Eigen::Index k = 0; k < rows / 2; ++k) {
        const Place& place = places[static_cast<std::size_t>(k)];
        const std::vector<Complex> f = basis(poles, place.s);
        const double weight = 1.0 / std::abs(place.flow);
        for (Eigen::Index i = 0; i < n; ++i) {
            const Complex one = weight * f[static_cast<std::size_t>(i)], other = -place.flow * one;
            a(2 * k, i) = one.real();
            a(2 * k + 1, i) = one.imag();
            a(2 * k, n + i) = other.real();
            a(2 * k + 1, n + i) = other.imag();
        }
        b(2 * k) = weight * place.flow.real();
        b(2 * k + 1) = weight * place.flow.imag();
    }
    return zeros(poles, residues(poles, least_squares(a, b).tail(n)));
}

std::vector<Complex> fitted(const Poles& poles, const std::vector<Place>& places,
                            Complex Place::*response) {
    const auto rows = static_cast<Eigen::Index>(2 * places.size());
    Matrix a(rows, static_cast<Eigen::Index>(unknowns(poles)));
    Vector b(rows);
    for (Eigen::Index k = 0; k < rows / 2; ++k) {
        const Place& place = places[static_cast<std::size_t>(k)];
        const std::vector<Complex> f = basis(poles, place.s);
        const double weight = 1.0 / std::abs(place.*response);
        for (Eigen::Index i = 0; i < a.cols(); ++i) {
            a(2 * k, i) = weight * f[static_cast<std::size_t>(i)].real();
            a(2 * k + 1, i) = weight * f[static_cast<std::size_t>(i)].imag();
        }
        b(2 * k) = weight * (place.*response).real();
        b(2 * k + 1) = weight * (place.*response).imag();
    }
    return residues(poles, least_squares(a, b));
}

Complex summed(const std::vector<Mode>& modes, Complex Mode::*residue, double frequency_Hz) {
    const Complex s(0.0, 2.0 * kPi * frequency_Hz);
    Complex sum = 0.0;
    for (const Mode& m : modes) {
        sum += m.*residue / (s - m.pole);
        if (m.is_pair()) sum += std::conj(m.*residue) / (s - std::conj(m.pole));
    }
    return sum;
}

}  // namespace

Complex ModalLoop::admittance(double frequency_Hz) const {
    return summed(modes, &Mode::flow, frequency_Hz);
}
Complex ModalLoop::radiated(double frequency_Hz) const {
    return summed(modes, &Mode::radiated, frequency_Hz);
}

ModalLoop modes_of(const Network& network, double top_Hz) {
    const Sampled all = sampled(network, top_Hz);
    ModalLoop loop;
    loop.top_Hz = top_Hz;
    for (const Place& place : all.places)
        if (!std::isfinite(std::abs(place.flow) + std::abs(place.radiated))) return loop;

    // The air that passes through the whole tube, one mode a passage, and two above the band.
    Poles poles;
    for (const double f_Hz : {4.0, 60.0, 800.0, 3.0 * top_Hz})
        poles.push_back(-2.0 * kPi * f_Hz / kUnit_rad_s);
    const auto add = [&](double f_Hz, double quality) {
        const double w = 2.0 * kPi * f_Hz / kUnit_rad_s;
        poles.push_back({-w / (2.0 * quality), w});
    };
    for (const double f_Hz : all.passages_Hz) add(f_Hz, kStartQuality);
    for (const double above : {1.06, 1.2, 1.5}) add(above * top_Hz, 20.0);
    for (int round = 0; round < kRounds; ++round) poles = moved(poles, all.places);

    const std::vector<Complex> flow = fitted(poles, all.places, &Place::flow);
    const std::vector<Complex> radiated = fitted(poles, all.places, &Place::radiated);
    for (std::size_t n = 0; n < poles.size(); ++n)
        loop.modes.push_back(
            {poles[n] * kUnit_rad_s, flow[n] * kUnit_rad_s, radiated[n] * kUnit_rad_s});
    loop.found = true;
    for (const Place& place : all.places) {
        const Complex fit = loop.admittance(place.s.imag() * kUnit_rad_s / (2.0 * kPi));
        loop.error = std::max(loop.error, std::abs(fit / place.flow - 1.0));
    }
    return loop;
}

}  // namespace canewright
