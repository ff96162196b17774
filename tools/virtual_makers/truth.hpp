// tools/virtual_makers/truth.hpp: how a virtual flute really sounds; by other formulas than the
// core's.
#pragma once

#include <vector>

namespace virtual_makers {

struct TrueHole {
    double at_m = 0.0;
    double diameter_m = 0.0;
    bool cut = false;
};

// A flute as it really is.
struct TrueFlute {
    double bore_m = 0.0;  // diameter at the sound hole
    double taper = 0.0;   // the bore narrows by this share over 0.4 m
    double wall_m = 0.0;
    double window_length_m = 0.0, window_width_m = 0.0, plug_offset_m = 0.0;
    double mouth_m = 0.0;        // of the sound hole as it is cut: inertance as a length of bore
    double voice = 1.0;          // the same, over that: jet, edges and face
    double breath_share = 0.45;  // of breath in the bore's air
    double humidity = 0.5;       // of the room
    double edge_m = 0.0;         // radius of the finger holes' worn edges
    double fingertip = 0.4;      // height of the finger in a covered hole, over its radius
    double breath_drift_cents = 0.0;  // lift by breath of a note an octave up
    double lowest_Hz = 0.0;           // from where the lift counts
    double space = 4.0;  // what an opening radiates into, in units of pi: 4 free, 2 baffled
    double foot_m = 0.0;
    double disc_opening_m = 0.0;  // 0: no disc in the foot
    double disc_thickness_m = 0.0;
    std::vector<TrueHole> holes;
};

// As sounded; `open` counts all holes from 1, those not cut are not there. `warmth` is 1 for a
// flute that is blown warm, 0 for one as cold as the room. `near_Hz` (or 0) is at most 3 % above
// the answer and saves the search.
//
// Model    line: a handbook's rule of thumb for friction, in slices; foot: Norris & Sheng's two
//          ends, blended as Dalmont et al. say; holes: series lengths by Keefe 1990, open ones with
//          their inner and outer ends as Dalmont et al. 2002 have them on a cylinder and the mass
//          of the boundary layer (Keefe's own 1.40 - 0.58 g^2 lies 10 to 25 cents sharp of the
//          finite elements in tests/data/fem where holes are small, these within 5); sound hole:
//          finite elements of voices that the core's element has not seen; disc in the foot: an
//          orifice in a duct by Ingard; openings hear each other as points in `space`; air: a
//          mixture of ideal gases. Bisection on the impedance's imaginary part.
// Error    kTruthError_cents of a fingered tube's pitch against finite elements.
// Shares   kSharedWithCore, and no code.
// Source   N.H. Fletcher & T.D. Rossing, The Physics of Musical Instruments; A.N. Norris & I.C.
//          Sheng, J. Sound Vib. 135 (1989) 85-93; J.-P. Dalmont et al., J. Sound Vib. 244 (2001)
//          505-534; J.-P. Dalmont et al., Acta Acust. united Ac. 88 (2002) 567-575; D.H. Keefe, J.
//          Acoust. Soc. Am. 88 (1990) 35-51;
//          U. Ingard, J. Acoust. Soc. Am. 25 (1953) 1037-1061. All from memory; their own errors
//          are part of what the planner has to cope with.
double sounding_Hz(const TrueFlute& flute, const std::vector<int>& open, double room_C,
                   double warmth = 1.0, double near_Hz = 0.0);

inline constexpr double kTruthError_cents = 6.0;

// Said in the tool's output.
inline constexpr const char* kSharedWithCore =
    "plane waves, point sources and networks as such; the limits 0.6133 and 0.8216 of an open end; "
    "sound holes solved by the elements that the core's were fitted to, other shapes; "
    "breath of 34 C as 0.45 of the bore's air on average";

}  // namespace virtual_makers
