// tests/core/bench/by_hand_test.cpp: what the bench believes, against small sums.
#include <catch2/catch.hpp>

#include "core/flute/resonance.hpp"
#include "tests/core/bench/workshop.hpp"

namespace canewright::by_hand_test {  // its own where tests are compiled together
namespace {

using Catch::WithinAbs;
using Catch::WithinRel;
using testing::Dice;
using testing::Workshop;

// Unknowns all at once, none of them small, and one offset for each of three cuts.
Eigen::VectorXd odd_unknowns() {
    Eigen::VectorXd u = Eigen::VectorXd::Zero(kCommonUnknowns + 3);
    u(kSoundHole) = 0.07, u(kSoundSpeed) = -0.004, u(kBore) = 0.013, u(kWall) = -0.09;
    u(kHoles) = 0.05, u(kDrift) = 8.0;
    u(kCommonUnknowns) = 0.4e-3, u(kCommonUnknowns + 1) = -0.7e-3, u(kCommonUnknowns + 2) = 0.2e-3;
    return u;
}

// An oval tube, sawn (cut 1), hole 5 drilled (cut 2) and undercut by a fifth.
History odd_history() {
    History history;
    history.blank = testing::plain_tube(17e-3, 3e-3, 0.44);
    history.blank.bore = {{0.0, 17e-3, 16e-3}, {0.4, 18e-3, 17e-3}};
    history.room = AirState{16.0, 0.3, 0.0004, 93e3};
    Stage stage;
    stage.foot_m = 0.44;
    stage.foot_cutting = 0;
    stage.sound_hole = {5e-3, 9.5e-3, 2.4e-3, 1.1};
    stage.holes.resize(5);
    history.stages.push_back(stage);
    stage.foot_m = 0.37;
    stage.foot_cutting = 1;
    history.stages.push_back(stage);
    HoleNow& hole = stage.holes[4];
    hole.cut = true, hole.at_m = 0.3, hole.diameter_m = 6e-3, hole.size_sigma_m = 0.1e-3;
    hole.flare = 1.2, hole.times_cut = 1, hole.cutting = 2;
    history.stages.push_back(stage);
    history.cuttings = 3;
    return history;
}

// The same by hand, as unknowns.hpp says in words.
Flute odd_flute(const Eigen::VectorXd& u) {
    Flute flute = testing::plain_tube(17e-3, 3e-3, 0.37);
    const double bore = 1.0 + u(kBore), wall_m = 3e-3 * (1.0 + u(kWall));
    flute.bore = {{0.0, 17e-3 * bore, 16e-3 * bore}, {0.4, 18e-3 * bore, 17e-3 * bore}};
    flute.wall_m = wall_m;
    flute.sound_hole = {5e-3, 9.5e-3, 2.4e-3, 1.1 * (1.0 + u(kSoundHole))};
    flute.foot_m = 0.37 + u(kCommonUnknowns + 1);
    FingerHole hole =
        testing::round_hole(0.3, 6e-3 * (1.0 + u(kHoles)) + u(kCommonUnknowns + 2), wall_m);
    hole.inner_diameter_m = 1.2 * hole.diameter_m;
    flute.holes = {hole};
    return flute;
}

Air odd_air(double room_C, const Eigen::VectorXd& u) {
    Air air = moist_air(sounding_air({room_C, 0.3, 0.0004, 93e3}));
    air.sound_speed_m_s *= 1.0 + u(kSoundSpeed);
    return air;
}

double odd_Hz(const Eigen::VectorXd& u, double above_cents) {
    const double passive_Hz = testing::pitch_Hz(odd_flute(u), odd_air(22.0, u), {1});
    return shifted_Hz(passive_Hz, u(kDrift) * above_cents / 1200.0);
}

}  // namespace

TEST_CASE("unknowns act as they are named", "[bench][by_hand][analytic]") {
    const History history = odd_history();
    const Eigen::VectorXd u = odd_unknowns();
    const Flute flute = with_unknowns(history, history.now(), u), mine = odd_flute(u);
    for (std::size_t n = 0; n < 2; ++n) {
        CHECK_THAT(flute.bore[n].diameter_m, WithinRel(mine.bore[n].diameter_m, 1e-12));
        CHECK_THAT(flute.bore[n].across_m, WithinRel(mine.bore[n].across_m, 1e-12));
    }
    CHECK_THAT(flute.wall_m, WithinRel(mine.wall_m, 1e-12));
    CHECK_THAT(flute.foot_m, WithinRel(mine.foot_m, 1e-12));
    CHECK_THAT(flute.sound_hole.inertance_factor, WithinRel(1.1 * 1.07, 1e-12));
    CHECK(flute.sound_hole.wall_m == 2.4e-3);
    REQUIRE(flute.holes.size() == 1);
    CHECK_THAT(flute.holes[0].diameter_m, WithinRel(6.0e-3 * 1.05 + 0.2e-3, 1e-12));
    CHECK_THAT(flute.holes[0].inner_diameter_m, WithinRel(1.2 * (6.0e-3 * 1.05 + 0.2e-3), 1e-12));
    CHECK_THAT(flute.holes[0].wall_m, WithinRel(3e-3 * 0.91, 1e-12));
    CHECK_THAT(air_with_unknowns(history, 22.0, u).sound_speed_m_s,
               WithinRel(odd_air(22.0, u).sound_speed_m_s, 1e-12));
    CHECK_THAT(air_with_unknowns(history, 22.0, u).density_kg_m3,
               WithinRel(odd_air(22.0, u).density_kg_m3, 1e-12));
    // a hole stays a hole: between 5 and 95 % of the round bore of the same area there, which lies
    // on a straight line between the stations
    const double bore_m =
        1e-3 * (std::sqrt(17.0 * 16.0) + 0.75 * (std::sqrt(18.0 * 17.0) - std::sqrt(17.0 * 16.0)));
    Eigen::VectorXd wild = u;
    wild(kCommonUnknowns + 2) = 0.1;
    CHECK_THAT(with_unknowns(history, history.now(), wild).holes[0].diameter_m,
               WithinRel(0.95 * bore_m, 1e-12));
    wild(kCommonUnknowns + 2) = -0.1;
    CHECK_THAT(with_unknowns(history, history.now(), wild).holes[0].diameter_m,
               WithinRel(0.05 * bore_m, 1e-12));
}

// Reference  pitches of flutes made by hand above, 0.2 % or a tenth of a millimetre apart.
// Tolerance
//            third order of a central difference.
TEST_CASE("a note's slopes are differences of pitches", "[bench][by_hand][analytic]") {
    const History history = odd_history();
    const Eigen::VectorXd u = odd_unknowns();
    const NoteModel note = note_model(history, history.now(), {5}, 22.0, u, 700.0);
    REQUIRE(note.speaks);
    CHECK_THAT(cents_between(note.frequency_Hz, odd_Hz(u, 700.0)), WithinAbs(0.0, 1e-3));
    CHECK_THAT(
        cents_between(note_Hz(history, history.now(), {5}, 22.0, u, 700.0), odd_Hz(u, 700.0)),
        WithinAbs(0.0, 1e-3));
    for (Eigen::Index n = 0; n < u.size(); ++n) {
        CAPTURE(n);
        const double step = n == kDrift ? 1.0 : n < kCommonUnknowns ? 2e-3 : 0.1e-3;
        Eigen::VectorXd up = u, down = u;
        up(n) += 0.5 * step, down(n) -= 0.5 * step;
        const double slope = cents_between(odd_Hz(up, 700.0), odd_Hz(down, 700.0)) / step;
        CHECK_THAT(note.slope(n),
                   WithinAbs(slope, (n == kSoundSpeed ? 5e-3 : 2e-3) * std::abs(slope) + 1e-6));
        if (n != kCommonUnknowns) CHECK(note.slope(n) != 0.0);
    }
    CHECK(note.slope(kCommonUnknowns) == 0.0);  // the tube's old end is sawn off
    // before the hole was drilled its offset says nothing, the foot's does
    const NoteModel before = note_model(history, history.stages[1], {}, 22.0, u, 0.0);
    CHECK(before.slope(kCommonUnknowns + 2) == 0.0);
    CHECK(before.slope(kCommonUnknowns + 1) < -1e3);
    CHECK(before.slope(kHoles) == 0.0);
}

// Reference  Gaussian conditioning of one number: a note known to P, read to R (the reading's own
//            variance and one cent of the model's), is known to P R / (P + R) afterwards and moves
//            by P / (P + R) of what was heard above expectation.
TEST_CASE("one reading of one note, by hand", "[bench][by_hand][analytic]") {
    for (const double sigma : {0.5, 4.0, 12.0}) {
        CAPTURE(sigma);
        Dice dice(61);
        Workshop shop(dice);
        const Belief prior_belief = Workshop::belief();
        shop.log().foot(0.38, 0.2e-3);
        const auto note_of_now = [&](const Eigen::VectorXd& u) {
            return note_model(shop.history(), shop.history().now(), {}, 20.0, u, 0.0);
        };
        const Estimate nothing = shop.known();
        const NoteModel expected = note_of_now(nothing.belief.mean);
        const double P = std::pow(sigma_cents(expected, nothing.belief), 2);
        const double R = sigma * sigma + 1.0, off = 7.0;
        shop.log().read({}, shifted_Hz(expected.frequency_Hz, off), sigma, 20.0);
        const Estimate known = shop.known();
        const NoteModel after = note_of_now(known.belief.mean);
        CHECK_THAT(known.verdicts[0].off_cents, WithinAbs(off, 0.02));
        CHECK_THAT(known.verdicts[0].sigma_cents, WithinRel(std::sqrt(P + R), 2e-3));
        CHECK_THAT(sigma_cents(after, known.belief), WithinRel(std::sqrt(P * R / (P + R)), 5e-3));
        CHECK_THAT(cents_between(after.frequency_Hz, expected.frequency_Hz),
                   WithinAbs(off * P / (P + R), 0.03));
        // the foot's own doubt is among P: 0.2 mm of it
        const double foot = expected.slope(expected.slope.size() - 1) * 0.2e-3;
        double rest = 0.0;
        for (Eigen::Index n = 0; n < kCommonUnknowns; ++n)
            rest += std::pow(expected.slope(n) * prior_belief.sigma(n), 2);
        CHECK_THAT(P, WithinRel(rest + foot * foot, 1e-6));
    }
}

// Limit  a reading is left out beyond 3.2 standard deviations and 9 cents (evidence.hpp).
TEST_CASE("a reading is left out beyond 3.2 deviations and 9 cents", "[bench][by_hand]") {
    const auto trusted = [](double off_cents, int before, double sigma) {
        Dice dice(62);
        Workshop shop(dice);
        shop.log().foot(0.38, 0.2e-3);
        const double Hz =
            note_Hz(shop.history(), shop.history().now(), {}, 20.0, shop.known().belief.mean, 0.0);
        for (int n = 0; n < before; ++n) shop.log().read({}, Hz, sigma, 20.0);
        shop.log().read({}, shifted_Hz(Hz, off_cents), sigma, 20.0);
        const Estimate known = shop.known();
        return known.verdicts.back().trusted;
    };
    Dice dice(62);
    Workshop shop(dice);
    shop.log().foot(0.38, 0.2e-3);
    const Estimate nothing = shop.known();
    const double P = std::pow(sigma_cents(note_model(shop.history(), shop.history().now(), {}, 20.0,
                                                     nothing.belief.mean, 0.0),
                                          nothing.belief),
                              2);
    const double deviation = std::sqrt(P + 10.0);
    CHECK(trusted(3.1 * deviation, 0, 3.0));
    CHECK_FALSE(trusted(3.3 * deviation, 0, 3.0));
    CHECK(trusted(-3.1 * deviation, 0, 3.0));
    CHECK_FALSE(trusted(-3.3 * deviation, 0, 3.0));
    // well known, well read: nine cents decide, though they are many deviations
    CHECK(trusted(8.8, 9, 0.3));
    CHECK_FALSE(trusted(9.4, 9, 0.3));
}

}  // namespace canewright::by_hand_test
