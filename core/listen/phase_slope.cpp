// core/listen/phase_slope.cpp -- demodulate, unwrap, fit a line with a bend; see the header.
#include "core/listen/phase_slope.hpp"

#include <Eigen/Dense>
#include <algorithm>
#include <cmath>
#include <complex>
#include <vector>

#include "core/base/units.hpp"

namespace canewright {
namespace {

using Complex = std::complex<double>;

constexpr double kFewestPeriods = 6.0;       // per block: the zeros of the window stay well apart
constexpr double kShortestBlock_s = 0.01;    // high tones: a longer block hears less of the noise
constexpr std::size_t kBlocksPerLength = 4;  // overlap of three quarters
constexpr std::size_t kFewestBlocks = 5;     // two more than the unknowns of (2)
constexpr int kPasses = 2;

struct Blocks {
    std::vector<Complex> z;
    std::vector<double> middle_s;  // from the middle of the frame
};

// (1)
Blocks turned_down(const float* samples, std::size_t count, double sample_rate_Hz, double f_Hz) {
    const double periods = std::max(kFewestPeriods, std::round(kShortestBlock_s * f_Hz));
    const auto length = static_cast<std::size_t>(std::lround(periods * sample_rate_Hz / f_Hz));
    const std::size_t hop = std::max<std::size_t>(1, length / kBlocksPerLength);
    Blocks blocks;
    if (length > count) return blocks;

    std::vector<double> hann(length);
    const double turn_rad = 2.0 * kPi / static_cast<double>(length);
    for (std::size_t i = 0; i < length; ++i)
        hann[i] = 0.5 - 0.5 * std::cos(turn_rad * (static_cast<double>(i) + 0.5));

    std::vector<Complex> down(count);
    const Complex step = std::polar(1.0, -2.0 * kPi * f_Hz / sample_rate_Hz);
    Complex turned = 1.0;  // 32768 steps leave its length and angle right to 1e-11
    for (std::size_t i = 0; i < count; ++i) {
        down[i] = static_cast<double>(samples[i]) * turned;
        turned = Complex(turned.real() * step.real() - turned.imag() * step.imag(),
                         turned.real() * step.imag() + turned.imag() * step.real());
    }
    // Centred, so that what does not fill a hop is left out on both sides alike.
    const std::size_t spare = (count - length) % hop;
    for (std::size_t at = spare / 2; at + length <= count; at += hop) {
        double real = 0.0;
        double imag = 0.0;
        for (std::size_t i = 0; i < length; ++i) {
            real += hann[i] * down[at + i].real();
            imag += hann[i] * down[at + i].imag();
        }
        blocks.z.emplace_back(real, imag);
        const double middle = static_cast<double>(at) + 0.5 * static_cast<double>(length - 1);
        blocks.middle_s.push_back((middle - 0.5 * static_cast<double>(count - 1)) / sample_rate_Hz);
    }
    return blocks;
}

// The phase without its jumps, from the strongest block outwards: where the tone has not begun yet
// the phase is noise, and a turn lost there must not shift the rest.
std::vector<double> unwrapped(const std::vector<Complex>& z) {
    std::size_t strongest = 0;
    for (std::size_t b = 1; b < z.size(); ++b)
        if (std::norm(z[b]) > std::norm(z[strongest])) strongest = b;
    std::vector<double> phase_rad(z.size());
    phase_rad[strongest] = std::arg(z[strongest]);
    for (std::size_t b = strongest + 1; b < z.size(); ++b)
        phase_rad[b] = phase_rad[b - 1] + std::arg(z[b] * std::conj(z[b - 1]));
    for (std::size_t b = strongest; b > 0; --b)
        phase_rad[b - 1] = phase_rad[b] + std::arg(z[b - 1] * std::conj(z[b]));
    return phase_rad;
}

struct Fit {
    double slope_rad_per_s;
    double bend_rad_per_s2;
    double scatter_rad;
};

// (2), with time counted in half frames, so that the three columns are of one size.
Fit fitted(const Blocks& blocks, const std::vector<double>& phase_rad, double half_frame_s) {
    Eigen::Matrix3d normal = Eigen::Matrix3d::Zero();
    Eigen::Vector3d right = Eigen::Vector3d::Zero();
    double weight_sum = 0.0;
    for (std::size_t b = 0; b < phase_rad.size(); ++b) {
        const double u = blocks.middle_s[b] / half_frame_s;
        const Eigen::Vector3d row(1.0, u, u * u);
        const double weight = std::norm(blocks.z[b]);
        normal += weight * row * row.transpose();
        right += weight * phase_rad[b] * row;
        weight_sum += weight;
    }
    const Eigen::Vector3d c = normal.ldlt().solve(right);
    double squares = 0.0;
    for (std::size_t b = 0; b < phase_rad.size(); ++b) {
        const double u = blocks.middle_s[b] / half_frame_s;
        const double left_rad = phase_rad[b] - c[0] - u * (c[1] + u * c[2]);
        squares += std::norm(blocks.z[b]) * left_rad * left_rad;
    }
    return {c[1] / half_frame_s, c[2] / half_frame_s / half_frame_s,
            std::sqrt(squares / weight_sum)};
}

}  // namespace

PhaseSlope phase_slope(const float* samples, std::size_t count, double sample_rate_Hz,
                       double guess_Hz) {
    const double half_frame_s = 0.5 * static_cast<double>(count) / sample_rate_Hz;
    PhaseSlope result{guess_Hz, 0.0, 0.0, false};
    for (int pass = 0; pass < kPasses; ++pass) {
        const Blocks blocks = turned_down(samples, count, sample_rate_Hz, result.frequency_Hz);
        if (blocks.z.size() < kFewestBlocks) return {guess_Hz, 0.0, 0.0, false};
        const Fit fit = fitted(blocks, unwrapped(blocks.z), half_frame_s);
        const double next_Hz = result.frequency_Hz + fit.slope_rad_per_s / (2.0 * kPi);  // (3)
        // A guess that moves by more than this was no partial of this sound.
        if (!(std::abs(next_Hz / guess_Hz - 1.0) < 0.1)) return {guess_Hz, 0.0, 0.0, false};
        const double rise_Hz_per_s = 2.0 * fit.bend_rad_per_s2 / (2.0 * kPi);  // (3)
        result.frequency_Hz = next_Hz;
        result.drift_cents_per_s =
            kCentsPerOctave / std::log(2.0) * rise_Hz_per_s / result.frequency_Hz;
        result.phase_scatter_rad = fit.scatter_rad;
        result.found = true;
    }
    return result;
}

}  // namespace canewright
