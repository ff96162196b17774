// core/verbs/choose/mends.cpp -- tries each limit a little further out, and the song a little
// smaller.
#include "core/verbs/choose/mends.hpp"

#include <algorithm>
#include <cmath>
#include <set>
#include <string>

#include "core/base/units.hpp"
#include "core/choose/drills.hpp"
#include "core/choose/grid.hpp"
#include "core/choose/reach.hpp"
#include "core/document/asked.hpp"
#include "core/document/limits.hpp"
#include "core/document/typed.hpp"
#include "core/layout/place_holes.hpp"
#include "core/layout/thorough.hpp"
#include "core/music/pitch_name.hpp"
#include "core/task/replay.hpp"
#include "core/verbs/choose/suits.hpp"
#include "core/verbs/taught.hpp"

namespace canewright {

namespace {

// Of two mends the nearer to the notes comes first, where they differ by more than can be heard.
constexpr double kAsGood_cents = 0.5;
// Farther off than this a note is nearer to another: such a flute nobody makes.
constexpr double kNoUse_cents = 50.0;
// How far a limit is moved, step by step.
constexpr double kSpacingSteps_mm[] = {1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15, 16};
constexpr double kSizeSteps_mm[] = {0.5, 1, 1.5, 2, 2.5, 3, 4};
constexpr double kHair_mm = 1e-9;  // of rounding
// How far beyond those that are owned one more bit is sought, where no size is the limit.
constexpr double kSmaller_m = 0.001, kLarger_m = 0.002;

struct Mend {
    Json json;
    double worst_cents = kNoLimit;
};

class Mending {
   public:
    Mending(const Document& document, double worst_cents)
        : document_(document), worst_cents_(worst_cents) {}

    // Takes a change for the best so far where it is; whether no further one is needed. `changed`
    // is a permitted document: limits move outwards within the format's ranges.
    bool consider(Mend& best, const char* code, const Document& changed, Json set, const char* key,
                  Json amount) const {
        const LaidOut with = laid_out(changed);
        if (!with.plan.room || !(with.plan.worst_cents < best.worst_cents)) return false;
        best.worst_cents = with.plan.worst_cents;
        Json json = Json::object();
        json["code"] = code;
        json["set"] = std::move(set);
        json[key] = std::move(amount);
        json["worst_cents"] = number_json(with.plan.worst_cents);
        json["gains_cents"] = number_json(worst_cents_ - with.plan.worst_cents);
        json["in_tune"] = in_tune(with.plan.worst_cents);
        best.json = std::move(json);
        return in_tune(best.worst_cents);
    }
    bool in_tune(double worst_cents) const { return worst_cents <= tolerance(); }
    double tolerance() const {
        return document_.song->tolerance_cents.value_or(kDefaultTolerance_cents);
    }
    const Document& document() const { return document_; }

