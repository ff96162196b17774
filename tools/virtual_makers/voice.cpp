// tools/virtual_makers/voice.cpp: the kept voices, and a maker's rule laid on them.
#include "tools/virtual_makers/voice.hpp"

#include <algorithm>
#include <iterator>

#include "core/task/voice.hpp"

namespace virtual_makers {
namespace {

using namespace canewright;

// In bore radii.
struct Kept {
    double length, width, wall, plug;
    double ramp, edge, block, block_width, front, walls, walls_thickness, walls_length;
    double inertance;
};
constexpr Kept kKept[] = {
#include "tools/virtual_makers/voices.inc"
};

constexpr double kRule_m = 0.2e-3;  // how well small parts are measured

double measured_m(Random& random, double true_m, double least_m) {
    return std::max(true_m + normal(random, kRule_m), least_m);
}

}  // namespace

VoiceShape cut_voice(Random& random, TrueFlute& flute) {
    const auto which = static_cast<std::size_t>(uniform(random, 0.0, std::size(kKept)));
    const Kept& kept = kKept[which];
    const double a = 0.5 * flute.bore_m;
    flute.wall_m = kept.wall * a;
    flute.window_length_m = kept.length * a;
    flute.window_width_m = kept.width * a;
    flute.plug_offset_m = kept.plug * a;
    flute.mouth_m = kept.inertance * a;
    return {kept.ramp * a,
            kept.edge * a,
            kept.block * a,
            kept.block_width * a,
            kept.front * a,
            kept.walls * a,
            kept.walls_thickness * a,
            kept.walls > 0.0 ? kept.walls_length * a : 0.0};
}

void tell_voice(Told told, const VoiceShape& cut, Random& random, Blank& blank) {
    VoiceSaid said;
    said.absent_is_bare = told == Told::bare;
    if (told == Told::measured) {
        said.sound_hole.ramp_m = cut.ramp_m > 0.0 ? measured_m(random, cut.ramp_m, 0.0) : 0.0;
        if (cut.ramp_m > 0.0)
            said.sound_hole.edge_m =
                std::min(measured_m(random, cut.edge_m, 0.05e-3), blank.measured.wall_m);
        BlockEntry block;
        block.none = !(cut.block_height_m > 0.0);
        if (!block.none) {
            block.height_m = measured_m(random, cut.block_height_m, 0.5e-3);
            block.width_m = measured_m(random, cut.block_width_m, 1e-3);
            block.front_m = cut.front_m + normal(random, kRule_m);
            SideWallsEntry walls;
            if (cut.walls_height_m > 0.0) {
                walls.height_m = measured_m(random, cut.walls_height_m, 0.1e-3);
                walls.thickness_m = measured_m(random, cut.walls_thickness_m, 0.2e-3);
                walls.length_m = measured_m(random, cut.walls_length_m, 0.2e-3);
            } else {
                walls.seen = Seen::none;
            }
            block.side_walls = walls;
        }
        said.block = block;
    }
    blank.measured.sound_hole.voice = voice_shape(said, blank.measured);
    blank.voice_sigma = told == Told::bare ? kBelievedBare : voice_sigma(said, blank.measured);
}

}  // namespace virtual_makers
