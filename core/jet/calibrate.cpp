// core/jet/calibrate.cpp: fits the speed of the jet's wave to one pressure.
#include "core/jet/calibrate.hpp"

#include <cmath>
#include <limits>

#include "core/jet/bracket.hpp"

namespace canewright {
namespace {

double marked_Pa(const Regime& r, PressureMark mark) {
    if (mark == PressureMark::at_pitch) return r.at_pitch_Pa;
    return mark == PressureMark::jumps_up ? r.jumps_up_Pa : r.falls_back_Pa;
}

Calibration failed(const char* why) {
    Calibration c;
    c.why = why;
    c.convection = c.convection_factor = std::numeric_limits<double>::quiet_NaN();
    return c;
}

}  // namespace

Calibration calibrate(const Blowing& blowing, const NoteLoops& loops, int register_number,
                      PressureMark mark, double measured_Pa) {
    const double own = blowing.drive().wave().convection;
    const auto excess = [&](double log_convection) {
        const Blowing tried = blowing.with_convection(std::exp(log_convection));
        return std::log(marked_Pa(tried.regime(loops, register_number), mark) / measured_Pa);
    };
    double near = std::log(own), at_near = excess(near);
    if (!std::isfinite(at_near)) return failed("no_mark");
    // By the inverse square until the pressure lies between, then a bracket.
    const double least = std::log(kLeastFitted), most = std::log(kMostFitted);
    for (int trip = 0; trip < 6; ++trip) {
        const double far = near + 0.6 * at_near + (at_near > 0.0 ? 0.02 : -0.02);
        if (!(far > least && far < most)) return failed("not_this_jet");
        const double at_far = excess(far);
        if (!std::isfinite(at_far)) return failed("no_mark");
        if ((at_far > 0.0) != (at_near > 0.0)) {
            const double log_convection =
                bracketed_root(excess, near, far, at_near, at_far, 0.25 * kPressureError);
            // where the branch begins to fold, the jump leaps: pressures between have no such jet
            if (!(std::abs(excess(log_convection)) < 3.0 * kPressureError))
                return failed("no_mark");
            Calibration c;
            c.found = true;
            c.convection = std::exp(log_convection);
            c.convection_factor = c.convection / own;
            c.quoted = c.convection >= kLeastConvection && c.convection <= kMostConvection;
            return c;
        }
        near = far;
        at_near = at_far;
    }
    return failed("not_this_jet");
}

double remaining_factor(PressureMark measured, PressureMark asked) {
    if (measured == asked) return kSameMark;
    const bool pitch = measured == PressureMark::at_pitch || asked == PressureMark::at_pitch;
    return pitch ? kJumpToPitch : kJumpToJump;
}

}  // namespace canewright
