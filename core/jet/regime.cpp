// core/jet/regime.cpp: leads the breath up and down until a register holds no more.
#include "core/jet/regime.hpp"

#include <cmath>
#include <limits>

#include "core/flute/resonance.hpp"
#include "core/jet/bracket.hpp"
#include "core/jet/branch.hpp"
#include "core/jet/stability.hpp"

namespace canewright {
namespace {

constexpr double kNaN = std::numeric_limits<double>::quiet_NaN();
constexpr double kThirdError = 1e-6;         // of its frequency, relative
constexpr double kStep = 1.189207115002721;  // 2^(1/4), of pressure, on the way to an end
constexpr int kMostSteps = 8;  // of a quarter octave, on the way to a pressure that holds

double third_Hz(const Network& network, double second_Hz) {
    double below_Hz = kThirdFrom * second_Hz;
    double at_below = network.at(below_Hz).impedance.imag();
    while (below_Hz < kThirdTo * second_Hz) {
        const double above_Hz = below_Hz * kThirdStep;
        const double at_above = network.at(above_Hz).impedance.imag();
        if (at_below < 0.0 && at_above >= 0.0) {
            const auto reactance = [&](double f_Hz) { return network.at(f_Hz).impedance.imag(); };
            const double f_Hz = bracketed_root(reactance, below_Hz, above_Hz, at_below, at_above,
                                               kThirdError * above_Hz);
            const Loop loop = network.at(f_Hz);
            if (loop.impedance.real() <= kClear * loop.bore_impedance) return f_Hz;
        }
        below_Hz = above_Hz;
        at_below = at_above;
    }
    return kNaN;
}

Regime none(const char* why) {
    Regime r;
    r.why = why;
    r.resonance_Hz = r.at_pitch_Pa = r.soft_Pa = r.hard_Pa = r.jumps_up_Pa = r.falls_back_Pa = kNaN;
    r.cents_at_pitch = r.cents_soft = r.cents_hard = r.cents_per_doubling = r.breath_s = kNaN;
    return r;
}

}  // namespace

NoteLoops note_loops(const Network& network, double first_Hz, double second_Hz) {
    const double each_Hz[] = {first_Hz, second_Hz,
                              second_Hz > 0.0 ? third_Hz(network, second_Hz) : kNaN};
    const auto impedance = [&](double f_Hz) { return network.at(f_Hz).impedance; };
    NoteLoops loops;
    for (std::size_t n = 0; n < loops.registers.size(); ++n)
        if (each_Hz[n] > 0.0) loops.registers[n] = LocalImpedance(impedance, each_Hz[n]);
    for (std::size_t n = 0; n < loops.overtones.size(); ++n)
        if (each_Hz[n] > 0.0) loops.overtones[n] = overtones(impedance, each_Hz[n]);
    return loops;
}

NoteLoops note_loops(const Network& network) {
    const Resonance first = resonance(network, 1), second = resonance(network, 2);
    return note_loops(network, first.converged ? first.frequency_Hz : kNaN,
                      second.converged ? second.frequency_Hz : kNaN);
}

Blowing::Blowing(const Voice& voice, const Air& air)
    : voice_(voice),
      air_(air),
      drive_(air, voice.track.height_m(), voice.edge_offset_m, voice.window_m, voice.width_m,
             voice.wave) {}

Blowing Blowing::with_convection(double convection) const {
    Blowing other = *this;
    other.voice_.wave.convection = convection;
    other.drive_ = drive_.with_convection(convection);
    return other;
}

Oscillation Blowing::blown(const NoteLoops& loops, int register_number, double pressure_Pa) const {
    const Stand s = stand(loops, register_number, pressure_Pa);
    return with_harmonics(loops, register_number, s);
}

Oscillation Blowing::with_harmonics(const NoteLoops& loops, int register_number,
                                    const Stand& s) const {
    const auto n = static_cast<std::size_t>(register_number - 1);
    if (!s.first.sounds || n >= loops.overtones.size()) return s.first;
    return with_overtones(drive_.terms(), loops.of(register_number), loops.overtones[n], s.first,
                          s.centre_m_s);
}

Blowing::Stand Blowing::stand(const NoteLoops& loops, int register_number,
                              double pressure_Pa) const {
    Stand s;
    s.pressure_Pa = pressure_Pa;
    s.centre_m_s = track_flow(air_, voice_.track, pressure_Pa).centre_m_s;
    s.first = drive_.oscillation(loops.of(register_number), s.centre_m_s);
    if (register_number > 1)
        s.gain_below = drive_.rival_gain(loops.of(register_number - 1), s.first, s.centre_m_s);
    if (register_number < static_cast<int>(loops.registers.size()))
        s.gain_above = drive_.rival_gain(loops.of(register_number + 1), s.first, s.centre_m_s);
    return s;
}

Blowing::End Blowing::end(const NoteLoops& loops, int register_number, double from_Pa,
                          double step) const {
    const Stand from = stand(loops, register_number, from_Pa);
    End e{from, from, {}, false};
    // Where neighbours grow, or the first harmonic is driven no more.
    const double furthest = std::log2(kMostBreathRatio);
    const double way = step > 1.0 ? 1.0 : -1.0;
    double octaves = std::log2(step);  // of the next step
    while (std::abs(octaves) > kPressureError) {
        if (way * std::log2(e.inside.pressure_Pa / from_Pa) > furthest - kPressureError) break;
        const Stand next = stand(loops, register_number, e.inside.pressure_Pa * std::exp2(octaves));
        if (next.holds()) {
            e.inside = next;
        } else {
            e.beyond = next;
            octaves *= 0.5;
        }
    }
    // Where the harmonics let it go on no more, if that is nearer.
    e.oscillation = with_harmonics(loops, register_number, from);
    if (e.oscillation.has_overtones) {
        const Followed end =
            followed(drive_.terms(), loops.of(register_number),
                     loops.overtones[static_cast<std::size_t>(register_number - 1)], e.oscillation,
                     from.centre_m_s, e.inside.centre_m_s,
                     register_number == 1 ? Watch::slipping : Watch::ends);
        e.oscillation = end.oscillation;
        if (!end.arrives) {
            e.lost = true;
            e.inside = stand(loops, register_number,
                             centre_pressure_Pa(air_, voice_.track, end.centre_m_s));
            // who takes over has room to: time leaves the register up to so far beyond
            e.beyond = way > 0.0 ? stand(loops, register_number, kJumpHigh * e.inside.pressure_Pa)
                                 : e.inside;
        }
    } else {
        e.oscillation = with_harmonics(loops, register_number, e.inside);
    }
    e.exists =
        e.lost || way * std::log2(e.inside.pressure_Pa / from_Pa) < furthest - kPressureError;
    if (step > 1.0 && e.inside.centre_m_s > kRoughSpeed_m_s) e.exists = false;
    return e;
}

bool Blowing::takes_over(const NoteLoops& loops, int register_number, const End& end,
                         double gain) const {
    if (gain > 1.0) return true;
    if (!end.lost || register_number < 1 ||
        register_number > static_cast<int>(loops.registers.size()))
        return false;
    return drive_.rival_gain(loops.of(register_number), {}, end.beyond.centre_m_s) > 1.0;
}

bool Blowing::stays(const NoteLoops& loops, int register_number, const Stand& s) const {
    if (!s.holds() || register_number != 1) return s.holds();
    const Oscillation whole = with_harmonics(loops, register_number, s);
    return !whole.has_overtones ||
           !(growth(drive_.terms(), loops.of(1), loops.overtones[0], whole, s.centre_m_s) > 0.0);
}

// A pressure at which the register holds, nearest to the one given, from there up first.
double Blowing::holding_Pa(const NoteLoops& loops, int register_number, double from_Pa) const {
    constexpr double kFine = 1.189207115002721;  // 2^(1/4)
    double up_Pa = from_Pa, down_Pa = from_Pa;
    for (int n = 0; n < kMostSteps; ++n) {
        if (stays(loops, register_number, stand(loops, register_number, up_Pa))) return up_Pa;
        if (n > 0 && stays(loops, register_number, stand(loops, register_number, down_Pa)))
            return down_Pa;
        up_Pa *= kFine;
        down_Pa /= kFine;
    }
    return kNaN;
}

Regime Blowing::design(const NoteLoops& loops, int register_number) const {
    const LocalImpedance& loop = loops.of(register_number);
    if (!loop.exists()) return none("no_resonance");
    Regime r = none("");
    const double speed_m_s = drive_.speed_in_phase_m_s(loop.resonance_Hz());
    r.resonance_Hz = loop.resonance_Hz();
    r.gain = drive_.rival_gain(loop, {}, speed_m_s);
    r.at_pitch_Pa = centre_pressure_Pa(air_, voice_.track, speed_m_s);
    r.flow = track_flow(air_, voice_.track, r.at_pitch_Pa);
    r.breath_s = breath_s(r.flow.flow_m3_s);
    r.judgement =
        judge(r.flow.reynolds, voice_.window_m / voice_.track.height_m(), r.flow.centre_m_s);
    return r;
}

Regime Blowing::regime(const NoteLoops& loops, int register_number) const {
    Regime r = design(loops, register_number);
    if (!loops.of(register_number).exists()) return r;
    const Oscillation at_pitch = blown(loops, register_number, r.at_pitch_Pa);
    if (!at_pitch.sounds) {
        r.why = "no_gain";
        return r;
    }
    const double from_Pa = holding_Pa(loops, register_number, r.at_pitch_Pa);
    if (!(from_Pa > 0.0)) {
        r.why = "never_holds";
        return r;
    }
    r.found = true;
    r.cents_at_pitch = at_pitch.cents;
    const End soft = end(loops, register_number, from_Pa, 1.0 / kStep);
    if (soft.exists) {
        r.soft_Pa = soft.inside.pressure_Pa;
        r.cents_soft = soft.oscillation.cents;
        if (takes_over(loops, register_number - 1, soft, soft.beyond.gain_below))
            r.falls_back_Pa = r.soft_Pa;
    }
    const End hard = end(loops, register_number, from_Pa, kStep);
    if (hard.exists) {
        r.hard_Pa = hard.inside.pressure_Pa;
        r.cents_hard = hard.oscillation.cents;
        if (takes_over(loops, register_number + 1, hard, hard.beyond.gain_above))
            r.jumps_up_Pa = r.hard_Pa;
    }

    constexpr double kQuarter = 1.189207115002721;  // 2^(1/4)
    const Oscillation above = blown(loops, register_number, r.at_pitch_Pa * kQuarter);
    const Oscillation below = blown(loops, register_number, r.at_pitch_Pa / kQuarter);
    if (above.sounds && below.sounds) r.cents_per_doubling = 2.0 * (above.cents - below.cents);
    return r;
}

Regime regime(const Voice& voice, const Air& air, const Network& network, int register_number) {
    return Blowing(voice, air).regime(note_loops(network), register_number);
}

}  // namespace canewright
