// tests/core/layout/tolerance_test.cpp: linear propagation of errors to the notes.
#include "core/layout/tolerance.hpp"

#include <Eigen/Eigenvalues>
#include <catch2/catch.hpp>
#include <cmath>

#include "core/base/units.hpp"
#include "tests/support/spreads.hpp"

using namespace canewright;
using namespace canewright::testing;
using Catch::WithinAbs;
using Catch::WithinRel;

namespace {

double part(const NoteSpread& note, Group group) {
    return note.part_cents[static_cast<std::size_t>(group)];
}

}  // namespace

TEST_CASE("without errors nothing spreads", "[tolerance][property]") {
    SpreadTask task = easy_spread();
    task.shop = kPerfectShop;
    task.model = kPerfectModel;
    const Spread s = spread(task);
    CHECK(s.causes.empty());
    CHECK(s.ranked.empty());
    for (const NoteSpread& note : s.notes) CHECK(note.sigma_cents == 0.0);
    for (const double share : s.within) CHECK(share == 1.0);
}

TEST_CASE("the notes' covariance is symmetric and has no negative direction",
          "[tolerance][property]") {
    Dice dice(21);
    for (int n = 0; n < 20; ++n) {
        const Spread s = spread(random_spread(dice));
        const Eigen::MatrixXd& c = s.covariance_cents2;
        CHECK((c - c.transpose()).cwiseAbs().maxCoeff() < 1e-14 * c.trace());
        const double least = Eigen::SelfAdjointEigenSolver<Eigen::MatrixXd>(c).eigenvalues()(0);
        CHECK(least > -1e-9 * c.trace());
        for (std::size_t k = 0; k < s.notes.size(); ++k)
            CHECK_THAT(c(static_cast<Eigen::Index>(k), static_cast<Eigen::Index>(k)),
                       WithinRel(std::pow(s.notes[k].sigma_cents, 2), 1e-9));
    }
}

// Reference  resonances of flutes spoiled here by hand, as causes.hpp says in words what each error
//            is: no slopes, and nothing of put_off(). An undercut hole keeps its shape; a wall is
//            the tube's, the holes' and the sound hole's alike; a taper grows from the sound hole's
//            edge.
// Tolerance  2 % of a central difference: what it keeps of the third order.
TEST_CASE("each cause does what a flute with just this error does", "[tolerance][property]") {
    SpreadTask task = easy_spread();
    task.plan.flute.holes[1].inner_diameter_m *= 1.15;
    task.shop.taper_m = 0.1e-3;
    const Flute plan = task.plan.flute;
    const Spread s = spread(task);
    const std::size_t holes = plan.holes.size();
    // holes' places and sizes, foot, wall, bore, taper, sound hole twice, room, voice, share of
    // breath, breath, all holes, notes
    REQUIRE(s.causes.size() == 2 * holes + 11 + task.open.size());
    for (std::size_t n = 0; n < s.causes.size(); ++n) {
        const Cause& cause = s.causes[n];
        CAPTURE(name(cause.what), cause.index);
        if (cause.what == What::each_note || cause.what == What::breath) continue;
        const auto spoiled_Hz = [&](double share, const Fingering& open) {
            Flute flute = plan;
            AirState room = *task.plan.room;
            double breath_share = kBreathShare;
            const double off = share * cause.sigma;
            const std::size_t own = static_cast<std::size_t>(std::max(cause.index, 0));
            const auto stretched = [&](FingerHole& hole, double factor) {
                hole.diameter_m *= factor, hole.inner_diameter_m *= factor;
            };
            if (cause.what == What::place) flute.holes[own].at_m += off;
            if (cause.what == What::foot) flute.foot_m += off;
            if (cause.what == What::diameter)
                stretched(flute.holes[own], 1.0 + off / plan.holes[own].diameter_m);
            if (cause.what == What::hole_size)
                for (FingerHole& hole : flute.holes) stretched(hole, 1.0 + off);
            if (cause.what == What::wall) {
                flute.wall_m += off, flute.sound_hole.wall_m += off;
                for (FingerHole& hole : flute.holes) hole.wall_m += off;
            }
            if (cause.what == What::bore)
                for (BoreStation& at : flute.bore) at.diameter_m += off, at.across_m += off;
            if (cause.what == What::taper) {
                const double d_m = bore_diameter_m(plan, 0.0);
                REQUIRE(plan.bore.size() == 1);
                flute.bore = {{0.0, d_m, d_m}, {plan.foot_m, d_m + off, d_m + off}};
            }
            if (cause.what == What::sound_hole_length) flute.sound_hole.length_m += off;
            if (cause.what == What::sound_hole_width) flute.sound_hole.width_m += off;
            if (cause.what == What::voice) flute.sound_hole.inertance_factor *= 1.0 + off;
            if (cause.what == What::temperature) room.temperature_C += off;
            if (cause.what == What::breath_share) breath_share += off;
            return pitch_Hz(flute, moist_air(sounding_air(room, breath_share)), open);
        };
        for (std::size_t k = 0; k < s.notes.size(); ++k) {
            const double moved =
                cents_between(spoiled_Hz(0.25, task.open[k]), spoiled_Hz(-0.25, task.open[k])) /
                0.5;
            const double effect =
                s.effects_cents(static_cast<Eigen::Index>(k), static_cast<Eigen::Index>(n));
            CHECK_THAT(effect, WithinAbs(moved, 0.02 * std::abs(moved) + 1e-4));
        }
    }
}

