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
// A mark may move by so much where an input is nudged; of a long flute a share of its length, for
// there the same cents are more millimetres.
inline constexpr double kMarkMay_mm = 2.0;
inline constexpr double kMarkMay_share = 2.5e-3;
// Where some note stays this far off on either side the wish cannot be met at all: several bad
// flutes are as good as each other, and none of them is for cutting.
inline constexpr double kHopeless_cents = 100.0;
inline constexpr double kSamePlan_mm = 0.01;  // by layout and by next
// Several flutes may be in tune, or as far off as each other, and between two of them a hair
// decides: so many of all documents may break "continuity", and none any other property.
// Measured: tools/properties on fresh seeds (DEVELOPERS.md).
inline constexpr double kMayJump = 0.005;
// How much is asked of each document.
struct Effort {
    std::size_t nudges = 3;
    double swept = 0.03;  // share of the documents with a sweep
    double nudged = 1.0;  // with nudges
    double more = 1.0;    // of whose layout spread is asked, and the evaluations are counted
};
// For tools/test: a thousand documents in two minutes of one core.
inline constexpr Effort kQuick{1, 0.0, 0.5, 0.2};
// For one document that is looked into.
inline constexpr Effort kEveryNudge{100, 0.0, 1.0, 1.0};
inline constexpr int kSweepSteps = 30;
inline constexpr long kMostEvaluations = 200000;  // of a network, in one layout

// Of one document's answers:
//   answered         layout answers at all
//   finite           every mark of the plan and every target is a number
//   worst            worst_cents is the largest error of a note; where one does not speak nothing
//                    is claimed
//   sound accepts, spread accepts   the answer of layout is a document
//   sound agrees     within kSoundAgrees_cents for every note
//   spread agrees    so does what `spread` spreads about, of a plan
//   reason           all speak and one is beyond kReasonFrom_cents: `binding` says why
//   plan             with a log: layout and next name the same marks
//   evaluations      at most kMostEvaluations
Checked check_properties(const Json& document, bool asked_more = true);

// One input changed by little.
struct Nudge {
    std::string path;
    double by_mm = 0.0;
    Json document;
};
// Those that this document has and that leave it permitted: of each kind one, every way.
std::vector<Nudge> nudges(const Json& document, double share = 1.0);

// "continuity": an answer whose `loose_mm` says that another flute is as near may go as far as that
// one. How far the mark that moves most does between two answers of `layout` [mm]; -1
// where one of the two says that it has not converged. A hole that got another bit is exempt.
double farthest_move_mm(const Json& one, const Json& other, std::string& what);
// At most so many nudges, chosen by the noise.
std::vector<Breach> check_continuity(const Json& document, const Json& layout, Noise& noise,
                                     std::size_t most);
// "sweep": the same from one answer to the next along kSweepSteps nudges of one input.
std::vector<Breach> check_sweep(const Json& document, Noise& noise);

// All of them.
std::vector<Breach> breaches_of(const Json& document, Noise noise, const Effort& effort = {});

}  // namespace canewright::testing
