// core/verbs/spread_builds.cpp -- builds of the full model, in pieces that add up.
#include <cmath>

#include "core/layout/builds.hpp"
#include "core/verbs/spread.hpp"
#include "core/verbs/spread_json.hpp"

namespace canewright {

namespace {

Json sums_json(const BuildSums& sums) {
    Json json = Json::object();
    json["builds"] = sums.builds;
    json["failed"] = sums.failed;
    json["within"] = sums.within;
    json["worst_linear_cents"] = sums.worst_linear_cents;
    for (const char* key : {"cents", "cents2", "linear_cents2"}) json[key] = Json::array();
    for (const BuildSums::Note& note : sums.notes) {
        json["cents"].push_back(note.cents);
        json["cents2"].push_back(note.cents2);
        json["linear_cents2"].push_back(note.linear_cents2);
    }
    return json;
}

bool is_list(const Json& json, const char* key, std::size_t size) {
    if (!json.contains(key) || !json[key].is_array() || json[key].size() != size) return false;
    for (const Json& each : json[key])
        if (!each.is_number()) return false;
    return true;
}

bool is_count(const Json& json, const char* key) {
    return json.contains(key) && json[key].is_number_integer() && json[key] >= 0 &&
           json[key] <= kMostBuilds;
}

// False where this is nothing that sums_json() has written for so many notes.
bool read_sums(const Json& json, std::size_t notes, BuildSums& sums) {
    if (!json.is_object() || !is_count(json, "builds") || !is_count(json, "failed") ||
        !is_list(json, "within", kWithin_cents.size()) || !is_list(json, "cents", notes) ||
        !is_list(json, "cents2", notes) || !is_list(json, "linear_cents2", notes) ||
        !json.contains("worst_linear_cents") || !json["worst_linear_cents"].is_number())
        return false;
    sums.builds = json["builds"].get<long>();
    sums.failed = json["failed"].get<long>();
    sums.worst_linear_cents = json["worst_linear_cents"].get<double>();
    for (std::size_t i = 0; i < kWithin_cents.size(); ++i)
        sums.within[i] = static_cast<long>(json["within"][i].get<double>());
    sums.notes.resize(notes);
    for (std::size_t k = 0; k < notes; ++k)
        sums.notes[k] = {json["cents"][k].get<double>(), json["cents2"][k].get<double>(),
                         json["linear_cents2"][k].get<double>()};
    return true;
}

Json monte_carlo_json(const SpreadTask& task, const Spread& linear, const BuildSums& sums,
                      std::uint64_t seed) {
    Json json = Json::object();
    json["builds"] = sums.builds;
    json["failed"] = sums.failed;
    json["seed"] = seed;
    json["notes"] = Json::array();
    bool agrees = sums.failed == 0;
    for (std::size_t k = 0; k < task.open.size(); ++k) {
        Json note = Json::object();
        note["open"] = task.open[k];
        // Of one flute there is no scatter, of none no mean either.
        const double sigma_cents = sums.sigma_cents(k);
        if (linear.notes[k].speaks && std::isfinite(sigma_cents)) {
            note["sigma_cents"] = sigma_cents;
            note["mean_cents"] = sums.mean_cents(k);
            note["over_linear"] = sums.over_linear(k);
            const bool moves = linear.notes[k].sigma_cents > 0.0;
            if (moves && !(std::abs(sums.over_linear(k) - 1.0) <= kLinearError)) agrees = false;
        } else {
            note["sigma_cents"] = nullptr;
        }
        json["notes"].push_back(std::move(note));
    }
    Shares within{};
    for (std::size_t i = 0; i < within.size(); ++i) within[i] = sums.share_within(i);
    json["within"] = shares_json(within);
    json["worst_linear_cents"] = sums.worst_linear_cents;
    json["agrees"] = agrees;
    return json;
}

}  // namespace

Answer builds_answer(const SpreadTask& task, long from, long to, std::uint64_t seed,
                     const std::string& before) {
    if (!(from >= 0))
        return {Json(), {violation(Code::too_small, "from", static_cast<double>(from), 0.0)}};
    if (!(to > from))
        return {Json(),
                {violation(Code::too_small, "to", static_cast<double>(to),
                           static_cast<double>(from + 1))}};
    if (!(to <= kMostBuilds))
        return {Json(),
                {violation(Code::too_large, "to", static_cast<double>(to),
                           static_cast<double>(kMostBuilds))}};
    BuildSums sums;
    if (!before.empty()) {
        const ParsedJson parsed = parse_json(before);
        if (!parsed.violations.empty() || !read_sums(parsed.tree, task.open.size(), sums))
            return {Json(), {violation(Code::wrong_type, "before")}};
    }
    const Spread linear = linear_spread(task);
    sums.add(run_builds(task, linear, from, to, seed));
    Json json = Json::object();
    json["monte_carlo"] = monte_carlo_json(task, linear, sums, seed);
    json["sums"] = sums_json(sums);
    return {std::move(json), {}};
}

}  // namespace canewright
