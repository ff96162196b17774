// tests/support/figures.hpp: the README's figures, so that a test holds what is claimed.
#pragma once

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <stdexcept>
#include <string>
#include <vector>

#include "tests/support/table.hpp"

namespace canewright::testing {

// A row of tests/data/figures.csv. tools/checks/figures.py holds the README to the same rows, and
// this test's file to naming the id.
struct Figure {
    double value;
    double half_digit;  // what rounding to the printed digits may hide

    // What "at most" this figure, as printed, allows.
    double most() const { return value + half_digit; }
};

inline Figure figure(const std::string& id) {
    static const std::vector<Row> rows = table("figures.csv");
    for (const Row& row : rows) {
        if (row.text("id") != id) continue;
        const std::string printed = row.text("value");
        const std::size_t dot = printed.find('.');
        const double digits =
            dot == std::string::npos ? 0.0 : static_cast<double>(printed.size() - dot - 1);
        return {row.number("value"), 0.5 * std::pow(10.0, -digits)};
    }
    throw std::runtime_error("no figure " + id);
}

// Half of the errors below `median`, 95 of 100 below `most`, as far as so many can tell: three
// standard deviations of a share.
inline void check_shares(const std::vector<double>& errors, double median, double most) {
    const double n = static_cast<double>(errors.size());
    const auto beyond = [&errors](double limit) {
        return static_cast<double>(std::count_if(errors.begin(), errors.end(),
                                                 [limit](double error) { return error > limit; }));
    };
    CHECK(beyond(median) <= 0.5 * n + 3.0 * std::sqrt(0.25 * n));
    CHECK(beyond(most) <= 0.05 * n + 3.0 * std::sqrt(0.05 * 0.95 * n));
}

}  // namespace canewright::testing
