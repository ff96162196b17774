// core/bench/strokes.cpp: a small Kalman filter over the blows between strokes.
#include "core/bench/strokes.hpp"

#include <Eigen/Core>
#include <algorithm>
#include <array>
#include <cmath>

#include "core/base/units.hpp"

namespace canewright {
namespace {

constexpr double kCareful = 1.0;  // standard deviations kept when several strokes are advised
constexpr double kWild = 3.0;     // one wild attempt of three does not make the middle wild
constexpr double kLeastStroke_cents = 0.3;
// Where a blow's scatter is looked for, over what is known of it.
constexpr std::array<double, 7> kScatterGrid = {0.35, 0.5, 0.71, 1.0, 1.41, 2.0, 2.83};

// Pitch above the mark and cents per stroke.
struct Tracked {
    Eigen::Vector2d state;
    Eigen::Matrix2d spread;
    double log_likelihood = 0.0;
};

// `untold`: every blow without a stroke stands for one stroke, give or take one.
Tracked filter(const std::vector<Blow>& blows, double stop_Hz, double meter_cents, bool untold) {
    const double meter_variance = meter_cents * meter_cents;
    Tracked heard;
    Eigen::Vector2d& state = heard.state;
    Eigen::Matrix2d& spread = heard.spread;
    state << cents_between(blows.front().frequency_Hz, stop_Hz), kUsualStroke_cents;
    spread << meter_variance, 0.0, 0.0, kUsualStrokeSigma_cents * kUsualStrokeSigma_cents;
    for (std::size_t i = 1; i < blows.size(); ++i) {
        const bool guessed = untold && blows[i].strokes == 0.0;
        const double n = guessed ? 1.0 : blows[i].strokes;
        const double stroke_cents = std::max(state(1), kLeastStroke_cents);
        Eigen::Matrix2d forward;
        forward << 1.0, n, 0.0, 1.0;
        state = (forward * state).eval();
        spread = (forward * spread * forward.transpose()).eval();
        const double uneven = kStrokeScatter * stroke_cents;
        spread(0, 0) += n * uneven * uneven;
        if (guessed) spread(0, 0) += stroke_cents * stroke_cents;
        const double surprise = cents_between(blows[i].frequency_Hz, stop_Hz) - state(0);
        const double variance = spread(0, 0) + meter_variance;
        heard.log_likelihood -= 0.5 * (std::log(variance) + surprise * surprise / variance);
        const Eigen::Vector2d gain = spread.col(0) / variance;
        state += gain * surprise;
        spread = (spread - gain * spread.row(0)).eval();
    }
    return heard;
}

// The scatter of a blow and how likely the blows are, over the grid.
struct BlowsWeighed {
    double cents = 0.0;
    double log_evidence = 0.0;
};

BlowsWeighed weigh_blows(const std::vector<Blow>& blows, double stop_Hz, const Scatter& usual,
                         bool untold) {
    if (!std::isfinite(usual.blows))
        return {usual.cents, filter(blows, stop_Hz, usual.cents, untold).log_likelihood};
    std::array<double, kScatterGrid.size()> log_weight{};
    double prior_sum = 0.0;
    for (std::size_t k = 0; k < kScatterGrid.size(); ++k) {
        const double ratio = kScatterGrid[k];
        // scaled inverse chi-square of a variance, on a grid even in its logarithm
        const double log_prior = -usual.blows * (std::log(ratio) + 0.5 / (ratio * ratio));
        prior_sum += std::exp(log_prior + 0.5 * usual.blows);
        log_weight[k] = log_prior + 0.5 * usual.blows +
                        filter(blows, stop_Hz, ratio * usual.cents, untold).log_likelihood;
    }
    const double most = *std::max_element(log_weight.begin(), log_weight.end());
    double sum = 0.0, variance = 0.0;
    for (std::size_t k = 0; k < kScatterGrid.size(); ++k) {
        const double weight = std::exp(log_weight[k] - most);
        sum += weight;
        variance += weight * kScatterGrid[k] * kScatterGrid[k];
    }
    return {usual.cents * std::sqrt(variance / sum), most + std::log(sum / prior_sum)};
}

// Blows since the last stroke, the first after it included.
int blows_alike(const std::vector<Blow>& blows, bool untold) {
    if (untold) return 1;
    int count = 1;
    for (std::size_t i = blows.size(); i-- > 1 && blows[i].strokes == 0.0;) ++count;
    return count;
}

Scatter learned(const Scatter& usual, double cents, double more) {
    if (!std::isfinite(usual.blows)) return usual;
    return {cents, std::min(usual.blows + more, kMostScatterBlows)};
}

}  // namespace

Attempts before_strokes(const std::vector<Blow>& blows, const Scatter& usual, bool opened_untold) {
    std::size_t count = 1;
    while (!opened_untold && count < blows.size() && blows[count].strokes == 0.0) ++count;
    std::vector<double> heard_Hz;
    for (std::size_t i = 0; i < count; ++i) heard_Hz.push_back(blows[i].frequency_Hz);
    return combine(heard_Hz, usual);
}

StrokeAdvice advise(const std::vector<Blow>& blows, double written_Hz, const Scatter& usual,
                    const Known& known, Tapping tapping) {
    StrokeAdvice advice;
    advice.scatter = usual;
    advice.mark_Hz = written_Hz;
    if (blows.empty()) return advice;
    double stop_Hz = written_Hz;
    BlowsWeighed best = weigh_blows(blows, stop_Hz, usual, tapping == Tapping::not_told);
    bool untold = tapping == Tapping::not_told;
    if (tapping == Tapping::unsaid) {
        const BlowsWeighed other = weigh_blows(blows, stop_Hz, usual, true);
        // only what rises was opened
        const bool rises = blows.back().frequency_Hz > blows.front().frequency_Hz;
        untold = rises && other.log_evidence - best.log_evidence > std::log(kUntoldOdds);
        if (untold) best = other;
    }
    advice.opened_untold = untold && tapping == Tapping::unsaid;
    const double meter_cents = best.cents;
    if (known.frequency_Hz > 0.0 && known.moment_cents > 0.0) {
        const Attempts first = before_strokes(blows, usual, untold);
        const double moment = known.moment_cents * known.moment_cents;
        const double else_known =
            known.sigma_cents * known.sigma_cents + first.sigma_cents * first.sigma_cents;
        const double above = cents_between(first.frequency_Hz, known.frequency_Hz);
        stop_Hz = shifted_Hz(written_Hz, above * moment / (moment + else_known));
        advice.mark_Hz = stop_Hz;
    }
    advice.scatter = learned(usual, meter_cents, static_cast<double>(blows.size()) - 1.0);
    const Tracked heard = filter(blows, stop_Hz, meter_cents, untold);
    const double sigma = std::sqrt(heard.spread(0, 0));
    const double stroke_cents = std::max(heard.state(1), kLeastStroke_cents);
    const double to_go = -heard.state(0);
    advice.frequency_Hz = shifted_Hz(stop_Hz, heard.state(0));
    advice.sigma_cents = sigma;
    advice.cents_per_stroke = stroke_cents;

    const double light_cents = kLightStroke * stroke_cents;
    const bool near = to_go < stroke_cents + kCareful * sigma;
    // too close to tell, and clearly past the mark needs no second look
    if (near && sigma > kSureToStop_cents && to_go > -2.0 * sigma &&
        blows_alike(blows, untold) < kMostBlowsAgain) {
        advice.what = Stroke::blow;
    } else if (to_go < 0.5 * light_cents) {
        advice.what = Stroke::stop;
    } else if (to_go < 0.75 * stroke_cents + light_cents || near) {
        advice.what = Stroke::light;
        advice.count = 1;
    } else {
        advice.what = Stroke::more;
        const double room = to_go - kCareful * std::hypot(sigma, kStrokeScatter * stroke_cents);
        const double most_cents = stroke_cents + kCareful * std::sqrt(heard.spread(1, 1));
        advice.count =
            static_cast<int>(std::min(std::floor(room / most_cents), double{kMostStrokes}));
        if (advice.count < 1) {
            advice.what = Stroke::light;
            advice.count = 1;
        }
    }
    return advice;
}

Attempts combine(std::vector<double> frequency_Hz, const Scatter& usual) {
    std::sort(frequency_Hz.begin(), frequency_Hz.end());
    const std::size_t count = frequency_Hz.size();
    Attempts a;
    a.frequency_Hz = count % 2 == 1
                         ? frequency_Hz[count / 2]
                         : std::sqrt(frequency_Hz[count / 2 - 1] * frequency_Hz[count / 2]);
    a.scatter = usual;
    // mean range over standard deviation of normal attempts: 1.128 of two, 1.693 of three (d2 of
    // quality control charts); more attempts are told by their middle three
    double variance = usual.cents * usual.cents;
    if (count >= 2 && std::isfinite(usual.blows)) {
        const std::size_t low = count <= 3 ? 0 : count / 2 - 1;
        const std::size_t high = count <= 3 ? count - 1 : count / 2 + 1;
        const double range = cents_between(frequency_Hz[high], frequency_Hz[low]);
        const double spread = range / (count == 2 ? 1.128 : 1.693);
        const double seen = std::min(spread, kWild * usual.cents);
        const double trials = static_cast<double>(std::min<std::size_t>(count, 3) - 1);
        variance = (usual.blows * variance + trials * seen * seen) / (usual.blows + trials);
        // a jump or a cough says nothing of how this maker blows
        if (seen == spread) a.scatter = learned(usual, std::sqrt(variance), trials);
    }
    // a median's error: 1.0, 1.0 and 1.16 times a mean's for 1, 2 and 3, up to 1.2533
    const double worse = count <= 2 ? 1.0 : count == 3 ? 1.16 : 1.2533;
    a.sigma_cents = worse * std::sqrt(variance / static_cast<double>(count));
    return a;
}

}  // namespace canewright
