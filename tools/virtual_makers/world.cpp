// tools/virtual_makers/world.cpp: the sizes of errors, by world.
#include "tools/virtual_makers/world.hpp"

#include <array>
#include <cmath>

namespace virtual_makers {
namespace {

constexpr std::array<World, 5> kWorlds = {World::nominal, World::scattered, World::shared,
                                          World::worse, World::mixed};
constexpr std::array<Told, 3> kTold = {Told::measured, Told::nothing, Told::bare};
constexpr std::array<Kind, 2> kKinds = {Kind::careful, Kind::first_sight};

// Of a size whose logarithm is normal.
double drawn(Random& random, double median, double spread) {
    return median * std::exp(spread * std::normal_distribution<double>(0.0, 1.0)(random));
}

template <class Values, class Value>
bool find(const Values& values, const std::string& word, Value& found) {
    for (const Value value : values)
        if (word == name(value)) {
            found = value;
            return true;
        }
    return false;
}

}  // namespace

Habits draw_habits(Random& random, const Setting& setting) {
    Habits h;
    h.kind = setting.kind;
    h.spoils = setting.spoils;
    switch (setting.world) {
        case World::nominal:
            break;
        case World::scattered:
            h.blow_cents = 8.0;
            break;
        case World::shared:
            h.moment_cents = 6.0;
            break;
        case World::worse:
            h.blow_cents = 6.0;
            h.moment_cents = 4.0;
            h.note_cents = 2.0;
            h.hands = 1.6;
            break;
        case World::mixed:
            h.blow_cents = drawn(random, 4.0, 0.4);
            h.moment_cents = drawn(random, 2.0, 0.6);
            h.note_cents = drawn(random, 1.0, 0.5);
            h.hands = drawn(random, 1.1, 0.25);
            break;
    }
    return h;
}

const char* name(World world) {
    switch (world) {
        case World::nominal:
            return "nominal";
        case World::scattered:
            return "scattered";
        case World::shared:
            return "shared";
        case World::worse:
            return "worse";
        case World::mixed:
            return "mixed";
    }
    return "";
}

const char* name(Told told) {
    return told == Told::bare ? "bare" : told == Told::nothing ? "nothing" : "measured";
}
const char* name(Kind kind) { return kind == Kind::careful ? "careful" : "first_sight"; }

bool read_name(const std::string& word, World& world) { return find(kWorlds, word, world); }
bool read_name(const std::string& word, Kind& kind) { return find(kKinds, word, kind); }
bool read_name(const std::string& word, Told& told) { return find(kTold, word, told); }

const char* sizes(World world) {
    switch (world) {
        case World::nominal:
            return "blows 4 cents apart, nothing shared; rulers, saws and bits as the planner "
                   "takes "
                   "a stranger's to be";
        case World::scattered:
            return "blows 8 cents apart, else nominal";
        case World::shared:
            return "6 cents shared by the blows of a reading, else nominal";
        case World::worse:
            return "blows 6 cents apart, 4 shared by a reading, 2 kept by a fingering; rulers, "
                   "saws "
                   "and bits 1.6 times nominal";
        case World::mixed:
            return "log-normal, median and spread of the logarithm: blows 4 cents, 0.4; shared 2, "
                   "0.6; kept by a fingering 1, 0.5; rulers, saws and bits 1.1 times nominal, 0.25";
    }
    return "";
}

}  // namespace virtual_makers
