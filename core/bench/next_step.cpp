// core/bench/next_step.cpp: the order of work.
#include "core/bench/next_step.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <optional>

#include "core/bench/belief/readings.hpp"
#include "core/bench/make_step.hpp"
#include "core/bench/strokes.hpp"
#include "core/bench/worth.hpp"

namespace canewright {
namespace {

constexpr double kWorthOpening_cents = 8.0;  // flat beyond it is opened again before the next hole
constexpr double kWorthSawing_m = 1.5e-3;    // a saw cut thinner than this is sanding
constexpr double kLongAtFirst = 0.035;       // of the length: enough that the trim tells something
constexpr double kLeftByFoot_cents = 10.0;
constexpr int kMostReads = 4;             // of one note at one cut
constexpr double kTooSharpChance = 0.25;  // of being beyond the tolerance: then it is rescued

bool any_cut(const Stage& stage) {
    return std::any_of(stage.holes.begin(), stage.holes.end(),
                       [](const HoleNow& h) { return h.cut; });
}

class Planner {
   public:
    Planner(const History& history, const Estimate& estimate, const Aim& aim)
        : history_(history),
          estimate_(estimate),
          aim_(aim),
          goal_(find_goal(history, estimate, aim)),
          cuts_(history, estimate, aim, goal_),
          make_(history, estimate, aim, goal_, cuts_) {}

    Step plan() {
        Step step = choose();
        if (step.what != Do::rescue)
            step.rescue = look_for_trouble(history_, estimate_, aim_, goal_);
        make_.forecast(step);
        step.prospect = prospect();
        if (step.what == Do::done) step.prospect.steps_left = 0;
        return step;
    }

   private:
    const Stage& now() const { return history_.now(); }
    Read read_of(std::size_t note, int own, int after_entry = -1) const {
        return canewright::read_of(history_, estimate_, aim_.notes[note].open, own, after_entry);
    }
    // Whether a note has been heard as it is, or asked for often enough.
    bool heard(std::size_t note, int own, int after_entry = -1) const {
        const Read read = read_of(note, own, after_entry);
        return read.trusted > 0 || read.distrusted >= kMostAsks;
    }

    Step choose() const {
        if (const auto step = again()) return *step;
        if (const auto step = alarm()) return *step;
        if (!any_cut(now()))
            if (const auto step = voice_and_foot()) return *step;
        if (const auto step = holes()) return *step;
        if (!aim_.lowest_free)
            if (const auto step = tune(cuts_.lowest_note(), -1)) return *step;
        if (const auto step = drying()) return *step;
        if (const auto step = worthwhile()) return *step;
        return {};
    }

    // A note heard with its hole as it is now, and probably too sharp: before anything else is cut.
    std::optional<Step> alarm() const {
        for (int own = static_cast<int>(now().holes.size()) - 1; own >= -1; --own) {
            if (own < 0 && (aim_.lowest_free || now().foot_plug || !any_cut(now()))) continue;
            const int note = own < 0 ? static_cast<int>(cuts_.lowest_note()) : note_of(aim_, own);
            if (note < 0 || !playable(now(), aim_.notes[static_cast<std::size_t>(note)].open))
                continue;
            const std::size_t n = static_cast<std::size_t>(note);
            if (read_of(n, own).trusted > 0 && too_sharp(n)) return make_.rescue(n, own);
        }
        return std::nullopt;
    }
    bool too_sharp(std::size_t note) const {
        return cuts_.overshoot(cuts_.off_cents(note), cuts_.off_sigma_cents(note)) >
               kTooSharpChance;
    }

    // The last thing heard does not fit the rest: once more, before anything is cut.
    std::optional<Step> again() const {
        if (history_.heard.empty()) return std::nullopt;
        const std::size_t last = history_.heard.size() - 1;
        const Heard& heard_last = history_.heard[last];
        if (estimate_.verdicts[last].trusted || heard_last.voice_moved_since ||
            heard_last.stage + 1 != history_.stages.size())
            return std::nullopt;
        for (std::size_t n = 0; n < aim_.notes.size(); ++n) {
            if (aim_.notes[n].open != heard_last.open) continue;
            if (heard(n, own_hole(heard_last.open))) return std::nullopt;
            const Trouble trouble = look_for_trouble(history_, estimate_, aim_, goal_).trouble;
            const bool all_off = trouble == Trouble::all_flat || trouble == Trouble::all_sharp;
            return make_.read(n, all_off ? Why::warm_up : Why::hear_again);
        }
        return std::nullopt;
    }

