// tests/core/bench/workshop.hpp: builds whose truth is known, for the tests of the bench.
//
// The truth is drawn from the stated priors and sounded by the core's own model, so that a test of
// the inference tests the inference alone. tools/virtual-makers tests it against other formulas.
#pragma once

#include <algorithm>
#include <cmath>

#include "core/base/units.hpp"
#include "core/bench/belief/evidence.hpp"
#include "core/bench/belief/note_model.hpp"
#include "core/bench/belief/readings.hpp"
#include "core/bench/builder.hpp"
#include "core/bench/next_step.hpp"
#include "core/bench/strokes.hpp"
#include "tests/support/flutes.hpp"

namespace canewright::testing {

// Box & Muller 1958.
inline double normal(Dice& dice, double sigma) {
    const double u = dice.between(1e-12, 1.0), v = dice.between(0.0, 1.0);
    return sigma * std::sqrt(-2.0 * std::log(u)) * std::cos(2.0 * kPi * v);
}

// A build in progress: what the maker knows (builder) and what is so (truth).
class Workshop {
   public:
    // Five holes, minor pentatonic on G4, a tube of 17 mm bore.
    explicit Workshop(Dice& dice, double reading_cents = 3.0)
        : dice_(dice), reading_cents_(reading_cents), builder_(make_builder()) {
        const Belief before = belief();
        truth = before.mean;
        for (Eigen::Index n = 0; n < truth.size(); ++n) truth(n) += normal(dice, before.sigma(n));
        grow_truth();
        aim.notes = scale();
        for (int halves = 5; halves <= 20; ++halves)
            aim.shop.bits_m.push_back(m_from_mm(0.5 * halves));
        aim.shop.diameter_min_m = 3e-3;
        aim.shop.diameter_max_m = 10e-3;
        aim.shop.spacing_min_m = 16e-3;
    }

    static Belief belief() { return prior(17e-3, 0.1e-3, 3e-3, 0.1e-3, 0.06); }
    const History& history() const { return builder_.history(); }
    // The truth errs just as is noted, so the belief is told so.
    Estimate known() const { return estimate(history(), belief(), known_maker()); }
    Builder& log() { return builder_; }

    double above_cents(const Fingering& open) const {
        for (const NoteTarget& note : aim.notes)
            if (note.open == open) return note.interval_cents;
        return 0.0;
    }
    double true_Hz(const Fingering& open, double room_C) const {
        return note_Hz(history(), history().now(), open, room_C, truth, above_cents(open));
    }
    // A reading of the flute as it is, `off_cents` away from what it should have been.
    void hear(const Fingering& open, double off_cents = 0.0) {
        grow_truth();
        builder_.read(open,
                      shifted_Hz(true_Hz(open, aim.room_C),
                                 off_cents + normal(dice_, std::hypot(reading_cents_, 1.0))),
                      reading_cents_, aim.room_C);
    }
    void saw(double at_m) { builder_.foot(at_m), grow_truth(); }
    void drill(int number, double at_m, double diameter_m) {
        builder_.hole(number, at_m, diameter_m), grow_truth();
    }
    void narrow(int number, double diameter_m) {
        builder_.narrow(number, diameter_m), grow_truth();
    }
    // Opens until the note truly sounds about here, or not at all where it is above already.
    void open_until(const Step& step) {
        const int own = step.number - 1;
        const auto trial_Hz = [&](double size_m, const Eigen::VectorXd& u) {
            Stage stage = history().now();
            if (own < 0) {
                stage.foot_m = size_m;
                stage.foot_cutting = history().cuttings;
            } else {
                stage.holes[static_cast<std::size_t>(own)].diameter_m = size_m;
                stage.holes[static_cast<std::size_t>(own)].cutting = history().cuttings;
            }
            return note_Hz(history(), stage, step.open, aim.room_C, u, above_cents(step.open));
        };
        const double stop_Hz = shifted_Hz(step.until->stop_Hz, normal(dice_, 1.5));
        if (true_Hz(step.open, aim.room_C) >= stop_Hz) return hear(step.open);
        const double sigma_m = own < 0 ? 0.3e-3 : std::hypot(0.15e-3, kPlaceAsSize * 0.3e-3);
        Eigen::VectorXd u = truth;
        u.conservativeResize(u.size() + 1);
        u(u.size() - 1) = normal(dice_, sigma_m);
        double low = own < 0 ? history().now().foot_m + 2e-3 : 1e-3;
        double high = own < 0 ? 0.8 * low : 15e-3;
        for (int n = 0; n < 40; ++n) {
            const double middle = 0.5 * (low + high);
            (trial_Hz(middle, u) < stop_Hz ? low : high) = middle;
        }
        truth = u;
        if (own < 0)
            builder_.foot(low, 0.3e-3);
        else
            builder_.hole(step.number, step.at_m, low);
        hear(step.open);
    }

    Aim aim;
    Eigen::VectorXd truth;  // unknowns as they are, one more for each cut

   private:
    static std::vector<NoteTarget> scale() {
        const double lowest_Hz = 392.0;  // G4 at A4 = 440 Hz, to a tenth
        const double steps[] = {0.0, 300.0, 500.0, 700.0, 1000.0, 1200.0};
        std::vector<NoteTarget> notes;
        Fingering open;
        for (int n = 0; n < 6; ++n) {
            notes.push_back({open, steps[n], shifted_Hz(lowest_Hz, steps[n])});
            open.insert(open.begin(), 5 - n);
        }
        return notes;
    }
    static Builder make_builder() {
        Flute blank = plain_tube(17e-3, 3e-3, 0.44);
        blank.sound_hole = {5e-3, 9.5e-3, 3e-3};
        return Builder(blank, AirState{}, std::vector<FingerHole>(5), scale(), Measures{});
    }
    // New cuts get offsets as their errors say.
    void grow_truth() {
        while (truth.size() < kCommonUnknowns + history().cuttings) {
            const int cutting = static_cast<int>(truth.size()) - kCommonUnknowns;
            double sigma_m = 0.0;
            const Stage& now = history().now();
            if (now.foot_cutting == cutting) sigma_m = now.foot_sigma_m;
            for (const HoleNow& hole : now.holes)
                if (hole.cutting == cutting) sigma_m = hole.size_sigma_m;
            truth.conservativeResize(truth.size() + 1);
            truth(truth.size() - 1) = normal(dice_, sigma_m);
        }
    }

    Dice& dice_;
    double reading_cents_;
    Builder builder_;
};

}  // namespace canewright::testing
