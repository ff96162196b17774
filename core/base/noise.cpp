// core/base/noise.cpp -- normal numbers by inversion.
#include "core/base/noise.hpp"

#include <boost/math/special_functions/erf.hpp>
#include <cmath>

namespace canewright {

double Noise::normal() { return -std::sqrt(2.0) * boost::math::erfc_inv(2.0 * uniform()); }

}  // namespace canewright
