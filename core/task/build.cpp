// core/task/build.cpp -- the document's log, entry by entry, into core/bench's builder.
#include "core/task/build.hpp"

#include <algorithm>
#include <cmath>

#include "core/bench/builder.hpp"
#include "core/bench/worth.hpp"
#include "core/document/asked.hpp"
#include "core/task/replay.hpp"
#include "core/task/task.hpp"
#include "core/task/voice.hpp"

namespace canewright {

namespace {

AirEntry air_of(const Document& document) { return document.air.value_or(AirEntry{}); }

// A lossless air is for comparisons; who cuts and listens has a room.
AirState room_of(const Document& document) {
    AirState room;
    room.temperature_C = air_of(document).room_C.value_or(room.temperature_C);
    room.humidity_fraction = air_of(document).humidity_fraction.value_or(room.humidity_fraction);
    room.pressure_Pa = air_of(document).pressure_Pa.value_or(room.pressure_Pa);
    return room;
}

Measures measures_of(const Document& document) {
    const ShopEntry shop = document.shop.value_or(ShopEntry{});
    Measures measures;
    measures.ruler_m = shop.ruler_error_m.value_or(measures.ruler_m);
    measures.bit_m = shop.bit_error_m.value_or(measures.bit_m);
    measures.bore_m = shop.bore_error_m.value_or(measures.bore_m);
    measures.wall_m = shop.wall_error_m.value_or(measures.wall_m);
    return measures;
}

// As thick as the disc that was there, where nothing else is said.
double thickness_m(const FootPlugEntry& disc, const std::optional<FootPlug>& before) {
    return disc.thickness_m.value_or(before ? before->thickness_m : kFootPlugThickness_m);
}

void tell(Builder& builder, const LogEntry& entry, double room_C) {
    const std::optional<double> error_m = entry.own_error_m ? entry.own_error_m : entry.error_m;
    switch (entry.what) {
        case Happened::read:
            return builder.read(entry.open, entry.frequency_Hz,
                                entry.sigma_cents.value_or(kUsualReading_cents),
                                entry.room_C.value_or(room_C));
        case Happened::foot:
            return builder.foot(entry.at_m, error_m);
        case Happened::hole:
            return builder.hole(entry.number, entry.at_m, entry.diameter_m, error_m);
        case Happened::undercut:
            return builder.undercut(entry.number);
        case Happened::narrow:
            return builder.narrow(entry.number, entry.diameter_m, error_m);
        case Happened::sound_hole:
            return builder.sound_hole(entry.length_m, entry.width_m);
        case Happened::foot_plug:
            return builder.foot_plug(
                entry.foot_plug.opening_m,
                thickness_m(entry.foot_plug, builder.history().now().foot_plug));
        case Happened::block_moved:
            return builder.block_moved();
        case Happened::bore_sealed:
            return builder.sealed();
        case Happened::breath:
            return builder.pass_over();
    }
}

bool dries(const Document& document) {
    return document.tube->material.value_or("").find("pipe") == std::string::npos;
}

// The plan from before the log: one laid out since has the log's undercuts in it already, and a
// reading taken before them must not have them. So has a hole as flared as they make a straight
// one, and of a plan `laid_since` each that is not straight. One undercut as far as the bore is
// wide does not tell what it was before: straight, for it was not narrower inside. So one planned
// so flared that its undercuts would not fit is taken as flared as leaves room for them.
void take_out_undercuts(std::vector<FingerHole>& planned, const Flute& blank,
                        const std::vector<LogEntry>& log, bool laid_since) {
    for (std::size_t i = 0; i < planned.size(); ++i) {
        double flare = 1.0;
        for (const LogEntry& entry : log) {
            if (entry.number != static_cast<int>(i) + 1) continue;
            if (entry.what == Happened::narrow) flare = 1.0;  // closes it
            if (entry.what == Happened::undercut) flare *= 1.0 + kUndercutFlare;
        }
        FingerHole& hole = planned[i];
        constexpr double kRounding = 1e-9;
        const bool straight =
            std::abs(hole.inner_diameter_m - hole.diameter_m) <= kRounding * hole.diameter_m;
        const double widest_m = kMostHole * bore_diameter_m(blank, hole.at_m);
        const bool stopped = hole.inner_diameter_m >= widest_m * (1.0 - kRounding);
        if (hole.inner_diameter_m >= flare * hole.diameter_m * (1.0 - kRounding) ||
            (laid_since && !straight))
            hole.inner_diameter_m =
                std::max(hole.inner_diameter_m / flare, stopped ? hole.diameter_m : 0.0);
        else if (flare > 1.0)
            hole.inner_diameter_m =
                std::min(hole.inner_diameter_m, std::max(widest_m / flare, hole.diameter_m));
    }
}

}  // namespace

BuildState build_of(const Document& given) {
    const Document document = planned_like_before(given);
    BuildState build;
    const LayoutTask task = layout_task(document);
    build.aim.notes = task.notes;
    build.aim.lowest_free = task.lowest_free;
    build.aim.octaves_weight = task.octaves_weight;
    build.aim.shop = task.shop;
    const SongEntry song = document.song.value_or(SongEntry{});
    build.aim.tolerance_cents = song.tolerance_cents.value_or(kDefaultTolerance_cents);
    build.aim.good_enough_cents = song.good_enough_cents.value_or(kUsualFinish_cents);
    const AirState room = room_of(document);
    build.aim.play_C = song.play_C.value_or(room.temperature_C);
    build.aim.room_C = room.temperature_C;
    if (document.shop) build.aim.risk = document.shop->risk_fraction.value_or(build.aim.risk);
    build.aim.needs_drying = dries(document);
    build.aim.burn = burn_of(document);

    Flute blank = flute_of(document);
    const std::size_t holes = static_cast<std::size_t>(asked_holes(document).value_or(0));
    std::vector<FingerHole> planned = blank.holes;
    if (planned.size() != holes) planned.assign(holes, FingerHole{});
    take_out_undercuts(planned, blank, document.log.value_or(std::vector<LogEntry>()),
                       document.sounds_as == SoundsAs::planned);
    blank.foot_m = document.tube->end_m.value_or(blank.foot_m);
    const Measures measures = measures_of(document);
    Builder builder(blank, room, planned, build.aim.notes, measures);
    builder.breath(song.breath.value_or(1.0));
    for (const LogEntry& entry : document.log.value_or(std::vector<LogEntry>())) {
        tell(builder, entry, room.temperature_C);
        build.aim.room_C = entry.room_C.value_or(build.aim.room_C);
        const bool sized = entry.what == Happened::hole || entry.what == Happened::narrow;
        build.size_m.push_back(sized ? builder.history()
                                           .now()
                                           .holes[static_cast<std::size_t>(entry.number - 1)]
                                           .diameter_m
                                     : 0.0);
    }
    build.history = builder.history();
    if (!room_air(document)) build.history.given_air = bore_air(document);
    build.stranger = prior(bore_diameter_m(blank, 0.5 * blank.foot_m), measures.bore_m,
                           blank.wall_m, measures.wall_m, voice_sigma(voice_said(document), blank));
    build.before = with_pattern(build.stranger, document);
    // Until somebody has blown it the flute is the planned one: how a player lifts higher notes is
    // no part of a plan unless it was said, and the marks and the first step would differ by it.
    if (document.pattern.empty()) {
        if (song.lift_cents)
            build.before.mean(kDrift) = *song.lift_cents;
        else if (build.history.heard.empty())
            build.before.mean(kDrift) = 0.0;
    }
    build.estimate = estimate(build.history, build.before);
    build.taught = !document.pattern.empty() || !build.history.heard.empty();
    return build;
}

Document planned_like_before(const Document& document) {
    if (document.finger_holes || !cuts_holes(document)) return document;
    Document before = document;
    before.log.reset();
    if (!missing_for(Verb::layout, before).empty()) return document;  // said where it is asked for
    const BuildState blank = build_of(before);
    Document planned = document;
    planned.finger_holes = std::vector<HoleEntry>();
    for (const HoleNow& hole : find_goal(blank.history, blank.estimate, blank.aim).stage.holes) {
        HoleEntry entry;
        entry.at_m = hole.at_m;
        entry.diameter_m = hole.diameter_m;
        entry.inner_diameter_m = hole.flare * hole.diameter_m;
        planned.finger_holes->push_back(entry);
    }
    return planned;
}

}  // namespace canewright
