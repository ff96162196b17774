// core/task/layout_task.cpp -- the document made into what the verb `layout` solves.
#include <algorithm>

#include "core/document/asked.hpp"
#include "core/task/replay.hpp"
#include "core/task/task.hpp"

namespace canewright {

namespace {

// The upper hand takes half of the holes, the lower one the rest. Common practice, no source.
std::vector<int> default_hands(int holes) { return {holes / 2, holes - holes / 2}; }

Shop shop_of(const Document& document, int holes) {
    const ShopEntry given = document.shop.value_or(ShopEntry{});
    Shop shop;
    for (const BitEntry& bit : given.bits.value_or(std::vector<BitEntry>())) {
        shop.bits_m.push_back(bit.diameter_m);
    }
    std::sort(shop.bits_m.begin(), shop.bits_m.end());
    shop.bits_m.erase(std::unique(shop.bits_m.begin(), shop.bits_m.end()), shop.bits_m.end());
    const SpanEntry diameter = given.diameter.value_or(SpanEntry{});
    shop.diameter_min_m = diameter.min_m.value_or(shop.diameter_min_m);
    shop.diameter_max_m = diameter.max_m.value_or(shop.diameter_max_m);
    const SpanEntry spacing = given.spacing.value_or(SpanEntry{});
    shop.spacing_min_m = spacing.min_m.value_or(shop.spacing_min_m);
    shop.own_width_apart = !spacing.min_m;
    shop.spacing_max_m = spacing.max_m.value_or(shop.spacing_max_m);
    shop.hands = given.hands.value_or(default_hands(holes));
    return shop;
}

}  // namespace

LayoutTask layout_task(const Document& document) {
    const Standing standing = replay(document);
    const Document& now = standing.document;
    LayoutTask task;
    task.flute = flute_of(now);
    task.notes = song_notes(document);
    task.hole_count = asked_holes(document).value_or(0);
    // A plan of another number of holes is no start; missing_for() has seen that none is fixed.
    if (static_cast<int>(task.flute.holes.size()) == task.hole_count) {
        task.cut_diameter_m = standing.cut_diameter_m;
    } else {
        task.flute.holes.clear();
    }
    task.lowest_free = document.song && document.song->lowest && document.song->lowest->is_free;
    task.foot_fixed = task.lowest_free;
    task.end_m = now.tube->end_m.value_or(0.0);
    // In a build the foot is where it was sawn; in a plan the maker may have said where it will be.
    if (task.lowest_free && has_log(document)) task.flute.foot_m = task.end_m;
    task.flute.foot_m = std::min(task.flute.foot_m, task.end_m);
    if (document.song) {
        task.breath = document.song->breath.value_or(task.breath);
        task.lift_cents = document.song->lift_cents.value_or(task.lift_cents);
        task.octaves_weight = document.song->octaves_weight.value_or(task.octaves_weight);
    }
    task.shop = shop_of(document, task.hole_count);
    return task;
}

}  // namespace canewright
