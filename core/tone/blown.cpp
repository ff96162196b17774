// core/tone/blown.cpp: steps jet and modes through time.
#include "core/tone/blown.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "core/base/noise.hpp"
#include "core/base/units.hpp"

namespace canewright {
namespace {

constexpr double kInnerStep_s = 1.0 / (kToneRate_Hz * kInner);
constexpr std::size_t kInnerBlock = 32;   // steps between two looks at the breath
constexpr std::size_t kPast = 1U << 14U;  // 0.17 s: a jet too slow for it does not swing
constexpr double kLeastJet_m_s = 0.3;     // below, nothing that is blown sounds
constexpr double kStillness = 1e-30;      // what decays below it costs a hundred times the time

// One mode's step. The state is its share of the window's flow: y' = pole y + residue (pole S - L),
// S the jet's source before it is differentiated, L what is lost. Real poles count half.
struct Stepped {
    Complex keep;                // of the state
    Complex source_0, source_1;  // per S before and after
    Complex lost_0, lost_1;      // per L
    Complex out;                 // radiated flow over the window's
    Complex y;
};

// Integrals of exp(pole (T - t)) over a step, times the part of a straight line that belongs to its
// beginning and to its end.
void straight_parts(Complex pole, Complex& begin, Complex& end) {
    const Complex x = pole * kInnerStep_s;
    if (std::abs(x) < 1e-2) {
        begin = kInnerStep_s * (0.5 + x * (1.0 / 3.0 + x * (0.125 + x * (1.0 / 30.0 + x / 144.0))));
        end = kInnerStep_s *
              (0.5 + x * (1.0 / 6.0 + x * (1.0 / 24.0 + x * (1.0 / 120.0 + x / 720.0))));
        return;
    }
    const Complex grown = std::exp(x), per_x2 = inverse(x * x);
    begin = kInnerStep_s * (grown * (x - 1.0) + 1.0) * per_x2;
    end = kInnerStep_s * (grown - 1.0 - x) * per_x2;
}

class Stepper {
   public:
    Stepper(const ModalLoop& loop, const JetTerms& terms) : terms_(terms) {
        for (const Mode& m : loop.modes) {
            const double twice = m.is_pair() ? 2.0 : 1.0;
            const Complex r = twice / terms.area_m2 * m.flow;
            Complex begin, end;
            straight_parts(m.pole, begin, end);
            Stepped s;
            s.keep = std::exp(m.pole * kInnerStep_s);
            s.source_0 = r * m.pole * begin;
            s.source_1 = r * m.pole * end;
            s.lost_0 = -r * begin;
            s.lost_1 = -r * end;
            s.out = terms.area_m2 * quotient(m.radiated, m.flow);
            modes_.push_back(s);
            flow_now_ += r.real();
            out_now_ += twice * m.radiated.real();
            yield_ += (r * end).real();
        }
    }

