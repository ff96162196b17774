// core/verbs/choose/reach.cpp -- what a hand allows, and what it will find hard.
#include "core/verbs/choose/reach.hpp"

#include <cmath>

#include "core/base/units.hpp"
#include "core/choose/reach.hpp"
#include "core/document/fields.hpp"
#include "core/document/typed.hpp"

namespace canewright {

namespace {

// Sizes of hands there are, from a small child's to the largest: they catch a slip (a whole hand's
// span, inches).
constexpr Range kSpan_mm{25, 120};
constexpr Range kPad_mm{6, 22};
constexpr double kHalf_mm = 0.5;
constexpr double kHair = 1e-9;

double up_to_half_mm(double length_m) {
    return kHalf_mm * std::ceil(mm_from_m(length_m) / kHalf_mm - kHair);
}
double down_to_half_mm(double length_m) {
    return kHalf_mm * std::floor(mm_from_m(length_m) / kHalf_mm + kHair);
}

const char* code(HandWarning::Kind kind) {
    return kind == HandWarning::Kind::far    ? "far"
           : kind == HandWarning::Kind::near ? "near"
                                             : "wide";
}

}  // namespace

Answer reach_answer(const std::string& text) {
    const ParsedJson parsed = parse_json(text);
    if (!parsed.violations.empty()) return {{}, parsed.violations};
    Faults faults;
    Fields fields(parsed.tree, "", faults);
    if (faults.count() > 0) return {{}, faults.all()};
    const auto span_mm = fields.number("span_mm", kSpan_mm);
    const auto pad_mm = fields.number("pad_mm", kPad_mm);
    if (fields.has("pad_mm") && !fields.has("span_mm")) fields.missing("span_mm");
    if (fields.has("span_mm") && !fields.has("pad_mm")) fields.missing("pad_mm");
    fields.close();
    if (faults.count() > 0) return {{}, faults.all()};

    Json json = Json::object();
    json["sizes"] = Json::array();
    for (const HandSize& size : hand_sizes()) {
        Json one = Json::object();
        one["name"] = size.name;
        one["span_mm"] = typed_mm(size.span_m);
        one["pad_mm"] = typed_mm(size.pad_m);
        json["sizes"].push_back(std::move(one));
    }
    json["limits"] = nullptr;
    if (span_mm && pad_mm) {
        const HandLimits limits = limits_of_hand(m_from_mm(*span_mm), m_from_mm(*pad_mm));
        const double apart_min_mm = up_to_half_mm(limits.apart_min_m);
        const double apart_max_mm = down_to_half_mm(limits.apart_max_m);
        // A span that leaves fingers no way beside each other was not measured as is said.
        if (!(apart_max_mm > apart_min_mm))
            return {{}, {violation(Code::too_small, "span_mm", *span_mm, 2.0 * apart_min_mm)}};
        json["limits"] = Json::object();
        json["limits"]["apart_min_mm"] = apart_min_mm;
        json["limits"]["apart_max_mm"] = apart_max_mm;
        json["limits"]["hole_max_mm"] = down_to_half_mm(limits.hole_max_m);
    }
    return {std::move(json), {}};
}

Json grip_answer(const Document& document) {
    const Shop shop = layout_task(document).shop;
    const std::vector<FingerHole> holes = flute_of(document).holes;
    Json json = Json::object();
    json["holes"] = Json::array();
    int number = 0;
    for (const int hand : hand_of_holes(shop, static_cast<int>(holes.size()))) {
        Json one = Json::object();
        one["number"] = ++number;
        one["hand"] = hand == 0 ? "upper" : "lower";
        json["holes"].push_back(std::move(one));
    }
    json["warnings"] = Json::array();
    for (const HandWarning& warning : hand_warnings(shop, holes)) {
        Json one = Json::object();
        one["code"] = code(warning.kind);
        one["holes"] = Json::array();
        one["holes"].push_back(warning.hole + 1);
        if (warning.other >= 0) one["holes"].push_back(warning.other + 1);
        one["mm"] = typed_mm(warning.value_m);
        one["limit_mm"] = typed_mm(warning.limit_m);
        one["own"] = warning.own_limit;
        json["warnings"].push_back(std::move(one));
    }
    return json;
}

}  // namespace canewright
