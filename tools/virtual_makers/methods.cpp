// tools/virtual_makers/methods.cpp: the two makers without a bench, as baselines.
#include "tools/virtual_makers/methods.hpp"

#include <algorithm>
#include <cmath>

#include "core/base/units.hpp"

namespace virtual_makers {
namespace {

using namespace canewright;

constexpr double kStopBelow_cents = 2.0;  // a careful ear stops a little below
constexpr double kWorthOpening_cents = 5.0;
// What a maker with a thermometer allows for a room that is not the one to play in, a degree:
// sound gains 2.95 cents (c ~ sqrt T), and the breath's share of the air stays as warm as ever.
constexpr double kRoom_cents_per_C = 1.6;

double nearest_bit_m(const std::vector<double>& bits, double wanted_m) {
    return *std::min_element(bits.begin(), bits.end(), [wanted_m](double one, double other) {
        return std::abs(one - wanted_m) < std::abs(other - wanted_m);
    });
}

double largest_bit_m(const std::vector<double>& bits, double most_m) {
    double best = bits.front();
    for (const double bit : bits)
        if (bit <= most_m) best = std::max(best, bit);
    return best;
}

// Opens what is flat by ear, from the foot up, aiming at the target as the room bends it: no
// allowance for later cuts.
class ByEar {
   public:
    ByEar(const Blank& blank, Random& random, bool mishaps)
        : blank_(blank), hands_(blank, random, mishaps) {}

    void saw(double at_m) { step(), hands_.saw(at_m); }
    void drill(std::size_t hole, double at_m, double bit_m) {
        step(), hands_.drill(static_cast<int>(hole) + 1, at_m, bit_m);
    }
    double off_cents(std::size_t note) {
        step();
        return cents_between(hands_.read(blank_.aim.notes[note].open).frequency_Hz, here_Hz(note));
    }
    void open(std::size_t note) {
        const NoteTarget& n = blank_.aim.notes[note];
        const int number = n.open.empty() ? 0 : *std::min_element(n.open.begin(), n.open.end());
        step();
        hands_.open_until(number, Until{n.open, shifted_Hz(here_Hz(note), -kStopBelow_cents)});
    }
    void open_if_flat(std::size_t note) {
        if (off_cents(note) < -kWorthOpening_cents) open(note);
    }
    double foot_m() const { return hands_.flute().foot_m; }

    Made finish() {
        for (std::size_t n = 0; n < blank_.aim.notes.size(); ++n) open_if_flat(n);
        made_.errors_cents = errors_cents(hands_.flute(), blank_.aim);
        made_.cuts = hands_.cuts();
        return made_;
    }

   private:
    void step() { ++made_.steps, hands_.let_time_pass(); }
    double here_Hz(std::size_t note) const {
        return shifted_Hz(blank_.aim.notes[note].target_Hz,
                          kRoom_cents_per_C * (hands_.shown_C() - blank_.aim.play_C));
    }
    const Blank& blank_;
    Hands hands_;
    Made made_;
};

std::size_t own_hole(const NoteTarget& note) {
    return static_cast<std::size_t>(*std::min_element(note.open.begin(), note.open.end()) - 1);
}

}  // namespace

Made by_pattern(const Blank& blank, const TrueFlute& pattern, Random& random, bool mishaps) {
    constexpr double kUndersize = 0.85, kSawLong = 1.04, kLeaveForSanding_cents = 12.0;
    ByEar maker(blank, random, mishaps);
    maker.saw(std::min(kSawLong * pattern.foot_m, maker.foot_m()));
    const double off = maker.off_cents(0) + kLeaveForSanding_cents;
    // a tube's pitch goes with its length and the ends' share of it
    if (off < 0.0)
        maker.saw(maker.foot_m() - (maker.foot_m() + 2.0 * pattern.bore_m) *
                                       (1.0 - std::exp2(off / kCentsPerOctave)));
    maker.open(0);
    for (std::size_t n = 1; n < blank.aim.notes.size(); ++n) {
        const std::size_t hole = own_hole(blank.aim.notes[n]);
        const TrueHole& copied = pattern.holes[hole];
        maker.drill(hole, copied.at_m,
                    largest_bit_m(blank.aim.shop.bits_m, kUndersize * copied.diameter_m));
        maker.open(n);
    }
    return maker.finish();
}

Made by_first_layout(const Blank& blank, Random& random, bool mishaps) {
    ByEar maker(blank, random, mishaps);
    maker.saw(blank.layout.flute.foot_m);
    maker.open_if_flat(0);
    for (std::size_t n = 1; n < blank.aim.notes.size(); ++n) {
        const std::size_t hole = own_hole(blank.aim.notes[n]);
        const FingerHole& computed = blank.layout.flute.holes[hole];
        maker.drill(hole, computed.at_m, nearest_bit_m(blank.aim.shop.bits_m, computed.diameter_m));
        maker.open_if_flat(n);
    }
    return maker.finish();
}

Unheard by_knowing(const Blank& blank, Random& random) {
    Hands hands(blank, random, false);
    hands.saw(blank.layout.flute.foot_m);
    for (std::size_t i = 0; i < blank.layout.flute.holes.size(); ++i) {
        const FingerHole& hole = blank.layout.flute.holes[i];
        hands.drill(static_cast<int>(i) + 1, hole.at_m, hole.diameter_m);
    }
    Unheard unheard;
    unheard.made.errors_cents = errors_cents(hands.flute(), blank.aim);
    unheard.made.cuts = hands.cuts();
    unheard.floor = unheard.made;
    const std::vector<double> unknown_cents = departures_cents(blank);
    for (std::size_t n = 0; n < unknown_cents.size(); ++n)
        unheard.floor.errors_cents[n] -= unknown_cents[n];
    return unheard;
}

}  // namespace virtual_makers
