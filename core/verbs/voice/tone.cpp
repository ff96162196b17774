// core/verbs/voice/tone.cpp -- a note of the flute to listen to.
#include "core/verbs/voice/tone.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "core/base/base64url.hpp"
#include "core/base/units.hpp"
#include "core/listen/pitch_frame.hpp"
#include "core/tone/blown.hpp"
#include "core/verbs/voice/tone_asked.hpp"
#include "core/verbs/voice/voice_parts.hpp"

namespace canewright {

namespace {

constexpr Range kToneBreath{-1.0, 1.0};
constexpr Range kToneSeconds{0.1, 12.0};

struct AskedTone {
    std::vector<int> open;
    int register_number = 1;
    double breath = 0.0, breath_to = 0.0, seconds = 0.0;
};

// From softest over the design breath to beyond the hardest.
double tone_pressure_Pa(const Regime& r, double breath) {
    const double hard_Pa = std::isfinite(r.jumps_up_Pa) ? kBeyond * r.jumps_up_Pa
                           : std::isfinite(r.hard_Pa)   ? kBeyond * r.hard_Pa
                                                        : kBeyondOpen * r.at_pitch_Pa;
    const double middle_Pa = std::clamp(r.at_pitch_Pa, r.soft_Pa, hard_Pa);
    const double end_Pa = breath < 0.0 ? r.soft_Pa : hard_Pa;
    return middle_Pa * std::pow(end_Pa / middle_Pa, std::abs(breath));
}

std::string packed_samples(const std::vector<float>& samples, double scale) {
    std::string bytes;
    bytes.reserve(2 * samples.size());
    for (const float each : samples) {
        const auto value = static_cast<std::uint16_t>(
            static_cast<std::int16_t>(std::lround(scale * static_cast<double>(each))));
        bytes.push_back(static_cast<char>(value & 0xFFU));
        bytes.push_back(static_cast<char>(value >> 8U));
    }
    return base64url(bytes);
}

// What sounds just before the breath ends [Hz]; NaN where nothing has a pitch.
double heard_Hz(const std::vector<float>& samples) {
    constexpr double kListened_s = 0.2;
    const auto listened = static_cast<std::size_t>(kListened_s * kToneRate_Hz);
    const auto after = static_cast<std::size_t>((kRinging_s + kFall_s) * kToneRate_Hz);
    if (samples.size() < listened + after) return std::numeric_limits<double>::quiet_NaN();
    const float* const from = samples.data() + (samples.size() - after - listened);
    return pitch_frame(from, listened, kToneRate_Hz).frequency_Hz;
}

Json silent(const Json& why) {
    Json json = Json::object();
    for (const char* key : {"hz", "heard_hz", "pa", "in_tune"}) json[key] = nullptr;
    json["holds"] = false;
    json["why"] = why;
    for (const char* key : {"seconds", "rate_hz", "peak_pa", "samples"}) json[key] = nullptr;
    return json;
}

// What the note has to be raised by to be the one asked for.
Json in_tune_json(const VoiceCase& one, const AskedTone& asked, double resonance_Hz) {
    const std::optional<double> target_Hz = one.task.notes.front().target_Hz;
    if (!target_Hz) return nullptr;
    return *target_Hz * asked.register_number / resonance_Hz;
}

Json sounded(const Document& document, const AskedTone& asked) {
    const BlownCase all = blown_case(with_fingering(document, asked.open),
                                     {asked.register_number == 1, asked.register_number == 2});
    const VoiceCase& one = all.one;
    if (one.notes.empty() || !one.notes.front().playable) return silent(why_json("hole_not_cut"));
    if (!all.blowing) return silent(why_json("no_room"));
    if (!one.mapped) return silent(why_json(one.judgement));
    const BlownNote& note = one.notes.front();
    const Regime& r = note.regimes[static_cast<std::size_t>(asked.register_number - 1)];
    if (!r.found) return silent(why_json(r.why));
    if (r.judgement.band == Band::out) return silent(why_json(r.judgement));

    const double from_Pa = tone_pressure_Pa(r, asked.breath),
                 to_Pa = tone_pressure_Pa(r, asked.breath_to);
    const ModalLoop modes = modes_of(Network(one.task.flute, one.air, note.on_flute));
    Breath breath{from_Pa, to_Pa, asked.seconds, {}};
    breath.already = all.blowing->blown(note.loops, asked.register_number, from_Pa);
    const std::vector<float> samples =
        blown(modes, {one.jet_air, one.voice.track, all.blowing->drive()}, breath);
    double peak_Pa = 0.0;
    for (const float each : samples)
        peak_Pa = std::max(peak_Pa, std::abs(static_cast<double>(each)));
    if (!modes.found || !std::isfinite(peak_Pa) || !(peak_Pa > 0.0))
        return silent(why_json("no_gain"));

    Json json = Json::object();
    const Oscillation balance = all.blowing->blown(note.loops, asked.register_number, to_Pa);
    const double heard = heard_Hz(samples);
    json["hz"] = balance.sounds ? number_json(balance.frequency_Hz) : Json(nullptr);
    json["heard_hz"] = number_json(heard);
    json["holds"] = balance.sounds && std::isfinite(heard) &&
                    std::abs(cents_between(heard, balance.frequency_Hz)) <= kToneFar_cents;
    json["pa"] = {from_Pa, to_Pa};
    json["in_tune"] = in_tune_json(one, asked, r.resonance_Hz);
    json["why"] = nullptr;
    json["seconds"] = static_cast<double>(samples.size()) / kToneRate_Hz;
    json["rate_hz"] = kToneRate_Hz;
    json["peak_pa"] = peak_Pa;
    json["samples"] = packed_samples(samples, kFullScale / peak_Pa);
    return json;
}

}  // namespace

Answer tone_answer(const std::string& text) {
    AskedTone asked;
    return asked_of_flute(
        text,
        [&](Fields& fields) {
            read_fingering(fields, asked.open, asked.register_number);
            asked.breath = fields.number("breath", kToneBreath).value_or(0.0);
            asked.breath_to = fields.number("breath_to", kToneBreath).value_or(asked.breath);
            asked.seconds = fields.needed("seconds", kToneSeconds);
        },
        [&](const Document& document) {
            return Answer{sounded(document, asked), {}};
        });
}

}  // namespace canewright
