// core/base/stable_order.hpp -- puts a short list in order, equals staying as they were.
#pragma once

#include <cstddef>
#include <utility>
#include <vector>

namespace canewright {

// Insertion: for lists of a dozen. std::stable_sort would do it too, but each use of it costs the
// page 5 kB of merging code for long lists; std::sort would order equals differently natively and
// in wasm.
template <typename T, typename Before>
void stable_order(std::vector<T>& list, Before before) {
    for (std::size_t i = 1; i < list.size(); ++i)
        for (std::size_t j = i; j > 0 && before(list[j], list[j - 1]); --j)
            std::swap(list[j], list[j - 1]);
}

}  // namespace canewright
