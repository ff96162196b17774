// tools/cli/hand_words.cpp -- the sentences of the command; the page has its own.
#include "tools/cli/hand_words.hpp"

#include <cmath>
#include <cstdio>
#include <nlohmann/json.hpp>

namespace canewright {

namespace {

using Json = nlohmann::json;

struct Words {
    const char* unknown;
    const char *more, *less, *same;  // of a mean above 0, below, not told from it
    double scale;                    // to what is printed
    const char* unit;
    const char* thing;
};

constexpr Words kWords[] = {
    {"sound_hole", "your voices act %.1f %% longer than measured",
     "your voices act %.1f %% shorter than measured", "your voices act as measured", 100.0, "%",
     "voice"},
    {"sound_speed", "the air in your flutes is %.1f %% faster than expected",
     "the air in your flutes is %.1f %% slower than expected",
     "the air in your flutes is as expected", 100.0, "%", "air"},
    {"holes", "your finger holes act %.1f %% wider than measured",
     "your finger holes act %.1f %% narrower than measured", "your finger holes act as measured",
     100.0, "%", "holes"},
    // compared with no lift at all, which nobody expects: always said
    {"drift", "your breath lifts high notes by %.1f cents an octave",
     "your breath lowers high notes by %.1f cents an octave", nullptr, 1.0, "cents", "breath"},
};

const Words* words_of(const Json& unknown) {
    for (const Words& words : kWords)
        if (unknown == words.unknown) return &words;
    return nullptr;
}

std::string written(const char* form, double value) {
    char text[120];
    std::snprintf(text, sizeof text, form, value);
    return text;
}

}  // namespace

std::string hand_words(const std::string& answer) {
    const Json json = Json::parse(answer, nullptr, false).value("answer", Json::object());
    std::string all;
    for (std::size_t n = 0; n < json["unknowns"].size(); ++n) {
        const Words* words = words_of(json["unknowns"][n]);
        if (!words) continue;
        const double mean = json["mean"][n], between = json["between"][n][n],
                     unsure = json["covariance"][n][n];
        const bool told = std::abs(mean) > std::sqrt(unsure);
        const char* form = !told && words->same ? words->same
                           : mean > 0.0         ? words->more
                                                : words->less;
        all += written(form, words->scale * std::abs(mean)) + ", give or take " +
               written("%.1f ", words->scale * std::sqrt(between)) + words->unit +
               " from flute to flute\n";
    }
    if (json.contains("burn")) {
        const Json& burn = json["burn"];
        const double mean_mm = burn["mean_mm"], between_mm = burn["between_mm"];
        all += "your holes come out " + written("%.1f mm ", std::abs(mean_mm)) +
               (mean_mm < 0.0 ? "narrower" : "wider") + " than their drill or rod, give or take " +
               written("%.1f mm", between_mm) + " from flute to flute\n";
    }
    for (const Json& odd : json["odd"]) {
        const Words* words = words_of(odd["unknown"]);
        const bool certain = odd["named"].get<bool>();
        all += "\"" + odd["of"].get<std::string>() + "\" " + (certain ? "is" : "may be") +
               " unlike the others in its " + words->thing +
               (certain ? "; it hardly counts\n" : "; measure it again\n");
    }
    for (const Json& change : json["changed"])
        all += "from flute " + std::to_string(change["after"].get<int>() + 1) + " on your " +
               words_of(change["unknown"])->thing +
               " changed; leave the earlier ones out if you make them so no more\n";
    return all;
}

bool is_question(const std::string& text) {
    const Json json = Json::parse(text, nullptr, false);
    return json.is_object() && json.contains("documents");
}

}  // namespace canewright
