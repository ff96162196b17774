// tools/virtual_makers/canewright.cpp: the maker who follows the planner to the word.
#include <algorithm>
#include <cmath>
#include <cstdio>
#include <ctime>

#include "core/base/units.hpp"
#include "core/bench/belief/evidence.hpp"
#include "core/bench/belief/note_model.hpp"
#include "core/bench/next_step.hpp"
#include "tools/virtual_makers/methods.hpp"

namespace virtual_makers {
namespace {

using namespace canewright;

constexpr double kSlow_s = 0.05;

// What is believed of every playable note, against how it really sounds.
void judge(const History& history, const Estimate& estimate, const Aim& aim, const Hands& hands,
           Calibration& calibration) {
    for (const NoteTarget& note : aim.notes) {
        bool playable = true;
        for (const int number : note.open)
            playable = playable && history.now().holes[static_cast<std::size_t>(number - 1)].cut;
        if (!playable) continue;
        const double above = note.interval_cents - aim.notes.front().interval_cents;
        const NoteModel model = note_model(history, history.now(), note.open, hands.shown_C(),
                                           estimate.belief.mean, above);
        const double sigma = sigma_cents(model, estimate.belief);
        calibration.add(cents_between(hands.true_Hz(note.open), model.frequency_Hz) / sigma);
    }
}

std::string line(const char* form, double a, double b = 0.0, double c = 0.0) {
    char text[160];
    std::snprintf(text, sizeof text, form, a, b, c);
    return text;
}

}  // namespace

double good_enough_cents(const Setting& setting) {
    return setting.good_enough_cents > 0.0 ? setting.good_enough_cents : Aim{}.good_enough_cents;
}

Made by_canewright(const Blank& blank, Random& random, bool mishaps, const Setting& setting) {
    Made made;
    Hands hands(blank, random, mishaps);
    Builder builder(blank.measured, blank.room, blank.layout.flute.holes, blank.aim.notes,
                    blank.measures);
    Aim aim = blank.aim;
    aim.good_enough_cents = good_enough_cents(setting);
    std::vector<int> said;  // steps left, at each step
    const Belief before = prior(blank.measured.bore.front().diameter_m, blank.measures.bore_m,
                                blank.measured.wall_m, blank.measures.wall_m, blank.voice_sigma);
    for (const FingerHole& hole : blank.layout.flute.holes)
        made.diary.push_back(
            line("planned %.1f, %.2f wide", mm_from_m(hole.at_m), mm_from_m(hole.diameter_m)));
    for (;; ++made.steps) {
        if (made.steps > kMostBuildSteps) made.finished = false;
        aim.room_C = hands.shown_C();
        const std::clock_t begun = std::clock();  // the processor's time: others share the machine
        const Estimate known = estimate(builder.history(), before);
        const Step step = next_step(builder.history(), known, aim);
        const double took_s = static_cast<double>(std::clock() - begun) / CLOCKS_PER_SEC;
        made.slowest_s = std::max(made.slowest_s, took_s);
        if (took_s > kSlow_s) made.diary.push_back(line("slow answer: %.3f s", took_s));
        if (step.what == Do::done || !made.finished) {
            judge(builder.history(), known, aim, hands, made.at_end);
            made.diary.push_back(line("ends at %.1f, chance of good enough %.2f; moment %.1f",
                                      step.prospect.within_cents, step.prospect.chance,
                                      known.habit.moment_cents));
            for (std::size_t n = 0; n < step.notes.size(); ++n)
                made.diary.push_back(line("end: off %+.1f +- %.1f, left over %+.1f",
                                          step.notes[n].now_cents, step.notes[n].sigma_cents,
                                          step.goal.left_over_cents[n]));
            break;
        }
        judge(builder.history(), known, aim, hands, made.during);
        said.push_back(step.prospect.steps_left);
        made.diary.push_back(line("stands at %.1f, %.0f steps left; moment %.1f",
                                  step.prospect.within_cents, step.prospect.steps_left,
                                  known.habit.moment_cents));
        hands.let_time_pass();
        aim.room_C = hands.shown_C();
        const double open = step.open.empty() ? 0.0 : step.open.front();
        const auto hear_first = [&](const Hands::Opened& o) {
            builder.read(step.open, o.first.frequency_Hz, o.first.sigma_cents, hands.shown_C());
        };
        switch (step.what) {
            case Do::read: {
                const Attempts heard = hands.read(step.open);
                builder.read(step.open, heard.frequency_Hz, heard.sigma_cents, hands.shown_C());
                made.diary.push_back(line("read %.0f why %.0f", open, static_cast<int>(step.why)));
                break;
            }
            case Do::foot:
                if (step.until) {
                    const Hands::Opened o = hands.open_until(0, *step.until);
                    if (o.strokes > 0) hear_first(o);
                    if (o.strokes > 0) builder.foot(o.foot_m, blank.measures.ruler_m);
                    builder.read(step.open, o.last.frequency_Hz, o.last.sigma_cents,
                                 hands.shown_C());
                    made.diary.push_back(line("foot until, %.0f strokes", o.strokes));
                } else {
                    builder.foot(hands.saw(step.at_m));
                    made.diary.push_back(
                        line("foot at %.1f expect %.1f", mm_from_m(step.at_m), step.expect_cents));
                }
                break;
            case Do::hole:
                if (step.until) {
                    const Hands::Opened o = hands.open_until(step.number, *step.until);
                    if (o.strokes > 0) hear_first(o);
                    if (o.strokes > 0)
                        builder.hole(step.number, step.at_m, hands.measured_hole_m(step.number));
                    builder.read(step.open, o.last.frequency_Hz, o.last.sigma_cents,
                                 hands.shown_C());
                    made.diary.push_back(line("hole %.0f until, %.0f strokes, expect %.1f",
                                              step.number, o.strokes, step.expect_cents));
                } else {
                    hands.drill(step.number, step.at_m, *step.diameter_m);
                    builder.hole(step.number, step.at_m, step.diameter_m);
                    made.diary.push_back(line("hole %.0f at %.1f bit %.2f", step.number,
                                              mm_from_m(step.at_m), mm_from_m(*step.diameter_m)));
                    for (const HoleNow& hole : step.goal.stage.holes)
                        made.diary.push_back(line("    goal %.1f, %.2f wide", mm_from_m(hole.at_m),
                                                  mm_from_m(hole.diameter_m)));
                }
                break;
            case Do::rescue: {
                made.rescued = true;
                const RescueOption& way = step.rescue.options.front();
                made.diary.push_back(line("rescue %.0f, hole %.0f, expect %.1f",
                                          static_cast<int>(way.what), way.number, way.shift_cents));
                if (way.what == Remedy::narrow) {
                    hands.narrow(way.number, way.size_m);
                    builder.narrow(way.number, hands.measured_hole_m(way.number));
                } else {
                    hands.close_foot(way.size_m, kRescueDisc_m);
                    builder.foot_plug(way.size_m, kRescueDisc_m);
                }
                break;
            }
            case Do::wait:
                builder.sealed();
                break;
            case Do::undercut: {  // to the truth a wider hole, to the log an undercut one
                const Hands::Opened o = hands.open_until(step.number, *step.until);
                if (o.strokes > 0) hear_first(o);
                if (o.strokes > 0) builder.undercut(step.number);
                builder.read(step.open, o.last.frequency_Hz, o.last.sigma_cents, hands.shown_C());
                made.diary.push_back(line("undercut %.0f, %.0f strokes", step.number, o.strokes));
                break;
            }
            case Do::done:
                break;
        }
    }
    made.errors_cents = errors_cents(hands.flute(), blank.aim);
    made.cuts = hands.cuts();
    made.readings = hands.readings();
    for (std::size_t n = 0; n < said.size(); ++n) {
        made.steps_said += said[n];
        made.steps_left += made.steps - static_cast<double>(n);
    }
    return made;
}

}  // namespace virtual_makers
