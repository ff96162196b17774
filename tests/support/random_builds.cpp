// tests/support/random_builds.cpp: what has happened so far to a random tube, cut by cut.
#include "core/base/units.hpp"
#include "tests/support/random_documents.hpp"

namespace canewright::testing {

namespace {

class Build {
   public:
    Build(Draw& draw, Json& document) : draw_(draw), document_(document) {
        voice_cents_ = 15.0 * draw.normal();
    }

    // Entries are kept where the document stays one that is permitted.
    void log(const Json& entry) {
        Json longer = document_;
        longer["log"].push_back(entry);
        if (draw_.chance(0.2)) longer["log"].back()["room_c"] = draw_.size(15, 26, -10, 50);
        if (draw_.chance(0.1)) longer["log"].back()["error_mm"] = draw_.size(0.05, 0.5, 0, 10);
        if (permitted(longer)) document_ = longer;
    }
    void read(const Json& open) {
        Json asked = document_;
        asked["sounds_as"] = "standing";
        asked["notes"] = Json::array({{{"open", open}}});
        // what the flute sounds, not what earlier readings say of it
        Json cuts = Json::array();
        for (const Json& entry : document_["log"])
            if (!entry.contains("read")) cuts.push_back(entry);
        asked["log"] = cuts;
        const Json answer = answer_of("sound", asked);
        if (!answer.is_object() || !answer["notes"][0]["hz"].is_number()) return;
        const double odd_cents = draw_.chance(0.03) ? 60.0 * draw_.normal() : 0.0;
        const double heard_cents = voice_cents_ + 4.0 * draw_.normal() + odd_cents;
        Json reading = {{"open", open},
                        {"hz", shifted_Hz(answer["notes"][0]["hz"].get<double>(), heard_cents)}};
        if (draw_.chance(0.5)) reading["sigma_cents"] = draw_.size(2, 8, 0.01, 200);
        log({{"read", reading}});
    }
    void aside() {
        const double bore = bore_mm(document_);
        const Json& window = document_["sound_hole"];
        switch (draw_.whole(0, 3)) {
            case 0:
                return log({{"block", "moved"}});
            case 1:
                return log({{"bore", "sealed"}});
            case 2:
                return log({{"sound_hole",
                             {{"length_mm", window["length_mm"].get<double>() * 1.1},
                              {"width_mm", window["width_mm"]}}}});
            default:
                return log({{"foot_plug", {{"opening_mm", 0.7 * bore}, {"thickness_mm", 4}}}});
        }
    }

    Draw& draw_;
    Json& document_;
    double voice_cents_ = 0.0;
};

}  // namespace

void add_log(Draw& draw, Json& document) {
    document["log"] = Json::array();
    Build build(draw, document);
    Json plan = document;
    plan.erase("log");
    // bits take time, and a maker who planned without them is one too
    if (plan.contains("shop")) plan["shop"].erase("bits");
    plan = answer_of("layout", plan);
    const bool planned = plan.is_object() && plan["foot_mm"].is_number();
    if (planned && draw.chance(0.85)) {
        Json with_plan = document;
        with_plan["foot_mm"] = plan["foot_mm"];
        with_plan["finger_holes"] = plan["finger_holes"];
        if (permitted(with_plan)) document = with_plan;
    }
    const double end = document["tube"]["end_mm"];
    const double foot = planned ? plan["foot_mm"].get<double>() : 0.9 * end;
    if (draw.chance(0.4)) build.aside();
    if (draw.chance(0.3)) build.read(Json::array());
    if (draw.chance(0.8))
        build.log({{"foot", {{"at_mm", std::min(end, foot * draw.between(1.0, 1.06))}}}});
    if (draw.chance(0.8)) build.read(Json::array());
    if (draw.chance(0.6))
        build.log({{"foot", {{"at_mm", std::min(end, foot * draw.between(0.995, 1.01))}}}});
    if (draw.chance(0.8)) build.read(Json::array());
    if (!planned || !document.contains("finger_holes")) return;
    const Json holes = document["finger_holes"];
    const int count = static_cast<int>(holes.size());
    const int cut = draw.whole(0, count);
    Json open = Json::array();
    for (int i = 0; i < cut; ++i) {
        // from the foot up, now and then in another order
        const int number = draw.chance(0.9) ? count - i : draw.whole(1, count);
        const Json& hole = holes[static_cast<std::size_t>(number - 1)];
        if (!hole["at_mm"].is_number() || !hole["diameter_mm"].is_number()) return;
        Json entry = {{"number", number},
                      {"at_mm", hole["at_mm"].get<double>() + 0.3 * draw.normal()}};
        if (draw.chance(0.8))
            entry["diameter_mm"] = hole["diameter_mm"].get<double>() * draw.between(0.75, 1.02);
        build.log({{"hole", entry}});
        open.insert(open.begin(), number);
        if (draw.chance(0.6)) build.read(open);
        if (draw.chance(0.15)) build.log({{"undercut", {{"number", number}}}});
        if (draw.chance(0.05))
            build.log(
                {{"narrow",
                  {{"number", number}, {"diameter_mm", hole["diameter_mm"].get<double>() * 0.8}}}});
        if (draw.chance(0.05)) build.aside();
    }
}

}  // namespace canewright::testing
