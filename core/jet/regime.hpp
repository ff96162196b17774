// core/jet/regime.hpp: between which pressures a note sounds, and how high there. Layer: jet.
#pragma once

#include <array>
#include <cstddef>

#include "core/air/air.hpp"
#include "core/flute/network.hpp"
#include "core/jet/band.hpp"
#include "core/jet/drive.hpp"
#include "core/jet/overtones.hpp"
#include "core/jet/track.hpp"

namespace canewright {

// A voice: track, sound hole and edge.
struct Voice {
    Track track;
    double window_m = 0.0;       // W, of the sound hole along the tube
    double width_m = 0.0;        // H, across it
    double edge_offset_m = 0.0;  // y0, edge from the middle of the jet, either way
    JetWave wave;
};

// A fingering's loop near its first three registers; one that is not there does not exist().
struct NoteLoops {
    std::array<LocalImpedance, 3> registers;
    std::array<Overtones, 2> overtones;  // of the first two
    const LocalImpedance& of(int register_number) const {
        return registers[static_cast<std::size_t>(register_number - 1)];
    }
};

// From a network whose registers 1 and 2 are known (NaN: not there), or are sought.
//
// Model    the third is there to cut the second short alone: the first place between kThirdFrom and
//          kThirdTo times the second where the reactance rises through zero, in steps of
//          kThirdStep, with no more loss than a clear register (core/flute/resonance).
NoteLoops note_loops(const Network& network, double first_Hz, double second_Hz);
NoteLoops note_loops(const Network& network);

inline constexpr double kThirdFrom = 1.2, kThirdTo = 1.8, kThirdStep = 1.03;

// A register under rising and falling breath. Pressures [Pa] at the track's inlet; NaN where there
// is none. Of these the cents may be promised; the pressures only as far as `judgement` says.
struct Regime {
    bool found = false;
    // Why not: "no_resonance"; "no_gain" (the jet gives less than is lost), "never_holds" (a
    // neighbouring register grows at every pressure).
    const char* why = "";
    double resonance_Hz = 0.0;
    double gain = 0.0;            // of a faint vibration at its resonance, jet in phase [-]
    double at_pitch_Pa = 0.0;     // where it sounds at its resonance: the design breath
    double soft_Pa = 0.0;         // softest at which it holds
    double hard_Pa = 0.0;         // loudest at which it holds; NaN: beyond the model
    double jumps_up_Pa = 0.0;     // hard_Pa if the next register takes over there
    double falls_back_Pa = 0.0;   // soft_Pa if the register below takes over there
    double cents_at_pitch = 0.0;  // of the pitch at the design breath, from the resonance: what its
                                  // harmonics do to it
    double cents_soft = 0.0;      // at soft_Pa
    double cents_hard = 0.0;
    double cents_per_doubling = 0.0;  // of the pressure, half a doubling round the design breath
    TrackFlow flow;                   // at the design breath
    double breath_s = 0.0;            // how long a breath lasts there
    Judgement judgement;              // at the design breath
};

// What a voice makes of notes.
//
// Model    thresholds are set by phase and by who grows in whose presence. A register holds at a
//          pressure while it has a vibration with its harmonics that goes on from the one at the
//          design breath (core/jet/branch), neither neighbour's gain in the presence of its first
//          harmonic exceeds 1, and, of the first register, no slow disturbance of its first two
//          harmonics grows (core/jet/stability): a second register near twice the first is blown
//          by its second harmonic until that slips, which is where most jumps up come from. From
//          the design breath the pressure is led up, and down, to kPressureError. It is a jump
//          where the neighbour grows there, else the note dies. Where the design breath does not
//          hold (a neighbour grows) the nearest that does is the start, within a factor 3.4.
// Valid    judgement.band good (rough: no gap between the jumps is said). Laminar entry, steady
//          breath. A register whose end lies beyond kMostBreathRatio of the design breath, or a
//          faster jet than the rough band has, has no such end.
// Error    kPressureError, relative, of the arithmetic. Pressures uncalibrated +-40 % (kGoodShare).
//          What is known of the model's faults:
//          - The jump up against the same equations in time (core/tone), breath held: 2 % off
//            where the second register lies within a quarter tone of twice the first, 6 to 13 %
//            late where it lies further off, 6 to 15 % early with three harmonic modes alone.
//          - The gap between jump up and down comes out at 1.4 to 1.5 in pressure where the second
//            register lies near twice the first, 2.2 to 2.9 with four and five open holes of an
//            untapered tube, as in time; measured on a recorder 1.06 to 1.40.
//          - Where the jump up comes depends on how well the next register answers, so it grows
//            with f^2.5 (narrow bore) to f^4 (wide, large holes) from note to note; f^2.2 measured.
//            With a second register that hardly answers there is no jump at all.
//          - Slopes of pitch are 471 / Q_eff cents per doubling, Q_eff the loop's quality lessened
//            by what the edge takes and changed by the harmonics. A rougher wall than the network
//            has makes a real voice's slope steeper.
//          - Onset of the first register is poorly predicted by such models (R. Auvray, B. Fabre,
//            P.-Y. Lagree, J. Acoust. Soc. Am. 131 (2012) 1574-1585, abstract), soft_Pa is a hint.
// Source   as core/jet/drive; the criterion is ours, checked against the same equations in time.
class Blowing {
   public:
    Blowing(const Voice& voice, const Air& air);
    Regime regime(const NoteLoops& loops, int register_number) const;
    // The same without its ends: pitch, flow and judgement at the design breath alone, at a
    // hundredth of the cost.
    Regime design(const NoteLoops& loops, int register_number) const;
    // What a register does at a pressure, whether or not it holds, harmonics and all.
    Oscillation blown(const NoteLoops& loops, int register_number, double pressure_Pa) const;
    // The same voice with another speed of the wave.
    Blowing with_convection(double convection) const;
    const Drive& drive() const { return drive_; }

   private:
    // A register at one pressure, its first harmonic alone, and the gains of the registers beside
    // it in its presence.
    struct Stand {
        double pressure_Pa = 0.0, centre_m_s = 0.0;
        Oscillation first;
        double gain_below = 0.0, gain_above = 0.0;
        bool holds() const { return first.sounds && !(gain_below > 1.0) && !(gain_above > 1.0); }
    };
    // Where a register holds last on the way from a pressure, and how it stands just beyond.
    struct End {
        Stand inside, beyond;
        Oscillation oscillation;  // inside, harmonics and all
        bool lost = false;        // its harmonics let it go on no more
        bool exists = false;      // false: it goes on as far as was looked
    };
    Stand stand(const NoteLoops& loops, int register_number, double pressure_Pa) const;
    Oscillation with_harmonics(const NoteLoops& loops, int register_number, const Stand& s) const;
    // Whether a neighbour grows where a register ends: in its presence, or once it has let go.
    bool takes_over(const NoteLoops& loops, int register_number, const End& end, double gain) const;
    End end(const NoteLoops& loops, int register_number, double from_Pa, double step) const;
    // Whether it holds there, harmonics and all.
    bool stays(const NoteLoops& loops, int register_number, const Stand& s) const;
    double holding_Pa(const NoteLoops& loops, int register_number, double from_Pa) const;

    Voice voice_;
    Air air_;
    Drive drive_;
};

// The same for one note, all of it reckoned anew.
Regime regime(const Voice& voice, const Air& air, const Network& network, int register_number);

inline constexpr double kPressureError = 1e-3;
inline constexpr double kMostBreathRatio = 16.0;

}  // namespace canewright
