// core/task/task.hpp -- a document made into what the physics asks for; all defaults are here.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/air/air.hpp"
#include "core/base/violation.hpp"
#include "core/document/document.hpp"
#include "core/flute/geometry.hpp"
#include "core/layout/plan.hpp"
#include "core/music/pitch_name.hpp"

namespace canewright {

// What a key that is absent means.
inline constexpr double kDefaultTolerance_cents = 10.0;
inline constexpr double kDefaultA4_Hz = kStandardA4_Hz;
// Air: AirState's own defaults (20 C, 50 %, 101.325 kPa). Plug: at the upstream edge.

enum class Verb { sound, spread, layout, fingerings, voice, opening };

// Every key that a command needs and the document lacks (`needs`), or that it needs otherwise: a
// plan of another number of holes than the song has, where some of them are fixed or cut.
std::vector<Violation> missing_for(Verb verb, const Document& document);

// The air of the room where the flute will be played. Nothing for a lossless air.
std::optional<AirState> room_air(const Document& document);
// Where the flute will be played [C]: song.play_c, else air.room_c. Nothing for a lossless air.
std::optional<double> room_C(const Document& document);

// The air in the sounding bore: breath and the room's air mixed; or the lossless one as given.
Air bore_air(const Document& document);
// Its temperature [C]; nothing for a lossless air.
std::optional<double> bore_air_C(const Document& document);

// The flute that the document describes, foot at foot_mm, else at the tube's end.
// Requires  bore, wall_mm or outer_mm, sound_hole.
Flute flute_of(const Document& document);

// A fingering as the physics wants it: numbers rising.
Fingering rising(Fingering open);

// The steps of the song from the lowest up with their open holes (rising numbers). `target_Hz` is 0
// where the lowest note is free or absent. Empty where the document says too little.
std::vector<NoteTarget> song_notes(const Document& document);

// The flute as it stands, or as it is planned (SoundsAs), and whether a fingering can be played on
// it: with a log, only holes that are cut are there.
struct SoundTask {
    Flute flute;
    std::vector<NoteEntry> notes;      // as asked for
    std::vector<Fingering> fingering;  // the same in the numbers of the flute's holes
    std::vector<bool> playable;        // false: opens a hole that is not cut
    std::vector<double> above_cents;   // the song's lowest note, as far as there is a song
};
SoundTask sound_task(const Document& document);

LayoutTask layout_task(const Document& document);

}  // namespace canewright
