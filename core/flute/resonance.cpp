// core/flute/resonance.cpp: finds the n-th resonance by the turn of the loop's reflection.
#include "core/flute/resonance.hpp"

#include <algorithm>
#include <cmath>

#include "core/base/units.hpp"
#include "core/flute/asked.hpp"

namespace canewright {
namespace {

// From below the first register upwards. The tube below an open hole has resonances of its own;
// where the hole hides one from the jet, the turn slips by pi at once without the impedance being
// real: no register. Further up it may slip or fall back. Such a step and the next are gone through
// in small ones by the reactance's sign: a register that the hole does not quite hide lies there.
// It may rise above zero for less than a small step: its tops are looked for. `known_Hz`: where one
// may have been found before; then it is not sought again, only looked at.
Resonance from_below(Asked& ask, int register_number, double low, double known_Hz) {
    constexpr double kFineStep = 1.004;
    constexpr double kEvenly = 0.1;
    constexpr double kSureRise = 3.0;  // registers of flutes rise by 5 and more
    low = std::min(std::max(low, kLowest_Hz), kHighest_Hz);
    double at_low = ask.turn(low);
    while (at_low >= kPi && low > kLowest_Hz) low /= kBracketStep, at_low = ask.turn(low);
    if (at_low >= kPi) return missing("no_resonance", 0);  // the first lies below
    double slipped = 0.0;  // whole half turns in the turn at `low` that are no register
    bool after_slip = false;
    int next = 1;
    Resonance at_known;
    at_known.frequency_Hz = known_Hz;
    at_known.found = at_known.converged = true;
    // What a passage does to the count: an answer, a step on, or nothing.
    const auto ends = [&](Passage found) {
        return found == Passage::unclear || (next == 1 && found == Passage::faint) ||
               (found == Passage::clear && next == register_number);
    };
    const auto answer = [&](const Resonance& r, Passage found) {
        return found == Passage::clear ? r : missing("faint_register", 0);
    };
    while (low < kHighest_Hz) {
        const double high = low * kBracketStep;
        const double at_high = ask.turn(high);
        if (!std::isfinite(at_high)) break;
        const double slipped_before = slipped;
        const int next_before = next;
        bool look_closer = after_slip || at_high < at_low;
        while (!look_closer && at_high - slipped >= kPi * next) {
            const double aim = kPi * next + slipped;
            const auto excess = [&](double f) { return ask.turn(f) - aim; };
            look_closer = !(at_low < aim);
            if (look_closer) break;
            // where the turn grows evenly, no other passage lies between
            const double even_Hz = low + (high - low) * (aim - at_low) / (at_high - at_low);
            Resonance r =
                std::abs(known_Hz - even_Hz) < kEvenly * (high - low) ? at_known : Resonance{};
            Passage found = ask.passage(r, register_number == 2);
            // What touches zero and falls back may be seen or not, as the steps fall: sought anew.
            if (found == Passage::slip || ask.rise() < kSureRise) {
                r = root(excess, low, high, at_low - aim, at_high - aim);
                found = ask.passage(r, register_number == 2);
            }
            look_closer = found == Passage::slip;
            if (look_closer) break;
            if (ends(found)) return answer(r, found);
            if (found == Passage::clear)
                ++next;
            else
                slipped += kPi;
        }
        if (look_closer) {
            slipped = slipped_before, next = next_before;
            double last = low / kFineStep, x_last = ask.reactance(last);
            double x_low = ask.reactance(low);
            for (double f = low; f < high * (1.0 - 1e-9);) {
                const double g = std::min(f * kFineStep, high);
                const double x_high = ask.reactance(g);
                double from = f, x_from = x_low, to = g, x_to = x_high;
                if (may_touch(x_last, x_low, x_high))
                    from = last, x_from = x_last, to = ask.top_Hz(last, g),
                    x_to = ask.reactance(to);
                if (x_from < 0.0 && x_to >= 0.0) {
                    Resonance r =
                        root([&](double at) { return ask.reactance(at); }, from, to, x_from, x_to);
                    const Passage found = ask.passage(r, register_number == 2);
                    if (ends(found)) return answer(r, found);
                    if (found == Passage::clear) ++next;
                }
                last = f, x_last = x_low;
                f = g, x_low = x_high;
            }
            slipped = kPi * (std::floor(at_high / kPi) - (next - 1));
        }
        after_slip = look_closer && (!after_slip || at_high < at_low);
        low = high, at_low = at_high;
    }
    return missing("no_resonance", 0);
}

// Half a wave from the sound hole to the first open hole, with room for both end corrections.
double below_Hz(const Network& network) {
    return 0.4 * network.air().sound_speed_m_s / network.first_open_m();
}

}  // namespace

Resonance resonance(const Network& network, int register_number, double start_Hz) {
    Asked ask(network);
    if (start_Hz > 0.0) {
        Resonance r = near_guess(ask, register_number, start_Hz);
        if (r.found && ask.passage(r, register_number == 2) == Passage::clear)
            return ask.counted(r);
    }
    return ask.counted(from_below(ask, register_number, below_Hz(network), 0.0));
}

Resonance first_resonance(const Network& network, double known_Hz) {
    Asked ask(network);
    return ask.counted(from_below(ask, 1, below_Hz(network), known_Hz));
}

Resonance second_resonance(const Network& network, double first_Hz) {
    Asked ask(network);
    double low_Hz = below_Hz(network);
    // by the same steps as from below, so that the second is come upon alike
    while (low_Hz * kBracketStep < first_Hz * (1.0 - kResonanceError)) low_Hz *= kBracketStep;
    return ask.counted(from_below(ask, 2, low_Hz, first_Hz));
}

Resonance resonance_near(const Network& network, int register_number, double guess_Hz,
                         double cents_per_rad) {
    const Resonance near = followed_resonance(network, register_number, guess_Hz, cents_per_rad);
    if (near.found) return near;
    Resonance r = resonance(network, register_number);
    r.evaluations += near.evaluations;
    return r;
}

Resonance resonance(const Flute& flute, const Air& air, const Fingering& open,
                    int register_number) {
    return resonance(Network(flute, air, open), register_number);
}

}  // namespace canewright
