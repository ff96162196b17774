// core/verbs/strokes.cpp -- small questions of the bench: strokes, attempts at one note, a pitch
// as typed.
#include "core/bench/names.hpp"
#include "core/document/fields.hpp"
#include "core/verbs/next.hpp"

namespace canewright {

namespace {

constexpr Range kStrokes{0, 100};
constexpr Range kMeter_cents{0.05, 100};
constexpr Range kBlowsKnown{0, kMostScatterBlows};
constexpr Range kKnown_cents{0, 1200};
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

// What is known of how far this maker's blows lie apart, as an answer before this one said it.
Scatter scatter_from(Fields& fields) {
    Scatter usual;
    usual.cents = fields.number("scatter_cents", kMeter_cents).value_or(usual.cents);
    usual.blows = fields.number("scatter_blows", kBlowsKnown).value_or(usual.blows);
    return usual;
}

// "tapped": the maker says that nothing was opened untold; "not told": that it was.
Tapping tapping_from(Fields& fields) {
    const auto word = fields.text("tapping", limit::kWord_bytes);
    if (!word) return Tapping::unsaid;
    if (*word == "tapped") return Tapping::tapped;
    if (*word == "not told") return Tapping::not_told;
    fields.faults().add(
        violation_of_text(Code::unknown_name, fields.path("tapping"), shortened(*word)));
    return Tapping::unsaid;
}

void put_scatter(Json& json, const Scatter& scatter) {
    json["scatter_cents"] = scatter.cents;
    json["scatter_blows"] = scatter.blows;
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
        const Scatter usual = scatter_from(fields);
        Known known;
        known.frequency_Hz = fields.number("now_hz", limit::kFrequency_Hz).value_or(0.0);
        known.sigma_cents = fields.number("now_sigma_cents", kKnown_cents).value_or(0.0);
        known.moment_cents = fields.number("moment_cents", kKnown_cents).value_or(0.0);
        const Tapping tapping = tapping_from(fields);
        fields.close();
        Json json = Json::object();
        if (faults.count() > 0 || blows.empty()) return json;
        const StrokeAdvice advice = advise(blows, stop_Hz, usual, known, tapping);
        const Attempts first =
            before_strokes(blows, usual, advice.opened_untold || tapping == Tapping::not_told);
        json["what"] = name(advice.what);
        json["count"] = advice.count;
        json["hz"] = advice.frequency_Hz;
        json["sigma_cents"] = advice.sigma_cents;
        json["cents_per_stroke"] = advice.cents_per_stroke;
        json["mark_hz"] = advice.mark_Hz;
        json["opened_untold"] = advice.opened_untold;
        json["first_hz"] = first.frequency_Hz;
        json["first_sigma_cents"] = first.sigma_cents;
        put_scatter(json, advice.scatter);
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
        const Scatter usual = scatter_from(fields);
        fields.close();
        Json json = Json::object();
        if (faults.count() > 0) return json;
        const Attempts attempts = combine(heard_Hz, usual);
        json["hz"] = attempts.frequency_Hz;
        json["sigma_cents"] = attempts.sigma_cents;
        put_scatter(json, attempts.scatter);
        return json;
    });
}

}  // namespace canewright
