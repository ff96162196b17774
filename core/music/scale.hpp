// core/music/scale.hpp -- scales: the named ones, a maker's own, and how they go on.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "core/base/violation.hpp"

namespace canewright {

struct Scale {
    std::string name;                // empty for a maker's own
    std::vector<double> step_cents;  // above the lowest note, rising, the first is 0
};

// minor pentatonic, major pentatonic, natural minor, major; each up to and with the octave.
// Source  general reference, in equal-tempered semitones (sets 0 3 5 7 10, 0 2 4 7 9,
//         0 2 3 5 7 8 10, 0 2 4 5 7 9 11).
const std::vector<Scale>& named_scales();

// The named scale, or nullptr. The name must match exactly, as every key in the document.
const Scale* find_scale(std::string_view name);

inline constexpr std::size_t kFewestSteps = 2;
inline constexpr std::size_t kMostSteps = 13;         // a chromatic octave with both ends
inline constexpr double kHighestStep_cents = 2400.0;  // two octaves: beyond any such flute

// All that is wrong with a maker's own list: it has 2 to 13 entries, starts at 0, is finite, within
// 0..2400 and strictly rising. Paths are `path` and `path`[i]. A list of the wrong length is
// reported as such and not looked at further.
std::vector<Violation> check_steps(const std::vector<double>& step_cents, const std::string& path);

// The lowest `count` degrees of a scale that repeats every octave [cents].
//
// Beyond the given steps come those of the first octave, 1200 cents higher each time. A repeated
// step at most kSameDegree_cents above the last is that degree again, and left out: a stretched
// octave of 1195 is not followed by one of 1200.
// Requires  check_steps() finds nothing.
std::vector<double> continued_steps(const std::vector<double>& step_cents, std::size_t count);

// Smallest usable melodic step, lower end (Parncutt & Cohen 1995, Perc. Psychophys. 57, 835-846).
inline constexpr double kSameDegree_cents = 30.0;

}  // namespace canewright