    std::optional<Step> voice_and_foot() const {
        const std::size_t low = cuts_.lowest_note();
        if (aim_.lowest_free) {
            if (!heard(low, -1)) return make_.read(low, Why::hear_voice);
            return std::nullopt;
        }
        const double by_measure_m = cuts_.foot_by_measure_m(kLeftByFoot_cents);
        if (feet_heard(history_) == 0) {
            const double long_m = std::max(by_measure_m, (1.0 + kLongAtFirst) * goal_.stage.foot_m);
            if (now().foot_m > long_m + 2.0 * kWorthSawing_m && history_.stages.size() == 1)
                return make_.saw(long_m, Why::saw_long);
            return make_.read(low, Why::hear_voice);
        }
        if (!heard(low, -1)) return make_.read(low, Why::hear_trimmed);
        if (now().foot_m > by_measure_m + kWorthSawing_m)
            return make_.saw(by_measure_m, Why::trim_foot);
        if (too_sharp(low) && !now().foot_plug) return make_.rescue(low, -1);
        return std::nullopt;
    }

    // One note with its hole as it is: hear it or open it; nothing when it is good, or too sharp.
    std::optional<Step> tune(std::size_t note, int own) const {
        const double off = cuts_.off_cents(note);
        if (!std::isfinite(off)) return std::nullopt;
        const double sigma = cuts_.off_sigma_cents(note);
        const double margin = cuts_.stop_margin_cents(note, own);
        const Read read = read_of(note, own);
        if (read.trusted == 0 && read.distrusted < kMostAsks) {
            // surely flat: blowing comes with opening anyway
            if (off + margin + cuts_.safe_sigmas() * sigma < 0.0) return make_.by_ear(note, own);
            return make_.read(note, Why::hear_note);
        }
        if (off < -kWorthOpening_cents && read.all() < kMostReads) return make_.by_ear(note, own);
        return std::nullopt;
    }

    // A hole that the readings would send further from its plan than anything believed explains,
    // and that is out of tune where it is held: the note cut last is heard again before it is
    // drilled.
    std::optional<Step> plan_in_doubt(std::size_t hole) const {
        const int own = note_of(aim_, static_cast<int>(hole));
        if (own < 0 || !goal_.held[hole] ||
            std::abs(goal_.left_over_cents[static_cast<std::size_t>(own)]) < aim_.tolerance_cents)
            return std::nullopt;
        int last = -1;
        for (std::size_t i = now().holes.size(); i-- > 0;)
            if (now().holes[i].cut) last = static_cast<int>(i);
        const int note = last < 0 ? static_cast<int>(cuts_.lowest_note()) : note_of(aim_, last);
        if (note < 0 || read_of(static_cast<std::size_t>(note), last).all() >= kMostReads)
            return std::nullopt;
        return make_.read(static_cast<std::size_t>(note), Why::plan_moved);
    }

    std::optional<Step> holes() const {
        for (std::size_t hole = now().holes.size(); hole-- > 0;) {
            const int note = note_of(aim_, static_cast<int>(hole));
            if (!now().holes[hole].cut) {
                if (const auto step = plan_in_doubt(hole)) return step;
                return make_.drill(hole, note);
            }
            if (note < 0) continue;
            if (const auto step = tune(static_cast<std::size_t>(note), static_cast<int>(hole)))
                return step;
        }
        return std::nullopt;
    }

    // Finished and dry: only then the ends of the scale tell whether it is still what it was.
    std::optional<Step> drying() const {
        if (!aim_.needs_drying) return std::nullopt;
        if (history_.dried_entry < 0) {
            Step step;
            step.what = Do::wait;
            step.why = Why::let_dry;
            return step;
        }
        for (const int own : {0, -1}) {
            if (own >= static_cast<int>(now().holes.size())) continue;
            const int note = own < 0 ? static_cast<int>(cuts_.lowest_note()) : note_of(aim_, own);
            if (note >= 0 && !heard(static_cast<std::size_t>(note), own, history_.dried_entry))
                return make_.read(static_cast<std::size_t>(note), Why::hear_note);
        }
        return std::nullopt;
    }

    // What is left that pays, until the finish line.
    std::optional<Step> worthwhile() const {
        const NotesNow notes = cuts_.notes();
        if (!notes.mean.allFinite()) return std::nullopt;
        const std::optional<Deed> deed = next_deed(notes, work(), finish());
        if (!deed) return std::nullopt;
        const int own = own_hole(aim_.notes[deed->note].open);
        if (deed->what == Deed::What::narrow) return make_.rescue(deed->note, own);
        if (deed->what == Deed::What::read) return make_.read(deed->note, Why::hear_note);
        Step step = make_.by_ear(deed->note, own);
        if (step.what != Do::undercut) step.why = Why::last_touch;
        return step;
    }

