// core/verbs/voice/voice_parts.hpp -- the parts of the verb `voice`. Only its own files include
// this.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "core/flute/resonance.hpp"
#include "core/jet/calibrate.hpp"
#include "core/jet/octave.hpp"
#include "core/jet/regime.hpp"
#include "core/task/task.hpp"
#include "core/verbs/answer.hpp"

namespace canewright {

// A size that a maker of this tube might begin with, by which rule, and the sizes it follows from.
struct Proposal {
    std::string path;
    double size_m = 0.0;
    const char* rule = "";
    std::vector<std::pair<std::string, double>> of;  // path, size [m]
};

// For everything above the sound hole that the document does not say and the tube has room for.
// Rules      common practice, no source; each is named where it stands.
// Requires   tube and sound hole.
std::vector<Proposal> voice_proposals(const Document& document);
// {"path","mm","rule","of":[{"path","mm"}]}
Json proposal_json(const Proposal& proposal);

// What plug and chamber, where given, need above the sound hole, or the least ones there are and a
// mouth end.
double least_above_m(const Document& document);

// Of a track on such a bore; rises with it. Common practice, no source.
double usual_track_depth_m(double bore_m);

// Tracks shallower than this are as thin as paper: small flutes have them, no published one does
// (core/jet/band), and most of the air goes through the gap under the block. Common practice, no
// source.
inline constexpr double kPaperTrack_m = 0.2e-3;

// A fingering, blown into its first two registers.
struct BlownNote {
    Fingering open;      // as asked for
    Fingering on_flute;  // the same in the numbers of the flute's holes
    bool playable = true;
    std::array<Resonance, 2> resonances{};
    std::array<Regime, 2> regimes{};  // none where there is no map
    NoteLoops loops;
};

// What the verb is asked about, made of a document once.
struct VoiceCase {
    Document document;  // as its log leaves it
    SoundTask task;
    bool heard = false;  // readings, or a pattern, have shown what it is like
    Air air;             // of the bore
    Air jet_air;         // the same, but with viscosity where the bore's is taken for lossless
    std::vector<Proposal> proposals;
    std::vector<std::string> missing;  // of the track
    Voice voice;                       // proposals where the track is not described
    BlownNote lowest;                  // every hole covered; its regimes without their ends
    // At its design breath; out where there is no jet.
    Judgement judgement{Band::out, BandReason::none, 0.0, 0.0};
    bool mapped = false;  // whether pressures are said
    std::vector<BlownNote> notes;
    std::optional<PressureMark> calibrated_by;

    double ratio() const { return voice.window_m / voice.track.height_m(); }
    // What is proposed there [m]; NaN: nothing.
    double proposed_m(const char* path) const;
    double bore_m() const {
        return bore_diameter_m(task.flute, 0.5 * task.flute.sound_hole.length_m);
    }
    bool described() const { return missing.empty(); }
};

// The flute as `sound` has it; of what was heard nothing where there is no song.
struct PlayedFlute {
    SoundTask task;
    Air air;
    bool heard = false;
};
PlayedFlute played_flute(const Document& document);

// What of a document is blown: holes as planned, without finger holes the lowest note alone.
Document played_document(const Document& given);

// A case with what blows it, calibrated as far as the log says. Nothing blows where the tube has no
// room for a track.
struct BlownCase {
    VoiceCase one;
    std::optional<Blowing> blowing;
    Json calibrated;  // calibrate_voice()
};
// `registers`: of which the ends are sought, what most of it costs; of the others, and of the
// case's lowest note, there is what holds at the design breath (Blowing::design).
BlownCase blown_case(const Document& document, std::array<bool, 2> registers = {true, true});

// {"code","value","limit"} of what a number decided, or of a name alone.
Json why_json(const Judgement& judgement);
Json why_json(const char* code);
// "jumps_before" and so on; of what holds "".
const char* name(PitchReach reach);

// {"voice","missing","from","with_proposed"} and the notes.
void add_voice(const VoiceCase& one, Json& json);
Json voice_notes_json(const VoiceCase& one);

// {"there","clean","why"} of a note's second register as its overblown octave. `there`: it has a
// resonance of its own, near the octave or not. `clean`: as core/jet/octave defines it, in short:
// at the breath at which it is at its pitch it sounds alone and with twice what it loses, no other
// mode lies nearer to the octave, and the note jumps right into it; false where there is none; null
// where the model says nothing (band out, or beyond_the_model). `why`, null of a clean one: as
// why_json(); `value` and `limit` by its code: "weak", "no_gain" the jet's gain and what it should
// be; "another_nearer" cents off the octave, the other mode's and its own; "jumps_before",
// "dies_before", "begins_above" the pressure where it ends or begins and its own at pitch;
// "not_where_it_jumps" where it begins and where the note ends; "never_holds"; of one that is not
// there as the register's "why"; of null the band's reason.
Json octave_json(const VoiceCase& one, const BlownNote& note);

// The last breath in the log, made into the speed of the jet's wave: sets `blowing`, and
// `calibrated_by` of the case. Answers "calibrated", and "calibrated_why" where there is a breath
// but no calibration: "voice_changed" (sound hole or block, since), "hole_not_cut",
// "outside_the_model", or what calibrate() says.
//   json   has "calibrated": null
void calibrate_voice(const Document& document, VoiceCase& one, Blowing& blowing, Json& json);

// {"lowest_cents","sigma_cents","sigma_why"?,"parts":[{"path","mm","known","cents_per_mm","why"?}]}:
// what ramp, block and side walls do to the lowest note against a bare opening, what is not known
// of the voice does to it (one standard deviation, voice_sigma; null and "heard" where readings or
// a pattern have told: then the bench says how far each note is known), and what a millimetre of
// each part does, all else staying; of the block's front also "back_1_mm_cents" and
// "over_1_mm_cents". Error      arithmetic: a difference quotient over kPartStep_m. The model's:
// core/element/voice.
Json as_cut_json(const VoiceCase& one);

// Far above what the resonance resolves, far below what a voice's parts measure.
inline constexpr double kPartStep_m = 2e-5;

// A number of this flute by which advice is given and faults are sought.
enum class VoiceNumber {
    none,
    ratio_low,
    ratio_high,
    jet_fast,
    reynolds_low,
    jump_near,
    dies_before_pitch,
    begins_above_pitch,
    no_overblow,
    needs_much_air,
    sound_hole_wider_than_track,
    gap_high,
    block_over,
    block_back,
    octave_off,
    track_shallow,
    hole_small,
    tube_long,
    edge_thick,
    above_short
};

// One number; not known: its value is NaN.
struct VoiceGauge {
    std::string path;
    double value = 0.0, limit = 0.0;
    bool out = false;                 // beyond the limit, on the wrong side
    std::optional<Fingering> open{};  // of the note that decided
};
VoiceGauge voice_gauge(const VoiceCase& one, VoiceNumber number);

// {key: its name,"path","value","limit","open"?}
Json gauge_json(const VoiceGauge& gauge, VoiceNumber number, const char* key);
// "ratio_low" and so on.
const char* name(VoiceNumber number);

// [{"code","path","value","limit","open"?}]: each number that is out, of those that are advised on.
Json advice_json(const VoiceCase& one);

}  // namespace canewright
