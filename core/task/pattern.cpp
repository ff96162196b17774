// core/task/pattern.cpp -- the key `pattern`: a belief carried from one flute to the next.
#include <Eigen/Cholesky>
#include <algorithm>
#include <array>
#include <cmath>
#include <optional>

#include "core/base/units.hpp"
#include "core/bench/names.hpp"
#include "core/document/fields.hpp"
#include "core/document/write.hpp"
#include "core/task/build.hpp"

namespace canewright {

namespace {

constexpr Eigen::Index kCount = kCarried.size();
// Of the breath, in cents per octave: what a maker may say (limit::kLift_cents) and as much again
// that readings add; others are shares.
constexpr Range kMean{-120, 120};
constexpr Range kCovariance{-3600, 3600};  // their squares
constexpr Range kBurn_mm{-5, 5};
constexpr Range kBurnSigma_mm{0, 5};

struct PatternEntry {
    Eigen::Vector4d mean = Eigen::Vector4d::Zero();
    Eigen::Matrix4d covariance = Eigen::Matrix4d::Zero();
    std::optional<Eigen::Matrix4d> between;  // of a hand
    Burn burn;                               // of a hand
};

void read_unknowns(Fields& fields) {
    std::size_t n = 0;
    const bool listed =
        fields.list("unknowns", kCount, kCount, [&](const Json& node, const std::string& path) {
            const auto word = read_text(node, path, limit::kWord_bytes, fields.faults());
            if (word && *word != name(kCarried[n]))
                fields.faults().add(violation_of_text(Code::unknown_name, path, shortened(*word)));
            ++n;
        });
    if (!listed && !fields.has("unknowns")) fields.missing("unknowns");
}

// A row of numbers into `to`.
template <class Row>
void read_row(const Json& node, const std::string& path, Range range, Faults& faults, Row&& to) {
    if (!node.is_array() || node.size() != kCount) {
        faults.add(violation(Code::wrong_type, path));
        return;
    }
    for (Eigen::Index n = 0; n < kCount; ++n) {
        const std::size_t at = static_cast<std::size_t>(n);
        const auto value =
            read_number(node[at], path + "[" + std::to_string(at) + "]", range, faults);
        to(n) = value.value_or(0.0);
    }
}

// A list of rows, absent: zeros and a fault. What is no covariance would make readings push the
// wrong way.
Eigen::Matrix4d read_covariance(Fields& fields, const char* key) {
    Eigen::Matrix4d matrix = Eigen::Matrix4d::Zero();
    Faults& faults = fields.faults();
    const std::size_t before = faults.count();
    Eigen::Index row = 0;
    const bool listed =
        fields.list(key, kCount, kCount, [&](const Json& node, const std::string& path) {
            read_row(node, path, kCovariance, faults, matrix.row(row++).transpose());
        });
    if (!listed && !fields.has(key)) fields.missing(key);
    if (faults.count() > before) return matrix;
    const bool symmetric = matrix.isApprox(matrix.transpose(), 1e-6);
    if (!symmetric || Eigen::LLT<Eigen::Matrix4d>(matrix).info() != Eigen::Success)
        faults.add(violation(Code::wrong_format, fields.path(key)));
    return matrix;
}

// One flute's name, or those of all that taught.
void read_of(Fields& fields) {
    const Json* of = fields.raw("of");
    if (!of || !of->is_array()) {
        fields.text("of", limit::kName_bytes);
        return;
    }
    fields.list("of", 0, kMostTaught, [&](const Json& node, const std::string& path) {
        read_text(node, path, limit::kName_bytes, fields.faults());
    });
}

Burn read_burn(Fields& fields) {
    Burn burn;
    fields.object("burn", [&](Fields& part) {
        const auto needed_m = [&part](const char* key, Range range_mm) {
            return m_from_mm(part.needed(key, range_mm));
        };
        burn.wider_m = needed_m("mean_mm", kBurn_mm);
        const double mean_sigma_m = needed_m("sigma_mm", kBurnSigma_mm);
        burn.sigma_m = std::hypot(mean_sigma_m, needed_m("between_mm", kBurnSigma_mm));
        part.number("holes", {1, static_cast<double>(kMostTaught * limit::kLogEntries)});
    });
    return burn;
}

PatternEntry read_pattern(const std::string& text, Faults& faults) {
    PatternEntry pattern;
    const ParsedJson parsed = parse_json(text);
    faults.add(parsed.violations);
    if (!parsed.violations.empty()) return pattern;
    Fields fields(parsed.tree, "pattern", faults);
    read_of(fields);
    fields.number("readings", {0, static_cast<double>(kMostTaught * limit::kLogEntries)});
    fields.number("flutes", {1, static_cast<double>(kMostTaught)});
    read_unknowns(fields);
    if (const Json* mean = fields.raw("mean"))
        read_row(*mean, "pattern.mean", kMean, faults, pattern.mean);
    else
        fields.missing("mean");
    pattern.covariance = read_covariance(fields, "covariance");
    if (fields.has("between")) pattern.between = read_covariance(fields, "between");
    pattern.burn = read_burn(fields);
    fields.ignore({"odd", "changed", "converged"});
    fields.close();
    return pattern;
}

// `before` with another belief of what goes from flute to flute.
Belief carried(const Belief& before, const Eigen::Vector4d& mean,
               const Eigen::Matrix4d& covariance) {
    Belief belief = before;
    for (Eigen::Index i = 0; i < kCount; ++i) {
        const Eigen::Index row = kCarried[static_cast<std::size_t>(i)];
        belief.mean(row) = mean(i);
        for (Eigen::Index j = 0; j < kCount; ++j)
            belief.covariance(row, kCarried[static_cast<std::size_t>(j)]) = covariance(i, j);
    }
    return belief;
}

}  // namespace

std::vector<Violation> pattern_faults(const Document& document) {
    if (document.pattern.empty()) return {};
    Faults faults;
    read_pattern(document.pattern, faults);
    return faults.all();
}

Burn burn_of(const Document& document) {
    if (document.pattern.empty()) return {};
    Faults faults;
    return read_pattern(document.pattern, faults).burn;
}

Belief with_pattern(const Belief& before, const Document& document) {
    if (document.pattern.empty()) return before;
    Faults faults;
    const PatternEntry pattern = read_pattern(document.pattern, faults);
    if (pattern.between) {
        const Eigen::Matrix4d next = pattern.covariance + *pattern.between;
        return carried(before, pattern.mean, next);
    }
    Eigen::Matrix4d widened = pattern.covariance;
    for (Eigen::Index i = 0; i < kCount; ++i) {
        const double sigma = kNew * before.sigma(kCarried[static_cast<std::size_t>(i)]);
        widened(i, i) += sigma * sigma;
    }
    // What the pattern's readings did not tell is known as well as for any flute, not worse; scaled
    // by rows and columns, so that it stays a covariance.
    Eigen::Vector4d scale;
    for (Eigen::Index i = 0; i < kCount; ++i) {
        const Eigen::Index own = kCarried[static_cast<std::size_t>(i)];
        scale(i) = std::min(1.0, std::sqrt(before.covariance(own, own) / widened(i, i)));
    }
    return carried(before, pattern.mean, scale.asDiagonal() * widened * scale.asDiagonal());
}

}  // namespace canewright
