// core/link/walk_voice.cpp -- what travels behind the document: ramp, edge and block, blowing
// pressures out of the log, the bench's finish line. Frozen once released (behind.hpp).
#include "core/base/units.hpp"
#include "core/document/limits.hpp"
#include "core/link/behind.hpp"
#include "core/link/walk.hpp"

namespace canewright {

namespace {

// One of three.
template <class Choice>
void walk_third(LinkStream& stream, Choice& choice) {
    const std::uint64_t which = stream.bits(static_cast<std::uint64_t>(choice), 2);
    if (which > 2) return stream.spoil();
    choice = static_cast<Choice>(which);
}

void walk_side_walls(LinkStream& stream, SideWallsEntry& walls) {
    if (stream.present(walls.seen)) return walk_third(stream, *walls.seen);
    stream.length(walls.height_m, grid::kAcross_mm);
    stream.length(walls.thickness_m, grid::kSlight_mm);
    stream.length(walls.length_m, grid::kAcross_mm);
}

void walk_pressure(LinkStream& stream, LogEntry& entry) {
    entry.in_water = stream.flag(entry.in_water);
    if (!entry.in_water) return stream.number(entry.pressure_Pa, grid::kBlowing_Pa);
    double column_mm = water_mm_from_Pa(entry.pressure_Pa);  // as it is typed
    stream.number(column_mm, grid::kAlong_mm);
    entry.pressure_Pa = Pa_from_water_mm(column_mm);
}

// Where an entry stands in the log; `next` is the first place after the one before.
void walk_place(LinkStream& stream, std::size_t& next, std::size_t& at) {
    next += stream.count(at - (stream.writing() ? next : 0), limit::kLogEntries, 3);
    at = next++;
}

}  // namespace

void walk_voice(LinkStream& stream, Behind& behind) {
    stream.length(behind.ramp_m, grid::kAcross_mm);
    if (stream.present(behind.ramp_seen)) walk_third(stream, *behind.ramp_seen);
    stream.length(behind.edge_m, grid::kSlight_mm);
    if (stream.present(behind.block)) {
        BlockEntry& block = *behind.block;
        block.none = stream.flag(block.none);
        if (block.none) return;
        stream.length(block.height_m, grid::kAcross_mm);
        stream.length(block.width_m, grid::kAcross_mm);
        stream.length(block.front_m, grid::kFront_mm);
        if (stream.present(block.side_walls)) walk_side_walls(stream, *block.side_walls);
    } else if (!behind.ramp_m && !behind.ramp_seen && !behind.edge_m) {
        stream.spoil();  // nothing is said by no entry
    }
}

void walk_breaths(LinkStream& stream, Behind& behind) {
    LastSaid last;
    std::size_t next = 0;
    walk_list(stream, behind.breaths, limit::kLogEntries, 3, [&](PlacedEntry& placed) {
        walk_place(stream, next, placed.at);
        LogEntry& entry = placed.entry;
        entry.what = Happened::breath;
        walk_third(stream, entry.blown_to);
        stream.open(entry.open);
        walk_pressure(stream, entry);
        walk_remarks(stream, entry, last);
    });
    if (behind.breaths.empty()) stream.spoil();
}

void walk_finish(LinkStream& stream, Behind& behind) {
    stream.number(behind.good_enough_cents, grid::kError_cents);
    if (!behind.good_enough_cents) stream.spoil();
}

void walk_octaves(LinkStream& stream, Behind& behind) {
    stream.number(behind.octaves_weight, grid::kBreath);
    if (!behind.octaves_weight) stream.spoil();
}

void walk_lift(LinkStream& stream, Behind& behind) {
    stream.number(behind.lift_cents, grid::kLift_cents);
    if (!behind.lift_cents) stream.spoil();
}

void walk_hand(LinkStream& stream, Behind& behind) {
    walk_json(stream, behind.hand);
    if (behind.hand.empty()) stream.spoil();
}

void walk_bits(LinkStream& stream, Behind& behind) {
    std::size_t next = 0;
    walk_list(stream, behind.bits, limit::kLogEntries, 3, [&](PlacedBit& placed) {
        walk_place(stream, next, placed.at);
        stream.length(placed.bit_m, grid::kAcross_mm);
    });
    if (behind.bits.empty()) stream.spoil();
}

}  // namespace canewright
