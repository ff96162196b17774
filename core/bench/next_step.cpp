// core/bench/next_step.cpp: the order of work.
#include "core/bench/next_step.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "core/base/units.hpp"
#include "core/bench/cuts.hpp"
#include "core/bench/note_model.hpp"

namespace canewright {
namespace {

constexpr double kNear_cents = 2.0;        // in tune enough to leave alone
constexpr double kUnsure_cents = 1.6;      // read again what is less sure than this
constexpr double kWorthSawing_m = 1.5e-3;  // a saw cut thinner than this is sanding
constexpr double kLongAtFirst = 0.035;     // of the length: enough that the trim tells something
constexpr double kLeftByFoot_cents = 10.0;
constexpr int kMostAsks = 3;  // of one reading that does not fit

// What the log says of a note at its present cut: trusted readings since, and distrusted ones.
struct Read {
    int trusted = 0, distrusted = 0;
};

class Planner {
   public:
    Planner(const History& history, const Estimate& estimate, const Aim& aim)
        : history_(history),
          estimate_(estimate),
          aim_(aim),
          goal_(find_goal(history, estimate, aim)),
          cuts_(history, estimate, aim, goal_) {}

    Step plan() {
        if (const auto step = again()) return finish(*step);
        if (!any_hole_cut())
            if (const auto step = voice_and_foot()) return finish(*step);
        if (const auto step = holes()) return finish(*step);
        if (const auto step = foot_by_ear()) return finish(*step);
        if (const auto step = last_checks()) return finish(*step);
        Step done;
        return finish(done);
    }

   private:
    const Stage& now() const { return history_.now(); }
    bool any_hole_cut() const {
        return std::any_of(now().holes.begin(), now().holes.end(),
                           [](const HoleNow& hole) { return hole.cut; });
    }

    // Readings of a note with its own hole (or the foot) as it is now.
    Read read_of(std::size_t note, int own_hole, int after_entry = -1) const {
        Read read;
        for (std::size_t i = 0; i < history_.heard.size(); ++i) {
            const Heard& heard = history_.heard[i];
            if (heard.voice_moved_since || heard.entry < after_entry) continue;
            if (heard.open != aim_.notes[note].open) continue;
            const Stage& then = history_.stages[heard.stage];
            const bool same = own_hole < 0
                                  ? then.foot_m == now().foot_m
                                  : then.holes[static_cast<std::size_t>(own_hole)].cutting ==
                                        now().holes[static_cast<std::size_t>(own_hole)].cutting;
            if (!same) continue;
            ++(estimate_.verdicts[i].trusted ? read.trusted : read.distrusted);
        }
        return read;
    }
    // Whether a note has been heard as it is, or asked for often enough.
    bool heard(std::size_t note, int own_hole, int after_entry = -1) const {
        const Read read = read_of(note, own_hole, after_entry);
        return read.trusted > 0 || read.distrusted >= kMostAsks;
    }

    // The note that a hole tunes: the one where it is the open hole nearest the sound hole.
    std::optional<std::size_t> note_of(std::size_t hole) const {
        std::optional<std::size_t> best;
        for (std::size_t n = 0; n < aim_.notes.size(); ++n) {
            const Fingering& open = aim_.notes[n].open;
            if (open.empty() ||
                *std::min_element(open.begin(), open.end()) != static_cast<int>(hole) + 1)
                continue;
            if (!best || aim_.notes[n].interval_cents < aim_.notes[*best].interval_cents) best = n;
        }
        return best;
    }

    Step read_step(std::size_t note, Why why) const {
        Step step;
        step.what = Do::read;
        step.why = why;
        step.open = aim_.notes[note].open;
        step.sigma_cents = cuts_.off_sigma_cents(note);
        return step;
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
            const Fingering& open = heard_last.open;
            const int own = open.empty() ? -1 : *std::min_element(open.begin(), open.end()) - 1;
            const Read read = read_of(n, own);
            if (read.trusted > 0 || read.distrusted >= kMostAsks) return std::nullopt;
            return read_step(n, Why::hear_again);
        }
        return std::nullopt;
    }

    Step saw(double at_m, Why why) const {
        Step step;
        step.what = Do::foot;
        step.why = why;
        step.at_m = at_m;
        const std::size_t low = cuts_.lowest_note();
        const double per_m = cuts_.foot_cents_per_m();
        step.expect_cents = (now().foot_m - at_m) * per_m;
        step.sigma_cents = sigma_cents(
            note_model(history_, goal_.stage, {}, aim_.play_C, estimate_.belief.mean, 0.0),
            estimate_.belief);
        step.open = aim_.notes[low].open;
        step.overshoot = cuts_.overshoot(-(at_m - goal_.stage.foot_m) * per_m, step.sigma_cents);
        return step;
    }

