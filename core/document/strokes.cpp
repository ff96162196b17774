// core/document/strokes.cpp -- small questions of the bench: strokes, attempts at one note, a pitch
// as typed.
#include "core/bench/names.hpp"
#include "core/document/fields.hpp"
#include "core/document/next.hpp"
#include "core/listen/typed_pitch.hpp"
#include "core/music/pitch_name.hpp"

namespace canewright {

namespace {

constexpr Range kStrokes{0, 100};
constexpr Range kMeter_cents{0.05, 100};
constexpr std::size_t kMostBlows = 200;
constexpr std::size_t kMostTyped_bytes = 1000;  // what is no pitch is still an answer

// A question that is one JSON object.
template <class Ask>
Answer asked(const std::string& text, Ask ask) {
    const ParsedJson parsed = parse_json(text);
    if (!parsed.violations.empty()) return {{}, parsed.violations};
    Faults faults;
    Fields fields(parsed.tree, "", faults);
    if (faults.count() > 0) return {{}, faults.all()};
    Json json = ask(fields, faults);
    return {std::move(json), faults.all()};
}

}  // namespace

Answer strokes_answer(const std::string& text) {
    return asked(text, [](Fields& fields, Faults& faults) {
        std::vector<Blow> blows;
        const auto read = [&](const Json& node, const std::string& path) {
            Fields blow(node, path, faults);
            blows.push_back({blow.number("strokes", kStrokes).value_or(0.0),
                             blow.needed("hz", limit::kFrequency_Hz)});
            blow.close();
        };
        if (!fields.list("blows", 1, kMostBlows, read) && !fields.has("blows"))
            fields.missing("blows");
        const double stop_Hz = fields.needed("stop_hz", limit::kFrequency_Hz);
        const double meter_cents =
            fields.number("meter_cents", kMeter_cents).value_or(kUsualReading_cents);
        fields.close();
        Json json = Json::object();
        if (faults.count() > 0) return json;
        const StrokeAdvice advice = advise(blows, stop_Hz, meter_cents);
        json["what"] = name(advice.what);
        json["count"] = advice.count;
        json["hz"] = advice.frequency_Hz;
        json["sigma_cents"] = advice.sigma_cents;
        json["cents_per_stroke"] = advice.cents_per_stroke;
        return json;
    });
}

Answer attempts_answer(const std::string& text) {
    return asked(text, [](Fields& fields, Faults& faults) {
        std::vector<double> heard_Hz;
        const auto read = [&](const Json& node, const std::string& path) {
            const auto value = read_number(node, path, limit::kFrequency_Hz, faults);
            if (value) heard_Hz.push_back(*value);
        };
        if (!fields.list("hz", 1, kMostBlows, read) && !fields.has("hz")) fields.missing("hz");
        const double usual_cents =
            fields.number("usual_cents", kMeter_cents).value_or(kUsualReading_cents);
        fields.close();
        Json json = Json::object();
        if (faults.count() > 0) return json;
        const Attempts attempts = combine(heard_Hz, usual_cents);
        json["hz"] = attempts.frequency_Hz;
        json["sigma_cents"] = attempts.sigma_cents;
        return json;
    });
}

Answer reading_answer(const std::string& text) {
    return asked(text, [](Fields& fields, Faults& faults) {
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
        Json json = Json::object();
        if (faults.count() > 0) return json;
        const TypedPitch pitch = read_typed_pitch(typed, of);
        if (!pitch.ok) faults.add(pitch.wrong);
        if (pitch.ok) json["hz"] = pitch.frequency_Hz;
        return json;
    });
}

}  // namespace canewright
