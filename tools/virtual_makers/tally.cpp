// tools/virtual_makers/tally.cpp: shares, medians and bands.
#include "tools/virtual_makers/tally.hpp"

#include <algorithm>
#include <cmath>
#include <cstdio>

namespace virtual_makers {
namespace {

constexpr double kSharp_cents = 15.0;

double median(std::vector<double> x) {
    if (x.empty()) return 0.0;
    std::sort(x.begin(), x.end());
    const std::size_t half = x.size() / 2;
    return x.size() % 2 == 1 ? x[half] : 0.5 * (x[half - 1] + x[half]);
}

std::string share(const char* name, long part, long of) {
    char text[96];
    std::snprintf(text, sizeof text, "\"%s\":%.4f", name,
                  of > 0 ? static_cast<double>(part) / static_cast<double>(of) : 0.0);
    return text;
}

std::string number(const char* name, double value) {
    char text[96];
    std::snprintf(text, sizeof text, "\"%s\":%.4g", name, value);
    return text;
}

std::string bands(const Calibration& c) {
    return "{" + share("cover_68", c.within_68, c.counted) + "," +
           share("cover_95", c.within_95, c.counted) + "," +
           number("mean_departure", c.counted > 0 ? c.sum / static_cast<double>(c.counted) : 0.0) +
           "," + number("counted", static_cast<double>(c.counted)) + "}";
}

std::string spread(const char* name, const std::vector<double>& x) {
    double sum = 0.0, squares = 0.0;
    for (const double each : x) sum += each, squares += each * each;
    const double count = static_cast<double>(std::max<std::size_t>(x.size(), 1));
    const double mean = sum / count;
    return "\"" + std::string(name) + "\":{" + number("mean_cents", mean) + "," +
           number("sd_cents", std::sqrt(std::max(0.0, squares / count - mean * mean))) + "}";
}

}  // namespace

void Tally::add(const Made& made) {
    double worst = 0.0, sharpest = -1e9;
    for (const double error : made.errors_cents) {
        worst = std::max(worst, std::isfinite(error) ? std::abs(error) : 1e9);
        sharpest = std::max(sharpest, error);
        errors.push_back(error);
    }
    ++builds;
    within_10 += worst <= 10.0;
    within_5 += worst <= 5.0;
    sharp += sharpest > kSharp_cents;
    rescued += made.rescued;
    finished += made.finished;
    cuts_per_note.push_back(made.cuts / static_cast<double>(made.errors_cents.size()));
    steps.push_back(made.steps);
    readings.push_back(made.readings);
    steps_said += made.steps_said;
    steps_left += made.steps_left;
    const auto join = [](Calibration& all, const Calibration& one) {
        all.counted += one.counted;
        all.sum += one.sum;
        all.within_68 += one.within_68;
        all.within_95 += one.within_95;
    };
    join(during, made.during);
    join(at_end, made.at_end);
    slowest_s = std::max(slowest_s, made.slowest_s);
}

void Tubes::add(const Blank& blank) {
    rejected_notes += blank.rejected_notes;
    rejected_foot += blank.rejected_foot;
    const std::vector<double> off = departures_cents(blank);
    lowest.push_back(off.front());
    for (std::size_t n = 1; n < off.size(); ++n) intervals.push_back(off[n] - off.front());
}

std::string json(const Tubes& t) {
    const auto count = [](const char* name, int value) {
        return "\"" + std::string(name) + "\":" + std::to_string(value);
    };
    return "{" + count("rejected_a_note_not_met", t.rejected_notes) + "," +
           count("rejected_nothing_to_saw", t.rejected_foot) + "," +
           count("without_pattern", t.without_pattern) + "}";
}

std::string json_departures(const Tubes& t) {
    return "{" + spread("lowest_note", t.lowest) + "," + spread("intervals", t.intervals) + "}";
}

std::string json(const Tally& t, bool planned) {
    double sum = 0.0, squares = 0.0;
    for (const double e : t.errors) sum += e, squares += e * e;
    const double count = static_cast<double>(std::max<std::size_t>(t.errors.size(), 1));
    std::string out =
        "{" + share("within_10", t.within_10, t.builds) + "," +
        share("within_5", t.within_5, t.builds) + "," + share("sharp", t.sharp, t.builds) + "," +
        share("rescued", t.rescued, t.builds) + "," + share("finished", t.finished, t.builds) +
        "," + number("cuts_per_note", median(t.cuts_per_note)) + "," +
        number("steps", median(t.steps)) + "," + number("mean_cents", sum / count) + "," +
        number("rms_cents", std::sqrt(squares / count));
    if (planned)
        out += "," + number("readings", median(t.readings)) + "," +
               number("steps_said_over_left", t.steps_said / std::max(1.0, t.steps_left)) +
               ",\"bands\":{\"during\":" + bands(t.during) + ",\"at_end\":" + bands(t.at_end) +
               "}," + number("slowest_s", t.slowest_s);
    return out + "}";
}
}  // namespace virtual_makers
