// tests/core/jet/eigenvalues_test.cpp: eigenvalues of a small real matrix.
#include "core/jet/eigenvalues.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <vector>

#include "core/base/units.hpp"

using namespace canewright;

namespace {

// How far the eigenvalues lie from those expected, each taken once.
template <int Size>
double apart(const Eigen::Matrix<double, Size, Size>& matrix, std::vector<Complex> expected) {
    double most = 0.0;
    for (const Complex& each : eigenvalues(matrix)) {
        const auto nearest = std::min_element(
            expected.begin(), expected.end(),
            [&](Complex a, Complex b) { return std::abs(a - each) < std::abs(b - each); });
        most = std::max(most, std::abs(*nearest - each));
        expected.erase(nearest);
    }
    return most;
}

}  // namespace

// Reference  a circulant's eigenvalues are the transform of its row (any text).
TEST_CASE("eigenvalues of a circulant", "[eigenvalues][analytic]") {
    constexpr int kSize = 5;
    const double row[kSize] = {0.3, -1.2, 2.5, 0.01, 4.0};
    Eigen::Matrix<double, kSize, kSize> matrix;
    std::vector<Complex> expected;
    for (int i = 0; i < kSize; ++i) {
        Complex sum = 0.0;
        for (int j = 0; j < kSize; ++j) {
            matrix(i, (i + j) % kSize) = row[j];
            sum += row[j] * std::polar(1.0, 2.0 * kPi * i * j / kSize);
        }
        expected.push_back(sum);
    }
    CHECK(apart<kSize>(matrix, expected) < 1e-12);
}

// Reference  a companion matrix has the roots of its polynomial, here x (x^2 + 9);
//            a triangular one its diagonal.
TEST_CASE("eigenvalues of companions and triangles", "[eigenvalues][analytic]") {
    Eigen::Matrix<double, 3, 3> pair;  // x (x^2 + 9)
    pair << 0, -9, 0, 1, 0, 0, 0, 1, 0;
    CHECK(apart<3>(pair, {0.0, {0.0, 3.0}, {0.0, -3.0}}) < 1e-12);
    Eigen::Matrix<double, 4, 4> triangle;
    triangle << 1e-6, 5, 7, -2, 0, -3, 1, 1, 0, 0, 1e3, 4, 0, 0, 0, 2;
    CHECK(apart<4>(triangle, {1e-6, -3.0, 1e3, 2.0}) < 1e-9);
}
