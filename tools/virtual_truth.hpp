// tools/virtual_truth.hpp: how a virtual flute really sounds; by other formulas than the core's.
#pragma once

#include <vector>

namespace virtual_makers {

struct TrueHole {
    double at_m = 0.0;
    double diameter_m = 0.0;
    bool cut = false;
};

// A flute as it really is. Shares no formula, no code and no root finder with core/.
struct TrueFlute {
    double bore_m = 0.0;  // diameter at the sound hole
    double taper = 0.0;   // the bore narrows by this share over 0.4 m
    double wall_m = 0.0;
    double window_length_m = 0.0, window_width_m = 0.0, plug_offset_m = 0.0;
    double voice = 1.0;               // of this sound hole, over the fit's inertance
    double breath_share = 0.45;       // of breath in the bore's air
    double humidity = 0.5;            // of the room
    double edge_m = 0.0;              // radius of the finger holes' worn edges
    double fingertip = 0.4;           // height of the finger in a covered hole, over its radius
    double breath_drift_cents = 0.0;  // lift by breath of a note an octave up
    double lowest_Hz = 0.0;           // from where the lift counts
    double foot_m = 0.0;
    double disc_opening_m = 0.0;  // 0: no disc in the foot
    double disc_thickness_m = 0.0;
    std::vector<TrueHole> holes;
};

// As sounded; `open` counts all holes from 1, those not cut are not there. `warmth` is 1 for a
// flute that is blown warm, 0 for one as cold as the room. `near_Hz` (or 0) is at most 3 % above
// the answer and saves the search.
//
// Model    line: Keefe's wide-tube series, in slices; foot: Dalmont 2001, no term in ka; holes:
//          Dubos inner and Dalmont outer length, Nederveen's matching volume, Dubos's series
//          length for open and covered alike; openings couple as monopoles of 3 pi; sound hole: an
//          empirical fit to finite elements; air: a mixture of ideal gases. Bisection on the
//          imaginary part of the impedance.
// Source   D.H. Keefe, J. Acoust. Soc. Am. 75 (1984) 58-62; J.-P. Dalmont et al., J. Sound Vib. 244
//          (2001) 505-534; V. Dubos et al., Acustica 85 (1999) 153-169; C.J. Nederveen et al.,
//          Acustica 84 (1998) 957-966 (all from memory). The fit is our own, of other terms than
//          the core's potential theory.
double sounding_Hz(const TrueFlute& flute, const std::vector<int>& open, double room_C,
                   double warmth = 1.0, double near_Hz = 0.0);

}  // namespace virtual_makers
