// core/verbs/layout.cpp -- the verb `layout`: the document with the plan in it.
#include <algorithm>
#include <cmath>

#include "core/base/units.hpp"
#include "core/document/limits.hpp"
#include "core/document/typed.hpp"
#include "core/document/write.hpp"
#include "core/flute/resonance.hpp"
#include "core/layout/place_holes.hpp"
#include "core/task/replay.hpp"
#include "core/task/task.hpp"
#include "core/verbs/answer.hpp"

namespace canewright {

namespace {

Json holes_json(const Document& document, const Flute& flute) {
    // What the maker fixed, not what the log has fixed: that is in the log.
    const std::vector<HoleEntry> given = document.finger_holes.value_or(std::vector<HoleEntry>());
    const bool same_holes = given.size() == flute.holes.size();
    Json json = Json::array();
    for (std::size_t i = 0; i < flute.holes.size(); ++i) {
        const FingerHole& hole = flute.holes[i];
        Json entry = Json::object();
        entry["at_mm"] = typed_mm(hole.at_m);
        entry["diameter_mm"] = typed_mm(hole.diameter_m);
        entry["inner_diameter_mm"] = typed_mm(hole.inner_diameter_m);
        // beyond the format's range (a thick rod given by its outside) it is the tube's own
        // to a belief's wall and back it is the same but for rounding
        const double most_m = m_from_mm(limit::kWall_mm.max);
        if (hole.wall_m <= most_m * (1.0 + 1e-9))
            entry["wall_mm"] = typed_mm(std::min(hole.wall_m, most_m));
        if (hole.aspect != 1.0) entry["aspect"] = hole.aspect;
        Json fixed = Json::array();
        if (same_holes && given[i].at_fixed) fixed.push_back("at");
        if (same_holes && given[i].diameter_fixed) fixed.push_back("diameter");
        if (!fixed.empty()) entry["fixed"] = std::move(fixed);
        json.push_back(std::move(entry));
    }
    return json;
}

Json note_json(const NoteTarget& target, const NoteResult& note, const Sounding& sounding,
               double a4_Hz) {
    const Resonance second =
        second_resonance(Network(sounding.flute, sounding.air, note.open), note.passive_Hz);
    Json json = Json::object();
    json["open"] = note.open;
    json["target_hz"] = note.target_Hz;
    json["hz"] = number_json(note.sounding_Hz);
    json["second_hz"] = second.converged ? Json(second.frequency_Hz) : Json(nullptr);
    json["cents"] = number_json(cents_off(note.sounding_Hz, note.target_Hz));
    json["name"] = name_json(note.target_Hz, a4_Hz);
    json["interval_cents"] = target.interval_cents;
    // Null where the note has no hole of its own.
    json["cents_per_mm"] = number_json(note.cents_per_m * m_from_mm(1.0));
    json["cents_per_tenth_mm"] = number_json(note.cents_per_diameter_m * m_from_mm(0.1));
    json["cents_per_mm_foot"] = number_json(note.cents_per_foot_m * m_from_mm(1.0));
    json["converged"] = note.converged;
    return json;
}

// Which field of the document a limit of all holes stands in, or of the foot.
std::string path_of_all(Limit limit) {
    switch (limit) {
        case Limit::bits:
            return "shop.bits";
        case Limit::spacing_min:
            return "shop.spacing_mm.min";
        case Limit::spacing_max:
            return "shop.spacing_mm.max";
        case Limit::diameter_min:
            return "shop.diameter_mm.min";
        case Limit::diameter_max:
            return "shop.diameter_mm.max";
        case Limit::bore_share:
            return "tube.bore";
        case Limit::fixed:
        case Limit::planned:
        case Limit::edge:
        case Limit::sound_hole:
            return "finger_holes";
        case Limit::fingerings:
            return "song.fingerings";
        case Limit::foot_clearance:
        case Limit::tube_end:
            return "foot_mm";
    }
    return "foot_mm";
}

// Which field of the document a limit presses on.
std::string path_of(const Binding& binding) {
    if (binding.hole < 0) return path_of_all(binding.limit);
    const std::string hole = "finger_holes[" + std::to_string(binding.hole) + "]";
    switch (binding.limit) {
        case Limit::diameter_min:
        case Limit::diameter_max:
        case Limit::bore_share:
        case Limit::bits:
            return hole + ".diameter_mm";
        case Limit::fixed:
            return hole + ".fixed";
        case Limit::spacing_min:
        case Limit::spacing_max:
        case Limit::edge:
        case Limit::sound_hole:
        case Limit::foot_clearance:
        case Limit::tube_end:
        case Limit::planned:
        case Limit::fingerings:
            return hole + ".at_mm";
    }
    return hole;
}

Json binding_json(const std::vector<Binding>& bindings) {
    Json json = Json::array();
    for (const Binding& binding : bindings) {
        Json entry = Json::object();
        entry["constraint"] = name(binding.limit);
        entry["path"] = path_of(binding);
        entry["costs_cents"] = number_json(binding.costs_cents);
        if (binding.together) entry["together"] = true;
        json.push_back(std::move(entry));
    }
    return json;
}

}  // namespace

Json layout_json(const Document& document, const LayoutTask& task, const LayoutResult& plan,
                 const Sounding& sounding) {
    const double a4_Hz = document.song->a4_Hz.value_or(kDefaultA4_Hz);
    Document planned = document;  // the keys that the plan fills, at their places in the order
    planned.foot_m = plan.flute.foot_m;
    planned.finger_holes = std::vector<HoleEntry>();
    planned.notes = std::vector<NoteEntry>();
    if (has_log(document)) planned.sounds_as = SoundsAs::planned;
    Json json = document_json(planned);
    json["finger_holes"] = holes_json(document, plan.flute);
    const std::size_t count = std::min(plan.notes.size(), task.notes.size());
    for (std::size_t i = 0; i < count; ++i) {
        json["notes"].push_back(note_json(task.notes[i], plan.notes[i], sounding, a4_Hz));
    }
    json["binding"] = binding_json(plan.binding);
    json["converged"] = plan.converged;
    if (plan.loose_m > kContinuous_m) json["loose_mm"] = mm_from_m(plan.loose_m);
    if (task.octaves_weight > 0.0) json["octaves_counted"] = plan.octaves_counted;
    // Of all notes: not known where one does not speak.
    const bool all_speak =
        std::all_of(plan.notes.begin(), plan.notes.end(),
                    [](const NoteResult& note) { return std::isfinite(note.sounding_Hz); });
    const double worst_cents = plan.worst_cents < kResolved_cents ? 0.0 : plan.worst_cents;
    json["worst_cents"] = all_speak ? number_json(worst_cents) : Json(nullptr);
    if (const auto room = room_C(document)) json["at_c"] = *room;
    json["cane"] = cane_json(document, task, plan, sounding.air);
    return json;
}

Json layout_of(const Document& document, const LayoutTask& task, Explain explain) {
    const Air air = bore_air(document);
    const LayoutResult plan = place_holes(task, air, explain);
    Json json = layout_json(document, task, plan, {plan.flute, air});
    // Not looked for, which is not none; notes that are met have no reasons.
    const bool met = plan.converged && plan.errors_cents <= kBindingCost_cents;
    if (explain == Explain::no && !met) json["binding"] = nullptr;
    return json;
}

bool counts_octaves(const Document& document) {
    return document.song && document.song->octaves_weight.value_or(0.0) > 0.0;
}

Json layout_answer(const Document& document) {
    return layout_of(document, layout_task(document), Explain::yes);
}

Json marks_answer(const Document& document) {
    return layout_of(document, layout_task(document), Explain::no);
}

}  // namespace canewright
