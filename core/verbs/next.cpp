// core/verbs/next.cpp -- a step of core/bench, written out.
#include "core/verbs/next.hpp"

#include <algorithm>
#include <cmath>

#include "core/base/units.hpp"
#include "core/bench/belief/note_model.hpp"
#include "core/bench/names.hpp"
#include "core/bench/next_step.hpp"
#include "core/bench/ways.hpp"
#include "core/document/typed.hpp"
#include "core/task/task.hpp"

namespace canewright {

namespace {

Json option_json(const RescueOption& option) {
    Json json = Json::object();
    json["what"] = name(option.what);
    json["reversible"] = option.reversible;
    if (option.number > 0) json["number"] = option.number;
    if (option.size_m > 0.0) json["size_mm"] = typed_mm(option.size_m);
    if (option.length_m != 0.0) json["length_mm"] = typed_mm(option.length_m);
    if (option.target_Hz > 0.0) json["target_hz"] = option.target_Hz;
    json["shift_cents"] = number_json(option.shift_cents);
    json["sigma_cents"] = number_json(option.sigma_cents);
    json["costs_cents"] = number_json(option.costs_cents);
    return json;
}

Json options_json(const std::vector<RescueOption>& options) {
    Json json = Json::array();
    for (const RescueOption& option : options) json.push_back(option_json(option));
    return json;
}

Json ways_json(const BuildState& build, const Step& step) {
    Json json = Json::array();
    for (const NoteWays& ways : ways_of(build.history, build.estimate, build.aim, step.goal)) {
        Json entry = Json::object();
        entry["open"] = build.aim.notes[ways.note].open;
        entry["cents"] = number_json(ways.off_cents);
        entry["sigma_cents"] = number_json(ways.sigma_cents);
        entry["options"] = options_json(ways.options);
        json.push_back(std::move(entry));
    }
    return json;
}

Json verdict_json(const Step& step, double tolerance_cents, double a4_Hz) {
    Json json = Json::array();
    for (const Forecast& note : step.notes) {
        Json entry = Json::object();
        entry["open"] = note.open;
        entry["name"] = name_json(note.target_Hz, a4_Hz);
        entry["cents"] = number_json(note.now_cents);
        entry["sigma_cents"] = number_json(note.sigma_cents);
        entry["within"] = std::abs(note.now_cents) <= tolerance_cents;
        json.push_back(std::move(entry));
    }
    return json;
}

Json step_json(const Step& step, double tolerance_cents, double a4_Hz) {
    Json json = Json::object();
    json["do"] = name(step.what);
    const bool cuts = step.what == Do::foot || step.what == Do::hole;
    if (step.what == Do::read) json["open"] = step.open;
    if (step.what == Do::hole || step.what == Do::undercut) json["number"] = step.number;
    if (cuts) json["at_mm"] = typed_mm(step.at_m);
    if (cuts || step.what == Do::undercut) {
        json["expect_hz"] = number_json(step.expect_Hz > 0.0 ? step.expect_Hz : NAN);
        json["of"] = step.open;
    }
    if (step.until) {
        json["until"] = Json::object();
        json["until"]["open"] = step.until->open;
        json["until"]["hz"] = step.until->stop_Hz;
        json["until"]["allowance_cents"] = step.until->allowance_cents;
        json["until"]["now_hz"] = number_json(step.until->now_Hz);
        json["until"]["now_sigma_cents"] = number_json(step.until->now_sigma_cents);
        json["until"]["moment_cents"] = step.until->moment_cents;
    } else if (step.diameter_m) {
        json["diameter_mm"] = typed_mm(*step.diameter_m);
        if (step.wide_m != *step.diameter_m) json["wide_mm"] = typed_mm(step.wide_m);
    }
    if (step.what == Do::rescue) {
        // The first is the one to try: its amounts stand in the step itself.
        if (!step.rescue.options.empty()) json.update(option_json(step.rescue.options.front()));
        json["open"] = step.open;
        json["options"] = options_json(step.rescue.options);
    }
    if (step.what == Do::done) json["verdict"] = verdict_json(step, tolerance_cents, a4_Hz);
    return json;
}

// What a note's band would be had nothing been read.
double before_cents(const BuildState& build, const Step& step, std::size_t n) {
    const Forecast& note = step.notes[n];
    const NoteModel model =
        note_model(build.history, step.goal.stage, note.open, build.aim.play_C,
                   build.estimate.belief.mean, step.goal.above_cents[n], note.target_Hz);
    const Eigen::VectorXd slope = model.slope.head(kCommonUnknowns);
    return model.speaks ? std::sqrt(slope.dot(build.before.covariance * slope)) : NAN;
}

Json notes_json(const BuildState& build, const Step& step, double a4_Hz) {
    Json json = Json::array();
    for (std::size_t n = 0; n < step.notes.size(); ++n) {
        const Forecast& note = step.notes[n];
        Json entry = Json::object();
        entry["open"] = note.open;
        entry["name"] = name_json(note.target_Hz, a4_Hz);
        entry["target_hz"] = note.target_Hz;
        entry["hz"] = number_json(note.expected_Hz);
        entry["sigma_cents"] = number_json(note.sigma_cents);
        entry["before_cents"] = number_json(before_cents(build, step, n));
        entry["now_cents"] = number_json(note.now_cents);
        if (!step.prospect.end_cents.empty())
            entry["ends_cents"] = number_json(step.prospect.end_cents[n]);
        json.push_back(std::move(entry));
    }
    return json;
}

Json plan_json(const Goal& goal) {
    Json json = Json::array();
    for (const HoleNow& hole : goal.stage.holes) {
        Json entry = Json::object();
        entry["at_mm"] = typed_mm(hole.at_m);
        entry["diameter_mm"] = typed_mm(hole.diameter_m);
        json.push_back(std::move(entry));
    }
    return json;
}

Json readings_json(const BuildState& build) {
    Json json = Json::array();
    for (std::size_t i = 0; i < build.history.heard.size(); ++i) {
        const Verdict& verdict = build.estimate.verdicts[i];
        Json entry = Json::object();
        entry["entry"] = build.history.heard[i].entry;
        entry["trusted"] = verdict.trusted;
        entry["of_this_voice"] = !build.history.heard[i].voice_moved_since;
        entry["off_cents"] = number_json(verdict.off_cents);
        entry["sigma_cents"] = number_json(verdict.sigma_cents);
        json.push_back(std::move(entry));
    }
    return json;
}

Json unknowns_json(const BuildState& build) {
    Json json = Json::array();
    for (int n = 0; n < kCommonUnknowns; ++n) {
        const double sigma = build.estimate.belief.sigma(n), before = build.before.sigma(n);
        Json entry = Json::object();
        entry["name"] = name(static_cast<Unknown>(n));
        entry["mean"] = build.estimate.belief.mean(n);
        entry["sigma"] = sigma;
        entry["prior_sigma"] = before;
        entry["told"] = sigma < kToldShare * before;
        json.push_back(std::move(entry));
    }
    return json;
}

Json prospect_json(const Prospect& prospect) {
    Json json = Json::object();
    json["within_cents"] = number_json(prospect.within_cents);
    json["good_enough_cents"] = prospect.good_enough_cents;
    json["tolerance_cents"] = prospect.tolerance_cents;
    json["chance"] = prospect.chance;
    json["all_cut"] = prospect.all_cut;
    json["steps_left"] = prospect.steps_left;
    return json;
}

// How this maker seems to err, by how well the readings fit each other.
Json maker_json(const Estimate& estimate) {
    Json json = Json::object();
    json["moment_cents"] = estimate.habit.moment_cents;
    json["usual_moment_cents"] = estimate.usual.moment_cents;
    json["hands"] = estimate.habit.hands;
    json["wider"] = name(wider(estimate));
    return json;
}

}  // namespace

Json next_answer(const Document& document) {
    const BuildState build = build_of(document);
    const Step step = next_step(build.history, build.estimate, build.aim);
    const double a4_Hz = document.song->a4_Hz.value_or(kDefaultA4_Hz);
    Json json = Json::object();
    json["step"] = step_json(step, build.aim.tolerance_cents, a4_Hz);
    json["why"] = name(step.why);
    json["expect_cents"] = number_json(step.expect_cents);
    json["sigma_cents"] = number_json(step.sigma_cents);
    json["overshoot"] = number_json(step.overshoot);
    json["notes"] = notes_json(build, step, a4_Hz);
    json["finger_holes"] = plan_json(step.goal);
    json["foot_mm"] = typed_mm(foot_to_say_m(step.goal, build.history.now()));
    json["prospect"] = prospect_json(step.prospect);
    json["maker"] = maker_json(build.estimate);
    json["trouble"] = name(step.rescue.trouble);
    json["remedies"] = options_json(step.rescue.options);
    json["ways"] = ways_json(build, step);
    json["readings"] = readings_json(build);
    json["unknowns"] = unknowns_json(build);
    json["at_c"] = build.aim.room_C;
    json["converged"] = step.converged;
    return json;
}

}  // namespace canewright
