// tools/virtual_makers/world.hpp: what kind of maker builds, and how much they err. The planner is
// told none of it.
#pragma once

#include <random>
#include <string>

namespace virtual_makers {

using Random = std::mt19937_64;

// How the makers of a run err. Sizes: common practice and judgement, no source.
enum class World {
    nominal,    // as the planner takes a stranger to be
    scattered,  // blows of one note lie 8 cents apart instead of 4
    shared,     // what the blows of one reading share: 6 cents
    worse,      // all moderately worse
    mixed       // every maker their own sizes
};

enum class Kind {
    careful,     // follows every advice, taps every stroke
    first_sight  // opens until the meter first shows the pitch, in whole cents; taps no stroke
};

// One maker's errors, standard deviations.
struct Habits {
    double blow_cents = 4.0;    // of a blow against the others of the same reading
    double moment_cents = 0.0;  // shared by all blows of a reading or of an opening
    double note_cents = 0.0;    // of a fingering, for the whole build
    double hands = 1.0;         // rulers, saws, bits, measured sizes: over what the planner takes
    Kind kind = Kind::careful;
    double spoils = 0.0;  // chance that a hole slips too wide when it is opened
};

// What the planner is told of the voice: every part as a rule shows it; nothing, so that it takes
// what is usual; or that nothing stands round the opening, as it took it before it knew of voices,
// with the band it had.
enum class Told { measured, nothing, bare };

// What was asked for on the command line.
struct Setting {
    World world = World::nominal;
    Kind kind = Kind::careful;
    double spoils = 0.0;
    double good_enough_cents = 0.0;  // 0: the document's default
};

Habits draw_habits(Random& random, const Setting& setting);

const char* name(World world);
const char* name(Kind kind);
const char* name(Told told);
bool read_name(const std::string& word, World& world);
bool read_name(const std::string& word, Kind& kind);
bool read_name(const std::string& word, Told& told);

// For the tool's output: what each world is.
const char* sizes(World world);

}  // namespace virtual_makers
