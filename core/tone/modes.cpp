// core/tone/modes.cpp: vector fitting of a network's admittance.
#include "core/tone/modes.hpp"

#include <algorithm>
#include <cmath>

#include "core/base/units.hpp"

namespace canewright {
namespace {

constexpr double kUnit_rad_s = 6283.0;  // a kilohertz: frequencies near 1 keep the sums well posed
constexpr double kPlacesPerMode = 18.0;
constexpr int kRounds = 3;        // of moving the poles
constexpr int kMostPlaces = 900;  // a tube that is longer has them further apart
constexpr double kStartQuality = 20.0;

// The response where it is asked for; s in units of kUnit_rad_s.
struct FitPlace {
    Complex s, flow, radiated;
};

struct Sampled {
    std::vector<FitPlace> places;
    std::vector<double> passages_Hz;
};

// What a flow out of one opening is worth where it is heard, against that out of the sound hole.
Complex heard_share(const Network& network, std::size_t opening, double f_Hz) {
    const double along_m = network.openings_m()[opening] - network.openings_m().back();
    const double away_m = std::hypot(kHeardFrom_m, along_m);
    const double late_s = (away_m - kHeardFrom_m) / network.air().sound_speed_m_s;
    return std::polar(kHeardFrom_m / away_m, -2.0 * kPi * f_Hz * late_s);
}

Sampled sampled_places(const Network& network, double top_Hz) {
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
            out += state.openings[i].u * heard_share(network, i, f_Hz);
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

std::size_t fit_unknowns(const Poles& poles) {
    std::size_t n = 0;
    for (const Complex& p : poles) n += p.imag() > 0.0 ? 2 : 1;
    return n;
}

// The functions whose real multiples make a real response.
std::vector<Complex> fit_basis(const Poles& poles, Complex s) {
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

std::vector<Complex> fit_residues(const Poles& poles, const double* x) {
    std::vector<Complex> all;
    for (const Complex& p : poles) {
        if (p.imag() > 0.0) {
            all.push_back({x[0], x[1]});
            x += 2;
        } else {
            all.push_back(*x++);
        }
    }
    return all;
}

// Least squares, row by row: the normal equations, scaled, by Cholesky's method. Plain loops: the
// library's product of matrices is several times slower to wasm.
class FitNormal {
   public:
    explicit FitNormal(std::size_t size) : size_(size), sums_(size * size), right_(size) {}
    void add(const std::vector<double>& row, double value) {
        for (std::size_t i = 0; i < size_; ++i) {
            double* const sums = &sums_[i * size_];
            const double one = row[i];
            for (std::size_t j = 0; j <= i; ++j) sums[j] += one * row[j];
            right_[i] += one * value;
        }
    }
    std::vector<double> solved() {
        std::vector<double> scale(size_);
        for (std::size_t i = 0; i < size_; ++i) scale[i] = 1.0 / std::sqrt(at(i, i) + 1e-300);
        for (std::size_t i = 0; i < size_; ++i) {
            for (std::size_t j = 0; j <= i; ++j) at(i, j) *= scale[i] * scale[j];
            at(i, i) += kRidge;
            right_[i] *= scale[i];
        }
        for (std::size_t i = 0; i < size_; ++i) {
            for (std::size_t j = 0; j <= i; ++j) {
                double sum = at(i, j);
                for (std::size_t k = 0; k < j; ++k) sum -= at(i, k) * at(j, k);
                at(i, j) = i == j ? std::sqrt(std::max(sum, kRidge)) : sum / at(j, j);
            }
        }
        for (std::size_t i = 0; i < size_; ++i) {
            for (std::size_t k = 0; k < i; ++k) right_[i] -= at(i, k) * right_[k];
            right_[i] /= at(i, i);
        }
        for (std::size_t i = size_; i-- > 0;) {
            for (std::size_t k = i + 1; k < size_; ++k) right_[i] -= at(k, i) * right_[k];
            right_[i] /= at(i, i);
        }
        for (std::size_t i = 0; i < size_; ++i) right_[i] *= scale[i];
        return right_;
    }

   private:
    static constexpr double kRidge = 1e-14;  // far below what the fit is good to
    double& at(std::size_t i, std::size_t j) { return sums_[i * size_ + j]; }
    std::size_t size_;
    std::vector<double> sums_, right_;
};

// Zeros of 1 + sum of residues / (s - pole), from the poles.
Poles moved_zeros(const Poles& poles, const std::vector<Complex>& c) {
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

Poles moved_poles(const Poles& poles, const std::vector<FitPlace>& places) {
    const std::size_t n = fit_unknowns(poles);
    FitNormal normal(2 * n);
    std::vector<double> real(2 * n), imag(2 * n);
    for (const FitPlace& place : places) {
        const std::vector<Complex> f = fit_basis(poles, place.s);
        const double weight = 1.0 / std::abs(place.flow);
        for (std::size_t i = 0; i < n; ++i) {
            const Complex one = weight * f[i], other = -place.flow * one;
            real[i] = one.real();
            imag[i] = one.imag();
            real[n + i] = other.real();
            imag[n + i] = other.imag();
        }
        normal.add(real, weight * place.flow.real());
        normal.add(imag, weight * place.flow.imag());
    }
    const std::vector<double> x = normal.solved();
    return moved_zeros(poles, fit_residues(poles, x.data() + n));
}

std::vector<Complex> fitted_residues(const Poles& poles, const std::vector<FitPlace>& places,
                                     Complex FitPlace::*response) {
    const std::size_t n = fit_unknowns(poles);
    FitNormal normal(n);
    std::vector<double> real(n), imag(n);
    for (const FitPlace& place : places) {
        const std::vector<Complex> f = fit_basis(poles, place.s);
        const double weight = 1.0 / std::abs(place.*response);
        for (std::size_t i = 0; i < n; ++i) {
            real[i] = weight * f[i].real();
            imag[i] = weight * f[i].imag();
        }
        normal.add(real, weight * (place.*response).real());
        normal.add(imag, weight * (place.*response).imag());
    }
    return fit_residues(poles, normal.solved().data());
}

Complex summed_modes(const std::vector<Mode>& modes, Complex Mode::*residue, double frequency_Hz) {
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
    return summed_modes(modes, &Mode::flow, frequency_Hz);
}
Complex ModalLoop::radiated(double frequency_Hz) const {
    return summed_modes(modes, &Mode::radiated, frequency_Hz);
}

ModalLoop modes_of(const Network& network, double top_Hz) {
    const Sampled all = sampled_places(network, top_Hz);
    ModalLoop loop;
    loop.top_Hz = top_Hz;
    for (const FitPlace& place : all.places)
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
    for (int round = 0; round < kRounds; ++round) poles = moved_poles(poles, all.places);

    const std::vector<Complex> flow = fitted_residues(poles, all.places, &FitPlace::flow);
    const std::vector<Complex> radiated = fitted_residues(poles, all.places, &FitPlace::radiated);
    for (std::size_t n = 0; n < poles.size(); ++n)
        loop.modes.push_back(
            {poles[n] * kUnit_rad_s, flow[n] * kUnit_rad_s, radiated[n] * kUnit_rad_s});
    loop.found = true;
    for (const FitPlace& place : all.places) {
        const Complex fit = loop.admittance(place.s.imag() * kUnit_rad_s / (2.0 * kPi));
        loop.error = std::max(loop.error, std::abs(fit / place.flow - 1.0));
    }
    return loop;
}

}  // namespace canewright
