// core/bench/builder.cpp: one stage a cut, one number an opening.
#include "core/bench/builder.hpp"

#include <algorithm>
#include <cmath>

#include "core/bench/belief/unknowns.hpp"

namespace canewright {

Builder::Builder(const Flute& blank, const AirState& room, const std::vector<FingerHole>& planned,
                 const std::vector<NoteTarget>& notes, const Measures& measures)
    : notes_(notes), measures_(measures) {
    history_.blank = blank;
    history_.blank.holes.clear();
    history_.room = room;
    Stage first;
    first.foot_m = blank.foot_m;
    first.foot_sigma_m = measures.ruler_m;
    first.foot_cutting = history_.cuttings++;
    first.sound_hole = blank.sound_hole;
    first.foot_plug = blank.foot_plug;
    for (const FingerHole& hole : planned) {
        HoleNow to_be;
        to_be.at_m = hole.at_m;
        to_be.diameter_m = hole.diameter_m;
        if (hole.diameter_m > 0.0 && hole.inner_diameter_m > 0.0)
            to_be.flare = hole.inner_diameter_m / hole.diameter_m;
        to_be.wall_m = hole.wall_m;
        to_be.aspect = hole.aspect;
        to_be.at_fixed = hole.at_fixed;
        to_be.diameter_fixed = hole.diameter_fixed;
        first.holes.push_back(to_be);
    }
    history_.stages.push_back(first);
}

Stage& Builder::new_stage() {
    ++entries_;
    history_.stages.push_back(history_.now());
    return history_.stages.back();
}

void Builder::read(const Fingering& open, double frequency_Hz, double sigma_cents, double room_C) {
    Heard heard;
    heard.open = open;
    std::sort(heard.open.begin(), heard.open.end());
    heard.frequency_Hz = frequency_Hz;
    heard.sigma_cents = sigma_cents;
    heard.room_C = room_C;
    heard.stage = history_.stages.size() - 1;
    heard.entry = entries_++;
    heard.above_cents = above_lowest_cents(notes_, heard.open);
    history_.heard.push_back(heard);
}

void Builder::foot(double at_m, std::optional<double> error_m) {
    Stage& stage = new_stage();
    stage.foot_m = at_m;
    stage.foot_sigma_m = error_m.value_or(std::hypot(measures_.ruler_m, measures_.saw_m));
    stage.foot_cutting = history_.cuttings++;
}

void Builder::hole(int number, double at_m, std::optional<double> diameter_m,
                   std::optional<double> error_m) {
    Stage& stage = new_stage();
    HoleNow& hole = stage.holes[static_cast<std::size_t>(number - 1)];
    const bool first = !hole.cut;
    hole.cut = true;
    ++hole.times_cut;
    if (first) hole.at_m = at_m;
    double sigma_m = first ? measures_.bit_m : measures_.size_m;
    if (diameter_m) {
        hole.diameter_m = *diameter_m;
    } else {
        if (!first) hole.diameter_m *= 1.0 + kGuessedGrowth;
        if (!(hole.diameter_m > 0.0))
            hole.diameter_m = kUsualHole * bore_diameter_m(history_.blank, hole.at_m);
        sigma_m = kGuessedSize * hole.diameter_m;
    }
    hole.size_sigma_m = std::hypot(error_m.value_or(sigma_m), kPlaceAsSize * measures_.ruler_m);
    hole.flare = std::min(hole.flare, widest_flare(history_.blank, hole));
    hole.cutting = history_.cuttings++;
}

void Builder::undercut(int number) {
    HoleNow& hole = new_stage().holes[static_cast<std::size_t>(number - 1)];
    hole.flare = std::max(hole.flare, std::min(hole.flare * (1.0 + kUndercutFlare),
                                               widest_flare(history_.blank, hole)));
    hole.size_sigma_m = std::hypot(hole.size_sigma_m, 0.5 * kUndercutFlare * hole.diameter_m);
    hole.cutting = history_.cuttings++;
}

void Builder::narrow(int number, std::optional<double> diameter_m, std::optional<double> error_m) {
    HoleNow& hole = new_stage().holes[static_cast<std::size_t>(number - 1)];
    hole.times_cut = 1;  // like a drilled one, it has an opening by ear before it
    double sigma_m = measures_.size_m;
    if (diameter_m) {
        hole.diameter_m = *diameter_m;
    } else {
        hole.diameter_m *= 1.0 - kGuessedGrowth;
        sigma_m = kGuessedSize * hole.diameter_m;
    }
    // the undercut is closed too; a shape that was planned is cut again
    hole.flare = std::min(history_.stages.front().holes[static_cast<std::size_t>(number - 1)].flare,
                          widest_flare(history_.blank, hole));
    hole.size_sigma_m = std::hypot(error_m.value_or(sigma_m), kPlaceAsSize * measures_.ruler_m);
    hole.cutting = history_.cuttings++;
}

void Builder::forget_voice() {
    for (Heard& heard : history_.heard) heard.voice_moved_since = true;
}

void Builder::sound_hole(double length_m, double width_m) {
    Stage& stage = new_stage();
    stage.sound_hole.length_m = length_m;
    stage.sound_hole.width_m = width_m;
    forget_voice();
}

void Builder::block_moved() {
    new_stage();
    forget_voice();
}

void Builder::foot_plug(double opening_m, double thickness_m) {
    new_stage().foot_plug = FootPlug{opening_m, thickness_m};
}

void Builder::sealed() {
    const std::vector<HoleNow>& holes = history_.now().holes;
    const bool all =
        std::all_of(holes.begin(), holes.end(), [](const HoleNow& h) { return h.cut; });
    if (all) history_.dried_entry = entries_;
    ++entries_;
}

}  // namespace canewright
