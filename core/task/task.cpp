// core/task/task.cpp -- the document made into air, flute and notes.
#include "core/task/task.hpp"

#include <algorithm>

#include "core/base/units.hpp"
#include "core/document/asked.hpp"
#include "core/music/fingering.hpp"
#include "core/task/replay.hpp"
#include "core/task/voice.hpp"

namespace canewright {

namespace {

bool is_lossless(const Document& document) {
    return document.air && document.air->lossless.value_or(false);
}

AirState room(const Document& document) {
    AirState state;
    const AirEntry air = document.air.value_or(AirEntry{});
    state.temperature_C = air.room_C.value_or(state.temperature_C);
    if (document.song && document.song->play_C) state.temperature_C = *document.song->play_C;
    state.humidity_fraction = air.humidity_fraction.value_or(state.humidity_fraction);
    state.pressure_Pa = air.pressure_Pa.value_or(state.pressure_Pa);
    return state;
}

// From the outside and the bore in the middle of the tube; the one wall stands for all of it.
double wall_m(const TubeEntry& tube, const Flute& flute) {
    if (tube.wall_m) return *tube.wall_m;
    const double middle_m = 0.5 * tube.end_m.value_or(0.0);
    return 0.5 * (tube.outer_m.value_or(0.0) - bore_diameter_m(flute, middle_m));
}

std::optional<double> lowest_Hz(const SongEntry& song) {
    if (!song.lowest || song.lowest->is_free) return {};
    if (song.lowest->frequency_Hz) return song.lowest->frequency_Hz;
    const ParsedNote note = read_note(song.lowest->note.value_or(""));
    if (!note.ok) return {};
    return note_Hz(note.note, song.a4_Hz.value_or(kDefaultA4_Hz));
}

}  // namespace

Fingering rising(Fingering open) {
    std::sort(open.begin(), open.end());
    return open;
}

std::optional<AirState> room_air(const Document& document) {
    if (is_lossless(document)) return {};
    return room(document);
}

std::optional<double> room_C(const Document& document) {
    if (is_lossless(document)) return {};
    return room(document).temperature_C;
}

std::optional<double> bore_air_C(const Document& document) {
    if (is_lossless(document)) return {};
    return sounding_air(room(document)).temperature_C;
}

Air bore_air(const Document& document) {
    if (!is_lossless(document)) return moist_air(sounding_air(room(document)));
    Air air;
    air.sound_speed_m_s = document.air->sound_speed_m_s.value_or(0.0);
    air.density_kg_m3 = document.air->density_kg_m3.value_or(0.0);
    air.lossless = true;
    return air;
}

Flute flute_of(const Document& document) {
    Flute flute;
    const TubeEntry tube = document.tube.value_or(TubeEntry{});
    for (const BoreEntry& station : tube.bore) {
        flute.bore.push_back(
            {station.at_m, station.diameter_m, station.across_m.value_or(station.diameter_m)});
    }
    flute.wall_m = wall_m(tube, flute);
    flute.ridge = tube.ridge;
    if (document.plug) flute.plug_offset_m = document.plug->offset_m.value_or(0.0);
    const SoundHoleEntry sound_hole = document.sound_hole.value_or(SoundHoleEntry{});
    flute.sound_hole = {sound_hole.length_m, sound_hole.width_m,
                        sound_hole.wall_m.value_or(flute.wall_m)};
    flute.sound_hole.voice = voice_shape(voice_said(document), flute);
    flute.foot_m = document.foot_m.value_or(tube.end_m.value_or(0.0));
    if (document.foot_plug) {
        flute.foot_plug = FootPlug{document.foot_plug->opening_m,
                                   document.foot_plug->thickness_m.value_or(kFootPlugThickness_m)};
    }
    flute.fingers = document.fingers.value_or(Fingers::soft);
    for (const HoleEntry& hole : document.finger_holes.value_or(std::vector<HoleEntry>())) {
        flute.holes.push_back({hole.at_m, hole.diameter_m,
                               hole.inner_diameter_m.value_or(hole.diameter_m),
                               hole.wall_m.value_or(flute.wall_m), hole.aspect.value_or(1.0),
                               hole.at_fixed, hole.diameter_fixed});
    }
    return flute;
}

std::vector<NoteTarget> song_notes(const Document& document) {
    const std::optional<Scale> scale = asked_scale(document);
    const std::optional<int> holes = asked_holes(document);
    if (!scale || !holes || *holes < kFewestHoles) return {};
    const SongEntry& song = *document.song;
    const double lowest = lowest_Hz(song).value_or(0.0);
    std::vector<NoteTarget> notes;
    for (const FingeredStep& step : resolve_fingerings(*scale, *holes, song.fingerings).steps) {
        notes.push_back({rising(step.open), step.step_cents,
                         lowest > 0 ? shifted_Hz(lowest, step.step_cents) : 0.0});
    }
    return notes;
}

}  // namespace canewright
