// tools/virtual_makers/makers.cpp: many virtual makers build flutes; says how many are in tune.
//
//   virtual-makers --builds N --seed S --json OUT [--diary FILE] [--first K]
//     [--told measured|nothing|bare]     of the voice; measured unless said
//
// The same tube is built three times: with the planner, from a pattern, from the first layout.
// `tools/checks/figures.py --makers OUT` prints the README's rows from what it writes.
#include <algorithm>
#include <cerrno>
#include <cmath>
#include <cstdint>
#include <cstdio>
#include <cstdlib>
#include <string>

#include "tools/virtual_makers/methods.hpp"

namespace {

using virtual_makers::Calibration;
using virtual_makers::Made;
using virtual_makers::Random;

constexpr double kSharp_cents = 15.0;
constexpr int kMostPatterns = 20;

struct Tally {
    int builds = 0, within_10 = 0, within_5 = 0, sharp = 0, rescued = 0, finished = 0;
    std::vector<double> cuts_per_note, steps, errors;
    Calibration during, at_end;
    double slowest_s = 0.0;

    void add(const Made& made) {
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
};

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

// Tubes put away before a build, and how far the other formulas are from the core's.
struct Tubes {
    int rejected_notes = 0, rejected_foot = 0, without_pattern = 0;
    std::vector<double> lowest, intervals;

