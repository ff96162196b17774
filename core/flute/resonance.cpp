// core/flute/resonance.cpp: finds the n-th resonance by the turn of the loop's reflection.
#include "core/flute/resonance.hpp"

#include <algorithm>
#include <boost/math/tools/roots.hpp>
#include <cmath>
#include <limits>
#include <utility>

#include "core/base/units.hpp"

namespace canewright {
namespace {

// At a resonance the impedance is real; where the turn slips it is anything.
constexpr double kReal = 1e-6;
constexpr double kNearlyReal = 0.05;  // a thousandth of a cent away, at a Q of some thousands

Resonance missing(const char* why, int evaluations) {
    Resonance r;
    r.frequency_Hz = std::numeric_limits<double>::quiet_NaN();
    r.why = why;
    r.evaluations = evaluations;
    return r;
}

bool narrow(double a, double b) { return std::abs(b - a) <= kResonanceError * b; }

// A root of an excess that rises from at_low < 0 to at_high >= 0.
template <class Excess>
Resonance root(const Excess& excess, double low, double high, double at_low, double at_high) {
    std::uintmax_t trips = 60;
    const auto bracket = at_high == 0.0 ? std::make_pair(high, high)
                                        : boost::math::tools::toms748_solve(
                                              excess, low, high, at_low, at_high, narrow, trips);
    Resonance r;
    r.frequency_Hz = 0.5 * (bracket.first + bracket.second);
    r.found = true;
    r.converged = narrow(bracket.first, bracket.second);
    return r;
}

// What a passage of the turn through a multiple of pi is.
enum class Passage { slip, faint, unclear, clear };

// Asks a network, and counts how often.
class Asked {
   public:
    explicit Asked(const Network& network) : network_(network) {}
    double turn(double f_Hz) {
        ++evaluations_;
        return network_.at(f_Hz).turn;
    }
    double reactance(double f_Hz) {
        ++evaluations_;
        return network_.passing(f_Hz).impedance.imag();
    }
    // A register is wherever the impedance is real, small and rising; the second is asked for as
    // one that a player can reach, and counted over those where it is clearly so.
    Passage passage(Resonance& r, bool strictly) {
        if (!r.converged) return Passage::slip;
        ++evaluations_;
        const Loop loop = network_.passing(r.frequency_Hz);
        const Complex z = loop.impedance;
        const double absorbed = z.real() / loop.bore_impedance;
        if (!(std::abs(z.imag()) <= kReal * std::abs(z) && absorbed < 1.0)) return Passage::slip;
        ++evaluations_;
        r.beside_Hz = r.frequency_Hz * (1.0 - 1e-7);
        const Loop below = network_.passing(r.beside_Hz);
        r.beside_turn = below.turn;
        if (below.impedance.imag() > 0.0) return Passage::slip;
        rise_ = (z.imag() - below.impedance.imag()) / (1e-7 * loop.bore_impedance);
        if (!strictly) return Passage::clear;
        if (absorbed >= kFaint) return Passage::faint;
        return absorbed <= kClear && dips(r.frequency_Hz) ? Passage::clear : Passage::unclear;
    }
    // How steeply the reactance goes through the last passage that was none by a slip [bore
    // impedances for the whole of its frequency].
    double rise() const { return rise_; }
    int evaluations() const { return evaluations_; }
    Resonance counted(Resonance r) const {
        r.evaluations = evaluations_;
        return r;
    }

   private:
    // Whether the reactance, on the bore's impedance, lies so far below zero under a passage.
    bool dips(double f_Hz) {
        for (const double below : {0.04, 0.02, 0.01, 0.005}) {  // most often it does at the first
            ++evaluations_;
            const Loop loop = network_.passing(f_Hz * (1.0 - below));
            if (-loop.impedance.imag() >= kLeastDip * loop.bore_impedance) return true;
        }
        return false;
    }

