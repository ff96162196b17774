// core/api.cpp -- verbs to functions, and the last stop of every exception that a library throws.
#include "core/api.hpp"

#include <cmath>
#include <vector>

#include "core/api_parts.hpp"
#include "core/base/fraction.hpp"
#include "core/base/units.hpp"
#include "core/document/typed.hpp"
#include "core/document/write.hpp"
#include "core/verbs/example.hpp"
#include "core/verbs/spread.hpp"
#include "core/verbs/taught.hpp"

namespace canewright {

using namespace api;

namespace {

// A link counts in hundredths of a millimetre, and in whole 64ths of an inch: what is typed is put
// there at once, so that a link gives back just what was entered. Finer than any rule or caliper.
double on_grid_m(const ParsedLength& typed) {
    constexpr double kSame = 1e-6;
    const double in_64ths = 64.0 * inch_from_m(typed.value_m);
    if (typed.unit == LengthUnit::inch && std::abs(in_64ths - std::round(in_64ths)) < kSame)
        return typed.value_m;
    return m_from_mm(std::round(100.0 * mm_from_m(typed.value_m)) / 100.0);
}

std::string builds_of(const std::string& text, long from, long to, std::uint64_t seed,
                      const std::string& before, bool linear_too) {
    const ReadDocument read = read_document(text);
    const std::vector<Violation> wrong = with_needs(Verb::spread, read);
    if (!wrong.empty()) return refused(wrong);
    const SpreadTask task =
        is_taught(read.document) ? taught_spread_task(read.document) : spread_task(read.document);
    Answer builds = builds_answer(task, from, to, seed, before);
    if (!linear_too || !builds.violations.empty()) return answered(std::move(builds));
    Json json = spread_of(read.document, task);
    json["monte_carlo"] = std::move(builds.json["monte_carlo"]);
    return answered(std::move(json));
}

// One row a verb: core/verbs/plan_verbs.inc.
constexpr Row kPlan[] = {
#define VERB(name, ask, help) {#name, ask},
#include "core/verbs/plan_verbs.inc"
#undef VERB
};

}  // namespace

std::string run(const std::string& verb, const std::string& text) {
    return guarded([&] {
        const Row* row = row_of(kPlan, verb);
        return row ? row->ask(text) : failed("no such verb");
    });
}

std::string spread_builds(const std::string& text, long from, long to, std::uint64_t seed,
                          const std::string& before) {
    return guarded([&] { return builds_of(text, from, to, seed, before, false); });
}

std::string spread_with_builds(const std::string& text, long builds, std::uint64_t seed) {
    return guarded([&] { return builds_of(text, 0, builds, seed, "", true); });
}

std::string read_length_json(const std::string& text, const std::string& unit) {
    return guarded([&] {
        if (unit != "mm" && unit != "inch") {
            return refused({violation_of_text(Code::unknown_name, "unit", shortened(unit))});
        }
        const ParsedLength parsed =
            read_length(text, unit == "inch" ? LengthUnit::inch : LengthUnit::mm);
        if (!parsed.ok) {
            return refused({violation_of_text(parsed.error, "length", shortened(text))});
        }
        Json json = Json::object();
        json["mm"] = typed_mm(on_grid_m(parsed));
        json["unit"] = parsed.unit == LengthUnit::inch ? "inch" : "mm";
        return sent(json);
    });
}

std::string write_length_text(double value_mm, const std::string& unit, int fraction) {
    const double value_m = m_from_mm(value_mm);
    if (unit == "inch") return write_inch(value_m, fraction);
    if (unit != "mm") return {};
    // The page shows the unit once, at the head of a column.
    std::string text = write_mm(value_m);
    const auto end = text.find(" mm");
    if (end != std::string::npos) text.erase(end);
    return text;
}

}  // namespace canewright