TEST_CASE("one cause alone is its part of the whole", "[tolerance][property]") {
    const SpreadTask whole = easy_spread();
    const Spread s = spread(whole);
    struct Alone {
        Group group;
        ShopErrors shop;
    };
    std::vector<Alone> each(5, {Group::ruler, kPerfectShop});
    each[0].shop.ruler_m = whole.shop.ruler_m;
    each[1] = {Group::bits, kPerfectShop};
    each[1].shop.bit_m = whole.shop.bit_m;
    each[2] = {Group::wall, kPerfectShop};
    each[2].shop.wall_m = whole.shop.wall_m;
    each[3] = {Group::bore, kPerfectShop};
    each[3].shop.bore_m = whole.shop.bore_m;
    each[4] = {Group::sound_hole, kPerfectShop};
    each[4].shop.sound_hole_m = whole.shop.sound_hole_m;
    for (const Alone& alone : each) {
        CAPTURE(name(alone.group));
        SpreadTask task = whole;
        task.shop = alone.shop;
        task.model = kPerfectModel;
        const Spread only = spread(task);
        for (std::size_t k = 0; k < s.notes.size(); ++k) {
            CHECK(only.notes[k].sigma_cents > 0.0);
            CHECK_THAT(only.notes[k].sigma_cents, WithinRel(part(s.notes[k], alone.group), 1e-12));
            CHECK(only.notes[k].model_cents == 0.0);
        }
    }
}

TEST_CASE("parts add up by squares to shop, model and whole", "[tolerance][property]") {
    const Spread s = spread(easy_spread());
    for (const NoteSpread& note : s.notes) {
        double shop = 0.0, model = 0.0;
        for (int g = 0; g < kGroups; ++g) {
            const Group group = static_cast<Group>(g);
            (is_shops(group) ? shop : model) += std::pow(part(note, group), 2);
        }
        CHECK_THAT(note.shop_cents, WithinRel(std::sqrt(shop), 1e-12));
        CHECK_THAT(note.model_cents, WithinRel(std::sqrt(model), 1e-12));
        CHECK_THAT(note.sigma_cents, WithinRel(std::sqrt(shop + model), 1e-12));
    }
}

// Reference  spread() of the same flute with that cause's error set to nothing.
TEST_CASE("the ranking says how much variance goes with a cause", "[tolerance][property]") {
    const SpreadTask task = easy_spread();
    const Spread s = spread(task);
    double shares = 0.0;
    for (std::size_t n = 0; n < s.ranked.size(); ++n) {
        shares += s.ranked[n].share;
        if (n > 0) CHECK(s.ranked[n].share <= s.ranked[n - 1].share);
    }
    CHECK_THAT(shares, WithinAbs(1.0, 1e-12));
    const auto mean_variance = [](const Spread& of) {
        double sum = 0.0;
        for (const NoteSpread& note : of.notes) sum += note.sigma_cents * note.sigma_cents;
        return sum;
    };
    SpreadTask better = task;
    better.shop.bore_m = 0.0;
    for (const RankedCause& ranked : s.ranked)
        if (ranked.cause.what == What::bore)
            CHECK_THAT(ranked.share,
                       WithinRel(1.0 - mean_variance(spread(better)) / mean_variance(s), 1e-9));
}

