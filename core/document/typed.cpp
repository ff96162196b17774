// core/document/typed.cpp -- rounding to 15 significant digits.
#include "core/document/typed.hpp"

#include "core/base/digits.hpp"
#include "core/base/units.hpp"

namespace canewright {

double typed(double value) { return to_digits(value, 15); }
double typed_mm(double length_m) { return typed(mm_from_m(length_m)); }
double typed_percent(double share) { return typed(percent_from_ratio(share)); }
double typed_kPa(double pressure_Pa) { return typed(kPa_from_Pa(pressure_Pa)); }
double typed_water_mm(double pressure_Pa) { return typed(water_mm_from_Pa(pressure_Pa)); }

}  // namespace canewright