    Finish finish() const { return {aim_.good_enough_cents, aim_.tolerance_cents, aim_.risk}; }

    Work work() const {
        Work work;
        work.stop_sigma = cuts_.stop_sigma_cents();
        work.moment_cents = cuts_.moment_sigma_cents();
        work.read_sigma =
            std::hypot(reading_sigma_cents(history_), work.moment_cents, kModelSigma_cents);
        for (std::size_t n = 0; n < aim_.notes.size(); ++n) {
            const int own = own_hole(aim_.notes[n].open);
            work.stop_cents.push_back(-cuts_.stop_margin_cents(n, own));
            const bool foot_stays = own < 0 && (aim_.lowest_free || now().foot_plug);
            work.may_open.push_back(note_of(aim_, own) == static_cast<int>(n) && !foot_stays);
            work.may_read.push_back(in_a_row(aim_.notes[n].open) < kMostInARow);
            work.may_narrow.push_back(own >= 0 && work.may_open.back());
            const bool cut = playable(now(), aim_.notes[n].open);
            work.checks_left.push_back(cut ? kMostReads - read_of(n, own).all() : 0);
        }
        return work;
    }
    // In how many sittings a fingering was heard last, nothing else between.
    int in_a_row(const Fingering& open) const {
        const std::vector<int> sitting = sittings(history_);
        int count = 0;
        for (std::size_t i = history_.heard.size(); i-- > 0;) {
            if (history_.heard[i].open != open) break;
            if (i + 1 == sitting.size() || sitting[i] != sitting[i + 1]) ++count;
        }
        return count;
    }

    // About how many steps are left, and what they come to.
    Prospect prospect() const {
        Prospect s;
        s.good_enough_cents = aim_.good_enough_cents;
        s.tolerance_cents = aim_.tolerance_cents;
        const bool dry = !aim_.needs_drying || history_.dried_entry >= 0;
        NotesNow notes;
        s.all_cut = std::all_of(now().holes.begin(), now().holes.end(),
                                [](const HoleNow& h) { return h.cut; });
        if (s.all_cut) notes = cuts_.notes();
        s.all_cut = s.all_cut && notes.mean.allFinite();
        Work to_do = work();
        if (!s.all_cut) {  // opened once, each
            const Eigen::Index count = static_cast<Eigen::Index>(aim_.notes.size());
            const double sigma = std::hypot(to_do.stop_sigma, to_do.moment_cents);
            for (std::size_t n = 0; n < aim_.notes.size(); ++n)
                to_do.stop_cents[n] = cuts_.end_cents(n);
            s.end_cents = to_do.stop_cents;
            notes.mean = Eigen::Map<const Eigen::VectorXd>(to_do.stop_cents.data(), count);
            notes.covariance = sigma * sigma * Eigen::MatrixXd::Identity(count, count);
            for (const HoleNow& hole : now().holes) s.steps_left += hole.cut ? 0 : 2;
            if (!any_cut(now()) && !aim_.lowest_free)
                s.steps_left += std::max(0, 4 - 2 * feet_heard(history_));
            s.steps_left += aim_.lowest_free ? 0 : 1;
            to_do.may_read.assign(aim_.notes.size(), true);
        } else {
            s.within_cents = probably_within_cents(notes);
            s.chance = chance_within(notes, aim_.good_enough_cents);
            // what is flat is opened before the flute is put away to dry
            for (std::size_t n = 0; n < aim_.notes.size(); ++n)
                if (to_do.may_open[n] && cuts_.off_cents(n) < -kWorthOpening_cents && !dry) {
                    notes = after_opening(notes, n, to_do);
                    ++s.steps_left;
                }
        }
        if (!dry) s.steps_left += 3;
        if (!notes.mean.allFinite()) {  // a note is planned that does not speak
            s.within_cents = std::numeric_limits<double>::infinity();
            return s;
        }
        if (!s.all_cut) {
            s.within_cents = probably_within_cents(notes);
            s.chance = chance_within(notes, aim_.good_enough_cents);
        }
        s.steps_left += deeds_left(notes, to_do, finish());
        return s;
    }

    const History& history_;
    const Estimate& estimate_;
    const Aim& aim_;
    const Goal goal_;
    const Cuts cuts_;
    const StepMaker make_;
};

}  // namespace

Step next_step(const History& history, const Estimate& estimate, const Aim& aim) {
    return Planner(history, estimate, aim).plan();
}

}  // namespace canewright
