// core/layout/builds.hpp: many builds of one plan, each with errors of its own. Layer: layout.
#pragma once

#include <cstdint>

#include "core/layout/tolerance.hpp"

namespace canewright {

// Sums over some builds; sums of two sets of builds add up to those of both.
struct BuildSums {
    struct Note {
        double cents = 0.0;          // above nominal
        double cents2 = 0.0;         // squares
        double linear_cents2 = 0.0;  // squares that the linear model gives for the same errors
    };
    long builds = 0;
    long failed = 0;  // no flute came of it, or a note did not speak; never counted as within
    std::vector<Note> notes;
    std::array<long, kWithin_cents.size()> within{};
    double worst_linear_cents = 0.0;  // largest departure of a note from the linear model

    void add(const BuildSums& other);
    // Of the builds that did not fail: NaN for a note that does not speak.
    double mean_cents(std::size_t note) const;
    double sigma_cents(std::size_t note) const;
    // Standard deviation over that of the linear model for the very same errors: free of most of
    // the chance in a sample, so that few builds show whether the linear model holds.
    double over_linear(std::size_t note) const;
    double share_within(std::size_t limit) const;
};

// Builds number `from` up to but without `to` of the series with this seed.
//   linear   spread(task): gives each solve its first guess
//
// Model    every cause drawn from its Gaussian, all at once; the flute's resonances solved anew
//          (core/flute/resonance_near), the breath's shift and each note's own error added.
// Error    kNearError_cents on each note of each build; the series is the same in any pieces, and
//          natively and in wasm.
// Source   propagation by simulation: JCGM 101:2008 (from memory).
BuildSums run_builds(const SpreadTask& task, const Spread& linear, long from, long to,
                     std::uint64_t seed);

}  // namespace canewright
