// core/layout/problem.hpp: a layout as numbers that may move, errors to be made small, and walls.
// Layer: layout.
#pragma once

#include <Eigen/Core>
#include <vector>

#include "core/air/air.hpp"
#include "core/flute/network.hpp"
#include "core/layout/plan.hpp"

namespace canewright {

// A row of A x <= b and what it stands for.
struct Wall {
    Limit limit;
    int hole;  // -1 as what is left out: of every hole
};
inline constexpr int kOrder = -2;  // no limit of the maker's: what keeps a flute a flute

// Which limits hold.
struct Rules {
    bool hands_and_tools =
        true;  // false: only what keeps holes in order, to see where they would lie
    std::vector<Wall> left_out;
    std::vector<double> bit_m;      // of each hole; 0 or absent: any size
    std::vector<double> aim_cents;  // off each note that counts as none; absent: 0
    // Of networks, in one walk: a few hundred where notes speak, some thousands between hard
    // limits. A flute that falls silent at every turn costs a search a note, and is left at that.
    long most_evaluations = 10000;
    double give_m = 0.0;  // by how much the shop's limits give way where there is no room
    // Where each hole lies, or nearly, for the bore it lies in; absent: near the sound hole.
    std::vector<double> places_m;

    bool leaves_out(Limit limit, int hole) const;
};

// The notes at one set of numbers.
struct Sound {
    Eigen::VectorXd errors_cents;       // sounding above target, one a note
    std::vector<double> frequency_Hz;   // as sounded, with what the breath adds
    std::vector<double> passive_Hz;     // the resonances
    std::vector<double> cents_per_rad;  // how they move with the turn, once slopes were asked for
    std::vector<double> beside_Hz, beside_turn;  // as Resonance has them
    bool counted = false;  // whether a flute near this one has to count its registers again
    bool speaks = false;   // every note has a converged resonance
};

// What an answer is held by beside the notes: rows C x ~ d, in cents, any number of them.
struct Pull {
    Eigen::MatrixXd rows;
    Eigen::VectorXd targets;
};

// The overblown octaves: each note's second register over twice its first [cents], resonances both,
// and how the numbers that may move turn them; 0 throughout where there is no second register.
struct Octaves {
    Eigen::VectorXd x;              // the numbers
    Eigen::VectorXd cents;          // one a note
    Eigen::MatrixXd slopes;         // cents for each scaled number
    std::vector<double> second_Hz;  // of each note; 0: none
    std::vector<double> per_rad;    // Slope::cents_per_rad() there
    int there = 0;                  // notes that have one
};

// Numbers that may move (scaled: positions and foot by the bore, diameters by a fifth of it).
class Problem {
   public:
    Problem(const LayoutTask& task, const Air& air, const Rules& rules = {});

    Eigen::Index size() const { return static_cast<Eigen::Index>(kinds_.size()); }
    Eigen::VectorXd numbers(const Flute& flute) const;
    Flute flute(const Eigen::VectorXd& x) const;

    // `near` are resonances of a similar flute, or empty: then notes are looked for near their
    // targets. `cents_per_rad` as in Sound, or empty; with it registers are followed, and counted
    // only where `counted` says so. A note that does not speak ends it, unless `every_note` is
    // wanted all the same: then each is looked for from below, as anyone else would, and `near`
    // only saves the last digits.
    Sound sound(const Eigen::VectorXd& x, const std::vector<double>& near, bool every_note = false,
                const std::vector<double>& cents_per_rad = {}, bool counted = false);
    // Sounding notes above their targets.
    Eigen::VectorXd errors_cents(const std::vector<double>& frequency_Hz) const;
    // d errors / d x at the given sound, by the implicit function theorem from the turn of the
    // loop's reflection and by reciprocity: no root is sought for a derivative and no impedance
    // evaluated but the note's own, and one a hair beside it where `sound` has none. What the
    // breath adds is taken to move along. Error    kSlopesError, of the largest of a note's slopes.
    Eigen::MatrixXd slopes(const Eigen::VectorXd& x, Sound& sound);

    // Octaves at the given sound: counted from below, as anyone else would. Or, `near` others,
    // those same registers followed from there, whatever comes up between them and the first: notes
    // without one there have none; `there` is smaller where one got lost.
    // Error    of the slopes kOctavesSlopesError, as above.
    Octaves octaves(const Eigen::VectorXd& x, const Sound& sound, const Octaves& near = {});
    // Whether each note's registers, counted from below, are these.
    bool counted_registers(const Eigen::VectorXd& x, const Sound& sound, const Octaves& octaves);

