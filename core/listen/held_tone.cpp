// core/listen/held_tone.cpp -- runs of frames; see the header.
#include "core/listen/held_tone.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "core/base/units.hpp"
#include "core/listen/register_jump.hpp"
#include "core/listen/robust.hpp"

namespace canewright {
namespace {

constexpr double kNoPitch = std::numeric_limits<double>::quiet_NaN();

constexpr double kHole_s = 0.12;          // one or two frames may fail without ending a run
constexpr double kWidest_cents = 80.0;    // a drift of +-30 cents, and a little
constexpr double kAttack_s = 0.15;        // the frame is still filling, the pitch still settling
constexpr double kNoticed_s = 0.20;       // shorter runs happen in speech
constexpr double kLongEnough_s = 0.25;    // after the attack
constexpr std::size_t kEnoughFrames = 5;  // for a median and a spread
constexpr double kSpeech_cents_per_s = 200.0;  // +-30 cents in 0.3 s; a voice at rest falls faster
constexpr double kRead_s = 2.0;
constexpr double kClippedShare = 0.25;

constexpr double kJumpHole_s = 0.35;  // a jump is over in two frames

bool sounds(const TimedFrame& frame) { return frame.pitch.tone; }

bool sounds_faintly(const TimedFrame& frame) {
    return frame.pitch.why_not == NoTone::noisy || frame.pitch.why_not == NoTone::too_soft;
}

struct Run {
    std::vector<const TimedFrame*> frames;  // in order of time
    double span_s() const { return frames.back()->time_s - frames.front()->time_s; }
    double median_Hz() const {
        std::vector<double> all_Hz;
        for (const TimedFrame* frame : frames) all_Hz.push_back(frame->pitch.frequency_Hz);
        return median(all_Hz);
    }
};

// The run that ends in `frames[end - 1]` or at most `hole_s` before `now_s`; empty if none.
template <class Counts>
Run run_before(const std::vector<TimedFrame>& frames, std::size_t end, double now_s, double hole_s,
               Counts counts) {
    Run run;
    double low_Hz = 0.0;
    double high_Hz = 0.0;
    double newer_s = now_s;
    for (std::size_t i = end; i-- > 0;) {
        const TimedFrame& frame = frames[i];
        if (newer_s - frame.time_s > (run.frames.empty() ? hole_s : kHole_s)) break;
        if (!counts(frame)) continue;
        const double here_Hz = frame.pitch.frequency_Hz;
        low_Hz = run.frames.empty() ? here_Hz : std::min(low_Hz, here_Hz);
        high_Hz = run.frames.empty() ? here_Hz : std::max(high_Hz, here_Hz);
        if (cents_between(high_Hz, low_Hz) > kWidest_cents) break;
        run.frames.push_back(&frame);
        newer_s = frame.time_s;
    }
    std::reverse(run.frames.begin(), run.frames.end());
    return run;
}

bool jumped(const std::vector<TimedFrame>& frames, const Run& run, double expected_Hz) {
    if (expected_Hz > 0.0) return is_register_jump(run.median_Hz(), expected_Hz);
    const auto begin = static_cast<std::size_t>(run.frames.front() - frames.data());
    // A frame that straddles the jump may read anything: look past it for the run before.
    for (std::size_t end = begin; end > 0; --end) {
        if (run.frames.front()->time_s - frames[end - 1].time_s > kJumpHole_s) return false;
        if (!sounds(frames[end - 1])) continue;
        const Run before = run_before(frames, end, frames[end - 1].time_s, 0.0, sounds);
        if (before.span_s() >= kNoticed_s)
            return is_register_jump(run.median_Hz(), before.median_Hz());
    }
    return false;
}

bool glides(const Run& run) {
    std::vector<double> drifts_cents_per_s;
    for (const TimedFrame* frame : run.frames)
        drifts_cents_per_s.push_back(frame->pitch.drift_cents_per_s);
    return std::abs(median(drifts_cents_per_s)) > kSpeech_cents_per_s;
}

bool mostly_clipped(const Run& run) {
    const auto count = std::count_if(run.frames.begin(), run.frames.end(),
                                     [](const TimedFrame* f) { return f->pitch.clipped; });
    return static_cast<double>(count) >= kClippedShare * static_cast<double>(run.frames.size());
}

// The run without its attack, and no more of it than kRead_s.
Run settled(const Run& run) {
    const double from_s =
        std::max(run.frames.front()->time_s + kAttack_s, run.frames.back()->time_s - kRead_s);
    Run held;
    for (const TimedFrame* frame : run.frames)
        if (frame->time_s >= from_s) held.frames.push_back(frame);
    return held;
}

HeldTone read(const Run& held) {
    const double middle_Hz = held.median_Hz();
    std::vector<double> off_cents;
    for (const TimedFrame* frame : held.frames)
        off_cents.push_back(cents_between(frame->pitch.frequency_Hz, middle_Hz));
    return {Held::hold_longer,
            middle_Hz,
            std::max(kHeldFloor_cents, spread(off_cents)),
            held.span_s(),
            held.frames.front()->time_s,
            held.frames.back()->time_s};
}

}  // namespace

const char* name(Held state) {
    switch (state) {
        case Held::no_tone:
            return "no_tone";
        case Held::too_soft:
            return "too_soft";
        case Held::clipped:
            return "clipped";
        case Held::jumped:
            return "jumped";
        case Held::hold_longer:
            return "hold_longer";
        case Held::ready:
            return "ready";
    }
    return "";
}

HeldTone held_tone(const std::vector<TimedFrame>& frames, double expected_Hz) {
    HeldTone nothing{Held::no_tone, kNoPitch, kNoPitch, 0.0, kNoPitch, kNoPitch};
    if (frames.empty()) return nothing;
    const double now_s = frames.back().time_s;
    const Run run = run_before(frames, frames.size(), now_s, kHole_s, sounds);
    if (run.frames.empty() || run.span_s() < kNoticed_s) {
        const Run faint = run_before(frames, frames.size(), now_s, kHole_s, sounds_faintly);
        if (!faint.frames.empty() && faint.span_s() >= kLongEnough_s)
            nothing.state = Held::too_soft;
        return nothing;
    }
    if (glides(run)) return nothing;
    const Run held = settled(run);
    HeldTone reading = read(held);
    if (jumped(frames, run, expected_Hz))
        reading.state = Held::jumped;
    else if (mostly_clipped(run))
        reading.state = Held::clipped;
    else if (held.span_s() >= kLongEnough_s && held.frames.size() >= kEnoughFrames)
        reading.state = Held::ready;
    return reading;
}

}  // namespace canewright
