// core/listen/robust.hpp -- median and spread that one wrong value among several cannot move.
#pragma once

#include <cstddef>
#include <vector>

namespace canewright {

// The middle value; of an even number the mean of the middle two. Requires  not empty.
double median(std::vector<double> values);

// Standard deviation of normally distributed values, from the median distance to the median (MAD).
// Made unbiased for the number of values; 0 for a single one.
// Source  Hampel, J. Am. Stat. Assoc. 69 (1974) 383-393. The factors that make it unbiased: as in
//         Hayes, Commun. Stat. Simul. Comput. 43 (2014) 2205-2212 (digits as met in public code),
//         above 10 values 1.4826 n/(n - 0.8) of Croux & Rousseeuw, Comp. Statistics 1 (1992)
//         411-428 (from memory). The test draws samples and finds them again.
// Error   kSpreadBias of its mean over many samples.
// Checked tests/core/listen/robust_test.cpp, by drawing samples
// Requires  not empty.
double spread(const std::vector<double>& values);

inline constexpr double kSpreadBias = 0.02;

}  // namespace canewright
