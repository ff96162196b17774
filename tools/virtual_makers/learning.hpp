// tools/virtual_makers/learning.hpp: what a flute that exists is worth for the next, and what a
// maker's flutes are together; never listened to before the judgement.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

namespace virtual_makers {

// A pattern flute in tune by its own truth, and another tube: worst notes of the copy [cents].
struct Pairs {
    std::vector<double> marks;     // the pattern's marks on the other tube
    std::vector<double> stranger;  // laid out without a pattern
    std::vector<double> readings;  // by what the pattern's readings taught
    std::vector<double> floor;     // the maker's ways known exactly
};
Pairs pairs(std::uint64_t seed, int count);

// Makers who keep their ways; the first layout after so many flutes.
inline constexpr int kStages[] = {0, 1, 2, 4, 8, 16};
struct Makers {
    std::vector<std::vector<double>> worst;  // of each stage
    std::vector<double> floor;               // their ways known exactly: scatter and hands alone
    std::vector<std::vector<double>> departures;  // of each stage, in bands
    // Of eight flutes one voice lies about 4 of the scatters off in which the maker's voices act.
    std::vector<double> odd_worst;
    double voice_squares = 0.0, odd_squares = 0.0;  // of the maker's flutes, of the odd ones
    int odd_named = 0, odd_false = 0;               // firmly
    int odd_told = 0, told_false = 0;               // as one that may be
    // From the ninth flute on another voice and breath.
    int changes_noticed = 0, changes_false = 0, makers = 0;
};
Makers makers(std::uint64_t seed, int count);

double median_of(std::vector<double> x);
double share_within(const std::vector<double>& departures, double sigmas);

// {"pairs":{..},"hand":{..}}; count pairs, a fifth as many makers.
std::string learning_json(std::uint64_t seed, int count);

}  // namespace virtual_makers