// Reference  one note alone is Gaussian: share within x is erf(x / (sigma sqrt 2)).
// Tolerance  kShareError, as promised.
TEST_CASE("shares of builds are those of the normal distribution", "[tolerance][analytic]") {
    SpreadTask task = easy_spread();
    task.open = {{}};
    const Spread s = spread(task);
    for (std::size_t i = 0; i < kWithin_cents.size(); ++i) {
        const auto share = [&](double sigma) {
            return std::erf(kWithin_cents[i] / (sigma * std::sqrt(2.0)));
        };
        CHECK_THAT(s.within[i], WithinAbs(share(s.notes[0].sigma_cents), kShareError));
        CHECK_THAT(s.within_shop[i], WithinAbs(share(s.notes[0].shop_cents), kShareError));
    }
    // a plan that is off already is less often within
    task.target_Hz = {shifted_Hz(s.notes[0].nominal_Hz, -12.0)};
    const Spread off = spread(task);
    CHECK_THAT(off.notes[0].off_cents, WithinAbs(12.0, 1e-9));
    CHECK(off.within_shop[1] < s.within_shop[1]);
}

TEST_CASE("the breath's part is the slope of the shift", "[tolerance][property]") {
    SpreadTask task = easy_spread();
    task.shop = kPerfectShop;
    task.model = kPerfectModel;
    task.model.breath = 0.1;
    for (const NoteSpread& note : spread(task).notes) {
        CHECK(note.quality > 10.0);
        CHECK_THAT(note.sigma_cents,
                   WithinRel(1200.0 / std::log(2.0) * 0.1 * kPi / 4.0 / note.quality, 1e-9));
    }
}

// Source     row TEMP-cents: c ~ sqrt(T) gives 2.953 cents per kelvin at 20 C. Here for dry air of
//            the room, without breath: moist air at equal humidity gains 5 % more.
// Tolerance  2 %: friction slows the wave by 1.65e-3 / (a sqrt f), 1 % in this bore of 12.5 mm, and
//            that share grows like the viscosity's, by a third of a per cent a degree.
TEST_CASE("a flute goes up three cents a degree", "[tolerance][derived]") {
    SpreadTask task = easy_spread();
    task.plan.breath_share = 0.0;
    task.plan.room->humidity_fraction = 0.0;
    task.plan.refresh_air();
    const double per_K = check_value("TEMP-cents").number("value");
    const Climate dry = climate(task);
    REQUIRE(dry.per_C.size() == task.open.size());
    for (const double cents : dry.per_C) CHECK_THAT(cents, WithinRel(per_K, 0.02));
    for (const double cents : dry.ten_to_30) CHECK_THAT(cents, WithinRel(20.0 * per_K, 0.02));
    // a breath that stays as warm as ever carries its share of the temperature: 0.45 of it
    task.plan.breath_share = kBreathShare;
    task.plan.refresh_air();
    for (const double cents : climate(task).per_C)
        CHECK_THAT(cents, WithinRel((1.0 - kBreathShare) * per_K, 0.10));
}

TEST_CASE("an air given as such has neither room nor breath in it", "[tolerance][property]") {
    SpreadTask task = easy_spread();
    task.plan.room.reset();
    task.plan.air = lossless_air();
    for (const Cause& cause : spread(task).causes) {
        CHECK(cause.what != What::temperature);
        CHECK(cause.what != What::breath_share);
    }
}

TEST_CASE("a taper that is asked for is there, and is none at the sound hole",
          "[tolerance][property]") {
    SpreadTask task = easy_spread();
    Build build = task.plan;
    put_off(build, {What::taper, -1, 1e-4}, 1e-4);
    CHECK_THAT(bore_diameter_m(build.flute, 0.0),
               WithinAbs(bore_diameter_m(task.plan.flute, 0.0), 1e-12));
    CHECK_THAT(bore_diameter_m(build.flute, build.flute.foot_m),
               WithinAbs(bore_diameter_m(task.plan.flute, 0.0) + 1e-4, 1e-12));
    task.shop = kPerfectShop;
    task.shop.taper_m = 2e-4;
    task.model = kPerfectModel;
    for (const NoteSpread& note : spread(task).notes)
        CHECK(part(note, Group::bore) == note.sigma_cents);
}
