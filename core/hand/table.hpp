// core/hand/table.hpp: as much algebra of small matrices as pooling takes. Layer: hand.
//
// Out of line and of one type: with Eigen's templates the page's module would be a sixth larger.
#pragma once

#include <cstddef>
#include <vector>

namespace canewright {

// Rows by columns; a column of one is a vector.
struct Table {
    std::size_t rows = 0, cols = 0;
    std::vector<double> cells;

    double& operator()(std::size_t i, std::size_t j) { return cells[i * cols + j]; }
    double operator()(std::size_t i, std::size_t j) const { return cells[i * cols + j]; }
};

Table table(std::size_t rows, std::size_t cols, double diagonal = 0.0);
Table product(const Table& a, const Table& b);
Table turned(const Table& a);  // transposed
void add(Table& to, const Table& what, double share = 1.0);
double most_apart(const Table& a, const Table& b);  // of two cells
// Of a symmetric positive definite table, by elimination.
Table inverse(const Table& a, double* log_determinant = nullptr);
double quadratic(const Table& vector, const Table& matrix);

// Of a symmetric table: values, and a column of `vectors` each. By Jacobi's rotations (C.G.J.
// Jacobi, Crelle 30 (1846) 51-94, from memory).
struct Axes {
    std::vector<double> values;
    Table vectors;
};
Axes axes(Table symmetric);

}  // namespace canewright
