// core/listen/phase_slope.hpp -- the frequency of one partial, from how its phase runs on.
#pragma once

#include <cstddef>

namespace canewright {

struct PhaseSlope {
    double frequency_Hz;       // mean over the frame
    double drift_cents_per_s;  // how fast it rises over the frame; falling: negative
    double phase_scatter_rad;  // left of the phase after the fit, weighted root mean square
    bool found;                // false: the frame is too short for this frequency
};

// A frequency known to a few per cent, made exact.
//
//   samples, count, sample_rate_Hz   as in core/listen/periodicity.hpp
//   guess_Hz                         > 0, within 3 % of the truth
//
// Model    the frame is turned down by the guess f and cut into overlapping Hann blocks of a whole
//          number of periods, so that the other harmonics fall into the zeros of the window:
//            z_b = sum_n w(n) x(n + n_b) exp(-2 pi i f (n + n_b) / rate)                     (1)
//          their unwrapped phase is fitted by least squares, each weighted by its power, over
//          the time u of the block's middle, from the middle of the frame:
//            arg z_b = c_0 + c_1 u + c_2 u^2,   weight |z_b|^2                               (2)
//          the mean frequency over the frame and its rate of change are
//            f + c_1 / (2 pi),   2 c_2 / (2 pi)                                              (3)
//          and (1)-(3) is done twice, the second time from the first's result.
//          The square term keeps a drifting tone that also swells from pulling the mean.
// Source   (2) without the square term: Tretter, IEEE Trans. Inf. Theory 31 (1985) 832-835: for
//          a sinusoid in noise it attains the least variance possible.
//          Rejected: the vertex of the autocorrelation peak, biased by the harmonics and noisier
//          by the ratio of frame to period; the vertex of the spectral peak, because a tone that
//          drifts by 30 cents during the frame has no single peak at 3 kHz.
// Error    as promised in core/listen/pitch_frame.hpp.
PhaseSlope phase_slope(const float* samples, std::size_t count, double sample_rate_Hz,
                       double guess_Hz);

}  // namespace canewright
