// tools/virtual_makers/learning.cpp: pairs of flutes, and makers with ways of their own.
#include "tools/virtual_makers/learning.hpp"

#include <algorithm>
#include <cmath>

#include "tools/virtual_makers/habits.hpp"

namespace virtual_makers {
namespace {

using canewright::FingerHole;
using canewright::Hand;
using canewright::Lesson;
using canewright::pooled;
using canewright::Stage;

constexpr double kPairBores = 0.10;  // the other tube's bore over the pattern's
constexpr int kKnownFlutes = 12;     // of which a maker's ways are known exactly
constexpr int kMostTrials = 20;
constexpr Eigen::Index kVoice = 0;       // of a lesson's unknowns
constexpr int kFlutes = 16, kFresh = 2;  // of each maker; tubes laid out at each stage
// The odd flute's voice over the maker's, a logarithm. kVoiceScatter is less than half of how
// voices act that are of one maker: the other flutes' windows are measured to 0.1 mm, and the model
// errs from tube to tube. By 0.18 one lies about 4 of those scatters off, which is measured
// (odd_at).
constexpr double kOddVoice = 0.18;
constexpr double kChangedVoice = 0.10, kChangedDrift_cents = 6.0;

Blank drawn_by(Random& random, const Ways& ways, double scatter) {
    Blank blank = draw_blank(random, Told::measured, Habits{});
    make_by(random, ways, scatter, blank.truth);
    return blank;
}

// What pooling would come to after flutes without end: each exactly so, read exactly.
Hand ways_known(Random& random, const Ways& ways) {
    std::vector<Lesson> lessons;
    canewright::Stranger stranger;
    for (int n = 0; n < kKnownFlutes; ++n) {
        const Blank blank = drawn_by(random, ways, 0.0);
        const auto layout = first_layout(blank, nullptr);
        if (!layout) continue;
        stranger = stranger_of(blank);
        lessons.push_back(lesson_of(random, blank, cut_by(random, blank, *layout, 0.0), 0.0));
    }
    return pooled(lessons, stranger);
}

// Where it was laid out, the worst note of what comes of it.
bool add_worst(Random random, const Blank& blank, const Wisdom* known, std::vector<double>& worst,
               std::vector<double>* departures = nullptr) {
    const auto layout = first_layout(blank, known);
    if (!layout) return false;
    const Finished made = cut_by(random, blank, *layout, 1.0);
    worst.push_back(worst_cents(made.truth, blank));
    if (departures) judge_layout(blank, known, made, *departures);
    return true;
}

// The blank as if the pattern had been measured by the same maker.
Blank pattern_blank(Random& random, const Blank& blank, const TrueFlute& pattern) {
    Blank p = blank;
    p.truth = pattern;
    const double bore_m = pattern.bore_m + normal(random, blank.measures.bore_m);
    p.measured.bore = {{0.0, bore_m, bore_m}};
    p.measured.wall_m = pattern.wall_m + normal(random, blank.measures.wall_m);
    p.measured.sound_hole.wall_m = p.measured.wall_m;
    p.measured.sound_hole.length_m = pattern.window_length_m + normal(random, 0.1e-3);
    p.measured.sound_hole.width_m = pattern.window_width_m + normal(random, 0.1e-3);
    p.measured.foot_m = pattern.foot_m;
    return p;
}

Random random_of(std::uint64_t seed, int n, std::uint64_t which) {
    std::seed_seq seeds{seed, static_cast<std::uint64_t>(n), which};
    return Random(seeds);
}

}  // namespace

Pairs pairs(std::uint64_t seed, int count) {
    Pairs all;
    for (int n = 0; static_cast<int>(all.floor.size()) < count && n < 3 * count; ++n) {
        Random random = random_of(seed, n, 11);
        Blank blank = draw_blank(random, Told::measured, Habits{});
        TrueFlute pattern;
        for (int trial = 0; trial < kMostTrials && pattern.holes.empty(); ++trial)
            pattern = draw_pattern(random, blank, kPairBores);
        if (pattern.holes.empty()) continue;
        // the maker's ways lie about the pattern as a flute's lie about the maker's
        TrueFlute mean = pattern;
        make_by(random, ways_of(pattern), 1.0, mean);
        const Ways ways = ways_of(mean);
        make_by(random, ways, 1.0, blank.truth);
        const Random hands(random());
        Blank theirs = pattern_blank(random, blank, pattern);
        const Lesson lesson =
            lesson_of(random, theirs, measured(random, theirs, pattern), kBlow_cents);
        const Wisdom read = after(lesson, blank), known = after(ways_known(random, ways), blank);
        Pairs one;
        if (!add_worst(hands, blank, nullptr, one.stranger) ||
            !add_worst(hands, blank, &read, one.readings) ||
            !add_worst(hands, blank, &known, one.floor))
            continue;
        Stage marks = measured(random, theirs, pattern).said;
        Random cutting = hands;
        all.marks.push_back(worst_cents(cut_by(cutting, blank, marks, 1.0).truth, blank));
        all.stranger.push_back(one.stranger[0]);
        all.readings.push_back(one.readings[0]);
        all.floor.push_back(one.floor[0]);
    }
    return all;
}

Makers makers(std::uint64_t seed, int count) {
    Makers all;
    constexpr std::size_t stages = std::size(kStages);
    all.worst.resize(stages);
    all.departures.resize(stages);
    for (int n = 0; n < count; ++n) {
        Random random = random_of(seed, n, 12);
        const Ways ways = ways_of(draw_blank(random, Told::measured, Habits{}).truth);
        Ways changed = ways;
        changed.voice *= 1.0 + kChangedVoice;
        changed.breath_drift_cents += kChangedDrift_cents;
        std::vector<Lesson> lessons, later, odd;
        std::vector<double> acts;  // voices, read exactly
        double odd_acts = 0.0;
        canewright::Stranger stranger;
        while (static_cast<int>(lessons.size()) < kFlutes) {
            const Blank blank = drawn_by(random, ways, 1.0);
            const auto layout = first_layout(blank, nullptr);
            if (!layout) continue;
            stranger = stranger_of(blank);
            const Finished made = cut_by(random, blank, *layout, 1.0);
            Random reader(random());
            const Random same = reader;
            lessons.push_back(lesson_of(reader, blank, made, kBlow_cents));
            Random exact = same;
            acts.push_back(lesson_of(exact, blank, made, 0.0).mean(kVoice));
            const auto other = [&](auto change) {
                Finished f = made;
                change(f.truth);
                Random again = same;
                return lesson_of(again, blank, f, kBlow_cents);
            };
            later.push_back(static_cast<int>(lessons.size()) <= kFlutes / 2
                                ? lessons.back()
                                : other([&](TrueFlute& f) {
                                      f.voice *= changed.voice / ways.voice;
                                      f.breath_drift_cents += kChangedDrift_cents;
                                  }));
            const auto spoil = [&](TrueFlute& f) {
                f.voice = ways.voice * std::exp(n % 2 == 0 ? kOddVoice : -kOddVoice);
            };
            odd.push_back(lessons.size() != 5 ? lessons.back() : other(spoil));
            if (lessons.size() != 5) continue;
            Finished f = made;
            spoil(f.truth);
            exact = same;
            odd_acts = lesson_of(exact, blank, f, 0.0).mean(kVoice);
        }
        ++all.makers;
        double middle = 0.0;
        for (const double each : acts) middle += each / kFlutes;
        for (const double each : acts)
            all.voice_squares += (each - middle) * (each - middle) / (kFlutes - 1);
        all.odd_squares += (odd_acts - middle) * (odd_acts - middle);
        const auto first = [](const std::vector<Lesson>& list, int count_of) {
            return std::vector<Lesson>(list.begin(), list.begin() + count_of);
        };
        const Hand whole = pooled(lessons, stranger);
        all.changes_false += !whole.change.empty();
        all.changes_noticed += !pooled(later, stranger).change.empty();
        const Hand exactly = ways_known(random, ways);
        const Hand eight = pooled(first(lessons, 8), stranger);
        const Hand spoilt = pooled(first(odd, 8), stranger);
        const auto named = [](const canewright::OddFlute& one) {
            return one.chance >= canewright::kOddNamed;
        };
        all.told_false += !eight.odd.empty();
        all.odd_false += std::any_of(eight.odd.begin(), eight.odd.end(), named);
        for (const canewright::OddFlute& one : spoilt.odd) {
            all.odd_told += one.lesson == 4;
            all.odd_named += one.lesson == 4 && named(one);
        }
        for (int fresh = 0; fresh < kFresh; ++fresh) {
            const Blank blank = drawn_by(random, ways, 1.0);
            const Random hands(random());
            const Wisdom known = after(exactly, blank);
            if (!add_worst(hands, blank, &known, all.floor)) continue;
            const Wisdom by_spoilt = after(spoilt, blank);
            add_worst(hands, blank, &by_spoilt, all.odd_worst);
            for (std::size_t stage = 0; stage < stages; ++stage) {
                const int flutes = kStages[stage];
                Wisdom by_hand;
                if (flutes > 0)
                    by_hand = after(pooled(first(lessons, flutes), stranger_of(blank)), blank);
                add_worst(hands, blank, flutes > 0 ? &by_hand : nullptr, all.worst[stage],
                          &all.departures[stage]);
            }
        }
    }
    return all;
}

double median_of(std::vector<double> x) {
    if (x.empty()) return 0.0;
    std::sort(x.begin(), x.end());
    const std::size_t half = x.size() / 2;
    return x.size() % 2 == 1 ? x[half] : 0.5 * (x[half - 1] + x[half]);
}

double share_within(const std::vector<double>& departures, double sigmas) {
    const auto within = std::count_if(departures.begin(), departures.end(),
                                      [sigmas](double d) { return std::abs(d) < sigmas; });
    return static_cast<double>(within) /
           static_cast<double>(std::max<std::size_t>(departures.size(), 1));
}

std::string learning_json(std::uint64_t seed, int count) {
    char text[200];
    const Pairs p = pairs(seed, count);
    std::snprintf(text, sizeof text,
                  "{\"seed\":%llu,\n \"pairs\":{\"pairs\":%zu,\"marks\":%.1f,\"stranger\":%.1f,"
                  "\"readings\":%.1f,\"floor\":%.1f},\n",
                  static_cast<unsigned long long>(seed), p.floor.size(), median_of(p.marks),
                  median_of(p.stranger), median_of(p.readings), median_of(p.floor));
    std::string all = text;
    const Makers m = makers(seed, std::max(1, count / 5));
    std::snprintf(text, sizeof text, " \"hand\":{\"makers\":%d,\"floor\":%.1f,\"after\":[",
                  m.makers, median_of(m.floor));
    all += text;
    for (std::size_t n = 0; n < std::size(kStages); ++n) {
        std::snprintf(text, sizeof text,
                      "%s\n  {\"flutes\":%d,\"worst\":%.1f,\"cover_68\":%.3f,\"cover_95\":%.3f}",
                      n > 0 ? "," : "", kStages[n], median_of(m.worst[n]),
                      share_within(m.departures[n], 0.994458),
                      share_within(m.departures[n], 1.959964));
        all += text;
    }
    std::snprintf(text, sizeof text,
                  "],\n  \"odd_at\":%.1f,\"odd_worst\":%.1f,\"odd_named\":%d,\"odd_false\":%d,"
                  "\"odd_told\":%d,\"told_false\":%d,"
                  "\"changes_noticed\":%d,\"changes_false\":%d}}\n",
                  std::sqrt(m.odd_squares / m.voice_squares), median_of(m.odd_worst), m.odd_named,
                  m.odd_false, m.odd_told, m.told_false, m.changes_noticed, m.changes_false);
    return all + text;
}

}  // namespace virtual_makers
