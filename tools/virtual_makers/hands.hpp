// tools/virtual_makers/hands.hpp: a maker's saw, bits, knife, ruler and breath, each with its
// errors.
#pragma once

#include "core/bench/next_step.hpp"
#include "core/bench/strokes.hpp"
#include "tools/virtual_makers/tube.hpp"
#include "tools/virtual_makers/world.hpp"

namespace virtual_makers {

// What a maker does to one flute, and what they see of it.
class Hands {
   public:
    // `mishaps`: one reading will be of a cold flute and one an octave too high.
    Hands(const Blank& blank, Random& random, bool mishaps);

    const TrueFlute& flute() const { return flute_; }
    double room_C() const { return room_C_; }                    // true
    double shown_C() const { return room_C_ + thermometer_C_; }  // by the thermometer
    void let_time_pass();                                        // one step of the build

    // Now, blown evenly; for judging only.
    double true_Hz(const std::vector<int>& open) const;
    canewright::Attempts read(const std::vector<int>& open);  // three attempts
    int readings() const { return reads_ + openings_; }       // pitches logged

    double saw(double at_m);  // returns the length as measured afterwards
    void drill(int number, double at_m, double bit_m);
    void narrow(int number, double diameter_m);
    void close_foot(double opening_m, double thickness_m);
    double measured_hole_m(int number);

    // Strokes on a hole, or on the foot (number 0): as the advice goes until it says stop, or until
    // the meter first shows the pitch; at times too far (Habits).
    struct Opened {
        canewright::Attempts first;  // before the first stroke
        canewright::StrokeAdvice last;
        int strokes = 0;
        double foot_m = 0.0;  // as measured afterwards
    };
    Opened open_until(int number, const canewright::Until& until);

    int cuts() const { return cuts_; }

   private:
    double blow_Hz(const std::vector<int>& open, double shared_cents);
    double note_cents(const std::vector<int>& open);
    void stroke(int number, double strength);
    std::vector<canewright::Blow> by_advice(int number, const canewright::Until& until,
                                            Opened& done);
    std::vector<canewright::Blow> at_first_sight(int number, const canewright::Until& until,
                                                 Opened& done);
    bool slips(int number);

    TrueFlute flute_;
    canewright::Measures measures_;
    Habits habits_;
    canewright::Scatter scatter_;  // of this maker's blows, as the planner knows it by now
    Random& random_;
    double room_C_, warm_C_, thermometer_C_;
    int reads_ = 0, openings_ = 0, cold_read_ = -1, jump_read_ = -1;
    int cuts_ = 0;
    std::vector<int> opened_;  // holes that were opened by ear before
    std::vector<std::pair<std::vector<int>, double>> note_cents_;
    mutable std::vector<std::pair<std::vector<int>, double>> sounded_;  // last pitches: a start
};

}  // namespace virtual_makers