    const Eigen::MatrixXd& wall_rows() const { return rows_; }
    const Eigen::VectorXd& wall_bounds() const { return bounds_; }
    const std::vector<Wall>& walls() const { return walls_; }
    // Whether every limit holds.
    bool inside(const Eigen::VectorXd& x) const;
    // Whether a limit holds only as far as it gave way.
    bool exceeded(Eigen::Index row, const Eigen::VectorXd& x) const {
        constexpr double kRounding = 1e-9;
        return rows_.row(row).dot(x) > bounds_(row) - rules_.give_m * gives_(row) + kRounding;
    }
    // By how much the shop's limits must give way for `x` to be let in anywhere [m]; NaN where the
    // walls of tube and model alone leave no room.
    double give_needed_m(const Eigen::VectorXd& x) const;

    // Mild wishes, weighted to count for tenths of a cent: sizes near `size_over_bore`, and
    // holes that no note depends on midway between their neighbours.
    Pull wishes(double size_over_bore) const;
    // Every number held near `x`: straying by a hundredth of the flute's length (a place), or by as
    // much in other numbers' scale, counts as kStray_cents.
    Pull stay_near(const Eigen::VectorXd& x, double length_m) const;
    // Every number drawn to `x`, as mildly as wishes().
    Pull draw_to(const Eigen::VectorXd& x) const;

    // A first guess from effective lengths (Benade 1960, one open hole and the end below it).
    Flute first_guess(double size_over_bore);
    // A lowest note that floats, roughly: half a wave from the sound hole to the foot.
    double floating_Hz() const;

    long evaluations() const { return evaluations_; }
    bool spent() const { return evaluations_ > rules_.most_evaluations; }
    double scale_m(Eigen::Index n) const;

   private:
    // Of a scaled number, either way: for what a finger hole or a cone alone does where it is a
    // little larger. Its square is the slopes' own error; their rounding must be smaller, for what
    // the notes leave open is decided by wishes a thousand times weaker (native and wasm agree to
    // 1e-9).
    static constexpr double kNudge = 3e-5;

    enum class Kind { foot, at, diameter };
    struct Number {
        Kind kind;
        int hole;
    };
    void build_walls();
    void build_order();  // the walls without hands and tools
    struct Term {        // of a sum of metres: a moving number, or one held still
        Kind kind;
        int hole;
        double factor;
    };
    // Terms together at most `bound_m`; `gives`: the shop's, which can give way.
    void wall(Limit limit, int hole, const std::vector<Term>& terms, double bound_m,
              bool gives = false);
    void fill_rows();
    Eigen::Index index_of(Kind kind, int hole) const;
    double bore_at_m(int hole) const;
    // A hole of a size that stays, where a wall says where the bore is wide enough for it.
    void keep_in_bore(int hole, int named);
    // Of each number two flutes, kNudge less and more.
    std::vector<Network> either_way(const Eigen::VectorXd& x) const;
    double length_for_m(double frequency_Hz, double guess_m);

    const LayoutTask task_;
    const Air air_;
    const Rules rules_;
    double bore_m_ = 0.0;
    std::vector<double> lift_cents_;  // of each note, by the breath
    std::vector<Number> kinds_;
    std::vector<Wall> walls_;
    std::vector<double> table_;  // of each wall: factors, bound, whether it gives
    Eigen::MatrixXd rows_;
    Eigen::VectorXd bounds_;
    Eigen::VectorXd gives_;  // of each row: by how much its bound grows for each metre given
    long evaluations_ = 0;
};

inline constexpr double kSlopesError = 1e-6;
inline constexpr double kOctavesSlopesError = 1e-5;

// What the model can be asked for, as a share of the bore.
inline constexpr double kSmallestHole = 0.1;
inline constexpr double kLargestHole = 0.8;
// The format's least, with room for rounding and for what a belief says of sizes.
inline constexpr double kLeastHole_m = 0.31e-3;
inline constexpr double kLeastFoot_m = 20e-3;
// Wall to be left between two holes' edges, between a hole and the sound hole, and the foot [m].
inline constexpr double kBridge_m = 2.0e-3;
inline constexpr double kSoundHoleClearance_bores = 0.5;
inline constexpr double kFootClearance_bores = 0.3;
// Where a bit ends, a knife goes on: a cut hole is opened a little past the largest bit.
inline constexpr double kBeyondLargestBit = 1.2;
// What a hole's place is worth where a limit keeps the notes from being met: a hundredth of the
// flute's length against this many cents. Smaller, and holes wander for hundredths of a cent that
// nobody hears; larger, and a note is left off that could be had. With it a limit moved by a
// tenth of a millimetre moves no mark by two (tests/whole/continuity_test.cpp).
inline constexpr double kStray_cents = 2.0;

}  // namespace canewright
