// core/verbs/pattern.cpp -- the belief about a flute as the key `pattern` of the next.
#include "core/verbs/pattern.hpp"

#include "core/base/digits.hpp"
#include "core/bench/names.hpp"
#include "core/task/build.hpp"

namespace canewright {

double shortly(double value) { return to_digits(value, 5); }

Json pattern_answer(const Document& document) {
    const BuildState build = build_of(document);
    Json json = Json::object();
    if (document.name) json["of"] = *document.name;
    json["unknowns"] = Json::array();
    json["mean"] = Json::array();
    json["covariance"] = Json::array();
    const Belief& belief = build.estimate.belief;
    for (const Unknown row : kCarried) {
        json["unknowns"].push_back(name(row));
        json["mean"].push_back(shortly(belief.mean(row)));
        Json covariances = Json::array();
        for (const Unknown column : kCarried)
            covariances.push_back(shortly(belief.covariance(row, column)));
        json["covariance"].push_back(std::move(covariances));
    }
    json["readings"] = build.history.heard.size();
    return json;
}

}  // namespace canewright