    void add(const virtual_makers::Blank& blank) {
        rejected_notes += blank.rejected_notes;
        rejected_foot += blank.rejected_foot;
        const std::vector<double> off = virtual_makers::departures_cents(blank);
        lowest.push_back(off.front());
        for (std::size_t n = 1; n < off.size(); ++n) intervals.push_back(off[n] - off.front());
    }
};

std::string spread(const char* name, const std::vector<double>& x) {
    double sum = 0.0, squares = 0.0;
    for (const double each : x) sum += each, squares += each * each;
    const double count = static_cast<double>(std::max<std::size_t>(x.size(), 1));
    const double mean = sum / count;
    return "\"" + std::string(name) + "\":{" + number("mean_cents", mean) + "," +
           number("sd_cents", std::sqrt(std::max(0.0, squares / count - mean * mean))) + "}";
}

std::string json(const Tubes& t) {
    const auto count = [](const char* name, int value) {
        return "\"" + std::string(name) + "\":" + std::to_string(value);
    };
    return "{" + count("rejected_a_note_not_met", t.rejected_notes) + "," +
           count("rejected_nothing_to_saw", t.rejected_foot) + "," +
           count("without_pattern", t.without_pattern) + "}";
}

std::string json(const Tally& t, bool calibrated) {
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
    if (calibrated)
        out += ",\"bands\":{\"during\":" + bands(t.during) + ",\"at_end\":" + bands(t.at_end) +
               "}," + number("slowest_s", t.slowest_s);
    return out + "}";
}

void write_diary(std::FILE* diary, int build, const Made& made) {
    std::fprintf(diary, "build %d: %d steps, %d cuts%s\n ", build, made.steps, made.cuts,
                 made.finished ? "" : ", NOT FINISHED");
    for (const double error : made.errors_cents) std::fprintf(diary, " %+.1f", error);
    std::fputs("\n", diary);
    for (const std::string& entry : made.diary) std::fprintf(diary, "    %s\n", entry.c_str());
    std::fflush(diary);
}

struct Wanted {
    bool good = true;
    int builds = 30, first = 0;
    std::uint64_t seed = 1;
    virtual_makers::Told told = virtual_makers::Told::measured;
    const char* out = nullptr;
    const char* diary_path = nullptr;
};

// A whole number from `least` to `most`, all of the word; false for anything else.
bool read_whole(const char* word, std::uint64_t least, std::uint64_t most, std::uint64_t& value) {
    char* end = nullptr;
    errno = 0;
    // strtoull takes a minus and spaces in front, which are no whole number
    if (*word < '0' || *word > '9') return false;
    value = std::strtoull(word, &end, 10);
    return *end == '\0' && errno == 0 && value >= least && value <= most;
}

Wanted wanted_by(int count, char** words) {
    constexpr std::uint64_t kMostBuilds = 100000000;  // one takes a second
    Wanted wanted;
    wanted.good = count % 2 == 1;
    for (int i = 1; i + 1 < count && wanted.good; i += 2) {
        const std::string option = words[i];
        const char* const word = words[i + 1];
        std::uint64_t value = 0;
        if (option == "--builds") {
            wanted.good = read_whole(word, 1, kMostBuilds, value);
            wanted.builds = static_cast<int>(value);
        } else if (option == "--seed") {
            wanted.good = read_whole(word, 0, UINT64_MAX, wanted.seed);
        } else if (option == "--first") {
            wanted.good = read_whole(word, 0, kMostBuilds, value);
            wanted.first = static_cast<int>(value);
        } else if (option == "--told") {
            const std::string said = word;
            wanted.good = said == "measured" || said == "nothing" || said == "bare";
            wanted.told = said == "bare"      ? virtual_makers::Told::bare
                          : said == "nothing" ? virtual_makers::Told::nothing
                                              : virtual_makers::Told::measured;
        } else if (option == "--json") {
            wanted.out = word;
        } else if (option == "--diary") {
            wanted.diary_path = word;
        } else {
            wanted.good = false;
        }
    }
    return wanted;
}

}  // namespace

int main(int argc, char** argv) {
    const Wanted wanted = wanted_by(argc, argv);
    if (!wanted.good) {
        std::fputs(
            "usage: virtual-makers --builds N --seed S --json OUT [--diary FILE] [--first K]\n"
            "  [--told measured|nothing|bare]\n  N from 1, S and K from 0: whole numbers\n",
            stderr);
        return 2;
    }
    const int builds = wanted.builds, first_build = wanted.first;
    const std::uint64_t seed = wanted.seed;
    const char* const out = wanted.out;
    const char* const diary_path = wanted.diary_path;
    std::FILE* diary = diary_path ? std::fopen(diary_path, "w") : nullptr;
    Tally canewright, pattern, open_loop;
    Tubes tubes;
    for (int n = first_build; n < first_build + builds; ++n) {
        // every build has random numbers of its own, and so has every maker: one can be repeated
        std::seed_seq seeds{seed, static_cast<std::uint64_t>(n)};
        Random tube_random(seeds);
        const virtual_makers::Blank blank = virtual_makers::draw_blank(tube_random, wanted.told);
        tubes.add(blank);
        virtual_makers::TrueFlute copied;
        for (int trial = 0; trial < kMostPatterns && copied.holes.empty(); ++trial)
            copied = virtual_makers::draw_pattern(tube_random, blank);
        const bool mishaps = n % 5 == 4;
        Random first(tube_random()), second(tube_random()), third(tube_random());
        const Made made = virtual_makers::by_canewright(blank, first, mishaps);
        canewright.add(made);
        if (diary) write_diary(diary, n, made);
        if (copied.holes.empty())
            ++tubes.without_pattern;  // left out for it
        else
            pattern.add(virtual_makers::by_pattern(blank, copied, second, mishaps));
        open_loop.add(virtual_makers::by_first_layout(blank, third, mishaps));
    }
    if (diary) std::fclose(diary);
    const std::string text =
        "{\"builds\":" + std::to_string(builds) + ",\"seed\":" + std::to_string(seed) +
        ",\n \"shared_with_core\":\"" + virtual_makers::kSharedWithCore +
        "\",\n \"tubes\":" + json(tubes) + ",\n \"first_layout_cut_exactly\":{" +
        spread("lowest_note", tubes.lowest) + "," + spread("intervals", tubes.intervals) +
        "},\n \"canewright\":" + json(canewright, true) +
        ",\n \"pattern\":" + json(pattern, false) + ",\n \"open_loop\":" + json(open_loop, false) +
        "}\n";
    std::fputs(text.c_str(), stdout);
    if (!out) return 0;
    std::FILE* file = std::fopen(out, "w");
    if (!file) {
        std::fprintf(stderr, "cannot write %s\n", out);
        return 1;
    }
    std::fputs(text.c_str(), file);
    return std::fclose(file) == 0 ? 0 : 1;
}
