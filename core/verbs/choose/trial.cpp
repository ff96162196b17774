// core/verbs/choose/trial.cpp -- a wish on the bare tube: laid out, judged, and as JSON.
#include "core/verbs/choose/trial.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <utility>

#include "core/base/units.hpp"
#include "core/document/asked.hpp"
#include "core/document/typed.hpp"
#include "core/flute/resonance.hpp"
#include "core/music/pitch_name.hpp"
#include "core/verbs/voice/voice_parts.hpp"

namespace canewright {

namespace {

ScaleEntry entry(const Scale& scale) {
    ScaleEntry asked;
    if (scale.name.empty())
        asked.step_cents = scale.step_cents;
    else
        asked.name = scale.name;
    return asked;
}

// As its key in the document has it.
Json scale_json(const Scale& scale) {
    if (!scale.name.empty()) return scale.name;
    Json json = Json::object();
    json["cents"] = scale.step_cents;
    return json;
}

double in_answer(const Merit& merit, double number) {
    return merit.in_lengths ? typed_mm(number) : number;
}

}  // namespace

Json wish_json(const Wish& wish) {
    Json json = Json::object();
    json["lowest"] = note_name(wish.note);
    json["scale"] = scale_json(*wish.scale);
    json["holes"] = wish.holes;
    return json;
}

Json choice_json(const Carried& choice) {
    Json json = wish_json(choice.wish);
    json["score"] = std::round(choice.score);
    json["reasons"] = Json::array();
    for (const Merit& merit : choice.merits) {
        Json reason = Json::object();
        reason["code"] = merit.code;
        reason["value"] = number_json(in_answer(merit, merit.value));
        reason["limit"] = number_json(in_answer(merit, merit.limit));
        reason["ok"] = merit.lack < kSlightLack;
        json["reasons"].push_back(std::move(reason));
    }
    const Flute& flute = choice.laid.plan.flute;
    Json layout = Json::object();
    layout["foot_mm"] = typed_mm(flute.foot_m);
    layout["finger_holes"] = Json::array();
    for (const FingerHole& hole : flute.holes) {
        Json one = Json::object();
        one["at_mm"] = typed_mm(hole.at_m);
        one["diameter_mm"] = typed_mm(hole.diameter_m);
        layout["finger_holes"].push_back(std::move(one));
    }
    layout["worst_cents"] = number_json(choice.laid.plan.worst_cents);
    json["layout"] = std::move(layout);
    return json;
}

Json verdict_json(const WishVerdict& verdict) {
    using Outcome = WishVerdict::Outcome;
    Json json = Json::object();
    json["wish"] = verdict.wish;
    const char* const key = verdict.outcome == Outcome::carried  ? "score"
                            : verdict.outcome == Outcome::limits ? "worst_cents"
                                                                 : "bores";
    json[key] = number_json(verdict.value);
    if (verdict.outcome == Outcome::carried) json["foot_mm"] = verdict.foot_mm;
    return json;
}

Trial::Trial(const Document& document)
    : tube(bare_tube(document)),
      whole(flute_of(tube)),
      air(bore_air(tube)),
      own_scale(asked_scale(document)),
      own_holes(asked_holes(document).value_or(0)) {
    const Resonance lowest = resonance(whole, air, {}, 1);
    whole_Hz = lowest.converged ? lowest.frequency_Hz : 0.0;
    const SongEntry song = tube.song.value_or(SongEntry{});
    a4_Hz = song.a4_Hz.value_or(kDefaultA4_Hz);
    tolerance_cents = song.tolerance_cents.value_or(kDefaultTolerance_cents);
    if (whole_Hz > 0.0) grid = wishes(whole_Hz, a4_Hz);
    if (!own_scale || own_holes <= 0 || grid.empty()) return;
    const auto same = [this](const Wish& wish) { return is_own(wish); };
    if (!own_scale->name.empty() && std::any_of(grid.begin(), grid.end(), same)) return;
    const int first = grid.front().note, last = grid.back().note;
    for (int note = first; note <= last; ++note) grid.push_back({note, &*own_scale, own_holes});
}

bool Trial::is_own(const Wish& wish) const {
    return own_scale && wish.holes == own_holes && wish.scale->name == own_scale->name &&
           wish.scale->step_cents == own_scale->step_cents;
}

double Trial::bores(const Wish& wish) const {
    return bores_near(whole, air, whole_Hz, note_Hz(wish.note, a4_Hz));
}

std::vector<std::size_t> Trial::order() const {
    const double middle = std::log(std::sqrt(kShortest_bores * kLongest_bores));
    std::vector<std::pair<double, std::size_t>> by;
    for (std::size_t i = 0; i < grid.size(); ++i) {
        const double long_by = bores(grid[i]);
        by.push_back({long_by > 0.0 ? std::abs(std::log(long_by) - middle) : kNoLimit, i});
    }
    std::sort(by.begin(), by.end());
    std::vector<std::size_t> numbers;
    for (const auto& each : by) numbers.push_back(each.second);
    return numbers;
}

Carried Trial::laid(std::size_t number, bool carried_only) const {
    const Wish& wish = grid[number];
    Carried one{
        wish, with_song(tube, note_name(wish.note), entry(*wish.scale), wish.holes), {}, {}, 0.0};
    one.laid = laid_out(one.document, carried_only);
    if (!one.laid.carried()) return one;
    one.merits = merits(one.laid.task, one.laid.plan, one.laid.air);
    one.score = score(one.merits);
    return one;
}

WishVerdict Trial::verdict(std::size_t number) const {
    const double long_by = bores(grid[number]);
    if (long_by < kLeast_bores) return {number, WishVerdict::Outcome::too_short, long_by, 0.0};
    const Carried one = laid(number, true);
    if (!one.laid.carried())
        return {number, WishVerdict::Outcome::limits, one.laid.plan.worst_cents, 0.0};
    return {number, WishVerdict::Outcome::carried, one.score, typed_mm(one.laid.plan.flute.foot_m)};
}

void add_breath(std::vector<Carried>& choices) {
    for (Carried& choice : choices) {
        Document alone = choice.document;
        alone.foot_m = choice.laid.plan.flute.foot_m;
        alone.song.reset();
        const BlownCase blown = blown_case(played_document(alone), {false, false});
        const Regime& lowest = blown.one.lowest.regimes[0];
        if (!blown.one.mapped || !(lowest.at_pitch_Pa > 0.0)) continue;
        choice.merits.push_back(breath_merit(lowest.at_pitch_Pa));
        choice.score = score(choice.merits);
    }
}

void order_by_score(std::vector<Carried>& choices) {
    std::stable_sort(choices.begin(), choices.end(),
                     [](const Carried& a, const Carried& b) { return a.score > b.score; });
}

}  // namespace canewright
