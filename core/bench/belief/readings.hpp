// core/bench/belief/readings.hpp: what the log says of a note with its hole as it is now. Layer:
// bench.
#pragma once

#include "core/bench/aim.hpp"

namespace canewright {

// Readings of one note since its own hole (or the foot) was last cut.
struct Read {
    int trusted = 0, distrusted = 0;
    int all() const { return trusted + distrusted; }
};

// `own_hole` counts from 0; -1 is the foot. `after_entry` of the log: -1 for all.
Read read_of(const History& history, const Estimate& estimate, const Fingering& open, int own_hole,
             int after_entry = -1);

// The sitting each reading was heard in, numbered as they come: what is heard of a fingering right
// before and right after one cut by ear is heard in one go, and shares its breath. While no hole is
// cut the foot is sawn by measure, and heard another time.
std::vector<int> sittings(const History& history);

// The hole that tunes a note: of its open holes the one nearest the sound hole; -1 for the foot.
int own_hole(const Fingering& open);

// The note that a hole tunes: the lowest of those it is the own hole of; -1 where there is none.
int note_of(const Aim& aim, int hole);

// Whether all holes of a fingering are cut.
bool playable(const Stage& stage, const Fingering& open);

// Lengths of the tube at which the holeless tube was heard.
int feet_heard(const History& history);

// How far off the next reading of this maker will be, but for the moment: root mean square of what
// was noted with readings, and with kUsualReading_cents as often as kUsualReadings. A blow of an
// opening is no such reading: it leans on the blows before it.
double reading_sigma_cents(const History& history);
inline constexpr double kUsualReading_cents = 2.7;  // the middle of three blows 4 cents apart
inline constexpr double kUsualReadings = 4.0;       // judgement

inline constexpr int kMostAsks = 3;  // of one reading that does not fit

}  // namespace canewright
