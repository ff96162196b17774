// core/layout/causes.hpp: what can be off in a flute that was built from a plan. Layer: layout.
#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "core/air/air.hpp"
#include "core/flute/geometry.hpp"

namespace canewright {

// How far the shop's measures may be off: one standard deviation each. Defaults are judgement: what
// a steady hand does with a steel rule, twist drills and a vernier caliper in cane.
struct ShopErrors {
    double ruler_m = 0.3e-3;  // each hole's place and the foot's, one by one
    double bit_m = 0.05e-3;   // each finger hole's diameter, one by one
    double bore_m = 0.1e-3;   // all of the bore alike
    double taper_m = 0.0;     // the bore at the foot over that at the sound hole; 0: as measured
    double wall_m = 0.1e-3;   // all of the wall alike
    double sound_hole_m = 0.1e-3;  // the sound hole's length and its width, each
    double temperature_C = 1.0;    // of the room, against the plan's
};

// What the model itself does not know, until the finished voice has been heard.
struct ModelErrors {
    // Inertance of the sound hole, relative: what is not known of the voice (core/task/voice; the
    // bench's before a reading too). This is a voice whose every part was measured, and a little.
    double voice = 0.06;
    // Breath in the air of the bore (core/air: 0.45 +- 0.1).
    double breath_share = 0.1;
    // Blowing pressure against the design breath, relative: how steadily one blows (judgement).
    double breath = 0.15;
    // Effective size of all finger holes, relative: edges torn or rounded (judgement; as the
    // bench's before a reading).
    double hole_size = 0.03;
    // Of each note by itself [cents]: what is left of the hole model against finite elements (0.2
    // to 0.5) and of the finger in a covered hole (0 to 3).
    double each_note_cents = 1.0;
};

enum class Group {
    ruler,
    bits,
    wall,
    bore,
    sound_hole,
    temperature,  // the shop's
    voice,
    breath_share,
    breath,
    hole_size,
    each_note  // the model's
};
inline constexpr int kGroups = 11;
const char* name(Group group);
inline bool is_shops(Group group) { return group <= Group::temperature; }

enum class What {
    place,
    foot,
    diameter,
    wall,
    bore,
    taper,
    sound_hole_length,
    sound_hole_width,
    temperature,
    voice,
    breath_share,
    breath,
    hole_size,
    each_note
};
const char* name(What what);
Group group_of(What what);

// Of each note, where finger holes lie nearer than their own width, which the hole's model is not
// for (core/element/finger_hole): by the share of a width that lacks. Finite elements: 3.3 cents
// where a third of a width was left.
inline constexpr double kCrowdedHoles_cents = 5.0;
// That share, the largest of all neighbours; 0 where each has its width.
double crowding(const Flute& flute);

// One thing that can be off, independent of all the others.
//   index   of the hole (place, diameter) or of the note (each_note), from 0; else -1
//   sigma   one standard deviation, in the SI unit of `what`
struct Cause {
    What what;
    int index;
    double sigma;
};

// All that a flute with `notes` notes has, those with sigma 0 left out. Without a room (an air
// given as such) temperature and breath share are not among them.
std::vector<Cause> causes_of(const Flute& flute, std::size_t notes, bool has_room,
                             const ShopErrors& shop, const ModelErrors& model);

// A flute in its air, as planned or as it came out.
struct Build {
    Flute flute;
    std::optional<AirState> room;  // absent: `air` is given as such
    double breath_share = kBreathShare;
    double sound_speed = 1.0;  // over that of such air, as readings have shown it
    Air air;                   // in the bore; follows from room and share where there is a room
    double breath = 1.0;       // blowing pressure over the design's

    void refresh_air() {
        if (!room) return;
        air = moist_air(sounding_air(*room, breath_share));
        air.sound_speed_m_s *= sound_speed;
    }
};

// The build with one thing off by `amount` (in the unit of the cause's sigma). The air is not
// refreshed; `each_note` changes nothing here.
void put_off(Build& build, const Cause& cause, double amount);

// A step of the cause small enough for a slope, large enough to stand out from rounding.
double nudge_of(const Cause& cause);

// False where an error was so large that no flute came of it: holes out of order or past the
// foot, sizes that are none.
bool is_flute(const Flute& flute);

}  // namespace canewright
