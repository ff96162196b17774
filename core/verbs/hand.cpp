// core/verbs/hand.cpp -- the beliefs of several builds, pooled.
#include "core/verbs/hand.hpp"

#include <cmath>

#include "core/base/units.hpp"
#include "core/bench/names.hpp"
#include "core/document/fields.hpp"
#include "core/document/read.hpp"
#include "core/document/write.hpp"
#include "core/hand/pool.hpp"
#include "core/task/build.hpp"
#include "core/verbs/pattern.hpp"

namespace canewright {

namespace {

constexpr Eigen::Index kLearned = kCarried.size();

const Unknown& carried_one(Eigen::Index n) { return kCarried[static_cast<std::size_t>(n)]; }

Eigen::VectorXd carried_of(const Eigen::VectorXd& mean) {
    Eigen::VectorXd part(kLearned);
    for (Eigen::Index n = 0; n < kLearned; ++n) part(n) = mean(carried_one(n));
    return part;
}

Eigen::MatrixXd carried_of(const Eigen::MatrixXd& covariance) {
    Eigen::MatrixXd part(kLearned, kLearned);
    for (Eigen::Index i = 0; i < kLearned; ++i)
        for (Eigen::Index j = 0; j < kLearned; ++j)
            part(i, j) = covariance(carried_one(i), carried_one(j));
    return part;
}

// What the flutes taught, as far as they were read.
struct Pupils {
    std::vector<Lesson> lessons;
    std::vector<std::string> names;
    std::size_t readings = 0;
    Eigen::VectorXd variances = Eigen::VectorXd::Zero(kLearned);  // a stranger's, all added
    Eigen::VectorXd mean;
    std::vector<Lesson> burns;  // of the flutes whose holes were measured, [m]
    std::size_t holes = 0;      // of them
};

void teach(const BuildState& build, Pupils& pupils) {
    const Belief& after = build.estimate.belief;
    pupils.lessons.push_back({carried_of(build.before.mean), carried_of(after.mean),
                              carried_of(build.before.covariance), carried_of(after.covariance)});
    pupils.variances += carried_of(build.stranger.covariance).diagonal();
    pupils.mean = carried_of(build.stranger.mean);
}

// What a hole comes out wider than its drill or rod. Judgement: a drill in cane cuts a tenth wide,
// a rod burns up to a millimetre; holes of one flute differ by two tenths.
constexpr double kUsualBurn_m = 0.1e-3, kBurnSigma_m = 0.4e-3, kBurnOfHole_m = 0.2e-3;

void teach_burn(const std::vector<LogEntry>& log, Pupils& pupils) {
    double sum_m = 0.0;
    std::size_t count = 0;
    for (const LogEntry& entry : log) {
        if (!entry.bit_m || !entry.diameter_m) continue;
        sum_m += *entry.diameter_m - *entry.bit_m;
        ++count;
    }
    if (count == 0) return;
    const auto cell = [](double value) { return Eigen::MatrixXd::Constant(1, 1, value); };
    const double known = 1.0 / (kBurnSigma_m * kBurnSigma_m);  // precisions
    const double told = static_cast<double>(count) / (kBurnOfHole_m * kBurnOfHole_m);
    const double mean_m =
        (known * kUsualBurn_m + told * sum_m / static_cast<double>(count)) / (known + told);
    Lesson lesson;
    lesson.before_mean = cell(kUsualBurn_m);
    lesson.mean = cell(mean_m);
    lesson.before_covariance = cell(1.0 / known);
    lesson.covariance = cell(1.0 / (known + told));
    pupils.burns.push_back(std::move(lesson));
    pupils.holes += count;
}

Json burn_json(const Pupils& pupils) {
    const auto cell = [](double value) { return Eigen::VectorXd::Constant(1, value); };
    const Hand hand = pooled(pupils.burns, {cell(kUsualBurn_m), cell(kBurnSigma_m), kNew});
    const auto mm = [](double m) { return shortly(mm_from_m(m)); };
    Json json = Json::object();
    json["mean_mm"] = mm(hand.mean(0));
    json["sigma_mm"] = mm(std::sqrt(hand.covariance(0, 0)));
    json["between_mm"] = mm(std::sqrt(hand.between(0, 0)));
    json["holes"] = pupils.holes;
    return json;
}

bool has_readings(const BuildState& build) {
    for (std::size_t i = 0; i < build.history.heard.size(); ++i)
        if (!build.history.heard[i].voice_moved_since && build.estimate.verdicts[i].trusted)
            return true;
    return false;
}

// Its lesson, or what is wrong with it.
std::vector<Violation> read_flute(const Json& node, Pupils& pupils) {
    ReadDocument read = read_document(json_text(node));
    if (read.violations.empty()) read.document = planned_like_before(read.document);
    if (read.violations.empty()) read.violations = missing_for(Verb::layout, read.document);
    if (read.violations.empty()) read.violations = pattern_faults(read.document);
    if (!read.violations.empty()) return read.violations;
    const BuildState build = build_of(read.document);
    if (!has_readings(build)) return {violation(Code::needs, "log")};
    pupils.names.push_back(read.document.name.value_or(""));
    pupils.readings += build.history.heard.size();
    teach(build, pupils);
    teach_burn(read.document.log.value_or(std::vector<LogEntry>()), pupils);
    return {};
}

Json matrix_json(const Eigen::MatrixXd& matrix) {
    Json rows = Json::array();
    for (Eigen::Index i = 0; i < matrix.rows(); ++i) {
        Json row = Json::array();
        for (Eigen::Index j = 0; j < matrix.cols(); ++j) row.push_back(shortly(matrix(i, j)));
        rows.push_back(std::move(row));
    }
    return rows;
}

Json hand_json(const Pupils& pupils, const Hand& hand) {
    Json json = Json::object();
    json["of"] = pupils.names;
    json["flutes"] = pupils.lessons.size();
    json["readings"] = pupils.readings;
    json["unknowns"] = Json::array();
    json["mean"] = Json::array();
    for (Eigen::Index n = 0; n < kLearned; ++n) {
        json["unknowns"].push_back(name(carried_one(n)));
        json["mean"].push_back(shortly(hand.mean(n)));
    }
    json["between"] = matrix_json(hand.between);
    json["covariance"] = matrix_json(hand.covariance);
    if (!pupils.burns.empty()) json["burn"] = burn_json(pupils);
    json["odd"] = Json::array();
    for (const OddFlute& odd : hand.odd)
        json["odd"].push_back({{"flute", odd.lesson},
                               {"of", pupils.names[odd.lesson]},
                               {"unknown", name(carried_one(odd.unknown))},
                               {"by", shortly(odd.by)},
                               {"chance", shortly(odd.chance)},
                               {"named", odd.chance >= kOddNamed}});
    json["changed"] = Json::array();
    for (const HabitChange& change : hand.change)
        json["changed"].push_back({{"after", change.after},
                                   {"unknown", name(carried_one(change.unknown))},
                                   {"by", shortly(change.by)},
                                   {"sigma", shortly(change.sigma)}});
    json["converged"] = hand.converged;
    return json;
}

}  // namespace

Answer hand_answer(const std::string& text) {
    const ParsedJson parsed = parse_json(text);
    if (!parsed.violations.empty()) return {{}, parsed.violations};
    Faults faults;
    Fields fields(parsed.tree, "", faults);
    Pupils pupils;
    const bool listed =
        fields.list("documents", 1, kMostTaught, [&](const Json& node, const std::string& path) {
            for (Violation each : read_flute(node, pupils)) {
                each.path = path + (each.path.empty() ? "" : ".") + each.path;
                faults.add(std::move(each));
            }
        });
    if (!listed && !fields.has("documents")) fields.missing("documents");
    fields.close();
    if (faults.count() > 0 || pupils.lessons.empty()) return {{}, faults.all()};
    const double count = static_cast<double>(pupils.lessons.size());
    const Stranger stranger{pupils.mean, (pupils.variances / count).cwiseSqrt(), kNew};
    return {hand_json(pupils, pooled(pupils.lessons, stranger)), {}};
}

}  // namespace canewright
