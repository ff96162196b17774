// core/layout/first_guess.cpp: where the holes would be if each were alone with the end below it.
#include <algorithm>
#include <cmath>

#include "core/base/units.hpp"
#include "core/flute/network.hpp"
#include "core/layout/problem.hpp"

namespace canewright {

// Foot of a tube without holes that sounds a frequency: the turn grows with length as with a line.
double Problem::length_for_m(double frequency_Hz, double guess_m) {
    const double k = 2.0 * kPi * frequency_Hz / air_.sound_speed_m_s;
    Flute tube = task_.flute;
    tube.holes.clear();
    double length_m = guess_m;
    for (int trip = 0; trip < 3; ++trip) {
        tube.foot_m = length_m;
        ++evaluations_;
        const double missing = kPi - Network(tube, air_, {}).at(frequency_Hz).turn;
        length_m = std::max(length_m + missing / k, 2.0 * bore_m_);
    }
    return length_m;
}

double Problem::floating_Hz() const {
    return air_.sound_speed_m_s / (2.0 * (task_.flute.foot_m + 3.0 * bore_m_));
}

Flute Problem::first_guess(double size_over_bore) {
    Flute guess = task_.flute;
    const std::size_t holes = static_cast<std::size_t>(task_.hole_count);
    guess.holes.resize(holes);
    // Only what is held is known; the rest is guessed.
    for (FingerHole& hole : guess.holes) {
        if (!hole.diameter_fixed) {
            const double flare =
                hole.diameter_m > 0.0 ? hole.inner_diameter_m / hole.diameter_m : 1.0;
            hole.diameter_m = size_over_bore * bore_m_;
            hole.inner_diameter_m = flare * hole.diameter_m;
        }
        if (!(hole.inner_diameter_m > 0.0)) hole.inner_diameter_m = hole.diameter_m;
        if (!(hole.wall_m > 0.0)) hole.wall_m = task_.flute.wall_m;
    }

    // Frequencies; a floating lowest note is taken from the tube itself.
    std::vector<std::pair<double, std::size_t>> wanted;  // frequency, note
    double lowest_Hz = 0.0;
    if (task_.lowest_free) lowest_Hz = floating_Hz();
    for (std::size_t n = 0; n < task_.notes.size(); ++n)
        wanted.push_back({task_.lowest_free ? shifted_Hz(lowest_Hz, task_.notes[n].interval_cents)
                                            : task_.notes[n].target_Hz,
                          n});
    std::sort(wanted.begin(), wanted.end());

    const bool foot_moves = !task_.foot_fixed && !task_.lowest_free;
    double below_m = length_for_m(wanted.front().first, task_.end_m);
    if (foot_moves) guess.foot_m = below_m;

    std::vector<bool> placed(holes, false);
    const double a = 0.5 * bore_m_;
    for (const auto& [frequency_Hz, note] : wanted) {
        const Fingering& open = task_.notes[note].open;
        const double length_m = length_for_m(frequency_Hz, below_m);
        if (!open.empty()) {
            const std::size_t i =
                static_cast<std::size_t>(*std::min_element(open.begin(), open.end()) - 1);
            FingerHole& hole = guess.holes[i];
            if (!placed[i] && !hole.at_fixed) {
                const double b = 0.5 * hole.diameter_m;
                const double te_m = task_.flute.wall_m + 1.5 * b;  // Benade 1960
                double at_m = length_m - 2.0 * b;
                for (int trip = 0; trip < 6; ++trip) {
                    const double rest_m = std::max(below_m - at_m, b);
                    at_m = length_m - te_m / (b * b / (a * a) + te_m / rest_m);
                }
                hole.at_m = at_m;
            }
            placed[i] = true;
        }
        below_m = length_m;
    }
    // Holes that no note decides stand between their neighbours.
    for (std::size_t i = 0; i < holes; ++i) {
        FingerHole& hole = guess.holes[i];
        if (placed[i] || hole.at_fixed) continue;
        const double above_m = i > 0 ? guess.holes[i - 1].at_m : 0.3 * guess.foot_m;
        const double next_m = i + 1 < holes ? guess.holes[i + 1].at_m : guess.foot_m;
        hole.at_m = next_m > above_m ? 0.5 * (above_m + next_m) : above_m + bore_m_;
    }
    return guess;
}

}  // namespace canewright
