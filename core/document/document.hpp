// core/document/document.hpp -- everything the one document format can say, as plain structs.
//
// SI inside. An optional is a key that was absent: defaults are applied where a task is made of the
// document (task.hpp), not here, so that writing gives back what was read. Knows no JSON.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/flute/geometry.hpp"

namespace canewright {

// A disc cut from the same kind of tube or cork; only where no thickness is given. Our choice, no
// source: 2 mm more or less move a lowest note by a few cents.
inline constexpr double kFootPlugThickness_m = 0.005;

inline constexpr const char* kFormat = "canewright/1";

struct ShowEntry {
    std::optional<std::string> unit;   // "mm" or "inch"
    std::optional<int> fraction;       // denominator of the finest mark of an inch rule
    std::optional<std::string> datum;  // "centre", "upstream edge" or "splitting edge"
};

// Either the room, or all three of the lossless form.
struct AirEntry {
    std::optional<double> room_C;
    std::optional<double> humidity_fraction;
    std::optional<double> pressure_Pa;
    std::optional<double> sound_speed_m_s;
    std::optional<double> density_kg_m3;
    std::optional<bool> lossless;
};

struct BoreEntry {
    double at_m = 0.0;
    double diameter_m = 0.0;
    std::optional<double> across_m;
};

struct TubeEntry {
    std::vector<BoreEntry> bore;
    std::optional<double> wall_m;
    std::optional<double> outer_m;
    std::optional<double> end_m;
    std::optional<double> above_m;
    std::optional<std::string> material;
    std::optional<Ridge> ridge;
};

struct PlugEntry {
    std::optional<double> offset_m;
    std::optional<double> thickness_m;
};

// What a maker sees but has not measured; which word says it stands with the key.
enum class Seen { none, little, much };
inline constexpr const char* kRampWords[] = {"none", "short", "long"};
inline constexpr const char* kSideWallWords[] = {"none", "low", "high"};

struct SoundHoleEntry {
    double length_m = 0.0;
    double width_m = 0.0;
    std::optional<double> wall_m;
    // Along the tube, over which the wall rises in a plane from the splitting edge to the outer
    // surface: measured, or seen. At most one of the two; 0 and none are the same.
    std::optional<double> ramp_m;
    std::optional<Seen> ramp_seen;
    std::optional<double> edge_m;  // height of the splitting edge above the bore's top
};

// Along both sides of the opening, inner faces flush with it, from the block on. Either seen, or
// both height and thickness.
struct SideWallsEntry {
    std::optional<Seen> seen;
    std::optional<double> height_m;
    std::optional<double> thickness_m;
    std::optional<double> length_m;
};

// With nothing in it: one stands there, not measured. An absent block is not known to be there.
struct BlockEntry {
    bool none = false;               // no block stands there; all else is absent then
    std::optional<double> height_m;  // above the tube's top
    std::optional<double> width_m;
    std::optional<double> front_m;  // behind the datum; negative: overhanging the opening
    std::optional<SideWallsEntry> side_walls;
};

struct TrackEntry {
    std::optional<double> depth_m;
    std::optional<double> width_m;
    std::optional<double> length_m;
    std::optional<double> block_gap_m;
};

struct ChamberEntry {
    std::optional<double> length_m;
    std::optional<double> air_hole_m;
};

struct HoleEntry {
    double at_m = 0.0;
    double diameter_m = 0.0;
    std::optional<double> inner_diameter_m;
    std::optional<double> wall_m;
    std::optional<double> aspect;  // oval: along the tube over across it
    bool at_fixed = false;
    bool diameter_fixed = false;
};

struct NoteEntry {
    Fingering open;
    std::optional<double> target_Hz;
};

// Exactly one of the three.
struct LowestEntry {
    std::optional<std::string> note;  // as typed: "G4", "Bb4"
    std::optional<double> frequency_Hz;
    bool is_free = false;
};

// Exactly one of the two; the list is not empty then.
struct ScaleEntry {
    std::optional<std::string> name;
    std::vector<double> step_cents;
};

struct SongEntry {
    std::optional<LowestEntry> lowest;
    std::optional<ScaleEntry> scale;
    std::optional<int> holes;
    std::optional<double> a4_Hz;
    std::optional<double> tolerance_cents;
    // The bench's finish line: within which every note shall probably be. kUsualFinish_cents unless
    // given (core/bench/worth).
    std::optional<double> good_enough_cents;
    // How much the overblown octaves count for what the notes leave open: 0 (so unless given), the
    // sizes as usual, to 1, the octaves alone (core/layout/octaves).
    std::optional<double> octaves_weight;
    std::optional<double> play_C;
    std::optional<double> breath;  // blowing pressure over the design's; 1 unless given
    // By how much the player's breath lifts a note an octave above the lowest, and lower ones in
    // proportion: players blow high notes harder. Of a plan 0 unless given.
    std::optional<double> lift_cents;
    std::optional<std::vector<Fingering>> fingerings;
};

struct BitEntry {
    double diameter_m = 0.0;
    std::optional<std::string> label;
};

struct SpanEntry {
    std::optional<double> min_m;
    std::optional<double> max_m;
};

// The six errors are how far the maker's measurements may be off.
struct ShopEntry {
    std::optional<std::vector<BitEntry>> bits;
    std::optional<SpanEntry> diameter;
    std::optional<SpanEntry> spacing;
    std::optional<std::vector<int>> hands;
    std::optional<double> ruler_error_m;
    std::optional<double> bit_error_m;
    std::optional<double> bore_error_m;
    std::optional<double> wall_error_m;
    std::optional<double> sound_hole_error_m;  // of its length and of its width
    std::optional<double> temperature_error_C;
    std::optional<double> risk_fraction;  // accepted chance that any note ends too sharp
};

// The opening's thickness is optional because the log does not give it.
struct FootPlugEntry {
    double opening_m = 0.0;
    std::optional<double> thickness_m;
};

enum class Happened {
    read,
    foot,
    hole,
    undercut,
    narrow,
    sound_hole,
    foot_plug,
    block_moved,
    bore_sealed,
    breath
};

// At which pressure, blown slowly harder or softer: the tone jumps to the next register, it falls
// back from there, or the note is in tune.
enum class BlownTo { jumps_up, falls_back, at_pitch };
inline constexpr const char* kBlownToWords[] = {"jumps up", "falls back", "at pitch"};

// One thing that happened. Which of the values count follows from `what`.
struct LogEntry {
    Happened what = Happened::read;
    Fingering open;                        // read, breath
    double frequency_Hz = 0.0;             // read
    std::optional<double> sigma_cents;     // read
    double at_m = 0.0;                     // foot, hole
    int number = 0;                        // hole, undercut, narrow; 1 is nearest the sound hole
    std::optional<double> diameter_m;      // hole, narrow
    std::optional<double> bit_m;           // hole: the drill or rod that made it
    double length_m = 0.0;                 // sound_hole
    double width_m = 0.0;                  // sound_hole
    FootPlugEntry foot_plug;               // foot_plug
    double pressure_Pa = 0.0;              // breath
    bool in_water = false;                 // breath: measured and written as a column of water
    BlownTo blown_to = BlownTo::jumps_up;  // breath
    // With any of them:
    std::optional<double> room_C;
    std::optional<std::string> time;    // as given
    std::optional<double> time_number;  // where the time was given as a number
    std::optional<double> error_m;
    std::optional<double> own_error_m;  // the same, written inside what happened
    std::optional<std::string> note;
};

// Which flute a document with a log is about: the one in the hand (only holes that are cut, the
// foot where it was last sawn), or the one that is planned. Without a log both are the same.
enum class SoundsAs { standing, planned };

struct Document {
    std::optional<std::string> name;
    std::optional<ShowEntry> show;
    std::optional<AirEntry> air;
    std::optional<TubeEntry> tube;
    std::optional<PlugEntry> plug;
    std::optional<SoundHoleEntry> sound_hole;
    std::optional<BlockEntry> block;
    std::optional<TrackEntry> track;
    std::optional<ChamberEntry> chamber;
    std::optional<double> foot_m;
    std::optional<FootPlugEntry> foot_plug;
    std::optional<Fingers> fingers;
    std::optional<std::vector<HoleEntry>> finger_holes;
    std::optional<std::vector<NoteEntry>> notes;
    std::optional<SongEntry> song;
    std::optional<ShopEntry> shop;
    std::optional<std::vector<LogEntry>> log;
    std::optional<SoundsAs> sounds_as;
    std::string pattern;  // JSON text of an object, kept as it came; empty when absent
    std::string x;        // JSON text, any value, kept as it came; empty when absent
    // What a link of a newer page said beyond this version (link_rest.hpp); base64url, kept as it
    // came, empty when absent.
    std::string link_rest;
};

}  // namespace canewright
