// core/listen/robust.cpp -- see the header.
#include "core/listen/robust.hpp"

#include <algorithm>
#include <cmath>

namespace canewright {
namespace {

// 1 / mean MAD of n standard normal values, n = 2 to 10.
constexpr double kFactor[] = {1.7744, 2.2053, 2.0164, 1.8056, 1.7628,
                              1.6876, 1.6717, 1.6326, 1.6254};
constexpr double kManyValues = 1.4826;  // n -> infinity: 1 / (upper quartile of the normal)

}  // namespace

double median(std::vector<double> values) {
    const std::size_t half = values.size() / 2;
    std::sort(values.begin(), values.end());
    return values.size() % 2 == 1 ? values[half] : 0.5 * (values[half - 1] + values[half]);
}

double spread(const std::vector<double>& values) {
    const std::size_t count = values.size();
    if (count < 2) return 0.0;
    const double middle = median(values);
    std::vector<double> distances;
    distances.reserve(count);
    for (const double value : values) distances.push_back(std::abs(value - middle));
    const double n = static_cast<double>(count);
    const double factor = count <= 10 ? kFactor[count - 2] : kManyValues * n / (n - 0.8);
    return factor * median(distances);
}

}  // namespace canewright
