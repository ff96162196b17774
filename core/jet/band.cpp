// core/jet/band.cpp: the judgement bands of the jet's model.
#include "core/jet/band.hpp"

namespace canewright {
namespace {

// A number that should be at least (or, mirrored, at most) its limits.
Judgement at_least(BandReason reason, double value, double good, double rough) {
    if (value >= good) return {};
    if (value >= rough) return {Band::rough, reason, value, good};
    return {Band::out, reason, value, rough};
}

Judgement at_most(BandReason reason, double value, double good, double rough) {
    const Judgement mirrored = at_least(reason, -value, -good, -rough);
    if (mirrored.band == Band::good) return mirrored;
    return {mirrored.band, reason, value, -mirrored.limit};
}

}  // namespace

Judgement judge(double reynolds, double window_ratio, double speed_m_s) {
    const Judgement each[] = {
        at_least(BandReason::reynolds, reynolds, kGoodReynolds * window_ratio,
                 kRoughReynolds * window_ratio),
        at_least(BandReason::short_window, window_ratio, kGoodLeastRatio, kRoughLeastRatio),
        at_most(BandReason::long_window, window_ratio, kGoodMostRatio, kRoughMostRatio),
        at_most(BandReason::fast_jet, speed_m_s, kGoodSpeed_m_s, kRoughSpeed_m_s)};
    Judgement worst;
    for (const Judgement& one : each)
        if (one.band > worst.band) worst = one;
    return worst;
}

}  // namespace canewright
