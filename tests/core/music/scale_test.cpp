// tests/core/music/scale_test.cpp -- named scales, a maker's own, and the continuation.
#include "core/music/scale.hpp"

#include <catch2/catch.hpp>
#include <limits>
#include <string>
#include <vector>

using namespace canewright;

namespace scale_test {  // its own where tests are compiled together
using Steps = std::vector<double>;

namespace {

struct Expected {
    Code code;
    std::string path;
    double value;
    double limit;
};

void check_found(const Steps& steps, const std::vector<Expected>& expected) {
    const std::vector<Violation> found = check_steps(steps, "song.scale.cents");
    REQUIRE(found.size() == expected.size());
    for (std::size_t i = 0; i < found.size(); ++i) {
        CHECK(std::string(name(found[i].code)) == name(expected[i].code));
        CHECK(found[i].path == expected[i].path);
        if (expected[i].code == Code::not_finite) continue;  // those carry no numbers
        CHECK(found[i].value == expected[i].value);
        CHECK(found[i].limit == expected[i].limit);
    }
}

}  // namespace

// Source  general reference on pitch sets, semitones above the tonic: minor pentatonic 0 3 5 7 10,
//         major pentatonic 0 2 4 7 9, natural minor 0 2 3 5 7 8 10, major 0 2 4 5 7 9 11, and 12.
TEST_CASE("the named scales", "[scale][published]") {
    const auto in_semitones = [](const std::string& scale_name) {
        const Scale* scale = find_scale(scale_name);
        REQUIRE(scale != nullptr);
        std::vector<int> semitones;
        for (const double step : scale->step_cents)
            semitones.push_back(static_cast<int>(step) / 100);
        return semitones;
    };
    CHECK(in_semitones("minor pentatonic") == std::vector<int>{0, 3, 5, 7, 10, 12});
    CHECK(in_semitones("major pentatonic") == std::vector<int>{0, 2, 4, 7, 9, 12});
    CHECK(in_semitones("natural minor") == std::vector<int>{0, 2, 3, 5, 7, 8, 10, 12});
    CHECK(in_semitones("major") == std::vector<int>{0, 2, 4, 5, 7, 9, 11, 12});
    CHECK(named_scales().size() == 4);
}

// A natural minor is the major scale begun on its sixth degree, and the minor pentatonic the major
// pentatonic begun on its fifth: relations of music theory that the tables do not know.
TEST_CASE("relative minor and major", "[scale][analytic]") {
    const auto begun_on = [](const char* scale_name, std::size_t degree) {
        const Steps two_octaves = continued_steps(find_scale(scale_name)->step_cents, 15);
        Steps begun;
        for (std::size_t i = degree; two_octaves[i] <= two_octaves[degree] + 1200.0; ++i) {
            begun.push_back(two_octaves[i] - two_octaves[degree]);
        }
        return begun;
    };
    CHECK(begun_on("major", 5) == find_scale("natural minor")->step_cents);
    CHECK(begun_on("major pentatonic", 4) == find_scale("minor pentatonic")->step_cents);
}

TEST_CASE("named scales pass the check of one's own", "[scale][property]") {
    for (const Scale& scale : named_scales()) {
        CHECK(check_steps(scale.step_cents, "").empty());
        CHECK(find_scale(scale.name) == &scale);
    }
    CHECK(find_scale("") == nullptr);
    CHECK(find_scale("Major") == nullptr);
    CHECK(find_scale("majo") == nullptr);
}

TEST_CASE("what is wrong with one's own scale, all at once", "[scale]") {
    const double nan = std::numeric_limits<double>::quiet_NaN();
    const double infinity = std::numeric_limits<double>::infinity();
    const std::string path = "song.scale.cents";

    check_found({0, 300, 500}, {});
    check_found({0, 0.5, 2400}, {});
    check_found({}, {{Code::too_small, path, 0, 2}});
    check_found({0}, {{Code::too_small, path, 1, 2}});
    check_found(Steps(14, 0.0), {{Code::too_large, path, 14, 13}});
    check_found({100, 300}, {{Code::too_large, path + "[0]", 100, 0}});
    check_found({-1, 300}, {{Code::too_small, path + "[0]", -1, 0}});
    check_found({0, 2400.5}, {{Code::too_large, path + "[1]", 2400.5, 2400}});
    check_found({0, 300, 300}, {{Code::out_of_order, path + "[2]", 300, 300}});
    check_found({0, nan, 300}, {{Code::not_finite, path + "[1]", 0, 0}});
    check_found({0, infinity, 300}, {{Code::not_finite, path + "[1]", 0, 0}});
    check_found({nan, 500, 400, -3, 9000}, {{Code::not_finite, path + "[0]", 0, 0},
                                            {Code::out_of_order, path + "[2]", 400, 500},
                                            {Code::too_small, path + "[3]", -3, 0},
                                            {Code::too_large, path + "[4]", 9000, 2400}});
    Steps chromatic;
    for (int i = 0; i <= 12; ++i) chromatic.push_back(100.0 * i);
    check_found(chromatic, {});
}

TEST_CASE("a scale goes on past its octave", "[scale][analytic]") {
    const Steps minor = find_scale("minor pentatonic")->step_cents;
    CHECK(continued_steps(minor, 0).empty());
    CHECK(continued_steps(minor, 3) == Steps{0, 300, 500});
    CHECK(continued_steps(minor, 6) == minor);
    CHECK(continued_steps(minor, 9) == Steps{0, 300, 500, 700, 1000, 1200, 1500, 1700, 1900});
    CHECK(continued_steps({0, 300, 700}, 7) == Steps{0, 300, 700, 1200, 1500, 1900, 2400});
    CHECK(continued_steps({0, 500, 1500}, 5) == Steps{0, 500, 1500, 1700, 2400});
    CHECK(continued_steps({0, 2400}, 4) == Steps{0, 2400, 3600, 4800});
    CHECK(continued_steps({0, 700, 1195}, 5) == Steps{0, 700, 1195, 1900, 2400});
    CHECK(continued_steps({0, 700, 1205}, 4) == Steps{0, 700, 1205, 1900});
    CHECK(continued_steps({}, 4).empty());
}

TEST_CASE("continued steps rise, whatever the scale", "[scale][property]") {
    for (double second_cents = 1.0; second_cents <= 2400.0; second_cents += 7.0) {
        for (const double third_cents : {second_cents + 0.5, second_cents + 200.0}) {
            const Steps steps = continued_steps({0, second_cents, third_cents}, 9);
            REQUIRE(steps.size() == 9);
            for (std::size_t i = 1; i < steps.size(); ++i) {
                if (!(steps[i] > steps[i - 1])) FAIL(second_cents << ", " << third_cents);
            }
        }
    }
}

TEST_CASE("the second step is above the first", "[scale]") {
    check_found({0, 0, 700}, {{Code::out_of_order, "song.scale.cents[1]", 0, 0}});
    check_found({0, 300, 300}, {{Code::out_of_order, "song.scale.cents[2]", 300, 300}});
}

}  // namespace scale_test
