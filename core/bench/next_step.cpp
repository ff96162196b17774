// core/bench/next_step.cpp: the order of work.
#include "core/bench/next_step.hpp"

#include <algorithm>
#include <cmath>
#include <optional>

#include "core/bench/make_step.hpp"
#include "core/bench/readings.hpp"

namespace canewright {
namespace {

constexpr double kNear_cents = 1.9;        // in tune enough to leave alone
constexpr double kNearForNow_cents = 5.0;  // the same while other holes are to come
constexpr double kUnsure_cents = 1.7;      // read again what is less sure than this
constexpr double kWorthSawing_m = 1.5e-3;  // a saw cut thinner than this is sanding
constexpr double kLongAtFirst = 0.035;     // of the length: enough that the trim tells something
constexpr double kLeftByFoot_cents = 10.0;
constexpr int kMostReads = 4;             // of one note at one cut
constexpr double kTooSharpChance = 0.25;  // of being beyond the tolerance: then it is rescued

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
        const bool any_cut = std::any_of(now().holes.begin(), now().holes.end(),
                                         [](const HoleNow& h) { return h.cut; });
        if (!any_cut)
            if (const auto step = voice_and_foot()) return *step;
        if (const auto step = holes()) return *step;
        if (!aim_.lowest_free)
            if (const auto step = tune(cuts_.lowest_note(), -1)) return *step;
        if (const auto step = last_checks()) return *step;
        return {};
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
        if (cuts_.overshoot(cuts_.off_cents(low), cuts_.off_sigma_cents(low)) > kTooSharpChance &&
            !now().foot_plug)
            return make_.rescue(low, -1);
        return std::nullopt;
    }

    // One note with its hole as it is: hear it or open it; nothing when it is good, or too sharp.
    std::optional<Step> tune(std::size_t note, int own) const {
        const double off = cuts_.off_cents(note);
        if (!std::isfinite(off)) return std::nullopt;
        const double sigma = cuts_.off_sigma_cents(note);
        const double margin = cuts_.stop_margin_cents(own);
        const Read read = read_of(note, own);
        if (read.trusted == 0 && read.distrusted < kMostAsks) {
            // surely flat: blowing comes with opening anyway
            if (off + margin + cuts_.safe_sigmas() * sigma < 0.0) return make_.by_ear(note, own);
            return make_.read(note, Why::hear_note);
        }
        if (off < -kNearForNow_cents && read.all() < kMostReads) return make_.by_ear(note, own);
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

    std::optional<Step> last_checks() const {
        if (aim_.needs_drying && history_.dried_entry < 0) {
            Step step;
            step.what = Do::wait;
            step.why = Why::let_dry;
            return step;
        }
        for (int own = static_cast<int>(now().holes.size()) - 1; own >= -1; --own) {
            const int n = own < 0 ? static_cast<int>(cuts_.lowest_note()) : note_of(aim_, own);
            if (n < 0) continue;
            const std::size_t note = static_cast<std::size_t>(n);
            const double sigma = cuts_.off_sigma_cents(note);
            const double off = cuts_.off_cents(note);
            // after drying the ends of the scale are heard again; others when in doubt
            const bool outer = own <= 0;
            const bool dried = aim_.needs_drying && outer;
            if ((dried && !heard(note, own, history_.dried_entry)) ||
                (sigma > kUnsure_cents && read_of(note, own).all() < kMostReads))
                return make_.read(note, Why::hear_note);
            if (own < 0 && (aim_.lowest_free || now().foot_plug)) continue;
            if (cuts_.overshoot(off, sigma) > kTooSharpChance) return make_.rescue(note, own);
            // the last touch; not for ever where ear and belief differ
            if (off < -kNear_cents && read_of(note, own).all() <= kMostReads)
                return make_.by_ear(note, own);
        }
        return std::nullopt;
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
