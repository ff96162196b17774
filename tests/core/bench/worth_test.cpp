// tests/core/bench/worth_test.cpp: what a step is worth, and how sure every note is.
#include "core/bench/worth.hpp"

#include <catch2/catch.hpp>
#include <cmath>

namespace canewright {
namespace {

using Catch::WithinAbs;
using Catch::WithinRel;

NotesNow alone(const std::vector<double>& mean, double sigma) {
    NotesNow notes;
    const Eigen::Index count = static_cast<Eigen::Index>(mean.size());
    notes.mean = Eigen::Map<const Eigen::VectorXd>(mean.data(), count);
    notes.covariance = sigma * sigma * Eigen::MatrixXd::Identity(count, count);
    return notes;
}

Work any_work(std::size_t count) {
    Work work;
    work.stop_cents.assign(count, -1.0);
    work.stop_sigma = 2.4;
    work.read_sigma = 3.0;
    work.moment_cents = 1.0;
    work.may_open.assign(count, true);
    work.may_read.assign(count, true);
    return work;
}

// By hand: with no doubt a note of x cents costs (x - 3.5)^2, and nothing within; what all share
// counts seven tenths.
TEST_CASE("loss is what lies beyond what is noticed", "[bench][worth][analytic]") {
    CHECK(loss(alone({3.0, -3.0, 0.0}, 0.0)) == 0.0);
    // 9 and two of 0: the mean of 3 counts seven tenths, so 9 - 0.9 and -0.9
    CHECK_THAT(loss(alone({9.0, 0.0, 0.0}, 0.0)), WithinRel((8.1 - 3.5) * (8.1 - 3.5), 1e-9));
    // all alike: 0.7 of 9
    CHECK_THAT(loss(alone({9.0, 9.0, 9.0}, 0.0)), WithinRel(3.0 * (6.3 - 3.5) * (6.3 - 3.5), 1e-9));
    // sharp and flat apart cost more than the same beyond alike
    CHECK(loss(alone({9.0, -9.0}, 0.0)) > loss(alone({9.0, 9.0}, 0.0)));
}

// Reference  the mean of (|x| - 3.5)^2 above 3.5 by quadrature of the normal density.
TEST_CASE("loss of a doubtful note", "[bench][worth][analytic]") {
    for (const double mean : {0.0, -2.0, 6.0})
        for (const double sigma : {1.0, 4.0}) {
            CAPTURE(mean, sigma);
            double sum = 0.0;
            constexpr double kStep = 0.001;
            for (double x = mean - 9.0 * sigma; x < mean + 9.0 * sigma; x += kStep) {
                const double over = std::max(0.0, std::abs(x) - 3.5);
                const double z = (x - mean) / sigma;
                sum += kStep * over * over * std::exp(-0.5 * z * z) / (sigma * 2.5066282746310002);
            }
            // two notes that differ only: nothing is shared but half of the sum
            NotesNow notes = alone({mean, -mean}, sigma);
            notes.covariance(0, 1) = notes.covariance(1, 0) = -sigma * sigma;
            CHECK_THAT(loss(notes), WithinRel(2.0 * sum, 1e-3));
        }
}

// Reference  independent notes: the chance that all lie within w is the product of erf(w / s / sqrt
// 2).
TEST_CASE("how near every note probably is", "[bench][worth][analytic]") {
    for (const double sigma : {1.0, 3.0}) {
        const NotesNow notes = alone({0.0, 0.0, 0.0, 0.0, 0.0, 0.0}, sigma);
        const double w = probably_within_cents(notes);
        const double chance = std::pow(std::erf(w / sigma / std::sqrt(2.0)), 6);
        CHECK_THAT(chance, WithinAbs(kProbably, 4.0 * std::sqrt(0.8 * 0.2 / kDraws)));
        CHECK_THAT(chance_within(notes, w), WithinAbs(kProbably, 0.01));
    }
    CHECK_THAT(probably_within_cents(alone({0.0, -7.0}, 1e-3)), WithinAbs(7.0, 0.01));
}

TEST_CASE("a step is proposed only where it pays", "[bench][worth][property]") {
    const Work work = any_work(4);
    // in tune and known: nothing
    CHECK_FALSE(best_deed(alone({0.0, -1.0, 1.0, 0.0}, 1.0), work, 5.0));
    // one surely flat: opened
    const auto open = best_deed(alone({0.0, -9.0, 0.0, 0.0}, 1.0), work, 5.0);
    REQUIRE(open);
    CHECK(open->what == Deed::What::open);
    CHECK(open->note == 1);
    // one unsure: read before it is opened
    NotesNow unsure = alone({0.0, -2.0, 0.0, 0.0}, 1.0);
    unsure.covariance(1, 1) = 81.0;
    const auto read = best_deed(unsure, work, 5.0);
    REQUIRE(read);
    CHECK(read->what == Deed::What::read);
    CHECK(read->note == 1);
    // what is sharp cannot be opened, and reading it changes nothing
    const auto sharp = best_deed(alone({9.0, 0.0, 0.0, 0.0}, 0.5), work, 5.0);
    CHECK_FALSE(sharp);
    // who is content with more, does less
    int steps = 99;
    for (const double good_enough : {2.0, 5.0, 12.0}) {
        const int left = deeds_left(alone({-6.0, -6.0, -4.0, 2.0}, 3.0), work, {good_enough});
        CHECK(left <= steps);
        steps = left;
    }
    CHECK(steps == 0);
    CHECK(deeds_left(alone({-9.0, -9.0, 0.0, 0.0}, 1.0), work, {}) >= 2);
}

// Reference  the mean over what a reading may say, by quadrature of its normal density; five points
//            stand for it in the planner, across the edge from where on opening pays.
TEST_CASE("what a reading is worth", "[bench][worth][analytic]") {
    Work work = any_work(1);
    for (const double mean : {-3.0, -2.0, -1.0}) {
        CAPTURE(mean);
        const NotesNow notes = alone({mean}, 9.0);
        const double told_cents = 81.0 / std::hypot(9.0, work.read_sigma);
        const double minute = kWorthOfMinute;  // at the usual finish
        const auto best = [&](const NotesNow& now) {
            const double as_it_is = loss(now);
            return now.mean(0) > -kUnnoticed_cents
                       ? as_it_is
                       : std::min(as_it_is,
                                  loss(after_opening(now, 0, work)) + kOpenMinutes * minute);
        };
        double expected = 0.0;
        NotesNow after = after_reading(notes, 0, work);
        constexpr double kStep = 0.01;
        for (double z = -6.0; z < 6.0; z += kStep) {
            after.mean(0) = mean + z * told_cents;
            expected += kStep * std::exp(-0.5 * z * z) / 2.5066282746310002 * best(after);
        }
        const auto deed = best_deed(notes, work, kUsualFinish_cents);
        REQUIRE(deed);
        REQUIRE(deed->what == Deed::What::read);
        CHECK_THAT(deed->gain, WithinRel(best(notes) - expected - kReadMinutes * minute, 0.03));
    }
}

// By hand: a normal 6.5 +- 3.0 lies above 10 in 0.122 of cases; read to 6 cents it is known to 2.68
// and does in 0.096: 0.026 of a flute are more than the reading's minutes of one, 0.009.
TEST_CASE("a flute that may be out of tune is not done", "[bench][worth][analytic]") {
    const NotesNow doubtful = alone({0.0, 6.5, 0.0, 0.0}, 3.0);
    Work work = any_work(4);
    work.read_sigma = 6.0;
    work.checks_left.assign(4, 2);
    // one reading would not change what is best to do
    REQUIRE_FALSE(best_deed(doubtful, work, 5.0));
    const auto check = next_deed(doubtful, work, {});
    REQUIRE(check);
    CHECK(check->what == Deed::What::read);
    CHECK(check->note == 1);
    CHECK(deeds_left(doubtful, work, {}) == 2);
    // whatever the maker calls good enough
    CHECK(next_deed(doubtful, work, {10.0}));
    // read to 12 cents it is known to 2.91, and lies above in 0.115: 0.007
    work.read_sigma = 12.0;
    CHECK_FALSE(next_deed(doubtful, work, {}));
    work.read_sigma = 6.0;
    // such a risk was accepted; it is surely within; it was heard often enough
    CHECK_FALSE(next_deed(doubtful, work, {5.0, 10.0, 0.2}));
    CHECK_FALSE(next_deed(alone({0.0, 6.5, 0.0, 0.0}, 1.0), work, {}));
    work.checks_left[1] = 0;
    CHECK_FALSE(next_deed(doubtful, work, {}));
    // the same flat, where nothing may be opened
    work.checks_left[1] = 2;
    work.may_open.assign(4, false);
    const auto flat = next_deed(alone({0.0, -6.5, 0.0, 0.0}, 3.0), work, {});
    REQUIRE(flat);
    CHECK(flat->note == 1);
}

// By hand: heard often enough, 7.5 +- 2.5 lies above 10 in 0.159 of cases, 6.0 +- 2.5 in 0.055;
// narrowing takes a twelfth of a flute's minutes.
TEST_CASE("a hole is narrowed where hearing tells no more", "[bench][worth][analytic]") {
    Work work = any_work(4);
    work.checks_left = {2, 0, 2, 2};
    work.may_narrow.assign(4, true);
    const NotesNow doubtful = alone({0.0, 7.5, 0.0, 0.0}, 2.5);
    const auto narrow = next_deed(doubtful, work, {});
    REQUIRE(narrow);
    CHECK(narrow->what == Deed::What::narrow);
    CHECK(narrow->note == 1);
    CHECK(deeds_left(doubtful, work, {}) == kStepsOfNarrowing);
    CHECK_FALSE(next_deed(alone({0.0, 6.0, 0.0, 0.0}, 2.5), work, {}));
    // what is flat is opened, not narrowed; what may not be narrowed is left
    const auto flat = next_deed(alone({0.0, -7.5, 0.0, 0.0}, 2.5), work, {});
    REQUIRE(flat);
    CHECK(flat->what == Deed::What::open);
    work.may_narrow.assign(4, false);
    CHECK_FALSE(next_deed(doubtful, work, {}));
    // while hearing it tells more, it is heard
    work.may_narrow.assign(4, true);
    work.checks_left[1] = 1;
    const auto check = next_deed(doubtful, work, {});
    REQUIRE(check);
    CHECK(check->what == Deed::What::read);
}

// Reference  Gaussian conditioning by hand: variances 25 and 9 with half of that shared, read to 3.
TEST_CASE("a reading tells of other notes too", "[bench][worth][analytic]") {
    NotesNow notes = alone({0.0, 0.0}, 5.0);
    notes.covariance << 25.0, 7.5, 7.5, 9.0;
    const NotesNow after = after_reading(notes, 0, any_work(2));
    CHECK_THAT(after.covariance(0, 0), WithinRel(25.0 * 9.0 / 34.0, 1e-12));
    CHECK_THAT(after.covariance(1, 1), WithinRel(9.0 - 56.25 / 34.0, 1e-12));
    CHECK_THAT(shared_error(3.0, 4.0), WithinRel(2.4, 1e-12));
    CHECK(shared_error(0.0, 0.0) == 0.0);
}

// By hand: a note opened by the meter ends at the stop, as sure as the stop and a sitting's breath,
// known to 5 of its 4 cents, make it; what was known of it and of others together is gone.
TEST_CASE("an opened note is where it was stopped", "[bench][worth][analytic]") {
    NotesNow notes = alone({-9.0, 2.0}, 5.0);
    notes.covariance << 25.0, 7.5, 7.5, 9.0;
    Work work = any_work(2);
    work.moment_cents = 4.0;
    const NotesNow after = after_opening(notes, 0, work);
    CHECK(after.mean(0) == work.stop_cents[0]);
    CHECK(after.mean(1) == 2.0);
    const double shared = 5.0 * 4.0 / std::hypot(5.0, 4.0);
    CHECK_THAT(after.covariance(0, 0), WithinRel(2.4 * 2.4 + shared * shared, 1e-12));
    CHECK(after.covariance(0, 1) == 0.0);
    CHECK(after.covariance(1, 0) == 0.0);
    CHECK(after.covariance(1, 1) == 9.0);
}

}  // namespace
}  // namespace canewright
