// core/document/hear.cpp -- frames of sound to JSON and back.
#include "core/document/hear.hpp"

#include <cmath>
#include <limits>

#include "core/document/fields.hpp"
#include "core/listen/held_tone.hpp"

namespace canewright {

namespace {

constexpr double kNoValue = std::numeric_limits<double>::quiet_NaN();
constexpr double kInfinity = std::numeric_limits<double>::infinity();
constexpr Range kAny{-kInfinity, kInfinity};
constexpr std::size_t kMostFrames = 2000;

Json number_json(double value) { return std::isfinite(value) ? Json(value) : Json(nullptr); }

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

}  // namespace canewright
