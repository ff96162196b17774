// tools/virtual_makers/makers.cpp: many virtual makers build flutes; says how many are in tune.
//
//   virtual-makers --builds N --seed S --json OUT [--diary FILE] [--first K]
//     [--told measured|nothing|bare]     of the voice; measured unless said
//     [--world nominal|scattered|shared|worse|mixed] [--maker careful|first_sight]
//     [--spoil PERCENT]                  of holes that slip too wide when they are opened
//     [--good CENTS]                     what the maker calls good enough; else as documents have
//     it
//     [--only open_loop|hand]            hand: N pairs and N / 5 makers (learning.hpp), no builds
//
// The same tube is built three times: with the planner, from a pattern, from the first layout.
// `tools/checks/figures.py --makers OUT` prints the README's rows from what it writes.
#include <cerrno>
#include <cstdint>
#include <cstdio>
#include <cstdlib>
#include <string>

#include "tools/virtual_makers/learning.hpp"
#include "tools/virtual_makers/tally.hpp"

namespace {

using virtual_makers::Made;
using virtual_makers::Random;
using virtual_makers::Setting;
using virtual_makers::Tally;
using virtual_makers::Tubes;

constexpr int kMostPatterns = 20;

void write_diary(std::FILE* diary, int build, const Made& made) {
    std::fprintf(diary, "build %d: %d steps, %d cuts%s\n ", build, made.steps, made.cuts,
                 made.finished ? "" : ", NOT FINISHED");
    for (const double error : made.errors_cents) std::fprintf(diary, " %+.1f", error);
    std::fputs("\n", diary);
    for (const std::string& entry : made.diary) std::fprintf(diary, "    %s\n", entry.c_str());
    std::fflush(diary);
}

// To standard output, and to a file where one is asked for; the exit status.
int write_out(const std::string& text, const char* out) {
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

struct Wanted {
    bool good = true;
    int builds = 30, first = 0;
    std::uint64_t seed = 1;
    virtual_makers::Told told = virtual_makers::Told::measured;
    double lift_cents = canewright::kDriftMean_cents;
    Setting setting;
    const char* out = nullptr;
    const char* diary_path = nullptr;
    bool learning = false;       // pairs and hands alone (learning.hpp)
    bool unheard_alone = false;  // what is never listened to costs a hundredth of the rest
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
            wanted.good = virtual_makers::read_name(word, wanted.told);
        } else if (option == "--lift") {
            wanted.good = read_whole(word, 0, 60, value);
            wanted.lift_cents = static_cast<double>(value);
        } else if (option == "--world") {
            wanted.good = virtual_makers::read_name(word, wanted.setting.world);
        } else if (option == "--maker") {
            wanted.good = virtual_makers::read_name(word, wanted.setting.kind);
        } else if (option == "--spoil") {
            wanted.good = read_whole(word, 0, 100, value);
            wanted.setting.spoils = static_cast<double>(value) / 100.0;
        } else if (option == "--good") {
            wanted.good = read_whole(word, 1, 50, value);
            wanted.setting.good_enough_cents = static_cast<double>(value);
        } else if (option == "--only") {
            wanted.unheard_alone = std::string(word) == "open_loop";
            wanted.learning = std::string(word) == "hand";
            wanted.good = wanted.unheard_alone || wanted.learning;
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
            "  [--told measured|nothing|bare] [--lift CENTS]\n"
            "  [--world nominal|scattered|shared|worse|mixed]\n"
            "  [--maker careful|first_sight] [--spoil PERCENT] [--good CENTS]\n"
            "  [--only open_loop|hand]\n"
            "  N from 1, S and K from 0: whole numbers\n",
            stderr);
        return 2;
    }
    const int builds = wanted.builds, first_build = wanted.first;
    const std::uint64_t seed = wanted.seed;
    const char* const out = wanted.out;
    const char* const diary_path = wanted.diary_path;
    std::FILE* diary = diary_path ? std::fopen(diary_path, "w") : nullptr;
    if (wanted.learning) return write_out(virtual_makers::learning_json(seed, builds), out);
    Tally canewright, pattern, by_ear, open_loop, floor;
    Tubes tubes;
    for (int n = first_build; n < first_build + builds; ++n) {
        // every build has random numbers of its own, and so has every maker: one can be repeated
        std::seed_seq seeds{seed, static_cast<std::uint64_t>(n)};
        Random tube_random(seeds);
        // a maker's habits have numbers of their own, so that all worlds have the same tubes
        std::seed_seq maker_seeds{seed, static_cast<std::uint64_t>(n), std::uint64_t{1}};
        Random maker_random(maker_seeds);
        const virtual_makers::Blank blank = virtual_makers::draw_blank(
            tube_random, wanted.told, virtual_makers::draw_habits(maker_random, wanted.setting),
            wanted.lift_cents);
        tubes.add(blank);
        virtual_makers::TrueFlute copied;
        for (int trial = 0; !wanted.unheard_alone && trial < kMostPatterns && copied.holes.empty();
             ++trial)
            copied = virtual_makers::draw_pattern(tube_random, blank);
        const bool mishaps = n % 5 == 4;
        Random first(tube_random()), second(tube_random()), third(tube_random());
        Random fourth(tube_random());
        const virtual_makers::Unheard unheard = virtual_makers::by_knowing(blank, fourth);
        open_loop.add(unheard.made);
        floor.add(unheard.floor);
        if (wanted.unheard_alone) continue;
        const Made made = virtual_makers::by_canewright(blank, first, mishaps, wanted.setting);
        canewright.add(made);
        if (diary) write_diary(diary, n, made);
        if (copied.holes.empty())
            ++tubes.without_pattern;  // left out for it
        else
            pattern.add(virtual_makers::by_pattern(blank, copied, second, mishaps));
        by_ear.add(virtual_makers::by_first_layout(blank, third, mishaps));
    }
    if (diary) std::fclose(diary);
    const Setting& setting = wanted.setting;
    const std::string text =
        "{\"builds\":" + std::to_string(builds) + ",\"seed\":" + std::to_string(seed) +
        ",\"told\":\"" + virtual_makers::name(wanted.told) +
        "\",\"lift_cents\":" + std::to_string(static_cast<int>(wanted.lift_cents)) +
        ",\"world\":\"" + virtual_makers::name(setting.world) + "\",\"maker\":\"" +
        virtual_makers::name(setting.kind) +
        "\",\"spoil_percent\":" + std::to_string(static_cast<int>(100.0 * setting.spoils + 0.5)) +
        ",\"good_enough_cents\":" +
        std::to_string(static_cast<int>(virtual_makers::good_enough_cents(setting))) +
        ",\n \"sizes\":\"" + virtual_makers::sizes(setting.world) +
        "\",\n \"shared_with_core\":\"" + virtual_makers::kSharedWithCore +
        "\",\n \"tubes\":" + json(tubes) +
        ",\n \"first_layout_cut_exactly\":" + json_departures(tubes) +
        (wanted.unheard_alone ? std::string()
                              : ",\n \"canewright\":" + json(canewright, true) +
                                    ",\n \"pattern\":" + json(pattern, false) +
                                    ",\n \"layout_by_ear\":" + json(by_ear, false)) +
        ",\n \"open_loop\":" + json(open_loop, false) + ",\n \"floor\":" + json(floor, false) +
        "}\n";
    return write_out(text, out);
}
