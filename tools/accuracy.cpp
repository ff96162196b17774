// tools/accuracy.cpp -- our resonances against three-dimensional finite elements, as a table.
//
//   canewright_accuracy FILE...     tables below tests/data, e.g. fem/open.csv
#include <algorithm>
#include <cmath>
#include <cstdio>
#include <exception>
#include <map>
#include <string>
#include <vector>

#include "core/base/units.hpp"
#include "core/element/sound_hole.hpp"
#include "tests/support/fem.hpp"

namespace {

using namespace canewright;
using namespace canewright::testing;

struct Result {
    FemTube tube;
    double first_cents = 0.0, second_cents = 0.0;  // ours above the reference
};

// Where a purely empirical fit of the sound hole was tried first: the middle of what makers cut.
struct Middle {
    double wall_min = 0.14, wall_max = 0.62;     // of the bore's radius
    double length_min = 0.36, length_max = 1.5;  // of the bore's radius
    double width_min = 0.35, width_max = 0.77;   // of the bore
    double offset_max = 0.77;                    // of the bore's radius
};

WindowShape window(const Flute& f) {
    return {0.5 * bore_diameter_m(f, 0.0), f.sound_hole.length_m, f.sound_hole.width_m,
            f.sound_hole.wall_m, f.plug_offset_m};
}

bool in_the_middle(const Flute& flute) {
    const WindowShape w = window(flute);
    const Middle m;
    const double wall = w.wall_m / w.bore_radius_m, length = w.length_m / w.bore_radius_m;
    const double width = 0.5 * w.width_m / w.bore_radius_m;
    return wall >= m.wall_min && wall <= m.wall_max && length >= m.length_min &&
           length <= m.length_max && width >= m.width_min && width <= m.width_max &&
           w.plug_offset_m <= m.offset_max * w.bore_radius_m;
}

// Median and largest of the sizes, and how many.
void summary(const char* what, std::vector<double> cents) {
    for (double& each : cents) each = std::abs(each);
    std::sort(cents.begin(), cents.end());
    if (cents.empty()) {
        std::printf("%-58s none\n", what);
        return;
    }
    const std::size_t half = cents.size() / 2;
    const double median =
        cents.size() % 2 == 1 ? cents[half] : 0.5 * (cents[half - 1] + cents[half]);
    std::printf("%-58s median %5.2f  max %5.2f  of %zu\n", what, median, cents.back(),
                cents.size());
}

Result solve(const FemTube& tube) {
    const auto error = [&tube](int number, double reference_Hz) {
        const Resonance r = tube.solve(number);
        return r.converged ? cents_between(r.frequency_Hz, reference_Hz) : std::nan("");
    };
    return {tube, error(1, tube.first_Hz), error(2, tube.second_Hz)};
}

void row(const Result& r, int number, double reference_Hz, double cents) {
    std::printf("%-14s %d  %10.3f  %10.3f  %7.2f\n", r.tube.name.c_str(), number, reference_Hz,
                shifted_Hz(reference_Hz, cents), cents);
}

void print(const std::string& file) {
    std::printf("\n%s\n%-14s %s  %10s  %10s  %7s\n", file.c_str(), "case", "r", "reference Hz",
                "ours Hz", "cents");
    std::vector<double> inside, outside, middle, elsewhere, holes, second, intervals, seconds;
    std::map<std::string, std::vector<Result>> groups;
    for (const FemTube& tube : fem_tubes(file)) {
        const Result r = solve(tube);
        row(r, 1, tube.first_Hz, r.first_cents);
        row(r, 2, tube.second_Hz, r.second_cents);
        second.push_back(r.second_cents);
        groups[tube.group].push_back(r);
        if (!tube.flute.holes.empty()) {
            holes.push_back(r.first_cents);
            continue;
        }
        (in_window_range(window(tube.flute)) ? inside : outside).push_back(r.first_cents);
        (in_the_middle(tube.flute) ? middle : elsewhere).push_back(r.first_cents);
    }
    for (const auto& [group, results] : groups)
        for (std::size_t i = 0; i < results.size(); ++i)
            for (std::size_t j = i + 1; j < results.size(); ++j) {
                intervals.push_back(results[j].first_cents - results[i].first_cents);
                seconds.push_back(results[j].second_cents - results[i].second_cents);
            }
    std::printf("\n%s, cents without sign\n", file.c_str());
    summary("windows alone, in the model's range, first register", inside);
    summary("windows alone, outside it", outside);
    summary("windows alone, in the middle range (0.14 < t/a < 0.62 ..)", middle);
    summary("windows alone, outside the middle range", elsewhere);
    summary("tubes with finger holes, first register", holes);
    summary("intervals between fingerings of one flute, first register", intervals);
    summary("intervals between fingerings of one flute, second register", seconds);
    summary("second register, all tubes", second);
}

}  // namespace

int main(int count, char** words) {
    if (count < 2) {
        std::fprintf(stderr, "canewright_accuracy FILE...\n");
        return 2;
    }
    try {
        for (int n = 1; n < count; ++n) print(words[n]);
    } catch (const std::exception& error) {
        std::fprintf(stderr, "%s\n", error.what());
        return 1;
    }
    return 0;
}
