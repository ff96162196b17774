// core/task/voice.cpp: from what was measured, seen or left open to a shape and its band.
#include "core/task/voice.hpp"

#include <algorithm>
#include <cmath>

#include "core/element/sound_hole.hpp"
#include "core/task/task.hpp"

namespace canewright {
namespace {

// Every part as one number that can be put off.
struct Parts {
    double ramp = 0.0, edge = kUsualEdge;  // of the opening's length; of the wall there
    double block = 1.0;                    // 0: none stands there
    double walls = kUsualSideWalls;        // of the opening's length
};

double seen(Seen what, double little, double much) {
    return what == Seen::none ? 0.0 : what == Seen::little ? little : much;
}

class AsEntered {
   public:
    AsEntered(const VoiceSaid& said, const Flute& flute)
        : hole_(said.sound_hole),
          block_(said.block),
          bare_(said.absent_is_bare),
          flute_(flute),
          bore_m_(bore_diameter_m(flute, 0.5 * flute.sound_hole.length_m)) {
        const double length_m = flute.sound_hole.length_m;
        parts_.ramp = usual_ramp_m(length_m, bore_m_) / length_m;
        if (bare_) parts_ = {0.0, 1.0, 0.0, 0.0};
        if (hole_.ramp_m) parts_.ramp = *hole_.ramp_m / length_m;
        if (hole_.ramp_seen) parts_.ramp = seen(*hole_.ramp_seen, kShortRamp, kLongRamp);
        if (hole_.edge_m) parts_.edge = *hole_.edge_m / flute.sound_hole.wall_m;
        if (!block_) return;
        if (block_->none) {
            parts_.block = parts_.walls = 0.0;
            return;
        }
        parts_.block = 1.0;
        const SideWallsEntry walls = block_->side_walls.value_or(SideWallsEntry{});
        if (walls.height_m) parts_.walls = *walls.height_m / length_m;
        if (walls.seen) parts_.walls = seen(*walls.seen, kLowSideWalls, kHighSideWalls);
    }

    VoiceShape shape() const { return shape(parts_); }

    double sigma() const {
        double sum = kVoiceRest * kVoiceRest;
        const double middle_m = inertance_m(parts_);
        if (bare_) return kVoiceRest;
        if (!(middle_m > 0.0)) return kMostVoiceSigma;  // a shape far beyond the model
        const auto between = [&](double Parts::*part, double little, double much) {
            Parts less = parts_, more = parts_;
            less.*part = little;
            more.*part = much;
            const double share = 0.5 * (inertance_m(more) - inertance_m(less)) / middle_m;
            sum += share * share;
        };
        if (hole_.ramp_seen)
            between(&Parts::ramp, parts_.ramp / 1.5, 1.5 * parts_.ramp);
        else if (!hole_.ramp_m)
            between(&Parts::ramp, kShortRamp, kLongRamp);
        if (!hole_.edge_m) between(&Parts::edge, kThinEdge, kThickEdge);
        if (!block_) between(&Parts::block, 0.0, 1.0);
        if (block_ && block_->none) return std::min(std::sqrt(sum), kMostVoiceSigma);
        const SideWallsEntry walls =
            block_ ? block_->side_walls.value_or(SideWallsEntry{}) : SideWallsEntry{};
        if (walls.seen)
            between(&Parts::walls, parts_.walls / 1.5, 1.5 * parts_.walls);
        else if (!walls.height_m)
            between(&Parts::walls, 0.0, kHighSideWalls);
        return std::min(std::sqrt(sum), kMostVoiceSigma);
    }

   private:
    VoiceShape shape(const Parts& parts) const {
        const double length_m = flute_.sound_hole.length_m;
        VoiceShape v;
        v.ramp_m = parts.ramp * length_m;
        v.edge_m = std::min(parts.edge, 1.0) * flute_.sound_hole.wall_m;
        if (parts.block > 0.0) {
            const BlockEntry block = block_.value_or(BlockEntry{});
            v.block_height_m = block.height_m.value_or(usual_block_height_m(length_m, bore_m_));
            v.block_width_m = block.width_m.value_or(bore_m_ + 2.0 * flute_.wall_m);
            v.front_m = block.front_m.value_or(0.0);
        }
        if (parts.walls > 0.0) {
            const SideWallsEntry walls =
                block_ ? block_->side_walls.value_or(SideWallsEntry{}) : SideWallsEntry{};
            v.walls_height_m = parts.walls * length_m;
            v.walls_thickness_m = walls.thickness_m.value_or(kUsualSideWall * length_m);
            v.walls_length_m = walls.length_m.value_or(length_m);
        }
        return v;
    }

    double inertance_m(const Parts& parts) const {
        const SoundHole& hole = flute_.sound_hole;
        return window_inertance_length_m({0.5 * bore_m_, hole.length_m, hole.width_m, hole.wall_m,
                                          flute_.plug_offset_m, 1.0, shape(parts)});
    }

    const SoundHoleEntry hole_;
    const std::optional<BlockEntry> block_;
    const bool bare_;
    const Flute& flute_;
    const double bore_m_;
    Parts parts_;
};

}  // namespace

VoiceSaid voice_said(const Document& document) {
    return {document.sound_hole.value_or(SoundHoleEntry{}), document.block, !room_air(document)};
}

VoiceShape voice_shape(const VoiceSaid& said, const Flute& flute) {
    return AsEntered(said, flute).shape();
}

double voice_sigma(const VoiceSaid& said, const Flute& flute) {
    return AsEntered(said, flute).sigma();
}

}  // namespace canewright
