// core/choose/drills.cpp -- rows of drill sizes.
#include "core/choose/drills.hpp"

#include <algorithm>
#include <cmath>

#include "core/base/units.hpp"

namespace canewright {

namespace {

// From number 1 down to 30, and from A up to Z [thousandths of an inch, in tenths].
constexpr int kNumbers[] = {2280, 2210, 2130, 2090, 2055, 2040, 2010, 1990, 1960, 1935,
                            1910, 1890, 1850, 1820, 1800, 1770, 1730, 1695, 1660, 1610,
                            1590, 1570, 1540, 1520, 1495, 1470, 1440, 1405, 1360, 1285};
constexpr int kLetters[] = {2340, 2380, 2420, 2460, 2500, 2570, 2610, 2660, 2720,
                            2770, 2810, 2900, 2950, 3020, 3160, 3230, 3320, 3390,
                            3480, 3580, 3680, 3770, 3860, 3970, 4040, 4130};
constexpr double kParts = 10000.0;
constexpr int kSixtyFourths = 64;
constexpr double kSizeHair_m = 1e-9;  // of rounding

bool is_wanted(double diameter_m) {
    return diameter_m > kLeastDrill_m * (1 - 1e-9) && diameter_m < kMostDrill_m * (1 + 1e-9);
}

std::string fraction(int sixty_fourths) {
    int over = sixty_fourths, under = kSixtyFourths;
    for (; over % 2 == 0; over /= 2) under /= 2;
    return std::to_string(over) + "/" + std::to_string(under) + " in";
}

}  // namespace

std::vector<DrillSet> drill_sets() {
    DrillSet metric{"metric", {}}, fractions{"inch fractions", {}}, numbers{"numbers", {}},
        letters{"letters", {}};
    for (int halves = 6; is_wanted(m_from_mm(0.5 * halves)); ++halves) {
        const std::string half = halves % 2 == 0 ? "" : ".5";
        metric.drills.push_back(
            {m_from_mm(0.5 * halves), std::to_string(halves / 2) + half + " mm"});
    }
    for (int parts = 1; parts < kSixtyFourths; ++parts) {
        const double diameter_m = m_from_inch(static_cast<double>(parts) / kSixtyFourths);
        if (is_wanted(diameter_m)) fractions.drills.push_back({diameter_m, fraction(parts)});
    }
    int number = 0;
    for (const int parts : kNumbers)
        numbers.drills.push_back({m_from_inch(parts / kParts), "#" + std::to_string(++number)});
    std::reverse(numbers.drills.begin(), numbers.drills.end());
    char letter = 'A';
    for (const int parts : kLetters)
        letters.drills.push_back({m_from_inch(parts / kParts), std::string(1, letter++)});
    return {metric, fractions, numbers, letters};
}

std::vector<Drill> drills_on_offer(const std::vector<Drill>& owned, double from_m, double to_m) {
    std::vector<DrillSet> sets = drill_sets();
    sets.erase(sets.begin());  // metric sizes go by their size
    const auto has = [](const DrillSet& set, const Drill& drill) {
        return std::any_of(set.drills.begin(), set.drills.end(),
                           [&](const Drill& of) { return of.label == drill.label; });
    };
    const bool all_named = std::all_of(owned.begin(), owned.end(), [&](const Drill& drill) {
        return std::any_of(sets.begin(), sets.end(),
                           [&](const DrillSet& set) { return has(set, drill); });
    });
    std::vector<Drill> offer;
    const auto add = [&](const Drill& drill) {
        if (!(drill.diameter_m > from_m - kSizeHair_m) || !(drill.diameter_m < to_m + kSizeHair_m))
            return;
        if (std::none_of(owned.begin(), owned.end(), [&](const Drill& own) {
                return std::abs(own.diameter_m - drill.diameter_m) < kSameDrill_m;
            }))
            offer.push_back(drill);
    };
    if (!all_named || owned.empty())
        for (int halves = static_cast<int>(2.0 * mm_from_m(from_m));
             m_from_mm(0.5 * halves) < to_m + kSizeHair_m; ++halves)
            add({m_from_mm(0.5 * halves), ""});
    for (const DrillSet& set : sets)
        if (std::any_of(owned.begin(), owned.end(),
                        [&](const Drill& drill) { return has(set, drill); }))
            for (const Drill& drill : set.drills) add(drill);
    return offer;
}

}  // namespace canewright
