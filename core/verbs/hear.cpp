// core/verbs/hear.cpp -- frames of sound to JSON and back; typed pitches.
#include "core/verbs/hear.hpp"

#include <cmath>
#include <limits>

#include "core/document/fields.hpp"
#include "core/listen/held_tone.hpp"
#include "core/listen/typed_pitch.hpp"
#include "core/music/pitch_name.hpp"

namespace canewright {

namespace {

constexpr double kNoValue = std::numeric_limits<double>::quiet_NaN();
constexpr double kInfinity = std::numeric_limits<double>::infinity();
constexpr Range kAny{-kInfinity, kInfinity};
constexpr std::size_t kMostFrames = 2000;
constexpr std::size_t kMostTyped_bytes = 1000;  // what is no pitch is still an answer

NoTone reason(const std::string& word) {
    for (int n = 0; n < kNoToneCount; ++n)
        if (word == name(static_cast<NoTone>(n))) return static_cast<NoTone>(n);
    return NoTone::bad_input;
}

PitchFrame read_pitch(Fields& fields) {
    PitchFrame pitch{};
    pitch.tone = fields.boolean("tone").value_or(false);
    pitch.why_not = reason(fields.text("why_not", limit::kWord_bytes).value_or(""));
    const Json* hz = fields.raw("hz");
    pitch.frequency_Hz = hz && hz->is_number() ? hz->get<double>() : kNoValue;
    pitch.clarity = fields.number("clarity", kAny).value_or(0.0);
    const Json* level = fields.raw("level_db");
    pitch.level_dB = level && level->is_number() ? level->get<double>() : -kInfinity;
    pitch.drift_cents_per_s = fields.number("drift_cents_per_s", kAny).value_or(0.0);
    pitch.fundamental_share = fields.number("fundamental_share", kAny).value_or(0.0);
    pitch.clipped = fields.boolean("clipped").value_or(false);
    return pitch;
}

}  // namespace

Json pitch_frame_json(const float* samples, std::size_t count, double sample_rate_Hz) {
    const PitchFrame pitch = pitch_frame(samples, count, sample_rate_Hz);
    Json json = Json::object();
    json["tone"] = pitch.tone;
    json["why_not"] = name(pitch.why_not);
    json["hz"] = number_json(pitch.frequency_Hz);
    json["clarity"] = pitch.clarity;
    json["level_db"] = number_json(pitch.level_dB);
    json["drift_cents_per_s"] = pitch.drift_cents_per_s;
    json["fundamental_share"] = pitch.fundamental_share;
    json["clipped"] = pitch.clipped;
    return json;
}

Answer held_tone_answer(const std::string& text, double expected_Hz) {
    const ParsedJson parsed = parse_json(text);
    if (!parsed.violations.empty()) return {{}, parsed.violations};
    if (!parsed.tree.is_array() || parsed.tree.size() > kMostFrames)
        return {{}, {violation(Code::wrong_type, "frames")}};
    Faults faults;
    std::vector<TimedFrame> frames;
    for (std::size_t i = 0; i < parsed.tree.size(); ++i) {
        Fields fields(parsed.tree[i], "frames[" + std::to_string(i) + "]", faults);
        TimedFrame frame{fields.needed("s", kAny), {}};
        if (!fields.object("pitch", [&](Fields& part) { frame.pitch = read_pitch(part); }))
            fields.missing("pitch");
        fields.close();
        if (!frames.empty() && !(frame.time_s > frames.back().time_s))
            faults.add(violation(Code::out_of_order, fields.path("s"), frame.time_s,
                                 frames.back().time_s));
        frames.push_back(frame);
    }
    if (faults.count() > 0) return {{}, faults.all()};
    const HeldTone held = held_tone(frames, std::isfinite(expected_Hz) ? expected_Hz : 0.0);
    Json json = Json::object();
    json["state"] = name(held.state);
    json["hz"] = number_json(held.frequency_Hz);
    json["uncertainty_cents"] = number_json(held.uncertainty_cents);
    json["held_s"] = held.held_s;
    return {std::move(json), {}};
}

Answer reading_answer(const std::string& text) {
    const ParsedJson parsed = parse_json(text);
    if (!parsed.violations.empty()) return {{}, parsed.violations};
    Faults faults;
    Fields fields(parsed.tree, "", faults);
    if (faults.count() > 0) return {{}, faults.all()};
    const std::string typed = fields.text("text", kMostTyped_bytes).value_or("");
    if (!fields.has("text")) fields.missing("text");
    MeteredNote of{fields.number("note_hz", limit::kFrequency_Hz).value_or(0.0),
                   fields.number("expected_hz", limit::kFrequency_Hz).value_or(0.0),
                   fields.number("a4_hz", limit::kA4_Hz).value_or(kStandardA4_Hz)};
    const auto name = fields.text("name", limit::kWord_bytes);
    if (name) {
        const ParsedNote note = read_note(*name);
        if (!note.ok) faults.add(violation_of_text(note.error, "name", *name));
        if (note.ok) of.note_Hz = note_Hz(note.note, of.a4_Hz);
    }
    fields.close();
    if (faults.count() > 0) return {{}, faults.all()};
    const TypedPitch pitch = read_typed_pitch(typed, of);
    if (!pitch.ok) return {{}, {pitch.wrong}};
    Json json = Json::object();
    json["hz"] = pitch.frequency_Hz;
    return {std::move(json), {}};
}

}  // namespace canewright
