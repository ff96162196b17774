// tests/fuzz/in_time.hpp -- ends the program where an input takes too long.
#pragma once

#include <cstdio>
#include <cstdlib>
#include <ctime>

namespace canewright::fuzz {

// What no input may take. Of processor time, so that a busy machine is no fault; the sanitizers are
// in it, without them the same work takes a fifth or less.
inline constexpr double kMost_s = 0.050;
// The same input is the same work: what is slow is slow every time. What is slow once only has met
// something else in the process (fresh pages, the allocator's quarantine, a migrated thread).
inline constexpr int kTries = 3;

template <class Work>
auto in_time(Work work) {
    for (int left = kTries;; --left) {
        const std::clock_t start = std::clock();
        auto result = work();
        const double taken_s = static_cast<double>(std::clock() - start) / CLOCKS_PER_SEC;
        if (taken_s <= kMost_s) return result;
        std::fprintf(stderr, "took %.3f s, allowed are %.3f s\n", taken_s, kMost_s);
        if (left == 1) std::abort();
    }
}

}  // namespace canewright::fuzz