    const Network& network_;
    int evaluations_ = 0;
    double rise_ = 0.0;
};

// The passage of the turn through so many half turns that is nearest to a good guess.
Resonance near_guess(Asked& ask, int half_turns, double guess_Hz) {
    const auto excess = [&](double f) { return ask.turn(f) - kPi * half_turns; };
    double low = std::min(std::max(guess_Hz, kLowest_Hz), kHighest_Hz), high = low;
    double at_low = excess(low), at_high = at_low;
    const bool upwards = at_low < 0.0;
    double step = 1.0 + (kBracketStep - 1.0) / 8.0;  // a guess is usually within a tenth of a tone
    while (upwards ? at_high < 0.0 : at_low >= 0.0) {
        if (upwards) {
            low = high, at_low = at_high;
            high *= step, at_high = excess(high);
        } else {
            high = low, at_high = at_low;
            low /= step, at_low = excess(low);
        }
        step = std::min(step * step, kBracketStep);
        if (std::abs(cents_between(upwards ? low : high, guess_Hz)) > kNearest_cents) return {};
    }
    if (!(at_low < 0.0 && at_high >= 0.0)) return {};  // NaN
    return root(excess, low, high, at_low, at_high);
}

// From below the first register upwards. The tube below an open hole has resonances of its own;
// where the hole hides one from the jet, the turn slips by pi at once without the impedance being
// real: no register. Further up it may slip or fall back. Such a step and the next are gone through
// in small ones by the reactance's sign: a register that the hole does not quite hide lies there.
// `known_Hz`: where one may have been found before; then it is not sought again, only looked at.
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
            double x_low = ask.reactance(low);
            for (double f = low; f < high * (1.0 - 1e-9);) {
                const double g = std::min(f * kFineStep, high);
                const double x_high = ask.reactance(g);
                if (x_low < 0.0 && x_high >= 0.0) {
                    Resonance r =
                        root([&](double at) { return ask.reactance(at); }, f, g, x_low, x_high);
                    const Passage found = ask.passage(r, register_number == 2);
                    if (ends(found)) return answer(r, found);
                    if (found == Passage::clear) ++next;
                }
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

Resonance followed_resonance(const Network& network, int register_number, double guess_Hz,
                             double cents_per_rad, bool counted) {
    constexpr int kMostTrips = 6;
    // A step this small leaves an error smaller by the slope's own error, which after one secant
    // is below a hundredth (a given slope may be off by more: it never has the last word).
    constexpr double kSmallStep_cents = 1e-3;
    constexpr double kBeside_cents = 1e-5;
    double f = guess_Hz, moved_cents = 0.0, last_excess = 0.0, beside_Hz = 0.0, beside_turn = 0.0;
    int evaluations = 0;
    for (int trip = 0; trip < kMostTrips; ++trip) {
        // the count is for the last trip, which is not the first
        const bool count = counted && trip > 0;
        const Loop loop = count ? network.at(f) : network.passing(f);
        // of whichever count: it may have slipped, and a good guess is in the right register
        const double excess = std::remainder(loop.turn, kPi);
        ++evaluations;
        if (trip > 0 && excess != last_excess) cents_per_rad = moved_cents / (excess - last_excess);
        const double step_cents = -excess * cents_per_rad;
        if (!(std::abs(step_cents) < kNearest_cents)) break;  // NaN fails
        // the last place asked, or the one before where that is as good as here
        if (trip == 0 || std::abs(step_cents) > kBeside_cents)
            beside_Hz = f, beside_turn = loop.turn;
        f = shifted_Hz(f, step_cents);
        const bool real = std::abs(loop.impedance.imag()) <= kNearlyReal * std::abs(loop.impedance);
        if ((std::abs(step_cents) < kNearError_cents && count == counted) ||
            (trip > 0 && std::abs(step_cents) < kSmallStep_cents)) {
            Resonance r;
            r.frequency_Hz = f;
            r.found = r.converged = real && f >= kLowest_Hz && f <= kHighest_Hz;
            if (!r.found) break;
            r.evaluations = evaluations;
            r.beside_Hz = beside_Hz;
            r.beside_turn = beside_turn;
            r.turn = count ? loop.turn : 0.0;
            return r;
        }
        moved_cents = step_cents;
        last_excess = excess;
    }
    Asked ask(network);
    Resonance r = near_guess(ask, register_number, guess_Hz);
    const bool clear = r.found && ask.passage(r, false) == Passage::clear;
    if (!clear) r = missing("no_resonance", 0);
    if (clear && counted) r.turn = ask.turn(r.frequency_Hz);
    r.evaluations = evaluations + ask.evaluations();
    return r;
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
