// core/hand/table.cpp: loops.
#include "core/hand/table.hpp"

#include <algorithm>
#include <cmath>

namespace canewright {

Table table(std::size_t rows, std::size_t cols, double diagonal) {
    Table t{rows, cols, std::vector<double>(rows * cols)};
    for (std::size_t n = 0; n < std::min(rows, cols); ++n) t(n, n) = diagonal;
    return t;
}

Table product(const Table& a, const Table& b) {
    Table t = table(a.rows, b.cols);
    for (std::size_t i = 0; i < a.rows; ++i)
        for (std::size_t k = 0; k < a.cols; ++k)
            for (std::size_t j = 0; j < b.cols; ++j) t(i, j) += a(i, k) * b(k, j);
    return t;
}

Table turned(const Table& a) {
    Table t = table(a.cols, a.rows);
    for (std::size_t i = 0; i < a.rows; ++i)
        for (std::size_t j = 0; j < a.cols; ++j) t(j, i) = a(i, j);
    return t;
}

void add(Table& to, const Table& what, double share) {
    for (std::size_t n = 0; n < to.cells.size(); ++n) to.cells[n] += share * what.cells[n];
}

double most_apart(const Table& a, const Table& b) {
    double most = 0.0;
    for (std::size_t n = 0; n < a.cells.size(); ++n)
        most = std::max(most, std::abs(a.cells[n] - b.cells[n]));
    return most;
}

Table inverse(const Table& a, double* log_determinant) {
    const std::size_t n = a.rows;
    Table left = a, right = table(n, n, 1.0);
    double logs = 0.0;
    for (std::size_t k = 0; k < n; ++k) {  // positive definite: no pivot is 0
        const double pivot = left(k, k);
        logs += std::log(pivot);
        for (std::size_t j = 0; j < n; ++j) {
            left(k, j) /= pivot;
            right(k, j) /= pivot;
        }
        for (std::size_t i = 0; i < n; ++i) {
            const double share = left(i, k);
            if (i == k) continue;
            for (std::size_t j = 0; j < n; ++j) {
                left(i, j) -= share * left(k, j);
                right(i, j) -= share * right(k, j);
            }
        }
    }
    if (log_determinant) *log_determinant = logs;
    return right;
}

double quadratic(const Table& vector, const Table& matrix) {
    return product(turned(vector), product(matrix, vector))(0, 0);
}

Axes axes(Table a) {
    constexpr int kSweeps = 30;
    const std::size_t n = a.rows;
    Axes found{std::vector<double>(n), table(n, n, 1.0)};
    for (int sweep = 0; sweep < kSweeps; ++sweep)
        for (std::size_t p = 0; p < n; ++p)
            for (std::size_t q = p + 1; q < n; ++q) {
                if (a(p, q) == 0.0) continue;
                const double angle = 0.5 * std::atan2(2.0 * a(p, q), a(p, p) - a(q, q));
                Table turn = table(n, n, 1.0);
                turn(p, p) = turn(q, q) = std::cos(angle);
                turn(q, p) = std::sin(angle);
                turn(p, q) = -turn(q, p);
                a = product(turned(turn), product(a, turn));
                a(p, q) = a(q, p) = 0.0;
                found.vectors = product(found.vectors, turn);
            }
    for (std::size_t k = 0; k < n; ++k) found.values[k] = a(k, k);
    return found;
}

}  // namespace canewright