    // One step: S and the turbulence's pressure at its end. Returns what flows out of all openings.
    double step(double source, double noise_Pa) {
        double free = flow_now_ * source;
        for (Stepped& m : modes_) {
            m.y = m.keep * m.y + m.source_0 * source_ + m.source_1 * source + m.lost_0 * lost_;
            free += m.y.real();
        }
        free += yield_ * noise_Pa;
        // v = free - yield loss v |v|
        const double k = yield_ * terms_.loss_Pa_s2_m2;
        const double size =
            2.0 * std::abs(free) / (1.0 + std::sqrt(1.0 + 4.0 * k * std::abs(free)));
        velocity_ = std::copysign(size, free);
        source_ = source;
        lost_ = terms_.loss_Pa_s2_m2 * velocity_ * size - noise_Pa;
        double out = out_now_ * source;
        for (Stepped& m : modes_) {
            m.y += m.lost_1 * lost_;
            out += m.out.real() * m.y.real() - m.out.imag() * m.y.imag();
        }
        return out;
    }
    // As if `present` had been for long, S at this moment. Its harmonics come by themselves.
    void set(const ModalLoop& loop, const Oscillation& present, double source) {
        const Complex jw(0.0, 2.0 * kPi * present.frequency_Hz);
        const Complex driving =
            terms_.area_m2 * present.velocity_m_s * inverse(loop.admittance(present.frequency_Hz));
        source_ = source;
        velocity_ = present.velocity_m_s;
        lost_ = terms_.loss_Pa_s2_m2 * velocity_ * velocity_;
        for (std::size_t n = 0; n < modes_.size(); ++n) {
            const Mode& m = loop.modes[n];
            const Complex both =
                0.5 * (quotient(driving, jw - m.pole) + quotient(std::conj(driving), -jw - m.pole));
            modes_[n].y = (m.is_pair() ? 2.0 : 1.0) / terms_.area_m2 * m.flow * (both - source);
        }
    }
    double velocity_m_s() const { return velocity_; }
    void flush() {
        for (Stepped& m : modes_)
            if (std::abs(m.y.real()) + std::abs(m.y.imag()) < kStillness) m.y = 0.0;
    }

   private:
    JetTerms terms_;
    std::vector<Stepped> modes_;
    double flow_now_ = 0.0, out_now_ = 0.0, yield_ = 0.0;
    double source_ = 0.0, lost_ = 0.0, velocity_ = 0.0;
};

double swung_in(double share) { return share < 1.0 ? 0.5 - 0.5 * std::cos(kPi * share) : 1.0; }

double breath_Pa(const Breath& breath, double t_s) {
    const double left_s = breath.seconds - t_s;
    if (t_s < 0.0 || !(left_s > 0.0)) return 0.0;
    const double risen = breath.already.sounds ? 1.0 : swung_in(t_s / kRise_s);
    const double share = std::min(risen, swung_in(left_s / kFall_s));
    return share * breath.from_Pa * std::pow(breath.to_Pa / breath.from_Pa, t_s / breath.seconds);
}

// The samples before now, and what lay between them.
class PastFlow {
   public:
    void add(double value) { values_[++now_ & (kPast - 1)] = value; }
    // The value `late` samples before the one that comes next.
    double before_next(double late) const {
        const double ago = std::clamp(late - 1.0, 1.0, static_cast<double>(kPast) - 4.0);
        const std::size_t whole = static_cast<std::size_t>(ago);
        const double d = ago - static_cast<double>(whole) + 1.0;  // from the youngest of four
        const auto at = [&](std::size_t n) {
            return values_[(now_ + 1 - whole - n) & (kPast - 1)];
        };
        return -(d - 1.0) * (d - 2.0) * (d - 3.0) / 6.0 * at(0) +
               d * (d - 2.0) * (d - 3.0) / 2.0 * at(1) - d * (d - 1.0) * (d - 3.0) / 2.0 * at(2) +
               d * (d - 1.0) * (d - 2.0) / 6.0 * at(3);
    }

