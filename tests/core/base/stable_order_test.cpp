// tests/core/base/stable_order_test.cpp -- in order, equals as they were.
#include "core/base/stable_order.hpp"

#include <algorithm>
#include <catch2/catch.hpp>

using namespace canewright;

namespace stable_order_test {  // its own where tests are compiled together

// Reference  std::stable_sort on every order of four pairs, two of them equal in what counts.
TEST_CASE("short lists are put in order, equals staying as they were", "[base][property]") {
    using Pair = std::pair<int, int>;
    const auto before = [](const Pair& a, const Pair& b) { return a.first < b.first; };
    std::vector<Pair> list = {{1, 0}, {2, 1}, {2, 2}, {3, 3}};
    do {
        std::vector<Pair> ours = list, theirs = list;
        stable_order(ours, before);
        std::stable_sort(theirs.begin(), theirs.end(), before);
        CHECK(ours == theirs);
    } while (std::next_permutation(list.begin(), list.end()));
    std::vector<Pair> two = {{2, 0}, {1, 0}}, none;
    stable_order(two, before);
    CHECK(two.front().first == 1);
    stable_order(none, before);
    CHECK(none.empty());
}

}  // namespace stable_order_test
