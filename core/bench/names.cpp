// core/bench/names.cpp: names, one for each value, spelled as the values are.
#include "core/bench/names.hpp"

namespace canewright {

const char* name(Do what) {
    switch (what) {
        case Do::read:
            return "read";
        case Do::foot:
            return "foot";
        case Do::hole:
            return "hole";
        case Do::undercut:
            return "undercut";
        case Do::rescue:
            return "rescue";
        case Do::wait:
            return "wait";
        case Do::done:
            return "done";
    }
    return "";
}

const char* name(Why why) {
    switch (why) {
        case Why::saw_long:
            return "saw_long";
        case Why::hear_voice:
            return "hear_voice";
        case Why::hear_trimmed:
            return "hear_trimmed";
        case Why::trim_foot:
            return "trim_foot";
        case Why::hear_again:
            return "hear_again";
        case Why::warm_up:
            return "warm_up";
        case Why::plan_moved:
            return "plan_moved";
        case Why::drill_small:
            return "drill_small";
        case Why::open_by_ear:
            return "open_by_ear";
        case Why::undercut_hole:
            return "undercut_hole";
        case Why::hear_note:
            return "hear_note";
        case Why::finish_foot:
            return "finish_foot";
        case Why::last_touch:
            return "last_touch";
        case Why::let_dry:
            return "let_dry";
        case Why::too_sharp_hole:
            return "too_sharp_hole";
        case Why::likely_sharp_hole:
            return "likely_sharp_hole";
        case Why::too_sharp_foot:
            return "too_sharp_foot";
        case Why::finished:
            return "finished";
    }
    return "";
}

const char* name(Trouble trouble) {
    switch (trouble) {
        case Trouble::none:
            return "none";
        case Trouble::foot_short:
            return "foot_short";
        case Trouble::hole_sharp:
            return "hole_sharp";
        case Trouble::sound_hole_large:
            return "sound_hole_large";
        case Trouble::all_flat:
            return "all_flat";
        case Trouble::all_sharp:
            return "all_sharp";
        case Trouble::breath_lifts:
            return "breath_lifts";
    }
    return "";
}

const char* name(Remedy remedy) {
    switch (remedy) {
        case Remedy::read_again:
            return "read_again";
        case Remedy::foot_disc:
            return "foot_disc";
        case Remedy::foot_sleeve:
            return "foot_sleeve";
        case Remedy::lowest_floats:
            return "lowest_floats";
        case Remedy::next_key:
            return "next_key";
        case Remedy::narrow:
            return "narrow";
        case Remedy::one_side:
            return "one_side";
        case Remedy::shade_sound_hole:
            return "shade_sound_hole";
        case Remedy::lay_out_anew:
            return "lay_out_anew";
        case Remedy::breathe_evenly:
            return "breathe_evenly";
        case Remedy::accept:
            return "accept";
        case Remedy::widen:
            return "widen";
        case Remedy::shorten:
            return "shorten";
    }
    return "";
}

const char* name(Unknown unknown) {
    switch (unknown) {
        case kSoundHole:
            return "sound_hole";
        case kSoundSpeed:
            return "sound_speed";
        case kBore:
            return "bore";
        case kWall:
            return "wall";
        case kHoles:
            return "holes";
        case kDrift:
            return "drift";
        case kCommonUnknowns:
            break;
    }
    return "";
}

const char* name(Stroke stroke) {
    switch (stroke) {
        case Stroke::blow:
            return "blow";
        case Stroke::more:
            return "more";
        case Stroke::light:
            return "light";
        case Stroke::stop:
            return "stop";
    }
    return "";
}

const char* name(Wider wider) {
    switch (wider) {
        case Wider::none:
            return "none";
        case Wider::moment:
            return "moment";
        case Wider::hands:
            return "hands";
    }
    return "";
}

}  // namespace canewright
