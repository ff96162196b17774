// tests/support/properties.hpp: what must hold of the answers to every permitted document.
#pragma once

#include <string>
#include <vector>

#include "core/base/noise.hpp"
#include "core/document/json_text.hpp"

namespace canewright::testing {

// Where a property does not hold, and what was answered.
struct Breach {
    std::string property;
    std::string what;
};

// A property and what it found.
struct Checked {
    std::vector<Breach> breaches;
    Json layout;             // null: refused
    long evaluations = 0;    // of a network, by the layout
    bool converged = false;  // what the layout says of itself
    bool in_tune = false;    // every note within kReasonFrom_cents
};

inline constexpr double kSoundAgrees_cents = 0.1;
inline constexpr double kReasonFrom_cents = 3.0;
inline constexpr double kMarkMay_mm = 2.0;    // move, where an input is nudged
inline constexpr double kSamePlan_mm = 0.01;  // by layout and by next
inline constexpr std::size_t kNudges = 3;     // tried of a document
inline constexpr double kSwept = 0.03;        // share of the documents with a sweep
inline constexpr int kSweepSteps = 30;
inline constexpr long kMostEvaluations = 1000000;  // of a network, in one layout

// Of one document's answers:
//   answered         layout answers at all
//   finite           every mark of the plan and every target is a number
//   worst            worst_cents is the largest error of a note; where one does not speak nothing
//   is
//                    claimed
//   sound accepts, spread accepts   the answer of layout is a document
//   sound agrees     within kSoundAgrees_cents for every note
//   reason           converged and a note beyond kReasonFrom_cents: `binding` says why
//   plan             with a log: layout and next name the same marks
//   evaluations      at most kMostEvaluations
Checked check_properties(const Json& document);

// One input changed by little.
struct Nudge {
    std::string path;
    double by_mm = 0.0;
    Json document;
};
// Those that this document has and that leave it permitted: of each kind one, every way.
std::vector<Nudge> nudges(const Json& document, double share = 1.0);

// "continuity": how far the mark that moves most does between two answers of `layout` [mm]; -1
// where one of the two says that it has not converged. A hole that got another bit is exempt.
double farthest_move_mm(const Json& one, const Json& other, std::string& what);
// At most so many nudges, chosen by the noise.
std::vector<Breach> check_continuity(const Json& document, const Json& layout, Noise& noise,
                                     std::size_t most);
// "sweep": the same from one answer to the next along kSweepSteps nudges of one input.
std::vector<Breach> check_sweep(const Json& document, Noise& noise);

// All of them. `all_nudges`: every nudge that there is, and no sweep.
std::vector<Breach> breaches_of(const Json& document, Noise noise, bool all_nudges = false);

}  // namespace canewright::testing
