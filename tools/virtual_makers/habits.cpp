// tools/virtual_makers/habits.cpp: flutes cut and read, lessons made of them by the core.
#include "tools/virtual_makers/habits.hpp"

#include <algorithm>
#include <cmath>

#include "core/bench/belief/evidence.hpp"
#include "core/bench/belief/note_model.hpp"
#include "core/document/document.hpp"
#include "core/task/build.hpp"

namespace virtual_makers {
namespace {

using namespace canewright;

constexpr double kSureReading_cents = 0.3;

Measures measures_of_hand() {
    Measures m;
    m.ruler_m = m.saw_m = kHiddenPlace_m;
    m.bit_m = m.size_m = kHiddenSize_m;
    return m;
}

Belief stranger_belief(const Blank& b) {
    return prior(b.measured.bore.front().diameter_m, b.measures.bore_m, b.measured.wall_m,
                 b.measures.wall_m, b.voice_sigma);
}

Eigen::VectorXd part_of(const Eigen::VectorXd& all) {
    Eigen::VectorXd part(static_cast<Eigen::Index>(kCarried.size()));
    for (std::size_t n = 0; n < kCarried.size(); ++n)
        part(static_cast<Eigen::Index>(n)) = all(kCarried[n]);
    return part;
}

Eigen::MatrixXd block_of(const Eigen::MatrixXd& all) {
    const Eigen::Index count = static_cast<Eigen::Index>(kCarried.size());
    Eigen::MatrixXd part(count, count);
    for (std::size_t i = 0; i < kCarried.size(); ++i)
        for (std::size_t j = 0; j < kCarried.size(); ++j)
            part(static_cast<Eigen::Index>(i), static_cast<Eigen::Index>(j)) =
                all(kCarried[i], kCarried[j]);
    return part;
}

Belief believed(const Blank& blank, const Wisdom* known) {
    Belief belief = stranger_belief(blank);
    if (!known) return belief;
    for (std::size_t i = 0; i < kCarried.size(); ++i) {
        belief.mean(kCarried[i]) = known->mean(static_cast<Eigen::Index>(i));
        for (std::size_t j = 0; j < kCarried.size(); ++j)
            belief.covariance(kCarried[i], kCarried[j]) =
                known->covariance(static_cast<Eigen::Index>(i), static_cast<Eigen::Index>(j));
    }
    return belief;
}

Builder begun_on(const Blank& blank) {
    return Builder(blank.measured, blank.room, blank.layout.flute.holes, blank.aim.notes,
                   measures_of_hand());
}

void tell_cuts(Builder& builder, const Stage& said) {
    builder.foot(said.foot_m, kHiddenPlace_m);
    for (std::size_t i = said.holes.size(); i-- > 0;)
        builder.hole(static_cast<int>(i) + 1, said.holes[i].at_m, said.holes[i].diameter_m);
}

void put_number(std::string& text, double value) {
    char word[40];
    std::snprintf(word, sizeof word, "%.17g,", value);
    text += word;
}

std::string written_rows(const Eigen::MatrixXd& rows) {
    std::string text = "[";
    for (Eigen::Index i = 0; i < rows.rows(); ++i) {
        text += "[";
        for (Eigen::Index j = 0; j < rows.cols(); ++j) put_number(text, rows(i, j));
        text.back() = ']';
        text += ",";
    }
    text.back() = ']';
    return text;
}

// By way of the document's key `pattern`, as a page's next flute has it.
Wisdom by_pattern_key(const Eigen::VectorXd& mean, const Eigen::MatrixXd& covariance,
                      const Eigen::MatrixXd* between, const Blank& next) {
    Document document;
    document.pattern = R"({"unknowns":["sound_hole","sound_speed","holes","drift"],"mean":[)";
    for (Eigen::Index n = 0; n < mean.size(); ++n) put_number(document.pattern, mean(n));
    document.pattern.back() = ']';
    document.pattern += ",\"covariance\":" + written_rows(covariance);
    if (between) document.pattern += ",\"between\":" + written_rows(*between);
    document.pattern += "}";
    const Belief belief = with_pattern(stranger_belief(next), document);
    return {part_of(belief.mean), block_of(belief.covariance)};
}

}  // namespace

Ways ways_of(const TrueFlute& f) {
    return {f.voice, f.breath_share, f.edge_m, f.fingertip, f.breath_drift_cents, f.space};
}

void make_by(Random& random, const Ways& ways, double scatter, TrueFlute& f) {
    f.voice = ways.voice * std::exp(normal(random, scatter * kVoiceScatter));
    f.breath_share =
        std::clamp(ways.breath_share + normal(random, scatter * kShareScatter), 0.2, 0.7);
    f.edge_m = std::max(0.0, ways.edge_m + normal(random, scatter * kEdgeScatter_m));
    f.fingertip = std::clamp(ways.fingertip + normal(random, scatter * kTipScatter), 0.0, 0.6);
    f.breath_drift_cents = ways.breath_drift_cents + normal(random, scatter * kDriftScatter_cents);
    f.space = ways.space;
}

std::optional<Stage> first_layout(const Blank& blank, const Wisdom* known) {
    const Builder builder = begun_on(blank);
    Aim aim = blank.aim;
    aim.shop.bits_m.clear();  // any size: what is asked is what is known
    const Estimate knows = estimate(builder.history(), believed(blank, known));
    Goal goal = find_goal(builder.history(), knows, aim);
    if (!goal.converged) return {};
    goal.stage.foot_m = foot_to_say_m(goal, builder.history().now());
    return goal.stage;
}

Finished cut_by(Random& random, const Blank& blank, const Stage& layout, double errors) {
    Finished f{blank.truth, layout};
    f.truth.foot_m = layout.foot_m + normal(random, errors * kHiddenPlace_m);
    f.truth.holes.clear();
    for (const HoleNow& hole : layout.holes)
        f.truth.holes.push_back({hole.at_m + normal(random, errors * kHiddenPlace_m),
                                 hole.diameter_m + normal(random, errors * kHiddenSize_m), true});
    return f;
}

Finished measured(Random& random, const Blank& blank, const TrueFlute& flute) {
    Finished f{flute, begun_on(blank).history().now()};
    f.said.foot_m = flute.foot_m + normal(random, kHiddenPlace_m);
    for (std::size_t i = 0; i < flute.holes.size(); ++i) {
        f.said.holes[i].at_m = flute.holes[i].at_m + normal(random, kHiddenPlace_m);
        f.said.holes[i].diameter_m = flute.holes[i].diameter_m + normal(random, kHiddenSize_m);
    }
    return f;
}

Lesson lesson_of(Random& random, const Blank& blank, const Finished& finished, double blow_cents) {
    Builder builder = begun_on(blank);
    tell_cuts(builder, finished.said);
    for (const NoteTarget& note : blank.aim.notes) {
        const double Hz = sounding_Hz(finished.truth, note.open, blank.aim.play_C);
        if (!std::isfinite(Hz)) continue;
        builder.read(note.open, shifted_Hz(Hz, normal(random, blow_cents)),
                     std::max(blow_cents, kSureReading_cents), blank.aim.play_C);
    }
    const Belief before = stranger_belief(blank);
    const Belief after =
        estimate(builder.history(), before, blow_cents > 0.0 ? unknown_maker() : known_maker())
            .belief;
    return {part_of(before.mean), part_of(after.mean), block_of(before.covariance),
            block_of(after.covariance)};
}

Wisdom after(const Lesson& one, const Blank& next) {
    return by_pattern_key(one.mean, one.covariance, nullptr, next);
}

Wisdom after(const Hand& hand, const Blank& next) {
    return by_pattern_key(hand.mean, hand.covariance, &hand.between, next);
}

Stranger stranger_of(const Blank& blank) {
    const Belief b = stranger_belief(blank);
    return {part_of(b.mean), block_of(b.covariance).diagonal().cwiseSqrt(), kNew};
}

double worst_cents(const TrueFlute& flute, const Blank& blank) {
    double worst = 0.0;
    for (const double error : errors_cents(flute, blank.aim))
        worst = std::max(worst, std::abs(error));
    return worst;
}

void judge_layout(const Blank& blank, const Wisdom* known, const Finished& finished,
                  std::vector<double>& departures) {
    Builder builder = begun_on(blank);
    tell_cuts(builder, finished.said);
    const Estimate knows = estimate(builder.history(), believed(blank, known));
    for (const NoteTarget& note : blank.aim.notes) {
        const double above = note.interval_cents - blank.aim.notes.front().interval_cents;
        const NoteModel model = note_model(builder.history(), builder.history().now(), note.open,
                                           blank.aim.play_C, knows.belief.mean, above);
        const double Hz = sounding_Hz(finished.truth, note.open, blank.aim.play_C);
        if (std::isfinite(Hz))
            departures.push_back(cents_between(Hz, model.frequency_Hz) /
                                 sigma_cents(model, knows.belief));
    }
}

}  // namespace virtual_makers
