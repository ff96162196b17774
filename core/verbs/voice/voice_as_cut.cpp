// core/verbs/voice/voice_as_cut.cpp -- what each part of a voice does to the lowest note.
#include <cmath>
#include <functional>
#include <limits>

#include "core/base/units.hpp"
#include "core/document/typed.hpp"
#include "core/task/voice.hpp"
#include "core/verbs/voice/voice_parts.hpp"

namespace canewright {

namespace {

struct VoicePart {
    const char* path;
    std::function<double&(Flute&)> size_m;
    const char* known;
    const char* why_not = "";  // there is no such part to be changed
    double most_m = std::numeric_limits<double>::infinity();
    bool may_be_negative = false;
};

const char* known(bool measured, bool was_seen = false) {
    return measured ? "measured" : was_seen ? "seen" : "taken";
}

std::vector<VoicePart> parts_of(const VoiceCase& one) {
    const SoundHoleEntry& hole = *one.document.sound_hole;
    const BlockEntry block = one.document.block.value_or(BlockEntry{});
    const SideWallsEntry walls = block.side_walls.value_or(SideWallsEntry{});
    const SoundHole& now = one.task.flute.sound_hole;
    const VoiceShape& shape = now.voice;
    const char* no_ramp = shape.ramp_m > 0.0 ? "" : "no_ramp";
    const char* no_block = shape.block_height_m > 0.0 ? "" : "no_block";
    const char* no_walls = shape.walls_height_m > 0.0 ? "" : "no_side_walls";
    const auto voice = [](double VoiceShape::*part) {
        return [part](Flute& flute) -> double& { return flute.sound_hole.voice.*part; };
    };
    const auto opening = [](double SoundHole::*part) {
        return [part](Flute& flute) -> double& { return flute.sound_hole.*part; };
    };
    const double endless = std::numeric_limits<double>::infinity();
    // A word of the document tells the height; "none" tells that there is none.
    const char* wall_height = known(block.none || walls.height_m, walls.seen.has_value());
    return {
        {"sound_hole.ramp_mm", voice(&VoiceShape::ramp_m),
         known(hole.ramp_m.has_value(), hole.ramp_seen.has_value())},
        {"sound_hole.edge_mm", voice(&VoiceShape::edge_m), known(hole.edge_m.has_value()), no_ramp,
         now.wall_m},
        {"block.height_mm", voice(&VoiceShape::block_height_m), known(block.none || block.height_m),
         no_block},
        {"block.width_mm", voice(&VoiceShape::block_width_m), known(block.none || block.width_m),
         no_block},
        {"block.front_mm", voice(&VoiceShape::front_m), known(block.none || block.front_m),
         no_block, endless, true},
        {"block.side_walls.height_mm", voice(&VoiceShape::walls_height_m), wall_height,
         block.none ? "no_block" : ""},
        {"block.side_walls.thickness_mm", voice(&VoiceShape::walls_thickness_m),
         known(block.none || walls.thickness_m), no_walls},
        {"block.side_walls.length_mm", voice(&VoiceShape::walls_length_m),
         known(block.none || walls.length_m), no_walls},
        {"sound_hole.length_mm", opening(&SoundHole::length_m), "measured"},
        {"sound_hole.width_mm", opening(&SoundHole::width_m), "measured", "", one.bore_m()},
        {"sound_hole.wall_mm", opening(&SoundHole::wall_m), known(hole.wall_m.has_value())},
    };
}

class LowestNote {
   public:
    explicit LowestNote(const VoiceCase& one)
        : one_(one), now_Hz_(one.lowest.resonances[0].frequency_Hz) {}

    bool exists() const {
        const Resonance& lowest = one_.lowest.resonances[0];
        return lowest.found && lowest.converged;
    }
    // Of a changed flute over the flute as it is; NaN where it does not sound.
    double cents(const Flute& changed) const {
        if (!exists()) return std::numeric_limits<double>::quiet_NaN();
        const Resonance found = resonance(Network(changed, one_.air, {}), 1, now_Hz_);
        if (!found.found || !found.converged) return std::numeric_limits<double>::quiet_NaN();
        return cents_between(found.frequency_Hz, now_Hz_);
    }
    double cents(const VoicePart& part, double change_m) const {
        Flute changed = one_.task.flute;
        part.size_m(changed) += change_m;
        return cents(changed);
    }
    double cents_per_m(const VoicePart& part) const {
        Flute flute = one_.task.flute;
        const double size_m = part.size_m(flute);
        // one-sided at a limit of the part
        const bool down = part.may_be_negative || size_m >= kPartStep_m;
        const bool up = size_m + kPartStep_m <= part.most_m;
        const double above = up ? cents(part, kPartStep_m) : 0.0;
        const double below = down ? cents(part, -kPartStep_m) : 0.0;
        return (above - below) / (kPartStep_m * ((up ? 1.0 : 0.0) + (down ? 1.0 : 0.0)));
    }

   private:
    const VoiceCase& one_;
    const double now_Hz_;
};

Json part_json(const VoicePart& part, const LowestNote& lowest, const VoiceCase& one) {
    Flute flute = one.task.flute;
    const double millimetre_m = m_from_mm(1.0);
    Json json = Json::object();
    json["path"] = part.path;
    json["mm"] = part.why_not[0] ? Json(nullptr) : Json(typed_mm(part.size_m(flute)));
    json["known"] = part.known;
    const bool can = !part.why_not[0] && lowest.exists();
    json["cents_per_mm"] = can ? number_json(m_from_mm(lowest.cents_per_m(part))) : Json(nullptr);
    if (!can) json["why"] = part.why_not[0] ? part.why_not : "no_resonance";
    if (!part.may_be_negative) return json;
    // The block's front: a millimetre back, and over the opening unless that would close it.
    const bool closes = flute.sound_hole.voice.front_m - millimetre_m <= -flute.sound_hole.length_m;
    json["back_1_mm_cents"] = can ? number_json(lowest.cents(part, millimetre_m)) : Json(nullptr);
    json["over_1_mm_cents"] =
        can && !closes ? number_json(lowest.cents(part, -millimetre_m)) : Json(nullptr);
    if (can && closes) json["why"] = "closes_the_opening";
    return json;
}

}  // namespace

Json as_cut_json(const VoiceCase& one) {
    const LowestNote lowest(one);
    Flute bare = one.task.flute, less = bare, more = bare;
    bare.sound_hole.voice = VoiceShape{};
    const double sigma = voice_sigma(voice_said(one.document), one.task.flute);
    less.sound_hole.inertance_factor *= 1.0 - sigma;
    more.sound_hole.inertance_factor *= 1.0 + sigma;
    Json json = Json::object();
    const double cents = -lowest.cents(bare);
    json["lowest_cents"] = number_json(std::abs(cents) < kResolved_cents ? 0.0 : cents);
    json["sigma_cents"] =
        one.heard ? Json(nullptr) : number_json(0.5 * (lowest.cents(less) - lowest.cents(more)));
    if (one.heard) json["sigma_why"] = "heard";
    if (!lowest.exists()) json["why"] = "no_resonance";
    json["parts"] = Json::array();
    for (const VoicePart& part : parts_of(one))
        json["parts"].push_back(part_json(part, lowest, one));
    return json;
}

}  // namespace canewright
