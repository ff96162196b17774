// core/task/pattern.cpp -- the key `pattern`: a belief carried from one flute to the next.
#include <Eigen/Cholesky>
#include <algorithm>
#include <array>
#include <cmath>

#include "core/bench/names.hpp"
#include "core/document/fields.hpp"
#include "core/document/write.hpp"
#include "core/task/build.hpp"

namespace canewright {

namespace {

constexpr Eigen::Index kCount = kCarried.size();
constexpr Range kMean{-60, 60};            // of the breath, in cents per octave; others are shares
constexpr Range kCovariance{-3600, 3600};  // their squares

struct PatternEntry {
    Eigen::Vector4d mean = Eigen::Vector4d::Zero();
    Eigen::Matrix4d covariance = Eigen::Matrix4d::Zero();
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

PatternEntry read_pattern(const std::string& text, Faults& faults) {
    PatternEntry pattern;
    const ParsedJson parsed = parse_json(text);
    faults.add(parsed.violations);
    if (!parsed.violations.empty()) return pattern;
    Fields fields(parsed.tree, "pattern", faults);
    fields.text("of", limit::kName_bytes);
    fields.number("readings", {0, static_cast<double>(limit::kLogEntries)});
    read_unknowns(fields);
    if (const Json* mean = fields.raw("mean"))
        read_row(*mean, "pattern.mean", kMean, faults, pattern.mean);
    else
        fields.missing("mean");
    std::size_t row = 0;
    const bool listed =
        fields.list("covariance", kCount, kCount, [&](const Json& node, const std::string& path) {
            read_row(node, path, kCovariance, faults,
                     pattern.covariance.row(static_cast<Eigen::Index>(row++)).transpose());
        });
    if (!listed && !fields.has("covariance")) fields.missing("covariance");
    fields.close();
    if (faults.count() > 0) return pattern;
    // What is no covariance would make readings push the wrong way.
    const bool symmetric = pattern.covariance.isApprox(pattern.covariance.transpose(), 1e-6);
    const Eigen::LLT<Eigen::Matrix4d> root(pattern.covariance);
    if (!symmetric || root.info() != Eigen::Success)
        faults.add(violation(Code::wrong_format, "pattern.covariance"));
    return pattern;
}

}  // namespace

std::vector<Violation> pattern_faults(const Document& document) {
    if (document.pattern.empty()) return {};
    Faults faults;
    read_pattern(document.pattern, faults);
    return faults.all();
}

Belief with_pattern(const Belief& before, const Document& document) {
    if (document.pattern.empty()) return before;
    Faults faults;
    const PatternEntry pattern = read_pattern(document.pattern, faults);
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
    Belief belief = before;
    for (Eigen::Index i = 0; i < kCount; ++i) {
        const Eigen::Index row = kCarried[static_cast<std::size_t>(i)];
        belief.mean(row) = pattern.mean(i);
        for (Eigen::Index j = 0; j < kCount; ++j) {
            belief.covariance(row, kCarried[static_cast<std::size_t>(j)]) =
                scale(i) * widened(i, j) * scale(j);
        }
    }
    return belief;
}

}  // namespace canewright
