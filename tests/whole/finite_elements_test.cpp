// tests/whole/finite_elements_test.cpp: whole tubes against three-dimensional finite elements.
//
// Source     open.csv, more-windows.csv and more-holes.csv of tests/data/fem (README there):
// lossless
//            tubes solved by a general finite-element library, error 0.1 to 0.3 cent.
#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <complex>
#include <map>
#include <string>
#include <vector>

#include "core/base/units.hpp"
#include "core/element/finger_hole.hpp"
#include "core/element/sound_hole.hpp"
#include "tests/support/fem.hpp"
#include "tests/support/figures.hpp"

using namespace canewright;
using namespace canewright::testing;
using Catch::WithinAbs;

namespace {

// What was asked of the whole flute; the README's figures are asked for below.
constexpr double kFirstRegister_cents = 10.0;
constexpr double kInterval_cents = 6.0;
constexpr double kSecondRegister_cents = 5.0;

double error_cents(const FemTube& tube, int register_number) {
    const Resonance r = tube.solve(register_number);
    CHECK(r.converged);
    return cents_between(r.frequency_Hz, register_number == 1 ? tube.first_Hz : tube.second_Hz);
}

bool in_range(const FemTube& tube) {
    const Flute& f = tube.flute;
    return in_window_range({0.5 * bore_diameter_m(f, 0.0), f.sound_hole.length_m,
                            f.sound_hole.width_m, f.sound_hole.wall_m, f.plug_offset_m});
}

// The complex frequency where the impedance vanishes, by the first three terms of its series at
// the real resonance: what an eigenfrequency of the finite elements is.
Complex complex_resonance_Hz(const FemTube& tube, int register_number) {
    const double f_Hz = tube.solve(register_number).frequency_Hz, step_Hz = 1e-3 * f_Hz;
    const Network network(tube.flute, lossless_air(), tube.open);
    const Complex before = network.at(f_Hz - step_Hz).impedance;
    const Complex here = network.at(f_Hz).impedance;
    const Complex after = network.at(f_Hz + step_Hz).impedance;
    const Complex slope = (after - before) / (2.0 * step_Hz);
    const Complex bend = (after - 2.0 * here + before) / (step_Hz * step_Hz);
    Complex x = 0.0;
    for (int trip = 0; trip < 30; ++trip)
        x -= (here + slope * x + 0.5 * bend * x * x) / (slope + bend * x);
    return f_Hz + x;
}

// Sizes of errors, smallest first.
struct Sizes {
    std::vector<double> cents;
    void add(double error) { cents.push_back(std::abs(error)); }
    double median() {
        std::sort(cents.begin(), cents.end());
        const std::size_t half = cents.size() / 2;
        return cents.size() % 2 == 1 ? cents[half] : 0.5 * (cents[half - 1] + cents[half]);
    }
    double largest() const { return *std::max_element(cents.begin(), cents.end()); }
};

// Count, median and largest as the README has them under `id`.
void check_figures(const std::string& id, Sizes sizes) {
    CAPTURE(id);
    CHECK(static_cast<double>(sizes.cents.size()) == figure(id + "_tubes").value);
    CHECK(sizes.median() <= figure(id + "_median").most());
    CHECK(sizes.largest() <= figure(id + "_most").most());
}

const std::vector<std::string> kFiles = {"fem/open.csv", "fem/more-windows.csv",
                                         "fem/more-holes.csv"};

}  // namespace

// Tolerance  what is asked of the whole; what the headers promise (windows in the fit's range); and
//            the figures fem_windows, fem_more_windows, fem_more_holes of each file.
TEST_CASE("the first register of every tube agrees with finite elements", "[fem][derived]") {
    std::map<std::string, Sizes> bare, holed;
    for (const std::string& file : kFiles)
        for (const FemTube& tube : fem_tubes(file)) {
            CAPTURE(file, tube.name);
            const double error = error_cents(tube, 1);
            CHECK_THAT(error, WithinAbs(0.0, kFirstRegister_cents));
            (tube.flute.holes.empty() ? bare : holed)[file].add(error);
            if (in_range(tube) && tube.flute.holes.empty())
                CHECK_THAT(error, WithinAbs(0.0, kWindowError_cents));
        }
    check_figures("fem_windows", bare["fem/open.csv"]);
    check_figures("fem_more_windows", bare["fem/more-windows.csv"]);
    check_figures("fem_more_holes", holed["fem/more-holes.csv"]);
    CHECK(holed["fem/open.csv"].cents.size() == 15);
    CHECK(bare["fem/more-holes.csv"].cents.empty());
}

// The finite elements give a complex frequency; where a resonance is broad its real part is not
// where the impedance is real. Brought to the same definition, most of the difference goes.
// Tolerance  figures fem_second_most (all tubes, as the core has it) and fem_second_complex_most.
TEST_CASE("the second register of every tube agrees with finite elements", "[fem][derived]") {
    Sizes real, complex;
    for (const std::string& file : kFiles)
        for (const FemTube& tube : fem_tubes(file)) {
            CAPTURE(file, tube.name);
            const double error = error_cents(tube, 2);
            CHECK_THAT(error, WithinAbs(0.0, kSecondRegister_cents));
            real.add(error);
            const double as_elements =
                cents_between(complex_resonance_Hz(tube, 2).real(), tube.second_Hz);
            CHECK_THAT(as_elements, WithinAbs(0.0, figure("fem_second_complex_most").most()));
            complex.add(as_elements);
        }
    CHECK(static_cast<double>(real.cents.size()) == figure("fem_second_tubes").value);
    CHECK(real.largest() <= figure("fem_second_most").most());
    CHECK(complex.median() <= figure("fem_second_complex_median").most());
}

// Tolerance  what is asked of the whole, and kHoleError_cents. Also the maximum that a thesis names
//            for this kind of model on whole instruments (row LEF-10c). And the figures
//            fem_intervals of all pairs.
TEST_CASE("intervals between fingerings agree with finite elements", "[fem][derived]") {
    std::map<std::string, std::vector<FemTube>> groups;
    for (const FemTube& tube : fem_tubes("fem/open.csv")) groups[tube.group].push_back(tube);
    Sizes sizes;
    for (const auto& [group, members] : groups)
        for (std::size_t i = 0; i < members.size(); ++i)
            for (std::size_t j = i + 1; j < members.size(); ++j) {
                CAPTURE(members[i].name, members[j].name);
                const double difference = error_cents(members[i], 1) - error_cents(members[j], 1);
                CHECK_THAT(difference, WithinAbs(0.0, kInterval_cents));
                CHECK_THAT(difference, WithinAbs(0.0, kHoleError_cents));
                CHECK_THAT(difference, WithinAbs(0.0, check_value("LEF-10c").number("value")));
                sizes.add(difference);
            }
    CHECK(sizes.cents.size() == 49);  // 7 fingerings of one flute, 8 of another
    CHECK(sizes.median() <= figure("fem_intervals_median").most());
    CHECK(sizes.largest() <= figure("fem_intervals_most").most());
}