    std::optional<Step> voice_and_foot() const {
        const std::size_t low = cuts_.lowest_note();
        if (aim_.lowest_free) {
            if (!heard(low, -1)) return read_step(low, Why::hear_voice);
            return std::nullopt;
        }
        int feet = 0;  // lengths at which the tube was heard
        double last_m = -1.0;
        for (const Heard& h : history_.heard) {
            if (!h.open.empty() || h.voice_moved_since) continue;
            const double foot_m = history_.stages[h.stage].foot_m;
            if (foot_m != last_m) ++feet;
            last_m = foot_m;
        }
        const double by_measure_m = cuts_.foot_by_measure_m(kLeftByFoot_cents);
        if (feet == 0) {
            const double long_m = std::max(by_measure_m, (1.0 + kLongAtFirst) * goal_.stage.foot_m);
            if (now().foot_m > long_m + 2.0 * kWorthSawing_m && history_.stages.size() == 1)
                return saw(long_m, Why::saw_long);
            return read_step(low, Why::hear_voice);
        }
        if (!heard(low, -1)) return read_step(low, Why::hear_trimmed);
        if (now().foot_m > by_measure_m + kWorthSawing_m) return saw(by_measure_m, Why::trim_foot);
        return std::nullopt;
    }

    Step drill(std::size_t hole, std::optional<std::size_t> note) const {
        Step step;
        step.what = Do::hole;
        step.why = Why::drill_small;
        step.number = static_cast<int>(hole) + 1;
        step.at_m = goal_.stage.holes[hole].at_m;
        const double most_m =
            note ? cuts_.drill_m(hole, *note) : goal_.stage.holes[hole].diameter_m;
        if (aim_.shop.bits_m.empty()) {
            step.diameter_m = most_m;
        } else {
            step.diameter_m = cuts_.bit_m(most_m);
            // no bit is small enough: the smallest there is, turned with care
            if (!step.diameter_m)
                step.diameter_m =
                    *std::min_element(aim_.shop.bits_m.begin(), aim_.shop.bits_m.end());
        }
        if (note) {
            step.open = aim_.notes[*note].open;
            Stage drilled = now();
            drilled.holes[hole] = goal_.stage.holes[hole];
            drilled.holes[hole].diameter_m = *step.diameter_m;
            const double ends_cents = cents_between(Hz(drilled, *note), Hz_at_goal(*note, hole));
            const double slope = cuts_.off_sigma_cents(*note);
            step.expect_cents = ends_cents;
            step.sigma_cents = std::hypot(slope, drill_sigma_cents(drilled, *note, hole));
            step.overshoot = cuts_.overshoot(ends_cents, step.sigma_cents);
        }
        return step;
    }
    double Hz(const Stage& stage, std::size_t note) const {
        return note_Hz(history_, stage, aim_.notes[note].open, aim_.room_C, estimate_.belief.mean,
                       goal_.above_cents[note]);
    }
    double Hz_at_goal(std::size_t note, std::size_t hole) const {
        Stage stage = now();
        stage.holes[hole] = goal_.stage.holes[hole];
        return Hz(stage, note);
    }
    double drill_sigma_cents(Stage drilled, std::size_t note, std::size_t hole) const {
        const double before = Hz(drilled, note);
        drilled.holes[hole].diameter_m += now().holes[hole].size_sigma_m;
        return cents_between(Hz(drilled, note), before);
    }

    Step by_ear(std::size_t note, int own_hole, Why why) const {
        Step step;
        step.what = own_hole < 0 ? Do::foot : Do::hole;
        step.why = why;
        step.number = own_hole + 1;
        step.at_m = own_hole < 0 ? goal_.stage.foot_m
                                 : now().holes[static_cast<std::size_t>(own_hole)].at_m;
        step.until = cuts_.stop(note, own_hole);
        step.open = aim_.notes[note].open;
        step.expect_cents = -cuts_.off_cents(note, own_hole) - cuts_.stop_margin_cents();
        step.sigma_cents = cuts_.stop_sigma_cents();
        step.overshoot =
            cuts_.overshoot(-cuts_.stop_margin_cents() + kHalfStroke_cents, step.sigma_cents);
        return step;
    }

