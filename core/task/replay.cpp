// core/task/replay.cpp -- goes through the log from the first entry to the last.
#include "core/task/replay.hpp"

#include <algorithm>

namespace canewright {

namespace {

// A hole's undercut is kept in proportion: its inner opening was measured at another diameter.
void resize(HoleEntry& hole, double diameter_m) {
    if (hole.inner_diameter_m) *hole.inner_diameter_m *= diameter_m / hole.diameter_m;
    hole.diameter_m = diameter_m;
}

void cut_hole(Standing& standing, const LogEntry& entry) {
    if (!standing.document.finger_holes) return;
    const auto index = static_cast<std::size_t>(entry.number - 1);
    if (index >= standing.document.finger_holes->size()) return;
    HoleEntry& hole = (*standing.document.finger_holes)[index];
    hole.at_m = entry.at_m;
    hole.at_fixed = true;
    if (entry.diameter_m) resize(hole, *entry.diameter_m);
    standing.is_cut[index] = true;
    standing.cut_diameter_m[index] = entry.diameter_m.value_or(standing.cut_diameter_m[index]);
}

void narrow_hole(Standing& standing, const Document& planned, const LogEntry& entry) {
    if (!standing.document.finger_holes) return;
    const auto index = static_cast<std::size_t>(entry.number - 1);
    if (index >= standing.document.finger_holes->size()) return;
    const double planned_m = (*planned.finger_holes)[index].diameter_m;
    resize((*standing.document.finger_holes)[index], entry.diameter_m.value_or(planned_m));
    standing.cut_diameter_m[index] = entry.diameter_m.value_or(0.0);
}

void apply(Standing& standing, const Document& planned, const LogEntry& entry) {
    Document& now = standing.document;
    switch (entry.what) {
        case Happened::foot:
            if (now.tube) {
                now.tube->end_m = std::min(now.tube->end_m.value_or(entry.at_m), entry.at_m);
            }
            return;
        case Happened::hole:
            cut_hole(standing, entry);
            return;
        case Happened::narrow:
            narrow_hole(standing, planned, entry);
            return;
        case Happened::sound_hole: {
            SoundHoleEntry hole = now.sound_hole.value_or(SoundHoleEntry{});
            hole.length_m = entry.length_m;
            hole.width_m = entry.width_m;
            now.sound_hole = hole;
            return;
        }
        case Happened::foot_plug: {
            const double before_m = now.foot_plug && now.foot_plug->thickness_m
                                        ? *now.foot_plug->thickness_m
                                        : kFootPlugThickness_m;
            now.foot_plug = entry.foot_plug;
            now.foot_plug->thickness_m = entry.foot_plug.thickness_m.value_or(before_m);
            return;
        }
        case Happened::read:
        case Happened::undercut:
        case Happened::block_moved:
        case Happened::bore_sealed:
        case Happened::breath:
            return;
    }
}

}  // namespace

bool has_log(const Document& document) { return document.log && !document.log->empty(); }

bool cuts_holes(const Document& document) {
    const std::vector<LogEntry> log = document.log.value_or(std::vector<LogEntry>());
    return std::any_of(log.begin(), log.end(),
                       [](const LogEntry& entry) { return entry.what == Happened::hole; });
}

Standing replay(const Document& document) {
    Standing standing;
    standing.document = document;
    const std::size_t count = document.finger_holes ? document.finger_holes->size() : 0;
    standing.is_cut.assign(count, false);
    standing.cut_diameter_m.assign(count, 0.0);
    if (!document.log) return standing;
    for (const LogEntry& entry : *document.log) apply(standing, document, entry);
    return standing;
}

}  // namespace canewright
