// core/layout/placement.cpp: where holes would lie, and where the limits let them.
#include "core/layout/placement.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "core/base/units.hpp"
#include "core/layout/place_holes.hpp"

namespace canewright {
namespace {

constexpr std::array<double, 3> kSizesTried = {kUsualHole, 0.30, 0.52};  // of the bore
constexpr double kEasily_cents = 0.03;  // a hundredth of a bore off the size that is wished
// Of a scaled number: a step of one pull so short that the next pull may as well take it.
constexpr double kEnough = 0.02;
// What the last pull may leave of the way back to the errors that were come to: a quarter of what
// is said of a layout. A way that would leave more, at the last pull's rate, does not lead there.
constexpr double kNearlyExact_cents = 0.25 * kLayoutError_cents;
// Where only flutes in tune are asked for: a pull that leaves more than this of errors beyond
// kStalled_cents will not come to one. Of 180 random tubes' flutes in tune none left more than
// 0.67, none from far sizes more than 0.36.
constexpr double kStalls = 0.8, kStallsSooner = 0.6, kStalled_cents = 5.0;
constexpr double kPullStill = 1e-7;  // of a scaled number: another pull would change nothing

// Two layouts that both meet the notes differ by rounding only; the first one found stays, so that
// the choice does not hang on the last digit (nor on native or wasm).
constexpr double kTie_cents = 1e-3;

void count(Placement& placement, const Problem& problem, const Walk& walk) {
    placement.evaluations += problem.evaluations();
    placement.steps += walk.steps;
}

void name_walls(Placement& placement, const Problem& problem) {
    placement.active.clear();
    placement.gave_way.clear();
    for (int row : placement.walk.active) {
        const Wall& wall = problem.walls()[static_cast<std::size_t>(row)];
        if (wall.hole != kOrder) placement.active.push_back(wall);
    }
    for (Eigen::Index row = 0; row < problem.wall_rows().rows(); ++row)
        if (problem.exceeded(row, placement.walk.x))
            placement.gave_way.push_back(problem.walls()[static_cast<std::size_t>(row)]);
}

std::vector<double> places_m(const Flute& flute) {
    std::vector<double> places;
    for (const FingerHole& hole : flute.holes) places.push_back(hole.at_m);
    return places;
}

// The errors that were come to are kept; what the notes leave open goes back as near to where it
// would lie without limits as they let it, or to where the octaves are true, as far as they count.
// So the answer is one place, not where a way has ended.
void draw_back(const LayoutTask& task, const Air& air, Rules rules, const Placement& unlimited,
               double length_m, Placement& found) {
    const Eigen::VectorXd errors_cents = found.walk.sound.errors_cents;
    rules.aim_cents.assign(errors_cents.data(), errors_cents.data() + errors_cents.size());
    rules.places_m = places_m(found.flute);
    Eigen::VectorXd x = found.walk.x;
    Walk near = found.walk;
    double last_cents = kNoLimit, octaves_counted = 0.0;
    for (int pull = 0; pull <= kMostPulls; ++pull) {
        Problem problem(task, air, rules);
        Walk w;
        const Eigen::VectorXd home =
            unlimited.home.size() > 0 ? unlimited.home : problem.numbers(unlimited.flute);
        if (pull > 0)
            w = walk(problem, x, problem.stay_near(x, length_m), kStepsAPull, near);
        else if (task.octaves != nullptr)
            w = task.octaves->walk(problem, near, home, task.octaves_weight);
        else
            w = walk(problem, x, problem.draw_to(home), kMostDescents, near);
        count(found, problem, w);
        if (!w.feasible || !w.sound.speaks || (pull == 0 && !w.converged)) return;
        if (pull == 0) octaves_counted = w.octaves_counted;
        x = w.x;
        near = w;
        const Flute flute = problem.flute(x);
        rules.places_m = places_m(flute);
        if (w.errors_cents() > (pull < kMostPulls ? kExact_cents : kNearlyExact_cents)) {
            // Each pull leaves about the same share of the errors: too many for those to come.
            const double share = w.errors_cents() / last_cents;
            if (w.errors_cents() * std::pow(share, kMostPulls - pull) > kNearlyExact_cents) return;
            last_cents = w.errors_cents();
            continue;
        }
        w.sound.errors_cents += errors_cents;
        w.converged = found.walk.converged;
        w.octaves_counted = octaves_counted;
        found.walk = std::move(w);
        found.flute = flute;
        name_walls(found, problem);
        return;
    }
}

bool on_the_way(const Walk& walk) {
    return walk.sound.speaks && walk.errors_cents() < kOnTheWay_cents;
}

}  // namespace

long pieces(const LayoutTask& task) {
    return task.hole_count + static_cast<long>(std::max<std::size_t>(task.flute.bore.size(), 2));
}

long as_long_as(long evaluations, const LayoutTask& task) {
    return evaluations * kUsualPieces / std::max(kUsualPieces, pieces(task));
}

double left_beyond_cents(const LayoutTask& task) {
    if (!task.met_only) return kNoLimit;
    return task.shop.bits_m.empty() ? kOnTheWay_cents : kBitsMeet_cents;
}

bool same_notes(const std::vector<double>& one_Hz, const std::vector<double>& other_Hz) {
    return std::equal(one_Hz.begin(), one_Hz.end(), other_Hz.begin(), other_Hz.end(),
                      [](double a_Hz, double b_Hz) {
                          return std::abs(cents_between(a_Hz, b_Hz)) < kLayoutError_cents;
                      });
}

bool better(const Walk& one, const Walk& other) {
    if (one.feasible != other.feasible) return one.feasible;
    if (one.sound.speaks != other.sound.speaks) return one.sound.speaks;
    return one.sound.speaks && one.errors_cents() < other.errors_cents() - kTie_cents;
}

namespace {

Rules order_alone(const LayoutTask& task) {
    Rules order;
    order.hands_and_tools = false;
    order.most_evaluations = as_long_as(order.most_evaluations, task);
    return order;
}

Placement from_usual_sizes(const LayoutTask& task, const Air& air) {
    const Rules order = order_alone(task);
    Placement best;
    double best_pulled_cents = 0.0;
    for (const double size_over_bore : kSizesTried) {
        Problem problem(task, air, order);
        const Flute guess = problem.first_guess(size_over_bore);
        const Pull pull = problem.wishes(size_over_bore);
        Walk w = walk(problem, problem.numbers(guess), pull);
        count(best, problem, w);
        const double pulled_cents = w.feasible ? (pull.rows * w.x - pull.targets).norm() : 0.0;
        const bool first = best.flute.holes.empty();
        best.other_sizes = !first;
        // Of two that are on the way to the notes, the one that the wishes pull at least.
        const bool both = !first && on_the_way(best.walk) && on_the_way(w);
        if (!first && !(both ? pulled_cents < best_pulled_cents - kTie_cents
                             : better(w, best.walk) && !on_the_way(best.walk)))
            continue;
        best.walk = std::move(w);
        best.flute = best.walk.feasible ? problem.flute(best.walk.x) : guess;
        best_pulled_cents = pulled_cents;
        // Other sizes are for tubes that do not speak with these, or to which they do not come
        // easily. Where the notes are met it hangs on a hair whether the last steps, a micrometre
        // along what they leave open, count as an end.
        const bool arrived = best.walk.converged || best.walk.errors_cents() < kExact_cents;
        if (arrived && on_the_way(best.walk) && pulled_cents < kEasily_cents) break;
    }
    return best;
}

bool holds_something(const LayoutTask& task) {
    return (task.foot_fixed && !task.lowest_free) ||
           std::any_of(task.flute.holes.begin(), task.flute.holes.end(),
                       [](const FingerHole& hole) { return hole.at_fixed || hole.diameter_fixed; });
}

LayoutTask nothing_held(LayoutTask task) {
    task.foot_fixed = task.lowest_free;
    for (FingerHole& hole : task.flute.holes) hole.at_fixed = hole.diameter_fixed = false;
    return task;
}

}  // namespace

Placement unlimited_placement(const LayoutTask& task, const Air& air) {
    if (!holds_something(task)) return from_usual_sizes(task, air);
    Placement held = from_usual_sizes(nothing_held(task), air);
    if (held.walk.feasible && on_the_way(held.walk)) {
        Problem problem(task, air, order_alone(task));
        held.home = problem.numbers(held.flute);
        held.walk = walk(problem, held.home, problem.draw_to(held.home));
        count(held, problem, held.walk);
        if (held.walk.feasible && on_the_way(held.walk)) {
            held.flute = problem.flute(held.walk.x);
            return held;
        }
    }
    Placement found = from_usual_sizes(task, air);
    found.evaluations += held.evaluations;
    found.steps += held.steps;
    return found;
}

Placement limited_placement(const LayoutTask& task, const Air& air, const Placement& unlimited,
                            const Rules& given, bool rough) {
    Placement found;
    found.flute = unlimited.flute;
    found.bit_m = given.bit_m;
    Rules rules = given;
    rules.places_m = places_m(found.flute);
    Eigen::VectorXd x;
    {
        const Problem problem(task, air, rules);
        x = problem.numbers(found.flute);
        const bool inside = problem.inside(x);
        if (inside && task.octaves == nullptr && unlimited.walk.converged &&
            unlimited.walk.errors_cents() < kExact_cents) {
            found.walk = unlimited.walk;
            found.walk.active.clear();
            return found;
        }
        rules.give_m = problem.give_needed_m(x);
        if (!std::isfinite(rules.give_m)) return found;  // walk.feasible stays false
        found.give_m = rules.give_m;
    }
    const double length_m = found.flute.foot_m;
    // With bits it is followed to its end: the next ones are chosen by what is found there.
    const double left_cents = given.bit_m.empty() ? left_beyond_cents(task) : kNoLimit;
    const double stalls = rough ? kStallsSooner : kStalls;
    Walk near = unlimited.walk.sound.speaks ? unlimited.walk : Walk{};
    near.sound.counted = true;  // a register may go between the walls: not followed
    double last_cents = kNoLimit;
    for (int pull = 0; pull < kMostPulls; ++pull) {
        Problem problem(task, air, rules);
        const Pull stay = problem.stay_near(x, length_m);
        const bool last = pull + 1 == kMostPulls;
        const int most_steps = last ? (rough ? kRoughSteps : kMostDescents) : kStepsAPull;
        Walk w = walk(problem, x, stay, most_steps, near, last ? 0.0 : kEnough);
        // between the walls it may not speak at first: other sizes may
        for (std::size_t n = 1; pull == 0 && !w.sound.speaks && n < kSizesTried.size(); ++n) {
            found.steps += w.steps;
            w = walk(problem, problem.numbers(problem.first_guess(kSizesTried[n])), stay);
        }
        count(found, problem, w);
        if (!w.feasible || !w.sound.speaks) {
            if (pull == 0) {
                if (w.feasible) found.flute = problem.flute(w.x);  // silent, but between the walls
                found.walk = std::move(w);
            }
            found.walk.converged = false;
            break;
        }
        const double moved = largest(w.x - x);
        x = w.x;
        found.walk = std::move(w);
        found.flute = problem.flute(x);
        name_walls(found, problem);
        if (found.walk.errors_cents() < kExact_cents || moved < kPullStill) {
            found.walk.converged = true;
            break;
        }
        if (found.walk.errors_cents() > std::max(left_cents, kStalled_cents) &&
            found.walk.errors_cents() > stalls * last_cents) {
            found.walk.converged = false;
            break;
        }
        last_cents = found.walk.errors_cents();
        rules.places_m = places_m(found.flute);
        near = found.walk;
    }
    if (found.walk.errors_cents() >= left_cents) return found;
    if (!rough && found.walk.converged) draw_back(task, air, rules, unlimited, length_m, found);
    return found;
}

}  // namespace canewright
