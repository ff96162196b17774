// core/task/sound_task.cpp -- the document made into what the verb `sound` computes.
#include <algorithm>

#include "core/document/asked.hpp"
#include "core/layout/lift.hpp"
#include "core/task/replay.hpp"
#include "core/task/task.hpp"

namespace canewright {

namespace {

// The holes opened one after the other from the foot up, beginning with none.
std::vector<NoteEntry> one_after_the_other(int holes) {
    std::vector<NoteEntry> notes;
    for (int first = holes + 1; first >= 1; --first) {
        NoteEntry note;
        for (int hole = first; hole <= holes; ++hole) note.open.push_back(hole);
        notes.push_back(note);
    }
    return notes;
}

// The notes asked for; without a list, those of the song; without a song, every hole once. A note
// without a target of its own has that of the song's step with the same fingering.
std::vector<NoteEntry> asked_notes(const Document& document) {
    const std::vector<NoteTarget> steps = song_notes(document);
    std::vector<NoteEntry> notes;
    if (document.notes) {
        notes = *document.notes;
    } else if (steps.empty()) {
        notes = one_after_the_other(planned_holes(document).value_or(0));
    } else {
        for (const NoteTarget& step : steps) notes.push_back({step.open, {}});
    }
    for (NoteEntry& note : notes) {
        if (note.target_Hz) continue;
        for (const NoteTarget& step : steps) {
            if (step.open == rising(note.open) && step.target_Hz > 0) {
                note.target_Hz = step.target_Hz;
            }
        }
    }
    return notes;
}

}  // namespace

SoundTask sound_task(const Document& document) {
    const bool standing_only =
        has_log(document) && document.sounds_as.value_or(SoundsAs::standing) == SoundsAs::standing;
    Standing standing = replay(document);
    SoundTask task;
    const std::size_t count = standing.is_cut.size();
    std::vector<int> number(count, 0);  // on the flute, of each planned hole; 0: not there
    if (standing_only) {
        standing.document.foot_m = standing.document.tube->end_m;
    } else {
        standing.document.finger_holes = document.finger_holes;
    }
    const Flute planned = flute_of(standing.document);
    task.flute = planned;
    task.flute.holes.clear();
    for (std::size_t i = 0; i < count; ++i) {
        if (standing_only && !standing.is_cut[i]) continue;
        task.flute.holes.push_back(planned.holes[i]);
        number[i] = static_cast<int>(task.flute.holes.size());
    }
    task.notes = asked_notes(document);
    const std::vector<NoteTarget> steps = song_notes(document);
    for (const NoteEntry& note : task.notes) {
        Fingering open;
        bool playable = true;
        for (const int hole : rising(note.open)) {
            const int here =
                hole <= static_cast<int>(count) ? number[static_cast<std::size_t>(hole - 1)] : 0;
            if (here > 0) open.push_back(here);
            playable = playable && here > 0;
        }
        task.fingering.push_back(open);
        task.above_cents.push_back(above_lowest_cents(steps, rising(note.open)));
        task.playable.push_back(playable);
    }
    return task;
}

}  // namespace canewright
