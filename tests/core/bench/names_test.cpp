// tests/core/bench/names_test.cpp: every kind of step can be told apart by name.
#include "core/bench/names.hpp"

#include <catch2/catch.hpp>
#include <set>
#include <string>

namespace canewright {
namespace {

// `last` is the last value of the enum; values count from 0.
template <class Enum>
void check_names(Enum last) {
    std::set<std::string> names;
    for (int n = 0; n <= static_cast<int>(last); ++n) names.insert(name(static_cast<Enum>(n)));
    CHECK(names.count("") == 0);
    CHECK(names.size() == static_cast<std::size_t>(last) + 1);
}

TEST_CASE("each value has a name of its own", "[bench][names]") {
    check_names(Do::done);
    check_names(Why::finished);
    check_names(Trouble::breath_lifts);
    check_names(Remedy::accept);
    check_names(Stroke::stop);
    check_names(kDrift);
}

// The command's own words for a step, as the issue of the bench gives them.
TEST_CASE("steps are named as the command promises", "[bench][names]") {
    CHECK(std::string(name(Do::read)) == "read");
    CHECK(std::string(name(Do::foot)) == "foot");
    CHECK(std::string(name(Do::hole)) == "hole");
    CHECK(std::string(name(Do::undercut)) == "undercut");
    CHECK(std::string(name(Do::rescue)) == "rescue");
    CHECK(std::string(name(Do::wait)) == "wait");
    CHECK(std::string(name(Do::done)) == "done");
}

}  // namespace
}  // namespace canewright