   private:
    const Document& document_;
    double worst_cents_;
};

Json set_one(const char* path, Json value) {
    Json one = Json::object();
    one["path"] = path;
    one["value"] = std::move(value);
    Json all = Json::array();
    all.push_back(std::move(one));
    return all;
}

ShopEntry shop_of(const Document& document) { return document.shop.value_or(ShopEntry{}); }

using EndOf = std::optional<double> SpanEntry::*;
using SpanOf = std::optional<SpanEntry> ShopEntry::*;

// One limit of the shop moved outwards, whole or half millimetres at a time, as far as a hand goes
// (`reach_mm`); where the maker's own goes farther, that hand is another.
template <std::size_t count>
Mend moved(const Mending& mending, const char* code, const char* path, SpanOf span, EndOf end,
           const double (&steps_mm)[count], double sign, double reach_mm, const Range& range) {
    Mend best;
    const ShopEntry shop = shop_of(mending.document());
    const SpanEntry given = (shop.*span).value_or(SpanEntry{});
    if (!(given.*end)) return best;
    const double unit_mm = steps_mm[0];
    const double from_mm = typed_mm(*(given.*end));
    for (const double step_mm : steps_mm) {
        const double raw = (from_mm + sign * step_mm) / unit_mm;
        const double to_mm = unit_mm * (sign > 0 ? std::floor(raw + 1e-9) : std::ceil(raw - 1e-9));
        if (!(to_mm >= range.min) || to_mm > range.max) break;
        if (sign * (to_mm - reach_mm) > kHair_mm) break;
        Document changed = mending.document();
        SpanEntry wider = given;
        wider.*end = m_from_mm(to_mm);
        ShopEntry with = shop;
        with.*span = wider;
        changed.shop = with;
        if (mending.consider(best, code, changed, set_one(path, to_mm), "amount_mm", to_mm)) break;
    }
    return best;
}

Json bit_json(const Drill& bit) {
    Json json = Json::object();
    json["mm"] = typed_mm(bit.diameter_m);
    if (!bit.label.empty()) json["label"] = bit.label;
    return json;
}

// One more bit: each that could be bought between the maker's limits and is not owned nearly.
Mend one_more_bit(const Mending& mending) {
    Mend best;
    const ShopEntry shop = shop_of(mending.document());
    if (!shop.bits || shop.bits->empty() || shop.bits->size() >= limit::kBits) return best;
    const SpanEntry diameter = shop.diameter.value_or(SpanEntry{});
    double least_m = kNoLimit, most_m = 0.0;
    std::vector<Drill> owned;
    Json owned_json = Json::array();
    for (const BitEntry& bit : *shop.bits) {
        least_m = std::min(least_m, bit.diameter_m);
        most_m = std::max(most_m, bit.diameter_m);
        owned.push_back({bit.diameter_m, bit.label.value_or("")});
        owned_json.push_back(bit_json(owned.back()));
    }
    const double from_m =
        std::max(diameter.min_m.value_or(least_m - kSmaller_m), m_from_mm(limit::kHole_mm.min));
    std::vector<Drill> offer =
        drills_on_offer(owned, from_m, diameter.max_m.value_or(most_m + kLarger_m));
    // Of several that would do, the one nearest to what holes are where nothing limits them.
    const double usual_m = kUsualHole * bore_diameter_m(flute_of(mending.document()), 0.0);
    std::stable_sort(offer.begin(), offer.end(), [usual_m](const Drill& a, const Drill& b) {
        return std::abs(a.diameter_m - usual_m) < std::abs(b.diameter_m - usual_m);
    });
    for (const Drill& bit : offer) {
        Document changed = mending.document();
        ShopEntry with = shop;
        with.bits->push_back({bit.diameter_m, {}});
        changed.shop = with;
        Json all = owned_json;
        all.push_back(bit_json(bit));
        const double before_cents = best.worst_cents;
        const bool done =
            mending.consider(best, "one_more_bit", changed, set_one("shop.bits", std::move(all)),
                             "amount_mm", typed_mm(bit.diameter_m));
        if (best.worst_cents < before_cents && !bit.label.empty()) best.json["label"] = bit.label;
        if (done) break;
    }
    return best;
}

// As an absent key is taken.
Json layout_hands(int holes) {
    Json json = Json::array();
    json.push_back(holes / 2);
    json.push_back(holes - holes / 2);
    return json;
}

// The same song from the lowest higher note that is in tune; of others there is no end.
Mend higher_lowest(const Mending& mending) {
    Mend best;
    const Document& document = mending.document();
    const double a4_Hz = document.song->a4_Hz.value_or(kDefaultA4_Hz);
    for (const NoteTarget& note : song_notes(document)) {
        if (!note.open.empty()) continue;
        const NearestNote nearest = nearest_note(note.target_Hz, a4_Hz);
        for (int up = 1; nearest.ok && up <= kGridSpan; ++up) {
            if (nearest.note + up > kHighestNote) break;
            const std::string name = note_name(nearest.note + up);
            Document changed = document;
            changed.song->lowest = LowestEntry{name, {}, false};
            if (mending.consider(best, "higher_lowest", changed, set_one("song.lowest", name),
                                 "lowest", name))
                return best;
        }
    }
    return {};
}

// The lower part of the same scale.
Mend fewer_holes(const Mending& mending) {
    Mend best;
    const Document& document = mending.document();
    const int holes = asked_holes(document).value_or(0);
    const bool fixed = document.finger_holes || document.song->fingerings;
    // A scale of the maker's own is asked for step by step.
    if (fixed || !document.song->scale->name) return best;
    for (int fewer = holes - 1; fewer >= std::max(1, holes - 2); --fewer) {
        const Document changed = with_song(document, document.song->lowest->note.value_or(""),
                                           *document.song->scale, fewer);
        if (!document.song->lowest->note) break;
        Json set = set_one("song.holes", fewer);
        if (document.shop && document.shop->hands && !changed.shop->hands)
            set.push_back(set_one("shop.hands", layout_hands(fewer))[0]);
        if (mending.consider(best, "fewer_holes", changed, set, "holes", fewer)) break;
    }
    return best;
}

}  // namespace

Json mends_answer(const Document& document) {
    Json json = Json::object();
    json["worst_cents"] = nullptr;
    json["heard"] = is_taught(document) || has_log(document);
    json["mends"] = Json::array();
    if (json["heard"] == true) return json;
    const LayoutTask task = thorough(layout_task(document));
    const LayoutResult plan = place_holes(task, bore_air(document));
    json["worst_cents"] = number_json(plan.worst_cents);

    std::set<Limit> kinds;
    for (const Binding& binding : plan.binding) kinds.insert(binding.limit);
    if (!plan.room || !std::isfinite(plan.worst_cents)) kinds.insert(Limit::tube_end);
    const Mending mending(document, plan.worst_cents);
    const auto binds = [&](Limit limit) { return kinds.count(limit) > 0; };
    // What the hands to begin with allow, of the smallest and of the largest.
    const HandSize &small = hand_sizes().front(), &large = hand_sizes().back();
    const HandLimits least = limits_of_hand(small.span_m, small.pad_m);
    const HandLimits most = limits_of_hand(large.span_m, large.pad_m);
    std::vector<Mend> mends;
    if (binds(Limit::spacing_max))
        mends.push_back(moved(mending, "wider_spacing", "shop.spacing_mm.max", &ShopEntry::spacing,
                              &SpanEntry::max_m, kSpacingSteps_mm, 1.0, mm_from_m(most.apart_max_m),
                              limit::kSpacing_mm));
    if (binds(Limit::spacing_min))
        mends.push_back(moved(mending, "closer_spacing", "shop.spacing_mm.min", &ShopEntry::spacing,
                              &SpanEntry::min_m, kSpacingSteps_mm, -1.0,
                              mm_from_m(least.apart_min_m), limit::kSpacing_mm));
    if (binds(Limit::diameter_max))
        mends.push_back(moved(mending, "larger_holes", "shop.diameter_mm.max", &ShopEntry::diameter,
                              &SpanEntry::max_m, kSizeSteps_mm, 1.0, mm_from_m(most.hole_max_m),
                              limit::kHole_mm));
    if (binds(Limit::diameter_min))
        mends.push_back(moved(mending, "smaller_holes", "shop.diameter_mm.min",
                              &ShopEntry::diameter, &SpanEntry::min_m, kSizeSteps_mm, -1.0,
                              mm_from_m(kLeastDrill_m), limit::kHole_mm));
    if (binds(Limit::bits)) mends.push_back(one_more_bit(mending));
    if (!kinds.empty() && !(kinds.size() == 1 && binds(Limit::fingerings))) {
        if (!document.finger_holes) mends.push_back(higher_lowest(mending));
        mends.push_back(fewer_holes(mending));
    }
    std::stable_sort(mends.begin(), mends.end(), [](const Mend& a, const Mend& b) {
        return a.worst_cents < b.worst_cents - kAsGood_cents;
    });
    for (Mend& mend : mends) {
        const bool gains = !(plan.worst_cents - mend.worst_cents < kWorthTelling_cents);
        if (mend.json.is_object() && gains && mend.worst_cents <= kNoUse_cents)
            json["mends"].push_back(std::move(mend.json));
    }
    return json;
}

}  // namespace canewright
