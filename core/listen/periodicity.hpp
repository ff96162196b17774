// core/listen/periodicity.hpp -- how strongly a frame of sound repeats itself, and after what time.
#pragma once

#include <cstddef>
#include <vector>

namespace canewright {

struct Period {
    double lag_s;     // the shortest time after which the sound repeats; 0 when it never does
    double strength;  // autocorrelation there, 0..1: the periodic share of the power
};

struct Periodicity {
    Period period;
    std::vector<double> power;  // of the windowed frame, per bin; 0 outside the band
    double bin_Hz;              // distance of two bins
    double band_mean_square;    // mean square of the frame's sound inside the band
};

// Only what lies in this band is looked at: below it is rumble and mains hum, above it hiss. It
// holds the fundamental of every tone we read and, of low tones, a handful of harmonics.
inline constexpr double kBandLowest_Hz = 120.0;
inline constexpr double kBandHighest_Hz = 5000.0;

// Periods up to this long are found, though no flute has them: the voice of a man or a mains hum
// with its harmonics must be seen as what it is, not as a tone at a multiple of its pitch.
inline constexpr double kLongestPeriod_s = 1.0 / 45.0;

// The period of a frame of sound by its normalised autocorrelation.
//
//   samples, count   the frame, full scale +-1; finite, count > 0
//   sample_rate_Hz   8 to 192 kHz
//
// Model    with the frame x of length T, its mean m and the Hann window w:
//            a(t) = (x(t) - m) w(t)                                                          (1)
//            r_a(s) = inverse Fourier transform of |A(f)|^2, A zero outside the band         (2)
//            r_w(s) = (1 - s/T) (2/3 + 1/3 cos(2 pi s/T)) + 1/(2 pi) sin(2 pi s/T)           (3)
//            r_x(s) = r_a(s)/r_a(0) / r_w(s)                                                 (4)
//          A periodic sound of power P in noise of power N has at its period r_x = P/(P + N)  (5)
//          Of the peaks of r_x between a rise and a fall through zero, the first that is nearly as
//          high as the highest is taken: a multiple of the period is never first.            (6)
// Source   (1)-(5) Boersma, Proc. Inst. Phonetic Sciences Amsterdam 17 (1993) 97-110;
//          (6) McLeod & Wyvill, Proc. Int. Computer Music Conf. 2005, "key maxima".
//          The numbers are of this comment. Rejected: YIN (de Cheveigne & Kawahara 2002) and the
//          square difference of (6)'s authors: equally good at finding the period, but their
//          result is no share of power, and the band of (2) would need a filter of its own.
// Error    of the lag up to about 0.5 %; core/listen/phase_slope.hpp makes it fine.
Periodicity periodicity(const float* samples, std::size_t count, double sample_rate_Hz);

}  // namespace canewright
