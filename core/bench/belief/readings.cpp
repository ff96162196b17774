// core/bench/belief/readings.cpp: looks a note up in the log.
#include "core/bench/belief/readings.hpp"

#include <algorithm>
#include <cmath>

namespace canewright {

int own_hole(const Fingering& open) {
    return open.empty() ? -1 : *std::min_element(open.begin(), open.end()) - 1;
}

int note_of(const Aim& aim, int hole) {
    int best = -1;
    for (std::size_t n = 0; n < aim.notes.size(); ++n) {
        if (own_hole(aim.notes[n].open) != hole) continue;
        if (best < 0 ||
            aim.notes[n].interval_cents < aim.notes[static_cast<std::size_t>(best)].interval_cents)
            best = static_cast<int>(n);
    }
    return best;
}

bool playable(const Stage& stage, const Fingering& open) {
    return std::all_of(open.begin(), open.end(), [&stage](int number) {
        return stage.holes[static_cast<std::size_t>(number - 1)].cut;
    });
}

std::vector<int> sittings(const History& history) {
    std::vector<int> numbers;
    for (std::size_t i = 0; i < history.heard.size(); ++i) {
        const Heard& heard = history.heard[i];
        const std::vector<HoleNow>& holes = history.stages[heard.stage].holes;
        const bool any_cut =
            std::any_of(holes.begin(), holes.end(), [](const HoleNow& h) { return h.cut; });
        const bool same = i > 0 && any_cut && history.heard[i - 1].open == heard.open &&
                          history.heard[i - 1].stage + 1 == heard.stage &&
                          history.heard[i - 1].entry + 2 == heard.entry;
        numbers.push_back(numbers.empty() ? 0 : numbers.back() + (same ? 0 : 1));
    }
    return numbers;
}

double reading_sigma_cents(const History& history) {
    const std::vector<int> sitting = sittings(history);
    double sum = kUsualReadings * kUsualReading_cents * kUsualReading_cents;
    double count = kUsualReadings;
    for (std::size_t i = 0; i < sitting.size(); ++i) {
        const bool second = i > 0 && sitting[i - 1] == sitting[i];
        const bool first = i + 1 < sitting.size() && sitting[i + 1] == sitting[i];
        if (first || second) continue;
        sum += history.heard[i].sigma_cents * history.heard[i].sigma_cents;
        count += 1.0;
    }
    return std::sqrt(sum / count);
}

Read read_of(const History& history, const Estimate& estimate, const Fingering& open, int own,
             int after_entry) {
    const auto same_cut = [own](const Stage& one, const Stage& other) {
        if (own >= 0) {
            const std::size_t hole = static_cast<std::size_t>(own);
            return one.holes[hole].cutting == other.holes[hole].cutting;
        }
        const auto opening_m = [](const Stage& s) {
            return s.foot_plug ? s.foot_plug->opening_m : 0.0;
        };
        return one.foot_cutting == other.foot_cutting && opening_m(one) == opening_m(other);
    };
    Read read;
    for (std::size_t i = 0; i < history.heard.size(); ++i) {
        const Heard& heard = history.heard[i];
        if (heard.voice_moved_since || heard.entry < after_entry || heard.open != open) continue;
        if (!same_cut(history.stages[heard.stage], history.now())) continue;
        ++(estimate.verdicts[i].trusted ? read.trusted : read.distrusted);
    }
    return read;
}

int feet_heard(const History& history) {
    int feet = 0, last = -2;
    for (const Heard& heard : history.heard) {
        if (!heard.open.empty() || heard.voice_moved_since) continue;
        const int cutting = history.stages[heard.stage].foot_cutting;
        if (cutting != last) ++feet;
        last = cutting;
    }
    return feet;
}

}  // namespace canewright
