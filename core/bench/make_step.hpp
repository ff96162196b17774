// core/bench/make_step.hpp: the single steps, with their amounts, doubts and risks. Layer: bench.
#pragma once

#include "core/bench/cuts.hpp"

namespace canewright {

// Fills in steps from what is believed of a build. `own_hole` is -1 for the foot.
class StepMaker {
   public:
    StepMaker(const History& history, const Estimate& estimate, const Aim& aim, const Goal& goal,
              const Cuts& cuts)
        : history_(history), estimate_(estimate), aim_(aim), goal_(goal), cuts_(cuts) {}

    Step read(std::size_t note, Why why) const;
    Step saw(double at_m, Why why) const;
    // `note`: the one this hole tunes, -1 for none.
    Step drill(std::size_t hole, int note) const;
    Step by_ear(std::size_t note, int own_hole) const;
    Step rescue(std::size_t note, int own_hole) const;

    // What the notes are expected to become goes with every step.
    void forecast(Step& step) const;

   private:
    double foot_sigma_cents() const;

    const History& history_;
    const Estimate& estimate_;
    const Aim& aim_;
    const Goal& goal_;
    const Cuts& cuts_;
};

}  // namespace canewright