    // One note with its hole as it is: hear it, open it, or narrow it; nothing when it is good.
    std::optional<Step> tune(std::size_t note, int own_hole, double near_cents) const {
        const double off = cuts_.off_cents(note, own_hole);
        if (!std::isfinite(off)) return std::nullopt;
        const double sigma = cuts_.off_sigma_cents(note);
        const double room = off + cuts_.stop_margin_cents();  // below this the ear can act
        if (!heard(note, own_hole)) {
            // surely flat: blowing comes with opening anyway
            if (room + cuts_.safe_sigmas() * sigma < 0.0)
                return by_ear(note, own_hole, own_hole < 0 ? Why::finish_foot : Why::open_by_ear);
            return read_step(note, Why::hear_note);
        }
        if (cuts_.overshoot(off, sigma) > 0.5) return std::nullopt;  // rescued at the end
        if (off < -near_cents - cuts_.stop_margin_cents() + kHalfStroke_cents)
            return by_ear(note, own_hole, own_hole < 0 ? Why::finish_foot : Why::open_by_ear);
        return std::nullopt;
    }

    std::optional<Step> holes() const {
        for (std::size_t hole = now().holes.size(); hole-- > 0;) {
            const auto note = note_of(hole);
            if (!now().holes[hole].cut) return drill(hole, note);
            if (!note) continue;
            if (const auto step = tune(*note, static_cast<int>(hole), kNear_cents)) return step;
        }
        return std::nullopt;
    }

    std::optional<Step> foot_by_ear() const {
        if (aim_.lowest_free) return std::nullopt;
        return tune(cuts_.lowest_note(), -1, kNear_cents);
    }

    std::optional<Step> last_checks() const {
        if (aim_.needs_drying && history_.dried_entry < 0) {
            Step step;
            step.what = Do::wait;
            step.why = Why::let_dry;
            return step;
        }
        const std::size_t low = cuts_.lowest_note();
        const bool dried = aim_.needs_drying;
        for (std::size_t hole = now().holes.size() + 1; hole-- > 0;) {
            const bool foot = hole == now().holes.size();
            const auto note = foot ? std::optional<std::size_t>(low) : note_of(hole);
            if (!note) continue;
            const int own = foot ? -1 : static_cast<int>(hole);
            // after drying the ends of the scale are heard again; others when in doubt
            const bool outer = foot || hole == 0;
            const double sigma = cuts_.off_sigma_cents(*note);
            const double off = cuts_.off_cents(*note, own);
            const Read all = read_of(*note, own);
            if ((dried && outer && !heard(*note, own, history_.dried_entry)) ||
                (sigma > kUnsure_cents && all.trusted + all.distrusted < kMostAsks))
                return read_step(*note, Why::hear_note);
            if (foot && aim_.lowest_free) continue;
            if (cuts_.overshoot(off, sigma) > 0.5) return rescue(*note, own, off);
        }
        return std::nullopt;
    }

    Step rescue(std::size_t note, int own_hole, double off) const {
        Step step;
        step.what = Do::rescue;
        step.open = aim_.notes[note].open;
        step.expect_cents = -off;
        step.sigma_cents = cuts_.off_sigma_cents(note);
        if (own_hole < 0) {
            step.why = Why::too_sharp_foot;
            step.rescue.what = "foot_plug";
            step.rescue.opening_m = cuts_.disc_opening_m();
            step.rescue.sleeve_m = cuts_.sleeve_m(off);
        } else {
            step.why = Why::too_sharp_hole;
            step.rescue.what = "narrow";
            step.rescue.number = own_hole + 1;
            step.rescue.diameter_m = cuts_.narrow_to_m(static_cast<std::size_t>(own_hole), note);
        }
        return step;
    }

    // Every step shows what the notes are expected to become.
    Step finish(Step step) const {
        step.goal = goal_;
        step.converged = goal_.converged && estimate_.converged;
        for (std::size_t n = 0; n < aim_.notes.size(); ++n) {
            Forecast f;
            f.open = aim_.notes[n].open;
            f.target_Hz = goal_.target_Hz[n];
            f.expected_Hz = shifted_Hz(f.target_Hz, goal_.left_over_cents[n]);
            const bool playable = std::all_of(f.open.begin(), f.open.end(), [this](int number) {
                return now().holes[static_cast<std::size_t>(number - 1)].cut;
            });
            const int own =
                f.open.empty() ? -1 : *std::min_element(f.open.begin(), f.open.end()) - 1;
            f.now_cents =
                playable ? cuts_.off_cents(n, own) : std::numeric_limits<double>::quiet_NaN();
            f.sigma_cents =
                sigma_cents(note_model(history_, playable ? now() : goal_.stage, f.open,
                                       aim_.play_C, estimate_.belief.mean, goal_.above_cents[n]),
                            estimate_.belief);
            step.notes.push_back(f);
        }
        return step;
    }

    const History& history_;
    const Estimate& estimate_;
    const Aim& aim_;
    const Goal goal_;
    const Cuts cuts_;
};

}  // namespace

Step next_step(const History& history, const Estimate& estimate, const Aim& aim) {
    return Planner(history, estimate, aim).plan();
}

}  // namespace canewright
