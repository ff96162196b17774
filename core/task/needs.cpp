// core/task/needs.cpp -- what each command needs of a document.
#include <algorithm>

#include "core/document/asked.hpp"
#include "core/task/replay.hpp"
#include "core/task/task.hpp"

namespace canewright {

namespace {

class Needs {
   public:
    std::vector<Violation> found;

    bool need(bool there, const char* path) {
        if (!there) found.push_back(violation(Code::needs, path));
        return there;
    }
    void tube(const Document& document) {
        if (!need(document.tube.has_value(), "tube")) return;
        need(!document.tube->bore.empty(), "tube.bore");
        need(document.tube->wall_m || document.tube->outer_m, "tube.wall_mm");
        need(document.tube->end_m.has_value(), "tube.end_mm");
    }
    void scale(const Document& document) {
        need(document.song->scale.has_value(), "song.scale");
        need(asked_holes(document).value_or(0) > 0, "song.holes");
    }
};

// A plan for another number of holes can only be thrown away, and a fixed or cut hole must not be.
void check_plan(const Document& document, Needs& needs) {
    if (!document.finger_holes || !document.song || !document.song->holes) return;
    const int planned = static_cast<int>(document.finger_holes->size());
    const int asked = *document.song->holes;
    if (planned == asked) return;
    const bool fixed =
        std::any_of(document.finger_holes->begin(), document.finger_holes->end(),
                    [](const HoleEntry& hole) { return hole.at_fixed || hole.diameter_fixed; });
    if (!fixed && !cuts_holes(document)) return;
    needs.found.push_back(violation(planned < asked ? Code::too_small : Code::too_large,
                                    "finger_holes", planned, asked));
}

}  // namespace

std::vector<Violation> missing_for(Verb verb, const Document& document) {
    Needs needs;
    if (verb == Verb::fingerings) {
        if (needs.need(document.song.has_value(), "song")) needs.scale(document);
        return needs.found;
    }
    needs.tube(document);
    if (verb == Verb::opening) {
        if (!needs.need(document.song.has_value(), "song")) return needs.found;
        needs.scale(document);
        needs.need(document.song->lowest && !document.song->lowest->is_free, "song.lowest");
        return needs.found;
    }
    needs.need(document.sound_hole.has_value(), "sound_hole");
    if (verb == Verb::sound || verb == Verb::spread) {
        needs.need(document.foot_m.has_value(), "foot_mm");
        needs.need(document.finger_holes.has_value(), "finger_holes");
        return needs.found;
    }
    if (verb == Verb::voice) {
        // Holes that were cut without a plan have that of their song (planned_like_before).
        if (!cuts_holes(document) || document.finger_holes) return needs.found;
        Document before = document;
        before.log.reset();
        return missing_for(Verb::layout, before);
    }
    if (needs.need(document.song.has_value(), "song")) {
        needs.need(document.song->lowest.has_value(), "song.lowest");
        needs.scale(document);
    }
    // A floating lowest note is the one of the whole tube; the others hang on it.
    const std::vector<NoteTarget> notes = song_notes(document);
    const bool whole_tube = std::any_of(notes.begin(), notes.end(),
                                        [](const NoteTarget& note) { return note.open.empty(); });
    if (!notes.empty() && !whole_tube && document.song->lowest && document.song->lowest->is_free) {
        needs.found.push_back(violation(Code::missing_fingering, "song.fingerings"));
    }
    if (cuts_holes(document)) needs.need(document.finger_holes.has_value(), "finger_holes");
    check_plan(document, needs);
    return needs.found;
}

}  // namespace canewright
