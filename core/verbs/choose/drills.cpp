// core/verbs/choose/drills.cpp -- the verb `drills`: sizes to tick.
#include "core/verbs/choose/drills.hpp"

#include "core/choose/drills.hpp"
#include "core/document/typed.hpp"

namespace canewright {

Json drills_answer() {
    Json json = Json::object();
    json["sets"] = Json::array();
    for (const DrillSet& set : drill_sets()) {
        Json one = Json::object();
        one["name"] = set.name;
        one["bits"] = Json::array();
        for (const Drill& drill : set.drills) {
            Json bit = Json::object();
            bit["mm"] = typed_mm(drill.diameter_m);
            bit["label"] = drill.label;
            one["bits"].push_back(std::move(bit));
        }
        json["sets"].push_back(std::move(one));
    }
    return json;
}

}  // namespace canewright
