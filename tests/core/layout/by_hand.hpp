// tests/core/layout/by_hand.hpp: a flute with one error, written out here; not by put_off().
#pragma once

#include "core/layout/causes.hpp"
#include "tests/support/flutes.hpp"

namespace canewright::testing {

// What a maker would say each error is. Holes keep the ratio of an undercut; a wall that is thicker
// is so at every opening; the foot's station of a taper lies where the plan's foot is.
inline Build off_by_hand(const Build& plan, What what, int index, double by) {
    Build b = plan;
    Flute& f = b.flute;
    FingerHole* hole = index >= 0 && index < static_cast<int>(f.holes.size())
                           ? &f.holes[static_cast<std::size_t>(index)]
                           : nullptr;
    const auto wider = [](FingerHole& h, double factor) {
        h.diameter_m = h.diameter_m * factor;
        h.inner_diameter_m = h.inner_diameter_m * factor;
    };
    if (what == What::place) hole->at_m = hole->at_m + by;
    if (what == What::diameter) wider(*hole, (hole->diameter_m + by) / hole->diameter_m);
    if (what == What::hole_size)
        for (FingerHole& h : f.holes) wider(h, 1.0 + by);
    if (what == What::foot) f.foot_m = f.foot_m + by;
    if (what == What::wall) {
        f.wall_m = f.wall_m + by;
        f.sound_hole.wall_m = f.sound_hole.wall_m + by;
        for (FingerHole& h : f.holes) h.wall_m = h.wall_m + by;
    }
    if (what == What::bore)
        for (BoreStation& s : f.bore) s = {s.at_m, s.diameter_m + by, s.across_m + by};
    if (what == What::taper) {
        const BoreStation first = f.bore.front();
        f.bore = {{0.0, first.diameter_m, first.across_m},
                  {f.foot_m, first.diameter_m + by, first.across_m + by}};
    }
    if (what == What::sound_hole_length) f.sound_hole.length_m += by;
    if (what == What::sound_hole_width) f.sound_hole.width_m += by;
    if (what == What::voice) f.sound_hole.inertance_factor *= 1.0 + by;
    AirState room = *plan.room;
    double share = plan.breath_share;
    if (what == What::temperature) room.temperature_C += by;
    if (what == What::breath_share) share += by;
    b.room = room;
    b.breath_share = share;
    b.air = moist_air(sounding_air(room, share));
    return b;
}

}  // namespace canewright::testing
