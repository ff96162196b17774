// core/verbs/strokes.cpp -- small questions of the bench: strokes, attempts at one note, a pitch
// as typed.
#include "core/bench/names.hpp"
#include "core/document/fields.hpp"
#include "core/verbs/next.hpp"

namespace canewright {

namespace {

constexpr Range kStrokes{0, 100};
constexpr Range kMeter_cents{0.05, 100};
constexpr std::size_t kMostBlows = 200;

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

}  // namespace canewright
