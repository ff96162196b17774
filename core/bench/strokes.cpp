// core/bench/strokes.cpp: a small Kalman filter over the blows between strokes.
#include "core/bench/strokes.hpp"

#include <Eigen/Core>
#include <algorithm>
#include <cmath>

#include "core/base/units.hpp"

namespace canewright {
namespace {

constexpr double kCareful = 1.0;      // standard deviations kept when several strokes are advised
constexpr double kUsualWeight = 4.0;  // the usual scatter counts like so many attempts
constexpr double kWild = 3.0;         // one wild attempt of three does not make the middle wild
constexpr double kLeastStroke_cents = 0.3;

}  // namespace

StrokeAdvice advise(const std::vector<Blow>& blows, double stop_Hz, double meter_cents) {
    StrokeAdvice advice;
    if (blows.empty()) return advice;
    const double meter_variance = meter_cents * meter_cents;
    // state: pitch above stop_Hz, cents per stroke
    Eigen::Vector2d state(cents_between(blows.front().frequency_Hz, stop_Hz), kUsualStroke_cents);
    Eigen::Matrix2d spread;
    spread << meter_variance, 0.0, 0.0, kUsualStrokeSigma_cents * kUsualStrokeSigma_cents;
    for (std::size_t i = 1; i < blows.size(); ++i) {
        const double n = blows[i].strokes;
        const double stroke_cents = std::max(state(1), kLeastStroke_cents);
        Eigen::Matrix2d forward;
        forward << 1.0, n, 0.0, 1.0;
        state = (forward * state).eval();
        spread = (forward * spread * forward.transpose()).eval();
        const double uneven = kStrokeScatter * stroke_cents;
        spread(0, 0) += n * uneven * uneven;
        const double surprise = cents_between(blows[i].frequency_Hz, stop_Hz) - state(0);
        const Eigen::Vector2d gain = spread.col(0) / (spread(0, 0) + meter_variance);
        state += gain * surprise;
        spread = (spread - gain * spread.row(0)).eval();
    }
    const double sigma = std::sqrt(spread(0, 0));
    const double stroke_cents = std::max(state(1), kLeastStroke_cents);
    const double to_go = -state(0);
    advice.frequency_Hz = shifted_Hz(stop_Hz, state(0));
    advice.sigma_cents = sigma;
    advice.cents_per_stroke = stroke_cents;

    const double light_cents = kLightStroke * stroke_cents;
    const bool near = to_go < stroke_cents + kCareful * sigma;
    if (near && sigma > kSureToStop_cents) {
        advice.what = Stroke::blow;
    } else if (to_go < 0.5 * light_cents) {
        advice.what = Stroke::stop;
    } else if (to_go < 0.75 * stroke_cents + light_cents || near) {
        advice.what = Stroke::light;
        advice.count = 1;
    } else {
        advice.what = Stroke::more;
        const double room = to_go - kCareful * std::hypot(sigma, kStrokeScatter * stroke_cents);
        const double most_cents = stroke_cents + kCareful * std::sqrt(spread(1, 1));
        advice.count =
            static_cast<int>(std::min(std::floor(room / most_cents), double{kMostStrokes}));
        if (advice.count < 1) {
            advice.what = Stroke::light;
            advice.count = 1;
        }
    }
    return advice;
}

Attempts combine(std::vector<double> frequency_Hz, double usual_cents) {
    std::sort(frequency_Hz.begin(), frequency_Hz.end());
    const std::size_t count = frequency_Hz.size();
    Attempts a;
    a.frequency_Hz = count % 2 == 1
                         ? frequency_Hz[count / 2]
                         : std::sqrt(frequency_Hz[count / 2 - 1] * frequency_Hz[count / 2]);
    // mean range over standard deviation of normal attempts: 1.128 of two, 1.693 of three (d2 of
    // quality control charts); more attempts are told by their middle three
    double variance = usual_cents * usual_cents;
    if (count >= 2) {
        const std::size_t low = count <= 3 ? 0 : count / 2 - 1;
        const std::size_t high = count <= 3 ? count - 1 : count / 2 + 1;
        const double range = cents_between(frequency_Hz[high], frequency_Hz[low]);
        const double seen = std::min(range / (count == 2 ? 1.128 : 1.693), kWild * usual_cents);
        const double trials = static_cast<double>(std::min<std::size_t>(count, 3) - 1);
        variance = (kUsualWeight * variance + trials * seen * seen) / (kUsualWeight + trials);
    }
    // a median's error: 1.0, 1.0 and 1.16 times a mean's for 1, 2 and 3, up to 1.2533
    const double worse = count <= 2 ? 1.0 : count == 3 ? 1.16 : 1.2533;
    a.sigma_cents = worse * std::sqrt(variance / static_cast<double>(count));
    return a;
}

}  // namespace canewright
