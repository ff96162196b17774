// tools/bench_native.cpp -- times the core's layers on one document; prints JSON for tools/bench.
//
//   canewright_bench DOCUMENT.json      the document must be fit for `layout`, without a log
#include <algorithm>
#include <chrono>
#include <cstdio>
#include <fstream>
#include <iterator>
#include <string>
#include <utility>

#include "core/api.hpp"
#include "core/document/read.hpp"
#include "core/element/sound_hole.hpp"
#include "core/flute/resonance.hpp"
#include "core/layout/place_holes.hpp"
#include "core/task/task.hpp"

namespace {

using namespace canewright;

// Seconds per call: the best of `rounds`, because whatever else the machine does only adds time.
template <class Call>
double best_s(int rounds, int calls, const Call& call) {
    double best = 1e9;
    for (int round = 0; round < rounds; ++round) {
        const auto since = std::chrono::steady_clock::now();
        for (int i = 0; i < calls; ++i) call();
        const std::chrono::duration<double> spent = std::chrono::steady_clock::now() - since;
        best = std::min(best, spent.count() / calls);
    }
    return best;
}

void print(const Flute& flute, const Air& air) {
    const WindowShape window{0.5 * flute.bore.front().diameter_m,
                             flute.sound_hole.length_m,
                             flute.sound_hole.width_m,
                             flute.sound_hole.wall_m,
                             flute.plug_offset_m,
                             flute.sound_hole.inertance_factor,
                             flute.sound_hole.voice};
    std::printf(
        "\"flute\":{\"bore_m\":%.17g,\"wall_m\":%.17g,\"window_length_m\":%.17g,"
        "\"inertance_m\":%.17g,\"cavity_m\":%.17g,\"foot_m\":%.17g,\"holes\":[",
        flute.bore.front().diameter_m, flute.wall_m, flute.sound_hole.length_m,
        window_inertance_length_m(window), plug_cavity_length_m(window), flute.foot_m);
    const char* comma = "";
    for (const FingerHole& hole : flute.holes) {
        std::printf("%s[%.17g,%.17g]", comma, hole.at_m, hole.diameter_m);
        comma = ",";
    }
    std::printf(
        "]},\"air\":{\"c\":%.17g,\"rho\":%.17g,\"gamma\":%.17g,\"mu\":%.17g,\"kappa\":%.17g,"
        "\"cp\":%.17g}",
        air.sound_speed_m_s, air.density_kg_m3, air.heat_capacity_ratio, air.viscosity_Pa_s,
        air.thermal_conductivity_W_mK, air.specific_heat_J_kgK);
}

// The same between limits that press: fingers a tenth nearer than they would lie, and sizes that
// are narrower than they would be.
void print_bound(const LayoutTask& task, const LayoutResult& free, const Air& air) {
    double widest_m = 0.0, largest_m = 0.0;
    for (std::size_t i = 0; i < free.flute.holes.size(); ++i) {
        largest_m = std::max(largest_m, free.flute.holes[i].diameter_m);
        if (i > 0)
            widest_m = std::max(widest_m, free.flute.holes[i].at_m - free.flute.holes[i - 1].at_m);
    }
    LayoutTask nearer = task, smaller = task, both = task;
    nearer.shop.spacing_max_m = both.shop.spacing_max_m = 0.9 * widest_m;
    smaller.shop.diameter_max_m = both.shop.diameter_max_m = 0.95 * largest_m;
    std::printf("\"bound\":[");
    const char* comma = "";
    for (const auto& [name, bound] : {std::pair<const char*, const LayoutTask*>("nearer", &nearer),
                                      {"smaller", &smaller},
                                      {"nearer and smaller", &both}}) {
        const LayoutResult found = place_holes(*bound, air);
        const double place_s = best_s(5, 3, [&, bound = bound] { place_holes(*bound, air); });
        std::printf(
            "%s{\"name\":\"%s\",\"evaluations\":%ld,\"steps\":%d,\"worst_cents\":%.3g,"
            "\"place_s\":%.6g}",
            comma, name, found.evaluations, found.steps, found.worst_cents, place_s);
        comma = ",";
    }
    std::printf("]");
}

std::string whole_file(const char* path) {
    std::ifstream file(path);
    return {std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
}

}  // namespace

int main(int count, char** words) {
    if (count != 3) {
        std::fprintf(stderr, "canewright_bench DOCUMENT.json BUILD.json\n");
        return 2;
    }
    const std::string text = whole_file(words[1]);
    const ReadDocument read = read_document(text);
    if (!read.violations.empty()) {
        std::fprintf(stderr, "%s cannot be used\n", words[1]);
        return 1;
    }
    const LayoutTask task = layout_task(read.document);
    const Air air = bore_air(read.document);
    const LayoutResult layout = place_holes(task, air);

    std::printf("{");
    print(layout.flute, air);
    std::printf(",\"layout\":{\"converged\":%s,\"steps\":%d,\"evaluations\":%ld,\"binding\":%zu},",
                layout.converged ? "true" : "false", layout.steps, layout.evaluations,
                layout.binding.size());
    std::printf("\"notes\":[");
    const char* comma = "";
    for (const NoteResult& note : layout.notes) {
        const Network network(layout.flute, air, note.open);
        const Resonance found = resonance(network, 1);
        volatile double sink = 0.0;  // keeps the compiler from dropping the work
        const double solve_s = best_s(5, 20, [&] { sink = resonance(network, 1).frequency_Hz; });
        const double once_s = best_s(5, 200, [&] { sink = network.at(found.frequency_Hz).turn; });
        std::printf("%s{\"open\":[", comma);
        comma = "";
        for (const int hole : note.open) {
            std::printf("%s%d", comma, hole);
            comma = ",";
        }
        std::printf("],\"hz\":%.17g,\"evaluations\":%d,\"solve_s\":%.6g,\"evaluation_s\":%.6g}",
                    found.frequency_Hz, found.evaluations, solve_s, once_s);
        comma = ",";
    }
    std::size_t bytes = 0;
    const double place_s = best_s(5, 3, [&] { bytes += place_holes(task, air).notes.size(); });
    const double run_s = best_s(5, 3, [&] { bytes += run("layout", text).size(); });
    const std::string build = whole_file(words[2]);
    const double next_s = best_s(5, 3, [&] { bytes += run_workshop("next", build).size(); });
    const double suits_s = best_s(3, 1, [&] { bytes += run_workshop("suits", text).size(); });
    std::printf("],\"place_s\":%.6g,\"run_s\":%.6g,\"next_s\":%.6g,\"suits_s\":%.6g,", place_s,
                run_s, next_s, suits_s);
    print_bound(task, layout, air);
    std::printf(",\"bytes\":%zu}\n", bytes);
    return 0;
}
