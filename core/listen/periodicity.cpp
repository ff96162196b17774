// core/listen/periodicity.cpp -- autocorrelation by way of the power spectrum; see the header.
#include "core/listen/periodicity.hpp"

// Eigen's own transform lies beside the folder that is linked as Eigen.
#include <Eigen/../unsupported/Eigen/FFT>
#include <algorithm>
#include <cmath>
#include <complex>

#include "core/base/units.hpp"

namespace canewright {
namespace {

constexpr double kLagsPerSecond = 48e3;  // 16 points per period at 3 kHz, whatever came in
constexpr double kNearlyHighest = 0.90;  // (6); McLeod & Wyvill give 0.8 to 1.0
constexpr double kHannMeanSquare = 3.0 / 8.0;

// The least length >= `least` that the transform does fast: a multiple of 4, factors 2, 3 and 5.
std::size_t fast_length(double least) {
    std::size_t power_of_two = 64;
    while (true) {
        for (const std::size_t quarters : {4U, 5U, 6U}) {
            const std::size_t length = power_of_two / 4 * quarters;
            if (static_cast<double>(length) >= least) return length;
        }
        power_of_two *= 2;
    }
}

// (1), with zeros behind so that the end of the frame is not correlated with its start.
std::vector<double> windowed(const float* samples, std::size_t count, std::size_t length) {
    double sum = 0.0;
    for (std::size_t i = 0; i < count; ++i) sum += static_cast<double>(samples[i]);
    const double mean = sum / static_cast<double>(count);
    std::vector<double> frame(length, 0.0);
    const double turn_rad = 2.0 * kPi / static_cast<double>(count);
    for (std::size_t i = 0; i < count; ++i) {
        const double hann = 0.5 - 0.5 * std::cos(turn_rad * (static_cast<double>(i) + 0.5));
        frame[i] = (static_cast<double>(samples[i]) - mean) * hann;
    }
    return frame;
}

// (3): the autocorrelation of the Hann window itself, 1 at lag 0.
double window_autocorrelation(double lag_s, double frame_s) {
    const double part = lag_s / frame_s;
    return (1.0 - part) * (2.0 / 3.0 + std::cos(2.0 * kPi * part) / 3.0) +
           std::sin(2.0 * kPi * part) / (2.0 * kPi);
}

// Vertex of the parabola through three neighbours of which the middle one is the highest.
Period vertex(const std::vector<double>& r, std::size_t at, double lag_step_s) {
    const double bend = r[at - 1] - 2.0 * r[at] + r[at + 1];
    const double slope = 0.5 * (r[at + 1] - r[at - 1]);
    const double shift = bend < 0.0 ? -slope / bend : 0.0;
    return {(static_cast<double>(at) + shift) * lag_step_s, r[at] + 0.5 * slope * shift};
}

// (6)
Period first_high_peak(const std::vector<double>& r, double lag_step_s) {
    std::vector<Period> peaks;
    std::size_t best = 0;  // 0: none in the present stretch above zero
    bool fallen = false;   // past the peak at lag 0
    for (std::size_t i = 1; i + 1 < r.size(); ++i) {
        if (!(r[i] > 0.0)) {
            if (best > 0) peaks.push_back(vertex(r, best, lag_step_s));
            best = 0;
            fallen = true;
        } else if (fallen && r[i] > r[i - 1] && r[i] >= r[i + 1] && (best == 0 || r[i] > r[best])) {
            best = i;
        }
    }
    if (best > 0) peaks.push_back(vertex(r, best, lag_step_s));
    double highest = 0.0;
    for (const Period& peak : peaks) highest = std::max(highest, peak.strength);
    for (const Period& peak : peaks) {
        if (peak.strength >= kNearlyHighest * highest)
            return {peak.lag_s, std::min(peak.strength, 1.0)};
    }
    return {0.0, 0.0};
}

}  // namespace

Periodicity periodicity(const float* samples, std::size_t count, double sample_rate_Hz) {
    const double frame_s = static_cast<double>(count) / sample_rate_Hz;
    const double longest_lag_s = std::min(kLongestPeriod_s, 0.5 * frame_s);
    const std::size_t length = fast_length((frame_s + longest_lag_s) * sample_rate_Hz);
    const double bin_Hz = sample_rate_Hz / static_cast<double>(length);

    Eigen::FFT<double> transform(Eigen::FFT<double>::impl_type(), Eigen::FFT<double>::HalfSpectrum);
    std::vector<std::complex<double>> spectrum;
    transform.fwd(spectrum, windowed(samples, count, length));

    // (2). The way back has its own length, so that the lags are equally fine at any sample rate.
    const std::size_t lags = fast_length(kLagsPerSecond / bin_Hz);
    std::vector<std::complex<double>> power_both(lags / 2 + 1);
    Periodicity found{{0.0, 0.0}, std::vector<double>(spectrum.size(), 0.0), bin_Hz, 0.0};
    double power_sum = 0.0;
    for (std::size_t i = 0; i < std::min(spectrum.size(), power_both.size()); ++i) {
        const double at_Hz = static_cast<double>(i) * bin_Hz;
        if (at_Hz < kBandLowest_Hz || at_Hz > kBandHighest_Hz) continue;
        found.power[i] = std::norm(spectrum[i]);
        power_both[i] = found.power[i];
        power_sum += found.power[i];
    }
    if (!(power_sum > 0.0)) return found;
    // Parseval; twice, for the negative frequencies.
    found.band_mean_square = 2.0 * power_sum / static_cast<double>(length) /
                             static_cast<double>(count) / kHannMeanSquare;

    std::vector<double> r;
    transform.inv(r, power_both, static_cast<Eigen::Index>(lags));
    const double lag_step_s = 1.0 / (static_cast<double>(lags) * bin_Hz);
    const double at_zero = r[0];
    r.resize(std::min(r.size(), static_cast<std::size_t>(longest_lag_s / lag_step_s) + 2));
    for (std::size_t i = 0; i < r.size(); ++i) {
        const double lag_s = static_cast<double>(i) * lag_step_s;
        r[i] = r[i] / at_zero / window_autocorrelation(lag_s, frame_s);  // (4)
    }
    found.period = first_high_peak(r, lag_step_s);
    return found;
}

}  // namespace canewright
