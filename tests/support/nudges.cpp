// tests/support/nudges.cpp: inputs changed by little, and how far the marks went.
#include <cmath>
#include <sstream>

#include "tests/support/properties.hpp"
#include "tests/support/random_documents.hpp"

namespace canewright::testing {

namespace {

// What is nudged, and by how much [mm]. A hole's or a bore's size acts on a place many times over.
struct Input {
    const char* pointer;
    double by_mm;
};
constexpr Input kInputs[] = {{"/tube/end_mm", 0.1},
                             {"/tube/ridge/at_mm", 0.1},
                             {"/tube/ridge/opening_mm", 0.01},
                             {"/tube/bore/0/diameter_mm", 0.01},
                             {"/tube/bore/1/diameter_mm", 0.01},
                             {"/tube/bore/1/at_mm", 0.1},
                             {"/tube/wall_mm", 0.01},
                             {"/tube/outer_mm", 0.01},
                             {"/plug/offset_mm", 0.1},
                             {"/sound_hole/length_mm", 0.01},
                             {"/sound_hole/width_mm", 0.01},
                             {"/sound_hole/wall_mm", 0.01},
                             {"/foot_plug/opening_mm", 0.01},
                             {"/foot_plug/thickness_mm", 0.1},
                             {"/shop/spacing_mm/min", 0.1},
                             {"/shop/spacing_mm/max", 0.1},
                             {"/shop/diameter_mm/min", 0.01},
                             {"/shop/diameter_mm/max", 0.01},
                             {"/foot_mm", 0.1}};

bool own_bits(const Json& document) {
    return document.contains("shop") && document["shop"].contains("bits");
}

}  // namespace

std::vector<Nudge> nudges(const Json& document, double share) {
    std::vector<Nudge> all;
    for (const Input& input : kInputs) {
        const Json::json_pointer pointer(input.pointer);
        if (!document.contains(pointer)) continue;
        for (const double sign : {1.0, -1.0}) {
            const double by_mm = sign * share * input.by_mm;
            Json nudged = document;
            nudged[pointer] = document[pointer].get<double>() + by_mm;
            if (!permitted(nudged)) continue;
            all.push_back({input.pointer, by_mm, std::move(nudged)});
            break;
        }
    }
    return all;
}

double farthest_move_mm(const Json& one, const Json& other, std::string& what) {
    if (!one["converged"].get<bool>() || !other["converged"].get<bool>()) return -1.0;
    double most_mm = 0.0;
    const auto compare = [&](const std::string& mark, const Json& a, const Json& b) {
        const double moved_mm =
            a.is_number() && b.is_number() ? std::abs(a.get<double>() - b.get<double>()) : 0.0;
        if (moved_mm <= most_mm) return;
        most_mm = moved_mm;
        std::ostringstream text;
        text << mark << " from " << a.dump() << " to " << b.dump();
        what = text.str();
    };
    compare("foot", one["foot_mm"], other["foot_mm"]);
    const Json &holes = one["finger_holes"], &moved = other["finger_holes"];
    const bool bits = own_bits(one);
    for (std::size_t i = 0; i < std::min(holes.size(), moved.size()); ++i) {
        const std::string number = std::to_string(i + 1);
        // a step from one bit to the next is no small one, and is named
        const Json &size = holes[i]["diameter_mm"], &size_moved = moved[i]["diameter_mm"];
        if (bits && size.is_number() && size_moved.is_number() &&
            std::abs(size.get<double>() - size_moved.get<double>()) > 0.02)
            continue;
        compare("hole " + number + " place", holes[i]["at_mm"], moved[i]["at_mm"]);
        compare("hole " + number + " size", size, size_moved);
    }
    return most_mm;
}

namespace {

// How far two answers of `layout` lie apart, said; empty where that is little enough.
std::string jump(const std::string& path, double by_mm, const Json& one, const Json& other) {
    std::string what;
    const double moved_mm = farthest_move_mm(one, other, what);
    const double foot_mm = one["foot_mm"].get<double>();
    const double may_mm = std::max(kMarkMay_mm, kMarkMay_share * foot_mm);
    const double said_mm = std::max(one.value("loose_mm", 0.0), other.value("loose_mm", 0.0));
    if (moved_mm < may_mm + said_mm) return {};
    const auto hopeless = [](const Json& layout) {
        const Json& worst = layout["worst_cents"];
        return !worst.is_number() || worst.get<double>() > kHopeless_cents;
    };
    if (hopeless(one) || hopeless(other)) return {};
    std::ostringstream text;
    text << path << " by " << by_mm << ": " << what << ", worst " << one["worst_cents"].dump()
         << " and " << other["worst_cents"].dump();
    return text.str();
}

// The same input nudged by a tenth: what still goes as far has jumped, the rest is only steep.
std::string at_a_tenth(const Json& document, const Json& layout, const std::string& path) {
    for (const Nudge& nudge : nudges(document, 0.1)) {
        if (nudge.path != path) continue;
        const Json other = answer_of("layout", nudge.document);
        std::string what;
        std::ostringstream text;
        if (other.is_object())
            text << "; " << farthest_move_mm(layout, other, what) << " mm at a tenth of it";
        return text.str();
    }
    return {};
}

}  // namespace

std::vector<Breach> check_continuity(const Json& document, const Json& layout, Noise& noise,
                                     std::size_t most) {
    std::vector<Nudge> all = nudges(document);
    std::vector<Breach> breaches;
    for (std::size_t tried = 0; tried < most && !all.empty(); ++tried) {
        const auto chosen =
            static_cast<std::size_t>(noise.uniform() * static_cast<double>(all.size()));
        const Nudge nudge = all[chosen];
        all.erase(all.begin() + static_cast<std::ptrdiff_t>(chosen));
        const Json other = answer_of("layout", nudge.document);
        if (!other.is_object()) continue;
        const std::string found = jump(nudge.path, nudge.by_mm, layout, other);
        if (!found.empty())
            breaches.push_back({"continuity", found + at_a_tenth(document, layout, nudge.path)});
    }
    return breaches;
}

std::vector<Breach> check_sweep(const Json& document, Noise& noise) {
    std::vector<Nudge> all = nudges(document);
    if (all.empty()) return {};
    const auto chosen = static_cast<std::size_t>(noise.uniform() * static_cast<double>(all.size()));
    const Json::json_pointer pointer(all[chosen].path);
    const double by_mm = all[chosen].by_mm;
    const double from_mm = document[pointer].get<double>();
    Json before = answer_of("layout", document);
    for (int step = 1; step <= kSweepSteps && before.is_object(); ++step) {
        Json here = document;
        here[pointer] = from_mm + step * by_mm;
        if (!permitted(here)) break;
        const Json after = answer_of("layout", here);
        if (!after.is_object()) break;
        std::ostringstream where;
        where << all[chosen].path << " at " << here[pointer].get<double>();
        const std::string found = jump(where.str(), by_mm, before, after);
        if (!found.empty()) return {{"sweep", found}};
        before = after;
    }
    return {};
}

}  // namespace canewright::testing
