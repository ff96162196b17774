// tests/support/table.hpp: reads the comma-separated reference tables of tests/data.
#pragma once

#include <cstdlib>
#include <fstream>
#include <map>
#include <stdexcept>
#include <string>
#include <vector>

namespace canewright::testing {

// One row, by column name. Asking for what is not there ends the test with a message.
class Row {
   public:
    explicit Row(std::map<std::string, std::string> cells) : cells_(std::move(cells)) {}

    const std::string& text(const std::string& column) const {
        const auto it = cells_.find(column);
        if (it == cells_.end()) throw std::runtime_error("no column " + column);
        return it->second;
    }
    bool has(const std::string& column) const { return cells_.count(column) > 0; }
    // The n-th of the numbers in a cell such as "0.995067 ; 0.61099" or "1.008695-0.009341j".
    double number(const std::string& column, int n = 0) const {
        const std::string& cell = text(column);
        const auto digit = [&cell](std::size_t i) {
            return i < cell.size() && cell[i] >= '0' && cell[i] <= '9';
        };
        for (std::size_t i = 0; i < cell.size();) {
            const bool sign = cell[i] == '-' || cell[i] == '+';
            if (!digit(i) && !(sign && digit(i + 1))) {
                ++i;
                continue;
            }
            char* end = nullptr;
            const double value = std::strtod(cell.c_str() + i, &end);
            if (n-- == 0) return value;
            i = static_cast<std::size_t>(end - cell.c_str());
        }
        throw std::runtime_error("too few numbers: " + cell);
    }

   private:
    std::map<std::string, std::string> cells_;
};

inline std::vector<std::string> cells_of(const std::string& line) {
    std::vector<std::string> cells(1);
    bool quoted = false;
    for (const char c : line) {
        if (c == '"')
            quoted = !quoted;
        else if (c == ',' && !quoted)
            cells.emplace_back();
        else if (c != '\r')
            cells.back() += c;
    }
    return cells;
}

// `file` below tests/data.
inline std::vector<Row> table(const std::string& file) {
    std::ifstream in(std::string(CANEWRIGHT_TEST_DATA) + "/" + file);
    if (!in) throw std::runtime_error("cannot read " + file);
    std::string line;
    std::getline(in, line);
    const std::vector<std::string> columns = cells_of(line);
    std::vector<Row> rows;
    while (std::getline(in, line)) {
        const std::vector<std::string> cells = cells_of(line);
        if (cells.size() != columns.size()) throw std::runtime_error("ragged row: " + line);
        std::map<std::string, std::string> row;
        for (std::size_t i = 0; i < cells.size(); ++i) row[columns[i]] = cells[i];
        rows.emplace_back(std::move(row));
    }
    return rows;
}

// The row of tests/data/published/check-values.csv with this id; `value` holds the figures, and
// `source` and `confirmed` say where they are from: `yes` seen in the source's text, `derived`
// computed from exact theory outside the core, `memory` remembered.
inline const Row& check_value(const std::string& id) {
    static const std::vector<Row> rows = table("published/check-values.csv");
    for (const Row& row : rows)
        if (row.text("id") == id) return row;
    throw std::runtime_error("no row " + id);
}

}  // namespace canewright::testing
