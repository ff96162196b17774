// core/element/finger_hole.hpp: a round hole in the side of the bore, open or covered.
// Layer: element.
#pragma once

#include "core/air/air.hpp"
#include "core/element/two_port.hpp"

namespace canewright {

// What a finger hole looks like to the acoustics; all > 0 [m].
struct HoleShape {
    double bore_radius_m;   // a
    double tube_radius_m;   // Ro, outer radius of the tube at the hole
    double wall_m;          // t, length of the hole through the wall
    double radius_m;        // at the outer surface
    double inner_radius_m;  // b, at the bore (undercut or burned: larger)
    double aspect = 1.0;    // oval: along the tube over across it; radii are of equal area
};

// An open hole: half of the series impedance on either side of the junction, the passage from
// the bore to the outer surface, and its own radiation there.
struct OpenHole {
    Complex series_half;
    TwoPort passage;
    Complex radiation;
};

// A covered hole: series impedance as above; the admittance of the cavity.
struct CoveredHole {
    Complex series_half;
    Complex admittance;
};

// The lengths of a hole [m], without frequency in them: reckoned once where many are asked.
struct HoleLengths {
    double series_m = 0.0;                              // t_a, negative
    double inner_m = 0.0, wall_m = 0.0, outer_m = 0.0;  // of the passage, from the bore outwards
    double mouth_m = 0.0;                               // covered: of the flow into it
};

// Model    T network: series length t_a; a passage of length t_e with friction, made of an inner
//          piece t_i + t_m, the wall t (a cone where undercut) and an outer piece; its resistance.
//          With equal radii the three are together Lefebvre & Scavone's t_e for a thick pipe.
//          A flare adds the inertance of flow that does not follow its cone; an oval hole is one
//          of equal area with its ends shortened and its series length stretched.
// Valid    radius up to 0.8 of the bore's, k b < 0.3; no neighbour nearer than its own width.
// Error    kHoleError_cents on intervals of whole flutes against finite elements.
// Source   t_e: A. Lefebvre & G.P. Scavone, J. Acoust. Soc. Am. 131 (2012) 3153-3163; t_i: V. Dubos
//          et al., Acustica 85 (1999) 153-169; t_m: C.J. Nederveen et al., Acustica 84 (1998)
//          957-966; all from memory: limits, independent calculation and finite elements confirm
//          them. t_a: modal solution of a hole in a plane wall, fitted within 0.009 b g^2; its
//          limit for no wall is Bethe's 4/(3 pi). Tried and worse: Lefebvre & Scavone's t_a (0.9
//          cent on thin walls, else the same); Dubos plus Dalmont's outer length (up to 1.3 cents
//          on one open hole); the tanh form of Dubos's t_a for open holes (far off for walls
//          thinner than b).
HoleLengths open_lengths(const HoleShape& shape);
OpenHole open_hole(const Air& air, const HoleShape& shape, const HoleLengths& lengths,
                   double angular_Hz);
inline OpenHole open_hole(const Air& air, const HoleShape& shape, double angular_Hz) {
    return open_hole(air, shape, open_lengths(shape), angular_Hz);
}

inline constexpr double kHoleError_cents = 1.5;

// Factors of an oval hole on its ends' length and on t_a.
// Model    the round hole of equal area, its ends and its series length stretched.
// Valid    aspect 0.5 to 2, along the tube over across it.
// Error    kOvalEndsError, kOvalSeriesError, of the factor.
// Source   own integrals of a uniform flow on a cylinder; polarisability of an elliptic aperture
//          (exact, thin wall): tools/reference/hole_theory.py.
double oval_ends_factor(double aspect);
double oval_series_factor(double aspect);
inline constexpr double kOvalEndsError = 0.013;   // of the factor, aspect 0.5 to 2, b/a 0.5
inline constexpr double kOvalSeriesError = 0.05;  // of the factor, thin wall

// Inertance length that a flare adds, on the outer area: the flow does not fill a steep cone.
// Model    a share of the inner end's length that grows with the flare's angle.
// Valid    flares up to 45 degrees; without it a flared hole of 1.5 b reads 2.7 % short.
// Error    kFlareError, of the whole hole's inertance.
// Source   own axisymmetric potential flow through flared holes in a thick wall
//          (tools/reference/hole_theory.py).
double flare_length_m(double radius_m, double inner_radius_m, double wall_m);
inline constexpr double kFlareError = 0.015;  // of the whole hole's inertance

// A rigid lid that follows the tube's outer surface.
// Model    open_hole() with t_a of the closed form; the cavity is the passage, shut at its end.
// Valid    as open_hole().
// Error    kHoleError_cents, as open_hole(): most of it is the volume of the lid's round.
// Source   as open_hole(); the lid's volume b^2 / (8 Ro) is geometry.
HoleLengths lidded_lengths(const HoleShape& shape);
CoveredHole covered_hole(const Air& air, const HoleShape& shape, const HoleLengths& lengths,
                         double angular_Hz);
inline CoveredHole lidded_hole(const Air& air, const HoleShape& shape, double angular_Hz) {
    return covered_hole(air, shape, lidded_lengths(shape), angular_Hz);
}

// A fingertip that enters the hole a little.
// Valid    walls of 1 to 5 mm on bores of 14 to 18 mm, where it was measured; beyond, a guess.
// Error    up to 3 cents on the lowest note, from how firmly a finger presses (judgement).
// Model    t_a with t - t_0 for t; the cavity is shorter by (0.1 + 0.7 b/a) b, at most 0.9 t.
// Source   t_0 and t_a: P. Dickens, PhD thesis, UNSW 2007, eqs 4.12, 4.13, measured for walls of
//          1, 2.5 and 5 mm. The cavity's loss is plotted there as 0.1 to 0.8 b, growing with b/a;
//          the straight line 0.1 + 0.7 b/a is ours: worth 0 to 3 cents on the lowest note.
HoleLengths fingered_lengths(const HoleShape& shape);
inline CoveredHole fingered_hole(const Air& air, const HoleShape& shape, double angular_Hz) {
    return covered_hole(air, shape, fingered_lengths(shape), angular_Hz);
}

// The single lengths [m], from the radius at the bore b, the wall t, the bore's radius a; g = b/a.

// t_i, inner end.
// Model    end correction into a round bore.      Valid    g 0 to 0.8.
// Error    kInnerLengthError * b up to g = 0.6.   Source   Dubos et al. 1999 (from memory); own
//          integral of a uniform flow, scaled, confirms it.
double hole_inner_length_m(double inner_radius_m, double g);
inline constexpr double kInnerLengthError = 0.015;

// t_m, the volume between the hole's plane mouth and the round bore.
// Model    geometry.   Valid    g 0 to 0.8.
// Error    exact to second order in g.            Source   Nederveen et al. 1998 (from memory).
double matching_length_m(double inner_radius_m, double g);

// t_e of an open hole, wall and both ends.
// Model    fit to finite elements.                Valid    g 0 to 0.8, any wall.
// Error    kOpenLengthError * b at g -> 0, t -> 0, where it is pi/2 b (a hole in a thin plane).
// Source   Lefebvre & Scavone 2012 (from memory); the limit is exact.
double open_hole_length_m(double radius_m, double g, double wall_m);
inline constexpr double kOpenLengthError = 1e-3;

// t_a, open and under a lid, negative.
// Model    plane flow past a hole in a wall.      Valid    g 0 to 0.8, any wall.
// Error    kSeriesLengthError * b g^2 at g -> 0 for walls from b / 4, kThinSeriesError below.
// Source   own modal solution (tools/reference/hole_theory.py); Bethe's 4/(3 pi).
double open_series_length_m(double inner_radius_m, double g, double wall_m);
double closed_series_length_m(double inner_radius_m, double g, double wall_m);
inline constexpr double kSeriesLengthError = 5e-3;
inline constexpr double kThinSeriesError = 9e-3;

// t_0, how far a fingertip enters, and t_a with it.
// Model    fits to measurements.                  Valid    walls 1 to 5 mm, bores 14 to 18 mm.
// Error    not given by the author.               Source   Dickens 2007, eqs 4.13, 4.12.
double finger_intrusion_m(double inner_radius_m, double bore_radius_m, double wall_m);
double fingered_series_length_m(double inner_radius_m, double bore_radius_m, double wall_m);

}  // namespace canewright
