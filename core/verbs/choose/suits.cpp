// core/verbs/choose/suits.cpp -- tries the grid of wishes on the bare tube, ranks what it carries.
#include "core/verbs/choose/suits.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>
#include <utility>

#include "core/base/units.hpp"
#include "core/document/fields.hpp"
#include "core/layout/thorough.hpp"
#include "core/music/pitch_name.hpp"
#include "core/task/replay.hpp"
#include "core/verbs/choose/trial.hpp"

namespace canewright {

namespace {

constexpr double kNoNumber = std::numeric_limits<double>::quiet_NaN();

// The document's own wish: whether the tube reaches it, and the lowest notes that it carries.
Json own_json(const Document& document, const Trial& trial,
              const std::vector<WishVerdict>& carried) {
    double wanted_Hz = 0.0;
    for (const NoteTarget& note : song_notes(document))
        if (note.open.empty()) wanted_Hz = note.target_Hz;
    if (!(wanted_Hz > 0.0)) return nullptr;
    Json json = Json::object();
    json["reached"] = cents_between(trial.whole_Hz, wanted_Hz) <= trial.tolerance_cents;
    std::vector<std::pair<double, const WishVerdict*>> near;
    for (const WishVerdict& each : carried) {
        const Wish& wish = trial.grid[each.wish];
        if (trial.is_own(wish))
            near.push_back(
                {std::abs(cents_between(note_Hz(wish.note, trial.a4_Hz), wanted_Hz)), &each});
    }
    std::stable_sort(near.begin(), near.end(),
                     [](const auto& a, const auto& b) { return a.first < b.first; });
    json["nearest"] = Json::array();
    for (std::size_t i = 0; i < std::min(near.size(), kMostNearest); ++i) {
        Json one = Json::object();
        one["lowest"] = note_name(trial.grid[near[i].second->wish].note);
        one["foot_mm"] = near[i].second->foot_mm;
        json["nearest"].push_back(std::move(one));
    }
    return json;
}

Json refused_json(const Trial& trial, const WishVerdict& verdict) {
    Json json = wish_json(trial.grid[verdict.wish]);
    json["code"] = "limits";
    json["value"] = number_json(verdict.value);
    json["limit"] = trial.tolerance_cents;
    return json;
}

// Whether the tube would be worth it for other hands, with any bit: of the likeliest wishes.
bool good_without_shop(const Document& document) {
    Document other = document;
    if (other.shop) {
        other.shop->bits.reset();
        other.shop->spacing.reset();
        other.shop->diameter.reset();
    }
    const Trial trial(other);
    const std::vector<std::size_t> order = trial.order();
    for (std::size_t i = 0; i < std::min(order.size(), kMostOthers); ++i)
        if (trial.bores(trial.grid[order[i]]) >= kLeast_bores &&
            trial.laid(order[i], true).score >= kWorthIt)
            return true;
    return false;
}

// Verdicts as verdict_json() has them: each of the grid, once, in any order.
std::vector<WishVerdict> read_verdicts(const Json& tried, std::size_t count) {
    std::vector<WishVerdict> verdicts(count, {count, WishVerdict::Outcome::limits, 0.0, 0.0});
    if (!tried.is_array() || tried.size() != count) return {};
    const auto number = [](const Json& one, const char* key) {
        return one[key].is_number() ? one[key].get<double>() : kNoNumber;
    };
    for (const Json& one : tried) {
        if (!one.is_object() || !one.contains("wish") || !one["wish"].is_number_unsigned())
            return {};
        const auto wish = one["wish"].get<std::size_t>();
        if (wish >= count || verdicts[wish].wish == wish) return {};
        using Outcome = WishVerdict::Outcome;
        if (one.contains("score") && one.contains("foot_mm"))
            verdicts[wish] = {wish, Outcome::carried, number(one, "score"), number(one, "foot_mm")};
        else if (one.contains("worst_cents"))
            verdicts[wish] = {wish, Outcome::limits, number(one, "worst_cents"), 0.0};
        else if (one.contains("bores"))
            verdicts[wish] = {wish, Outcome::too_short, number(one, "bores"), 0.0};
        else
            return {};
    }
    return verdicts;
}

// The answer, from what came of each wish; in the grid's order.
Answer told(const Document& document, const Trial& trial,
            const std::vector<WishVerdict>& verdicts) {
    Json json = Json::object();
    json["refused"] = Json::array();
    std::vector<WishVerdict> carried;
    int not_tried = 0;
    for (const WishVerdict& verdict : verdicts) {
        if (verdict.outcome == WishVerdict::Outcome::carried)
            carried.push_back(verdict);
        else if (verdict.outcome == WishVerdict::Outcome::limits)
            json["refused"].push_back(refused_json(trial, verdict));
        else
            ++not_tried;
    }
    json["not_tried"] = not_tried;
    json["wish"] = own_json(document, trial, carried);
    json["carries"] = carried.size();
    std::stable_sort(carried.begin(), carried.end(),
                     [](const WishVerdict& a, const WishVerdict& b) { return a.value > b.value; });
    // The shortlist in full, as anyone else would lay it out.
    std::vector<Carried> best;
    for (std::size_t i = 0; i < carried.size() && best.size() < kMostChoices; ++i) {
        Carried one = trial.laid(carried[i].wish, false);
        if (one.laid.carried()) best.push_back(std::move(one));
    }
    add_breath(best);
    order_by_score(best);
    const bool worth = !best.empty() && best.front().score >= kWorthIt;
    json["worth"] = worth;
    const bool limits =
        document.shop && (document.shop->bits || document.shop->spacing || document.shop->diameter);
    json["without_shop"] = !worth && limits && good_without_shop(document);
    json["instead"] =
        worth ? Json(nullptr) : instead_json(trial.tube, trial.air, trial.whole_Hz, trial.a4_Hz);
    json["choices"] = Json::array();
    for (const Carried& choice : best) json["choices"].push_back(choice_json(choice));
    json["reaches"] = nullptr;
    if (trial.whole_Hz > 0.0) {
        json["reaches"] = Json::object();
        json["reaches"]["hz"] = trial.whole_Hz;
        json["reaches"]["lowest"] =
            trial.grid.empty() ? Json(nullptr) : Json(note_name(trial.grid.front().note));
    }
    double wanted_Hz = 0.0;
    for (const NoteTarget& note : song_notes(document))
        if (note.open.empty()) wanted_Hz = note.target_Hz;
    json["look_for"] = wanted_Hz > 0.0 ? look_for_json(trial.tube, wanted_Hz) : Json(nullptr);
    return {std::move(json), {}};
}

double mean_bore_m(const Flute& flute, double foot_m) {
    return 0.5 * (bore_diameter_m(flute, 0.0) + bore_diameter_m(flute, foot_m));
}

}  // namespace

double bores_near(const Flute& flute, const Air& air, double whole_Hz, double lowest_Hz) {
    const double foot_m =
        flute.foot_m + 0.5 * air.sound_speed_m_s * (1.0 / lowest_Hz - 1.0 / whole_Hz);
    return foot_m / mean_bore_m(flute, std::max(foot_m, 0.0));
}

Document bare_tube(const Document& document) {
    Document tube = replay(document).document;
    tube.log.reset();
    tube.finger_holes.reset();
    tube.notes.reset();
    tube.foot_m.reset();
    tube.sounds_as.reset();
    tube.pattern.clear();
    return tube;
}

Document with_song(const Document& tube, const std::string& lowest, const ScaleEntry& scale,
                   int holes) {
    Document document = tube;
    SongEntry song = tube.song.value_or(SongEntry{});
    song.lowest = LowestEntry{lowest, {}, false};
    song.scale = scale;
    song.holes = holes;
    song.fingerings.reset();
    document.song = song;
    if (document.shop && document.shop->hands) {
        const std::vector<int>& hands = *document.shop->hands;
        if (std::accumulate(hands.begin(), hands.end(), 0) != holes) document.shop->hands.reset();
    }
    return document;
}

LaidOut laid_out(const Document& document, bool carried_only) {
    LaidOut result{thorough(layout_task(document)), {}, bore_air(document)};
    result.task.met_only = carried_only;
    result.plan = place_holes(result.task, result.air, Explain::no);
    return result;
}

Answer suits_answer(const Document& document) {
    const Trial trial(document);
    std::vector<WishVerdict> verdicts;
    for (std::size_t i = 0; i < trial.grid.size(); ++i) verdicts.push_back(trial.verdict(i));
    return told(document, trial, verdicts);
}

Answer suits_part_answer(const Document& document, const Json& asked) {
    constexpr Range kPlaces{0, 100000};
    Faults faults;
    Fields fields(asked, "", faults);
    const int from = static_cast<int>(fields.needed("from", kPlaces));
    const int to = static_cast<int>(fields.needed("to", kPlaces));
    if (faults.count() > 0) return {{}, faults.all()};
    const Trial trial(document);
    const std::vector<std::size_t> order = trial.order();
    Json json = Json::object();
    json["of"] = order.size();
    json["tried"] = Json::array();
    std::optional<WishVerdict> best;
    for (auto i = static_cast<std::size_t>(from);
         i < std::min(static_cast<std::size_t>(to), order.size()); ++i) {
        const WishVerdict verdict = trial.verdict(order[i]);
        json["tried"].push_back(verdict_json(verdict));
        if (verdict.outcome == WishVerdict::Outcome::carried &&
            (!best || verdict.value > best->value))
            best = verdict;
    }
    json["best"] = nullptr;
    if (best) {
        const Carried one = trial.laid(best->wish, false);
        if (one.laid.carried()) json["best"] = choice_json(one);
    }
    return {std::move(json), {}};
}

Answer suits_of_answer(const Document& document, const Json& asked) {
    const Trial trial(document);
    const auto tried = asked.find("tried");
    if (tried == asked.end()) return {{}, {violation_of_text(Code::missing, "tried", "")}};
    const std::vector<WishVerdict> verdicts = read_verdicts(*tried, trial.grid.size());
    if (verdicts.size() != trial.grid.size())
        return {{}, {violation_of_text(Code::wrong_type, "tried", "")}};
    return told(document, trial, verdicts);
}

}  // namespace canewright
