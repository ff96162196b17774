// core/document/read_holes.cpp -- the keys `finger_holes` and `notes`.
#include <algorithm>

#include "core/document/read_parts.hpp"

namespace canewright {

namespace {

constexpr const char* kFixable[] = {"at", "diameter", "both"};

// "at", "diameter", "both", or a list of them.
void read_fixed(const Json& node, const std::string& path, HoleEntry& hole, Faults& faults) {
    if (node.is_array() && node.size() <= std::size(kFixable)) {
        for (std::size_t i = 0; i < node.size(); ++i) {
            if (node[i].is_array()) {
                faults.add(violation_of_text(Code::wrong_type, path, "a list"));
            } else {
                read_fixed(node[i], path + "[" + std::to_string(i) + "]", hole, faults);
            }
        }
        return;
    }
    const auto word = read_text(node, path, limit::kWord_bytes, faults);
    if (!word) return;
    if (std::find(std::begin(kFixable), std::end(kFixable), *word) == std::end(kFixable)) {
        faults.add(violation_of_text(Code::unknown_name, path, *word));
    }
    if (*word != "diameter") hole.at_fixed = true;
    if (*word != "at") hole.diameter_fixed = true;
}

HoleEntry read_hole(const Json& node, const std::string& path, Faults& faults) {
    Fields fields(node, path, faults);
    HoleEntry hole;
    hole.at_m = need_mm(fields, "at_mm", limit::kHoleAt_mm);
    hole.diameter_m = need_mm(fields, "diameter_mm", limit::kHole_mm);
    hole.inner_diameter_m = read_mm(fields, "inner_diameter_mm", limit::kHole_mm);
    hole.wall_m = read_mm(fields, "wall_mm", limit::kThinnedWall_mm);
    hole.aspect = fields.number("aspect", limit::kHoleAspect);
    if (const Json* fixed = fields.raw("fixed")) {
        read_fixed(*fixed, fields.path("fixed"), hole, faults);
    }
    fields.close();
    return hole;
}

NoteEntry read_note_entry(const Json& node, const std::string& path, Faults& faults) {
    Fields fields(node, path, faults);
    NoteEntry note;
    note.open = need_open(fields);
    note.target_Hz = fields.number("target_hz", limit::kTarget_Hz);
    fields.ignore({"hz", "second_hz", "cents", "name", "interval_cents", "cents_per_mm",
                   "cents_per_tenth_mm", "cents_per_mm_foot", "converged", "why"});
    fields.close();
    return note;
}

}  // namespace

Fingering read_open(const Json& node, const std::string& path, Faults& faults) {
    constexpr Range kAnyInt{-1e6, 1e6};  // so that a wrong number is called a wrong hole number
    const auto open = read_integers(node, path, kAnyInt, limit::kHoles, faults);
    if (!open) return {};
    for (std::size_t i = 0; i < open->size(); ++i) {
        const auto here = open->begin() + static_cast<std::ptrdiff_t>(i);
        if (std::find(open->begin(), here, *here) != here) {
            faults.add({Code::overlap, path + "[" + std::to_string(i) + "]",
                        static_cast<double>(*here), static_cast<double>(*here), ""});
        }
    }
    return *open;
}

Fingering need_open(Fields& fields) {
    const Json* open = fields.raw("open");
    if (open) return read_open(*open, fields.path("open"), fields.faults());
    fields.missing("open");
    return {};
}

std::vector<HoleEntry> read_finger_holes(Fields& fields) {
    std::vector<HoleEntry> holes;
    fields.list("finger_holes", 0, limit::kHoles, [&](const Json& node, const std::string& path) {
        holes.push_back(read_hole(node, path, fields.faults()));
    });
    return holes;
}

std::vector<NoteEntry> read_notes(Fields& fields) {
    std::vector<NoteEntry> notes;
    fields.list("notes", 0, limit::kNotes, [&](const Json& node, const std::string& path) {
        notes.push_back(read_note_entry(node, path, fields.faults()));
    });
    return notes;
}

}  // namespace canewright
