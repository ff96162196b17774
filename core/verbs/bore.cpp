// core/verbs/bore.cpp -- reads one measurement, answers with the bore.
#include "core/verbs/bore.hpp"

#include "core/base/units.hpp"
#include "core/document/fields.hpp"
#include "core/document/typed.hpp"
#include "core/layout/bore_ways.hpp"

namespace canewright {

namespace {

constexpr double kDefaultWater_C = 20.0;
// The largest bore allowed, 2 m of it, holds 5.7 litres.
constexpr Range kAmount{0.05, 6000};
constexpr Range kWater_C{0, 40};
constexpr Range kScaleStep_g{0.001, 10};
constexpr Range kPaper_mm{0, 2};
constexpr Range kGirth_mm{1, 1000};

struct Measurement {
    MeasuredLength found;
    const char* key = "diameter_mm";
    bool done = false;  // false: what it needs is not all there
};

Measurement measured(Fields& fields, const std::string& way) {
    Measurement m;
    BoreTools tools;
    const std::size_t before = fields.faults().count();
    const auto good = [&] { return fields.faults().count() == before; };
    if (way == "gauges") {
        const double go_mm = fields.needed("go_mm", limit::kBore_mm);
        const double no_go_mm = fields.needed("no_go_mm", limit::kBore_mm);
        if (good() && !(no_go_mm > go_mm))
            fields.faults().add(violation(Code::out_of_order, "no_go_mm", no_go_mm, go_mm));
        if (good()) m.found = bore_from_gauges(m_from_mm(go_mm), m_from_mm(no_go_mm));
    } else if (way == "girth") {
        const double girth_mm = fields.needed("girth_mm", kGirth_mm);
        if (const auto paper_mm = fields.number("paper_mm", kPaper_mm))
            tools.paper_m = m_from_mm(*paper_mm);
        m.key = "outer_mm";
        if (good()) m.found = outer_from_girth(m_from_mm(girth_mm), tools);
    } else {
        const double amount = fields.needed("amount", kAmount);
        const double length_mm = fields.needed("length_mm", limit::kEnd_mm);
        if (way == "water_g") {
            const double water_C = fields.number("water_c", kWater_C).value_or(kDefaultWater_C);
            tools.scale_g = fields.number("scale_step_g", kScaleStep_g).value_or(tools.scale_g);
            if (good())
                m.found = bore_from_mass(kg_from_g(amount), m_from_mm(length_mm), water_C, tools);
        } else if (good()) {
            m.found = bore_from_volume(m3_from_ml(amount), m_from_mm(length_mm), tools);
        }
    }
    m.done = good();
    return m;
}

// An amount and a length that do not go together: a slipped point. The limit is the amount that
// gives the narrowest or widest tube there is.
void check_size(const std::string& way, double found_m, const Json& given, Faults& faults) {
    const bool outside = way == "girth";
    const char* key = outside ? "girth_mm" : "amount";
    const Range range = outside ? limit::kOuter_mm : limit::kBore_mm;
    const double found_mm = mm_from_m(found_m);
    const auto amount_for = [&](double size_mm) {
        const double ratio = size_mm / found_mm;
        return given[key].get<double>() * (outside ? ratio : ratio * ratio);
    };
    if (!(found_mm >= range.min))
        faults.add(violation(Code::too_small, key, given[key], amount_for(range.min)));
    else if (!(found_mm <= range.max))
        faults.add(violation(Code::too_large, key, given[key], amount_for(range.max)));
}

}  // namespace

Answer bore_answer(const std::string& text) {
    const ParsedJson parsed = parse_json(text);
    if (!parsed.violations.empty()) return {Json(), parsed.violations};
    Faults faults;
    Json json = Json::object();
    {
        Fields fields(parsed.tree, "", faults);
        const auto way = fields.choice("way", {"water_g", "water_ml", "gauges", "girth"});
        if (!way) {
            if (faults.count() == 0) fields.missing("way");
            return {Json(), faults.all()};
        }
        const Measurement m = measured(fields, *way);
        fields.close();
        if (m.done && *way != "gauges") check_size(*way, m.found.value_m, parsed.tree, faults);
        json["way"] = *way;
        json[m.key] = typed_mm(m.found.value_m);
        json["sigma_mm"] = typed_mm(m.found.sigma_m);
    }
    if (faults.count() > 0) return {Json(), faults.all()};
    return {std::move(json), {}};
}

}  // namespace canewright
