// core/link/stream.cpp -- numbers to steps: what is typed most often costs least.
#include "core/link/stream.hpp"

#include <algorithm>
#include <cmath>

#include "core/base/units.hpp"
#include "core/document/limits.hpp"

namespace canewright {

namespace {

constexpr double kWholeSteps = 9007199254740992.0;  // 2^53: beyond, a double has no whole steps
constexpr std::int64_t kNowhere = INT64_MIN;
constexpr double kPerInch = 64.0;
constexpr double kSameMark_mm = 1e-6;  // far below the 0.0006 by which a 64th misses other steps
constexpr int kInch_bits = 9;          // to 8 inches
constexpr int kFine_bits = 32;
constexpr int kLargestNumber = 1000000;  // of a hole; what read_document() takes for a number

}  // namespace

std::optional<std::int64_t> inch_64ths(double length_m) {
    const double marks = inch_from_m(length_m) * kPerInch;
    if (!(std::abs(marks) < kWholeSteps)) return {};
    const double nearest = std::round(marks);
    const double off_mm = mm_from_m(m_from_inch((marks - nearest) / kPerInch));
    if (!(std::abs(off_mm) < kSameMark_mm)) return {};
    return static_cast<std::int64_t>(nearest);
}

std::int64_t LinkStream::steps_of(double value, const Grid& grid) const {
    const double finer = is_fine ? static_cast<double>(kFiner) : 1.0;
    const double steps = std::round(value * grid.per_unit * finer);
    if (!(std::abs(steps) < kWholeSteps)) return kNowhere;
    return static_cast<std::int64_t>(steps);
}

double LinkStream::of_steps(std::int64_t steps, const Grid& grid) const {
    // One division of two exact numbers: the double nearest to the decimal that a maker would type.
    const double finer = is_fine ? static_cast<double>(kFiner) : 1.0;
    return static_cast<double>(steps) / (grid.per_unit * finer);
}

double LinkStream::placed(double value, const Grid& grid) const {
    const std::int64_t steps = steps_of(value, grid);
    return steps == kNowhere ? value : of_steps(steps, grid);
}

double LinkStream::placed_m(double length_m, const Grid& grid) const {
    if (in_inches && !is_fine && inch_64ths(length_m)) {
        return m_from_inch(static_cast<double>(*inch_64ths(length_m)) / kPerInch);
    }
    return m_from_mm(placed(mm_from_m(length_m), grid));
}

// Not negative, on the plain grid: the largest unit that it is a whole number of.
std::uint64_t LinkStream::counted(std::uint64_t steps, const Grid& grid) {
    std::uint64_t which = 0;
    while (writing() && steps % static_cast<std::uint64_t>(grid.unit[which]) != 0) ++which;
    which = bits(which, 2);
    const auto unit = static_cast<std::uint64_t>(grid.unit[which]);
    const std::uint64_t count = whole(steps / unit, grid.width[which]);
    if (static_cast<double>(count) * static_cast<double>(unit) >= kWholeSteps) spoil();
    return good() ? count * unit : 0;
}

void LinkStream::number(double& value, const Grid& grid) {
    const std::int64_t given = writing() ? steps_of(value, grid) : 0;
    if (given == kNowhere || (given < 0 && !grid.is_signed)) spoil();
    if (!good()) return;
    const bool below = grid.is_signed && flag(given < 0);
    auto steps = static_cast<std::uint64_t>(given < 0 ? -given : given);
    constexpr auto kFine = static_cast<std::uint64_t>(kFiner);
    if (!is_fine) {
        steps = counted(steps, grid);
    } else if (flag(steps % kFine != 0)) {
        steps = whole(steps, kFine_bits);
    } else {
        steps = counted(steps / kFine, grid);
        if (static_cast<double>(steps) * static_cast<double>(kFine) >= kWholeSteps) spoil();
        steps *= kFine;  // unsigned: a damaged number may wrap, it is refused all the same
    }
    if (static_cast<double>(steps) >= kWholeSteps) spoil();
    if (!good()) steps = 0;
    const auto size = static_cast<std::int64_t>(steps);
    value = of_steps(below ? -size : size, grid);
}

void LinkStream::number(std::optional<double>& value, const Grid& grid) {
    if (present(value)) number(*value, grid);
}

void LinkStream::length(double& length_m, const Grid& grid) {
    if (in_inches && !is_fine) {
        const auto marks = inch_64ths(writing() ? placed_m(length_m, grid) : 0.0);
        if (flag(marks.has_value())) {
            const std::int64_t found = grid.is_signed
                                           ? either_sign(*marks, kInch_bits + 2)
                                           : static_cast<std::int64_t>(whole(
                                                 static_cast<std::uint64_t>(*marks), kInch_bits));
            length_m = m_from_inch(static_cast<double>(found) / kPerInch);
            return;
        }
    }
    double length_mm = mm_from_m(length_m);
    number(length_mm, grid);
    length_m = m_from_mm(length_mm);
}

void LinkStream::length(std::optional<double>& length_m, const Grid& grid) {
    if (present(length_m)) length(*length_m, grid);
}

void LinkStream::open(std::vector<int>& open) {
    const auto rises = [](int one, int next) { return one >= next; };
    const bool plain =
        open.empty() || (open.front() >= 1 && open.back() <= holes &&
                         std::adjacent_find(open.begin(), open.end(), rises) == open.end());
    if (flag(plain)) {
        std::uint64_t mask = 0;
        for (const int hole : open) mask |= std::uint64_t{1} << (writing() ? hole - 1 : 0);
        mask = bits(mask, holes);
        open.clear();
        for (int hole = 1; hole <= holes; ++hole) {
            if ((mask >> (hole - 1) & 1) != 0) open.push_back(hole);
        }
        return;
    }
    open.resize(count(open.size(), limit::kHoles, 3));
    for (int& hole : open) {
        const std::int64_t number = either_sign(hole, 4);
        if (number < -kLargestNumber || number > kLargestNumber) spoil();
        hole = good() ? static_cast<int>(number) : 0;
    }
}

}  // namespace canewright
