// core/bench/belief/note_model.cpp: a note's pitch and how each unknown moves it.
#include "core/bench/belief/note_model.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "core/base/units.hpp"
#include "core/flute/resonance.hpp"
#include "core/flute/slope.hpp"
#include "core/jet/sounding.hpp"

namespace canewright {
namespace {

constexpr double kNudge = 1e-6;        // of relative unknowns
constexpr double kSizeNudge_m = 1e-8;  // of an opening's offset

bool has_cutting(const Stage& stage, Eigen::Index cutting) {
    if (stage.foot_cutting == cutting) return true;
    return std::any_of(stage.holes.begin(), stage.holes.end(), [cutting](const HoleNow& hole) {
        return hole.cut && hole.cutting == cutting;
    });
}

}  // namespace

NoteModel note_model(const History& history, const Stage& stage, const Fingering& open,
                     double room_C, const Eigen::VectorXd& u, double above_lowest_cents,
                     double near_Hz) {
    NoteModel note;
    note.slope = Eigen::VectorXd::Zero(u.size());
    const Fingering counted = over_cut_holes(stage, open);
    const Air air = air_with_unknowns(history, room_C, u);
    const Network network(with_unknowns(history, stage, u), air, counted);
    const Resonance passive = resonance(network, 1, near_Hz);
    if (!passive.converged) return note;
    note.speaks = true;
    note.frequency_Hz = shifted_Hz(passive.frequency_Hz,
                                   drift_cents(u, above_lowest_cents) +
                                       breath_cents(network, passive.frequency_Hz, history.breath));
    const Slope slope(network, passive.frequency_Hz);
    for (Eigen::Index n = 0; n < u.size(); ++n) {
        if (n == kDrift) {
            note.slope(n) = above_lowest_cents / kCentsPerOctave;
        } else if (n == kSoundSpeed) {  // exact: a frequency goes with the speed of sound
            note.slope(n) = kCentsPerOctave / std::log(2.0) / (1.0 + u(kSoundSpeed));
        } else if (n < kCommonUnknowns || has_cutting(stage, n - kCommonUnknowns)) {
            const double nudge = n < kCommonUnknowns ? kNudge : kSizeNudge_m;
            Eigen::VectorXd v = u;
            v(n) += nudge;
            note.slope(n) =
                slope.cents_to(Network::changed(with_unknowns(history, stage, v), air, counted)) /
                nudge;
        }
    }
    return note;
}

double note_Hz(const History& history, const Stage& stage, const Fingering& open, double room_C,
               const Eigen::VectorXd& u, double above_lowest_cents, double near_Hz) {
    const Network network(with_unknowns(history, stage, u), air_with_unknowns(history, room_C, u),
                          over_cut_holes(stage, open));
    const Resonance passive = resonance(network, 1, near_Hz);
    if (!passive.converged) return std::numeric_limits<double>::quiet_NaN();
    return shifted_Hz(passive.frequency_Hz,
                      drift_cents(u, above_lowest_cents) +
                          breath_cents(network, passive.frequency_Hz, history.breath));
}

double sigma_cents(const NoteModel& note, const Belief& belief) {
    return std::sqrt(std::max(0.0, note.slope.dot(belief.covariance * note.slope)));
}

}  // namespace canewright
