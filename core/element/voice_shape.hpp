// core/element/voice_shape.hpp: a sound hole as it is cut: ramp, block, side walls. Layer: element.
#pragma once

namespace canewright {

// What stands round the opening outside, or was cut from it [m]. Zeros: a bare opening.
//
// The ramp rises in a plane from the splitting edge, `edge_m` above the bore's top, to the tube's
// outer surface, as wide as the opening. The block stands upstream of the opening, solid down to
// the tube, its front `front_m` behind the upstream edge (negative: over the opening). Side walls
// stand along both sides of the opening from the block on, their inner faces flush with it.
struct VoiceShape {
    double ramp_m = 0.0;          // along the tube; 0: the wall ends square
    double edge_m = 0.0;          // counts only with a ramp
    double block_height_m = 0.0;  // above the tube's top; 0: no block
    double block_width_m = 0.0;
    double front_m = 0.0;
    double walls_height_m = 0.0;  // above the tube's top; 0: no side walls
    double walls_thickness_m = 0.0;
    double walls_length_m = 0.0;  // from the upstream edge on

    friend bool operator==(const VoiceShape& a, const VoiceShape& b) {
        return a.ramp_m == b.ramp_m && a.edge_m == b.edge_m &&
               a.block_height_m == b.block_height_m && a.block_width_m == b.block_width_m &&
               a.front_m == b.front_m && a.walls_height_m == b.walls_height_m &&
               a.walls_thickness_m == b.walls_thickness_m && a.walls_length_m == b.walls_length_m;
    }
};

}  // namespace canewright
