// core/layout/reasons.cpp: solves again without limits, one by one and together.
#include "core/layout/reasons.hpp"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <limits>
#include <utility>

#include "core/base/stable_order.hpp"
#include "core/layout/place_holes.hpp"

namespace canewright {
namespace {

constexpr long kMostAWalk = kMostReasoned / 6;  // what takes longer hardly comes nearer
// Limits of which none saves this share of the errors by itself are not the reason for them...
constexpr double kWeak = 0.1;
// ...and of those that are dropped together as few are named as save this share of what all do.
constexpr double kMostOfAll = 0.5;
constexpr double kUnknown = std::numeric_limits<double>::quiet_NaN();
constexpr Limit kKinds[] = {Limit::bits,         Limit::fixed,          Limit::planned,
                            Limit::spacing_max,  Limit::spacing_min,    Limit::diameter_max,
                            Limit::diameter_min, Limit::bore_share,     Limit::tube_end,
                            Limit::sound_hole,   Limit::foot_clearance, Limit::edge};

class Judge {
   public:
    Judge(const LayoutTask& task, const Air& air, const Placement& unlimited,
          const Placement& found, long& evaluations)
        : task_(task),
          air_(air),
          from_(&unlimited),
          found_(found),
          evaluations_(evaluations),
          until_(evaluations + as_long_as(kMostReasoned, task)) {
        for (std::size_t i = 0; i < task.flute.holes.size(); ++i) {
            const FingerHole& hole = task.flute.holes[i];
            if (hole.at_fixed || hole.diameter_fixed)
                fixed_.push_back({Limit::fixed, static_cast<int>(i)});
        }
    }

    // Within so many evaluations from here on.
    void go_on(long most_evaluations) {
        until_ = evaluations_ + as_long_as(most_evaluations, task_);
    }
    // From where the holes lie, not from where they would without any limit.
    void look_closer() { from_ = &found_; }

    // By how much the errors shrink without these; bits found stay in their holes, but where they
    // are themselves what is left out.
    double saved_cents(const std::vector<Wall>& left_out) const {
        Rules rules;
        rules.left_out = left_out;
        rules.most_evaluations = kMostAWalk;
        if (!rules.leaves_out(Limit::bits, -1)) rules.bit_m = found_.bit_m;
        if (evaluations_ > until_) return kUnknown;
        Placement without = limited_placement(task_, air_, *from_, rules, true);
        const bool speaks = without.walk.sound.speaks;
        const Sound sound = speaks ? counted_from_below(task_, air_, without) : Sound{};
        evaluations_ += without.evaluations;
        if (!sound.speaks) return 0.0;
        return std::max(0.0, found_.walk.errors_cents() - sound.errors_cents.norm());
    }

    // What costs by itself, of all that could: limits that press, the bits, what is held.
    std::vector<Binding> alone() const {
        std::vector<Wall> walls;
        if (!found_.bit_m.empty()) walls.push_back({Limit::bits, -1});
        for (const Wall& wall : found_.active)  // two rows may say one limit
            if (wall.limit != Limit::bits &&
                std::none_of(walls.begin(), walls.end(), [&wall](const Wall& other) {
                    return other.limit == wall.limit && other.hole == wall.hole;
                }))
                walls.push_back(wall);
        walls.insert(walls.end(), fixed_.begin(), fixed_.end());
        std::vector<Binding> costs;
        for (const Wall& wall : walls)
            if (const double cost = saved_cents({wall}); cost > kBindingCost_cents)
                costs.push_back({wall.limit, wall.hole, cost});
        return costs;
    }

    // A smallest set that saves more than so much of what all together do.
    std::vector<Binding> together(double share) const {
        std::vector<Wall> set;
        for (const Limit kind : kKinds) {
            if (kind == Limit::bits && found_.bit_m.empty()) continue;
            if (kind == Limit::fixed && fixed_.empty()) continue;
            if (kind == Limit::planned && task_.planned.empty()) continue;
            set.push_back({kind, -1});
        }
        double cost = saved_cents(set);
        if (!(cost > kBindingCost_cents)) return {{Limit::fingerings, -1, kUnknown}};
        const double least = std::max(kBindingCost_cents, share * cost);
        // What does not press hardly is the reason: all of it goes back at once where it can.
        std::vector<Wall> pressing;
        std::copy_if(set.begin(), set.end(), std::back_inserter(pressing),
                     [this](const Wall& kind) { return presses(kind.limit); });
        if (const double pressed = pressing.empty() ? 0.0 : saved_cents(pressing);
            pressed > least) {
            set = std::move(pressing);
            cost = pressed;
        }
        for (std::size_t i = set.size(); i-- > 0;) {  // the tube's own limits go back first
            std::vector<Wall> fewer;
            for (std::size_t k = 0; k < set.size(); ++k)
                if (k != i) fewer.push_back(set[k]);
            const double without = fewer.empty() ? 0.0 : saved_cents(fewer);
            if (!(without > least)) continue;
            set = std::move(fewer);
            cost = without;
        }
        std::vector<Binding> bindings;
        for (const Wall& wall : set)
            bindings.push_back({wall.limit, wall.hole, cost, set.size() > 1});
        return bindings;
    }

   private:
    bool presses(Limit kind) const {
        return kind == Limit::bits || kind == Limit::fixed || kind == Limit::planned ||
               std::any_of(found_.active.begin(), found_.active.end(),
                           [kind](const Wall& wall) { return wall.limit == kind; });
    }

    const LayoutTask& task_;
    const Air& air_;
    const Placement* from_;
    const Placement& found_;
    long& evaluations_;
    long until_;
    std::vector<Wall> fixed_;
};

double most(const std::vector<Binding>& costs) {
    double most_cents = 0.0;
    for (const Binding& each : costs) most_cents = std::max(most_cents, each.costs_cents);
    return most_cents;
}

}  // namespace

std::vector<Binding> reasons(const LayoutTask& task, const Air& air, const Placement& unlimited,
                             const Placement& found, long& evaluations) {
    std::vector<Binding> bindings;
    for (const Wall& wall : found.gave_way) bindings.push_back({wall.limit, wall.hole, kUnknown});
    if (!found.walk.sound.speaks || found.walk.errors_cents() <= kBindingCost_cents)
        return bindings;
    double worst = 0.0;
    for (Eigen::Index k = 0; k < found.walk.sound.errors_cents.size(); ++k)
        worst = std::max(worst, std::abs(found.walk.sound.errors_cents(k)));
    Judge judge(task, air, unlimited, found, evaluations);
    std::vector<Binding> costs = judge.alone();
    if (costs.empty() && worst > kReason_cents) {
        judge.go_on(4 * kMostReasoned);  // a dozen kinds, one by one
        costs = judge.together(0.0);
    } else if (worst > kReason_cents && most(costs) < kWeak * found.walk.errors_cents()) {
        judge.go_on(4 * kMostReasoned);
        std::vector<Binding> set = judge.together(kMostOfAll);
        if (most(set) > kWeak * found.walk.errors_cents()) costs = std::move(set);
    }
    if (!costs.empty() && costs.front().limit == Limit::fingerings) {
        judge.go_on(kMostReasoned);
        judge.look_closer();
        std::vector<Binding> closer = judge.alone();
        if (!closer.empty()) costs = std::move(closer);
    }
    stable_order(costs,
                 [](const Binding& a, const Binding& b) { return a.costs_cents > b.costs_cents; });
    bindings.insert(bindings.end(), costs.begin(), costs.end());
    return bindings;
}

}  // namespace canewright
