// core/document/typed.hpp -- SI values back to the numbers that were typed.
#pragma once

namespace canewright {

// A conversion there and back is off by one or two units in the 17th digit (18.4 becomes
// 18.400000000000002). Rounding to 15 significant digits undoes that for every number typed with
// at most 15 digits, and costs a computed one 5e-16 of its value.
double typed(double value);

double typed_mm(double length_m);
double typed_percent(double share);
double typed_kPa(double pressure_Pa);
double typed_water_mm(double pressure_Pa);

}  // namespace canewright
