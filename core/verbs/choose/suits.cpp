// core/verbs/choose/suits.cpp -- tries the grid of wishes on the bare tube, ranks what it carries.
#include "core/verbs/choose/suits.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <utility>

#include "core/base/units.hpp"
#include "core/choose/grid.hpp"
#include "core/document/asked.hpp"
#include "core/document/typed.hpp"
#include "core/flute/resonance.hpp"
#include "core/music/pitch_name.hpp"
#include "core/task/replay.hpp"
#include "core/verbs/voice/voice_parts.hpp"

namespace canewright {

namespace {

// A wish that is carried.
struct Carried {
    Wish wish;
    Document document;
    LaidOut laid;
    std::vector<Merit> merits;
    double score = 0.0;
};

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

Json wish_json(const Wish& wish) {
    Json json = Json::object();
    json["lowest"] = note_name(wish.note);
    json["scale"] = scale_json(*wish.scale);
    json["holes"] = wish.holes;
    return json;
}

double in_answer(const Merit& merit, double number) {
    return merit.in_lengths ? typed_mm(number) : number;
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
        reason["ok"] = merit.lack == 0.0;
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

Json refused_json(const Wish& wish, const char* code, double value, double limit) {
    Json json = wish_json(wish);
    json["code"] = code;
    json["value"] = number_json(value);
    json["limit"] = limit;
    return json;
}

double mean_bore_m(const Flute& flute, double foot_m) {
    return 0.5 * (bore_diameter_m(flute, 0.0) + bore_diameter_m(flute, foot_m));
}

// A wish on the bare tube, with its merits where it is carried.
Carried laid_wish(const Document& tube, const Wish& wish) {
    Carried one{
        wish, with_song(tube, note_name(wish.note), entry(*wish.scale), wish.holes), {}, {}, 0.0};
    one.laid = laid_out(one.document, true);
    if (!one.laid.carried()) return one;
    one.merits = merits(one.laid.task, one.laid.plan, one.laid.air);
    one.score = score(one.merits);
    return one;
}

// The breath of the lowest note, and the order that it leaves.
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

void order(std::vector<Carried>& choices) {
    std::stable_sort(choices.begin(), choices.end(),
                     [](const Carried& a, const Carried& b) { return a.score > b.score; });
}

// The document's own wish: whether the tube reaches it, and the lowest notes that it carries.
Json own_json(const Document& document, double whole_Hz, const std::vector<Carried>& own) {
    double wanted_Hz = 0.0;
    for (const NoteTarget& note : song_notes(document))
        if (note.open.empty()) wanted_Hz = note.target_Hz;
    if (!(wanted_Hz > 0.0)) return nullptr;
    const double tolerance = document.song->tolerance_cents.value_or(kDefaultTolerance_cents);
    Json json = Json::object();
    json["reached"] = cents_between(whole_Hz, wanted_Hz) <= tolerance;
    std::vector<std::pair<double, const Carried*>> near;
    const double a4_Hz = document.song->a4_Hz.value_or(kDefaultA4_Hz);
    for (const Carried& each : own)
        near.push_back({std::abs(cents_between(note_Hz(each.wish.note, a4_Hz), wanted_Hz)), &each});
    std::stable_sort(near.begin(), near.end(),
                     [](const auto& a, const auto& b) { return a.first < b.first; });
    json["nearest"] = Json::array();
    for (std::size_t i = 0; i < std::min(near.size(), kMostNearest); ++i) {
        Json one = Json::object();
        one["lowest"] = note_name(near[i].second->wish.note);
        one["foot_mm"] = typed_mm(near[i].second->laid.plan.flute.foot_m);
        json["nearest"].push_back(std::move(one));
    }
    return json;
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
    LaidOut result{layout_task(document), {}, bore_air(document)};
    result.task.met_only = carried_only;
    result.plan = place_holes(result.task, result.air, Explain::no);
    return result;
}

Answer suits_answer(const Document& document) {
    const Document tube = bare_tube(document);
    const Flute whole = flute_of(tube);
    const Air air = bore_air(tube);
    const Resonance lowest = resonance(whole, air, {}, 1);
    Json json = Json::object();
    const double whole_Hz = lowest.converged ? lowest.frequency_Hz : 0.0;
    const SongEntry song = tube.song.value_or(SongEntry{});
    const double a4_Hz = song.a4_Hz.value_or(kDefaultA4_Hz);
    const double tolerance = song.tolerance_cents.value_or(kDefaultTolerance_cents);

    std::vector<Wish> grid = whole_Hz > 0.0 ? wishes(whole_Hz, a4_Hz) : std::vector<Wish>();
    // The document's own scale and holes, on the same notes.
    const std::optional<Scale> own_scale = asked_scale(document);
    const int own_holes = asked_holes(document).value_or(0);
    if (own_scale && own_holes > 0 && !grid.empty()) {
        const auto is_own = [&](const Wish& wish) {
            return wish.scale->name == own_scale->name && wish.holes == own_holes;
        };
        if (own_scale->name.empty() || std::none_of(grid.begin(), grid.end(), is_own)) {
            const int first = grid.front().note, last = grid.back().note;
            for (int note = first; note <= last; ++note)
                grid.push_back({note, &*own_scale, own_holes});
        }
    }

    std::vector<Carried> all;
    json["refused"] = Json::array();
    for (const Wish& wish : grid) {
        const double bores = bores_near(whole, air, whole_Hz, note_Hz(wish.note, a4_Hz));
        if (bores < kLeast_bores) {
            json["refused"].push_back(refused_json(wish, "too_short", bores, kLeast_bores));
            continue;
        }
        Carried one = laid_wish(tube, wish);
        if (one.laid.carried())
            all.push_back(std::move(one));
        else
            json["refused"].push_back(
                refused_json(wish, "limits", one.laid.plan.worst_cents, tolerance));
    }
    std::vector<Carried> own;
    for (const Carried& each : all)
        if (own_scale && each.wish.holes == own_holes && each.wish.scale->name == own_scale->name &&
            each.wish.scale->step_cents == own_scale->step_cents)
            own.push_back(each);
    json["wish"] = own_json(document, whole_Hz, own);
    json["carries"] = all.size();
    order(all);
    if (all.size() > kMostChoices) all.resize(kMostChoices);
    add_breath(all);
    order(all);
    const bool worth = !all.empty() && all.front().score >= kWorthIt;
    json["worth"] = worth;
    json["instead"] = worth ? Json(nullptr) : instead_json(tube, air, whole_Hz, a4_Hz);
    json["choices"] = Json::array();
    for (const Carried& choice : all) json["choices"].push_back(choice_json(choice));
    json["reaches"] = nullptr;
    if (whole_Hz > 0.0) {
        json["reaches"] = Json::object();
        json["reaches"]["hz"] = whole_Hz;
        json["reaches"]["lowest"] =
            grid.empty() ? Json(nullptr) : Json(note_name(grid.front().note));
    }
    double wanted_Hz = 0.0;
    for (const NoteTarget& note : song_notes(document))
        if (note.open.empty()) wanted_Hz = note.target_Hz;
    json["look_for"] = wanted_Hz > 0.0 ? look_for_json(tube, wanted_Hz) : Json(nullptr);
    return {std::move(json), {}};
}

Answer suits_first_answer(const Document& document) {
    const Document tube = bare_tube(document);
    const Flute whole = flute_of(tube);
    const Air air = bore_air(tube);
    const Resonance lowest = resonance(whole, air, {}, 1);
    const double whole_Hz = lowest.converged ? lowest.frequency_Hz : 0.0;
    const SongEntry song = tube.song.value_or(SongEntry{});
    const double a4_Hz = song.a4_Hz.value_or(kDefaultA4_Hz);
    std::vector<Wish> grid = whole_Hz > 0.0 ? wishes(whole_Hz, a4_Hz) : std::vector<Wish>();
    const double middle = std::log(std::sqrt(kShortest_bores * kLongest_bores));
    const auto off = [&](const Wish& wish) {
        const double bores = bores_near(whole, air, whole_Hz, note_Hz(wish.note, a4_Hz));
        return bores > 0.0 ? std::abs(std::log(bores) - middle) : kNoLimit;
    };
    std::stable_sort(grid.begin(), grid.end(),
                     [&](const Wish& a, const Wish& b) { return off(a) < off(b); });
    std::vector<Carried> best;
    for (std::size_t i = 0; i < std::min(grid.size(), kMostFirst); ++i) {
        if (bores_near(whole, air, whole_Hz, note_Hz(grid[i].note, a4_Hz)) < kLeast_bores) continue;
        Carried one = laid_wish(tube, grid[i]);
        if (!one.laid.carried() || (!best.empty() && one.score <= best[0].score)) continue;
        best.assign(1, std::move(one));
        if (best[0].score >= kGoodFirst) break;
    }
    Json json = Json::object();
    json["choice"] = best.empty() ? Json(nullptr) : choice_json(best[0]);
    return {std::move(json), {}};
}

}  // namespace canewright