   private:
    std::vector<double> values_ = std::vector<double>(kPast, 0.0);
    std::size_t now_ = kPast;
};

// Every kInner-th sample of what has nothing above half the outer rate.
std::vector<float> thinned_samples(const std::vector<double>& fine) {
    constexpr int kReach = 24;
    std::array<double, 2 * kReach + 1> weights{};
    double sum = 0.0;
    for (int n = -kReach; n <= kReach; ++n) {
        const double x = kPi * n / kInner * 0.95, wide = kPi * n / (kReach + 1);
        const double weight = (n == 0 ? 1.0 : std::sin(x) / x) *
                              (0.42 + 0.5 * std::cos(wide) + 0.08 * std::cos(2.0 * wide));
        weights[static_cast<std::size_t>(n + kReach)] = weight;
        sum += weight;
    }
    std::vector<float> out(fine.size() / kInner);
    const auto size = static_cast<long>(fine.size());
    for (long k = 0; k < static_cast<long>(out.size()); ++k) {
        double value = 0.0;
        for (long n = -kReach; n <= kReach; ++n) {
            const long at = k * kInner + n;
            if (at >= 0 && at < size)
                value += weights[static_cast<std::size_t>(n + kReach)] *
                         fine[static_cast<std::size_t>(at)];
        }
        out[static_cast<std::size_t>(k)] = static_cast<float>(value / sum);
    }
    return out;
}

}  // namespace

std::vector<float> blown(const ModalLoop& loop, const Player& player, const Breath& breath,
                         std::uint64_t seed) {
    const JetTerms terms = player.drive.terms();
    const double height_m = player.track.height_m();
    const double patches = std::max(player.track.width_m / height_m, 1.0);
    const double per_change = player.air.density_kg_m3 / (4.0 * kPi * kHeardFrom_m * kInnerStep_s);
    Stepper stepper(loop, terms);
    PastFlow past;
    Noise noise(seed, 0);
    const auto steps =
        static_cast<std::size_t>(std::max(0.0, breath.seconds + kRinging_s) / kInnerStep_s);
    std::vector<double> out(steps);
    const auto source_of = [&](double then_m_s, double jet_m_s) {
        return terms.source_Pa_s2_m * jet_m_s *
               std::tanh(terms.receptivity * then_m_s / jet_m_s - terms.offset);
    };
    double at_Pa = breath_Pa(breath, 0.0);
    double centre = track_flow(player.air, player.track, at_Pa).centre_m_s;
    double jet = centre, turbulence = 0.0, flow = 0.0;
    const Oscillation& already = breath.already;
    if (already.sounds && jet > kLeastJet_m_s) {
        const double w = 2.0 * kPi * already.frequency_Hz;
        for (std::size_t n = kPast; n-- > 0;)
            past.add(already.velocity_m_s * std::cos(w * kInnerStep_s * static_cast<double>(n)));
        const double late_s = terms.late_m / jet;
        stepper.set(loop, already, source_of(already.velocity_m_s * std::cos(w * late_s), jet));
    }
    for (std::size_t n = 0; n < steps; n += kInnerBlock) {
        // the jet's speed goes straight from one look at the breath to the next
        const double next_Pa =
            breath_Pa(breath, static_cast<double>(n + kInnerBlock) * kInnerStep_s);
        if (next_Pa != at_Pa) centre = track_flow(player.air, player.track, next_Pa).centre_m_s;
        at_Pa = next_Pa;
        const double rise = (centre - jet) / static_cast<double>(kInnerBlock);
        const double keep = std::exp(-2.0 * kPi * kNoiseStrouhal * std::max(jet, kLeastJet_m_s) /
                                     height_m * kInnerStep_s);
        // uniform numbers of variance 1, lessened to one of the same below the corner
        const double per_speed2 = kNoise * 0.5 * player.air.density_kg_m3 / std::sqrt(patches) *
                                  std::sqrt(12.0 * (1.0 - keep * keep));
        for (std::size_t k = n; k < std::min(n + kInnerBlock, steps); ++k) {
            jet += rise;
            double source = 0.0;
            if (jet > kLeastJet_m_s) {
                const double late = terms.late_m / (jet * kInnerStep_s);
                source = source_of(past.before_next(late), jet);
                turbulence = keep * turbulence + per_speed2 * jet * jet * (noise.uniform() - 0.5);
            } else {
                turbulence *= keep;
            }
            const double now = stepper.step(source, turbulence);
            past.add(stepper.velocity_m_s());
            const double swell =
                already.sounds ? swung_in(static_cast<double>(k) * kInnerStep_s / kRise_s) : 1.0;
            out[k] = swell * per_change * (now - flow);
            flow = now;
        }
        stepper.flush();
    }
    return thinned_samples(out);
}

}  // namespace canewright
