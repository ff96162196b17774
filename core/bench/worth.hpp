// core/bench/worth.hpp: what a step is worth, and where a flute stands. Layer: bench.
#pragma once

#include <Eigen/Core>
#include <optional>
#include <vector>

#include "core/bench/prospect.hpp"

namespace canewright {

// Notes of a flute, as believed: cents above what they should be.
struct NotesNow {
    Eigen::VectorXd mean;
    Eigen::MatrixXd covariance;
};

// What a listener would mind, in squared cents: of each note what it lies beyond kUnnoticed_cents,
// squared, summed, so that the worst note counts most. What all notes share counts kSharedShare as
// much as what they differ by.
//
// Source   two pure tones of 500 to 2000 Hz are told apart from 0.2 to 0.3 % on, 3.5 to 5 cents
//          (C.C. Wier, W. Jesteadt & D.M. Green, J. Acoust. Soc. Am. 61 (1977) 178-184, from
//          memory); in a tune, alone, more passes. Makers tune a flute to itself first and to a
//          fork second (common practice, no source).
double loss(const NotesNow& notes);
inline constexpr double kUnnoticed_cents = 3.5;
inline constexpr double kSharedShare = 0.7;

// Of two independent errors of the same thing, what is left when both are weighed: the note as
// known before, and the breath of the moment, when a rise is heard in one go.
double shared_error(double known_cents, double moment_cents);

inline constexpr double kUsualFinish_cents = 5.0;

// What can be done to a flute whose holes are all cut.
struct Work {
    std::vector<double>
        stop_cents;              // where each note ends when opened, on average, above its target
    double stop_sigma = 0.0;     // how far off that is, but for the moment [cents]
    double read_sigma = 0.0;     // of a reading [cents]
    double moment_cents = 0.0;   // what readings of the same moment share
    std::vector<bool> may_open;  // where it is flat by more than kUnnoticed_cents
    std::vector<bool> may_read;
    // How often each may still be heard only because it may be out of tune; empty: never.
    std::vector<int> checks_left;
    std::vector<bool> may_narrow;  // empty: none
};

// When a flute is done.
struct Finish {
    double good_enough_cents = kUsualFinish_cents;  // every note probably within it
    double tolerance_cents = 10.0;  // and none beyond it, or beyond good enough where that is more
    double risk = 0.05;             // but with this chance
};

struct Deed {
    enum class What { read, open, narrow };  // narrow: its hole, which is opened anew then
    What what = What::read;
    std::size_t note = 0;
    double gain = 0.0;  // of best_deed(): of loss, less what its minutes are worth
};

// The deed that gains most beyond its minutes; nothing where none does.
//
// Model    minutes cost kWorthOfMinute, at a finish line of kUsualFinish_cents, and as the square
// of
//          another. A reading is worth what better choices after it gain (one step ahead; five
//          points of Gauss and Hermite); an opening ends at Work's stop.
std::optional<Deed> best_deed(const NotesNow& notes, const Work& work, double good_enough_cents);

inline constexpr double kReadMinutes = 2.2;  // common practice, no source; so is the next
inline constexpr double kOpenMinutes = 5.0;
inline constexpr double kWorthOfMinute = 0.05;  // squared cents

// The least w such that all notes lie within it with a chance of kProbably [cents].
//
// Model    a fixed set of kDraws normal draws, the same for every question.
double probably_within_cents(const NotesNow& notes);
// The chance that all notes lie within so many cents, by the same draws.
double chance_within(const NotesNow& notes, double cents);
inline constexpr double kProbably = 0.8;
inline constexpr int kDraws = 400;

// What to do until the flute is done: the best deed; where none pays by itself, though some note is
// beyond the tolerance with more than the risk, a note is heard once more, where that lowers the
// chance by more than its minutes are of a flute's: one reading seldom changes what is best to do,
// which is all that best_deed() sees, but several do. Where hearing tells no more, a hole is
// narrowed and opened anew at the same price.
std::optional<Deed> next_deed(const NotesNow& notes, const Work& work, const Finish& finish);
inline constexpr double kFluteMinutes = 240.0;  // of work in a flute that is lost (judgement)
inline constexpr double kNarrowMinutes = 20.0;  // until the hole is open again (the same)

// How many steps they are, each ending as expected; those of kMostDeeds at most.
int deeds_left(NotesNow notes, Work work, const Finish& finish);
inline constexpr int kStepsOfNarrowing = 3;  // narrowed, heard, opened
inline constexpr int kMostDeeds = 12;

// The same notes after an opening, and after a reading that says what was expected.
NotesNow after_opening(NotesNow notes, std::size_t note, const Work& work);
NotesNow after_reading(NotesNow notes, std::size_t note, const Work& work);

}  // namespace canewright
