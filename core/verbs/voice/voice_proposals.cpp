// core/verbs/voice/voice_proposals.cpp -- what a maker of this tube might begin with above its
// sound hole.
//
// Every rule here is common practice, no source. What two rules disagree on goes to the one that
// lets the parts meet: the track begins where the air hole opens, above the plug.
#include <algorithm>
#include <cmath>
#include <limits>

#include "core/base/units.hpp"
#include "core/document/limits.hpp"
#include "core/document/typed.hpp"
#include "core/task/voice.hpp"
#include "core/verbs/voice/voice_parts.hpp"

namespace canewright {

namespace {

using Of = std::pair<std::string, double>;

struct Choice {
    double size_m;
    const char* rule;
    std::vector<Of> of;
};

const Choice& greater(const Choice& a, const Choice& b) { return b.size_m > a.size_m ? b : a; }
const Choice& lesser(const Choice& a, const Choice& b) { return b.size_m < a.size_m ? b : a; }

constexpr double kLeastTrack_m = 8e-3;  // shorter ones do not lead the air
constexpr double kLeastPlug_m = 4e-3;   // thinner ones leak
constexpr double kPlugToBore = 0.5;     // half a bore to a bore
constexpr double kAirHoleToBore = 0.5;
constexpr double kMouthToBore = 1.0;  // what stays between chamber and lips
constexpr double kTrackToWall = 0.5;  // a deeper one leaves no floor

class Proposer {
   public:
    explicit Proposer(const Document& document)
        : document_(document),
          flute_(flute_of(document)),
          hole_(flute_.sound_hole),
          bore_{"tube.bore", bore_diameter_m(flute_, 0.5 * hole_.length_m)},
          wall_{document.tube->wall_m ? "tube.wall_mm" : "tube.outer_mm", flute_.wall_m},
          length_{"sound_hole.length_mm", hole_.length_m},
          width_{"sound_hole.width_mm", hole_.width_m} {
        if (document.tube->above_m) above_m_ = *document.tube->above_m;
    }

    std::vector<Proposal> all() {
        sound_hole();
        block();
        const TrackEntry track = document_.track.value_or(TrackEntry{});
        const PlugEntry plug = document_.plug.value_or(PlugEntry{});
        if (!track.depth_m) propose("track.depth_mm", track_depth(), limit::kTrackDepth_mm);
        gap(track);
        if (!track.width_m)
            propose("track.width_mm", {width_.second, "as_wide_as_sound_hole", {width_}},
                    limit::kTrackWidth_mm);
        const Of offset{"plug.offset_mm", plug.offset_m.value_or(0.0)};
        const Choice thickness = plug_thickness(plug.offset_m.value_or(0.0));
        if (!track.length_m)
            propose("track.length_mm",
                    track_length(thickness, plug.thickness_m.has_value(), offset),
                    limit::kTrackLength_mm);
        if (!plug.offset_m)
            propose("plug.offset_mm", {0.0, "flush_with_sound_hole", {}}, limit::kPlugOffset_mm);
        const double thickness_m = plug.thickness_m.value_or(thickness.size_m);
        if (!plug.thickness_m) propose("plug.thickness_mm", thickness, limit::kThickness_mm);
        const ChamberEntry chamber = document_.chamber.value_or(ChamberEntry{});
        if (!chamber.length_m && std::isfinite(above_m_))
            propose("chamber.length_mm",
                    {above_m_ - thickness_m - offset.second - kMouthToBore * bore_.second,
                     "above_less_plug_and_mouth",
                     {{"tube.above_mm", above_m_}, {"plug.thickness_mm", thickness_m}, bore_}},
                    limit::kChamber_mm);
        if (!chamber.air_hole_m)
            propose("chamber.air_hole_mm",
                    lesser(lesser({kAirHoleToBore * bore_.second, "half_the_bore", {bore_}},
                                  air_to_track(track)),
                           {above_m_, "what_is_above", {{"tube.above_mm", above_m_}}}),
                    limit::kAirHole_mm);
        return all_;
    }

   private:
    // Not where the tube has no room for what can be written in a document.
    void propose(const char* path, const Choice& choice, const Range& range_mm) {
        const double size_mm = mm_from_m(choice.size_m);
        if (!(size_mm >= range_mm.min && size_mm <= range_mm.max)) return;
        all_.push_back({path, choice.size_m, choice.rule, choice.of});
    }

    // A wider one than the track leaks beside it.
    Choice air_to_track(const TrackEntry& track) const {
        const Of width = track.width_m ? Of{"track.width_mm", *track.width_m} : width_;
        return {width.second, "as_wide_as_the_track", {width}};
    }

    // What is reckoned with where nobody has said it (core/task/voice), and why.
    Choice within_a_bore(double size_m, const char* rule) const {
        return size_m < bore_.second ? Choice{size_m, rule, {length_}}
                                     : Choice{size_m, "at_most_a_bore", {bore_}};
    }

    void sound_hole() {
        const SoundHoleEntry& said = *document_.sound_hole;
        if (!said.ramp_m && !said.ramp_seen)
            propose(
                "sound_hole.ramp_mm",
                within_a_bore(usual_ramp_m(length_.second, bore_.second), "twice_the_sound_hole"),
                limit::kRamp_mm);
        if (!said.edge_m)
            propose("sound_hole.edge_mm",
                    {kUsualEdge * hole_.wall_m,
                     "share_of_the_wall",
                     {said.wall_m ? Of{"sound_hole.wall_mm", *said.wall_m} : wall_}},
                    limit::kEdge_mm);
    }

    void block() {
        const BlockEntry said = document_.block.value_or(BlockEntry{});
        if (said.none) return;
        if (!said.height_m)
            propose("block.height_mm",
                    within_a_bore(usual_block_height_m(length_.second, bore_.second),
                                  "sound_hole_and_a_bit"),
                    limit::kBlockHeight_mm);
        if (!said.width_m)
            propose("block.width_mm",
                    {bore_.second + 2.0 * wall_.second, "as_wide_as_the_tube", {bore_, wall_}},
                    limit::kBlockWidth_mm);
    }

    Choice track_depth() const {
        return lesser(
            {usual_track_depth_m(bore_.second), "depth_by_bore", {bore_}},
            {kTrackToWall * hole_.wall_m,
             "half_the_wall",
             {document_.sound_hole->wall_m ? Of{"sound_hole.wall_mm", hole_.wall_m} : wall_}});
    }

    // Where the track is as thin as paper the block stands as high again above it, on shims:
    // sealed, an eighth of the air would pass (plane flow goes with the height's cube).
    void gap(const TrackEntry& track) {
        if (track.block_gap_m || (document_.block && document_.block->none)) return;
        Choice depth = track_depth();
        if (track.depth_m) depth = {*track.depth_m, "", {{"track.depth_mm", *track.depth_m}}};
        if (!(depth.size_m < kPaperTrack_m)) return;
        propose("track.block_gap_mm", {depth.size_m, "as_high_as_a_thin_track", depth.of},
                limit::kBlockGap_mm);
    }

    // Half a bore; not so thick that the mouth end has nothing left.
    Choice plug_thickness(double offset_m) const {
        const Choice half = greater({kPlugToBore * bore_.second, "half_the_bore", {bore_}},
                                    {kLeastPlug_m, "at_least_4_mm", {}});
        return lesser(half, {above_m_ - offset_m, "what_is_above", {{"tube.above_mm", above_m_}}});
    }

    // As long as the opening is wide, and never so short that the air hole would open into the
    // plug.
    Choice track_length(const Choice& proposed, bool given, const Of& offset) const {
        const double thickness_m = given ? *document_.plug->thickness_m : proposed.size_m;
        Choice plug{offset.second + thickness_m, "over_the_plug", proposed.of};
        if (given) plug.of = {{"plug.thickness_mm", thickness_m}};
        if (offset.second > 0.0) plug.of.push_back(offset);
        const Choice usual = greater({width_.second, "as_long_as_sound_hole_is_wide", {width_}},
                                     {kLeastTrack_m, "at_least_8_mm", {}});
        return lesser(greater(usual, plug),
                      {above_m_, "what_is_above", {{"tube.above_mm", above_m_}}});
    }

    const Document& document_;
    const Flute flute_;
    const SoundHole& hole_;
    const Of bore_, wall_, length_, width_;
    double above_m_ = std::numeric_limits<double>::infinity();  // not known: no limit
    std::vector<Proposal> all_;
};

}  // namespace

double usual_track_depth_m(double bore_m) {
    // bore, depth [m]: a sheet of paper on small flutes, 0.7 to 0.9 mm on bores of 19 to 22 mm
    constexpr std::pair<double, double> kDepths[] = {
        {3e-3, 0.09e-3}, {10e-3, 0.1e-3}, {19e-3, 0.7e-3}, {22e-3, 0.9e-3}, {60e-3, 1.5e-3}};
    const auto* upper = std::find_if(std::begin(kDepths) + 1, std::end(kDepths) - 1,
                                     [bore_m](const auto& each) { return bore_m < each.first; });
    const auto* lower = upper - 1;
    return lower->second + (bore_m - lower->first) * (upper->second - lower->second) /
                               (upper->first - lower->first);
}

std::vector<Proposal> voice_proposals(const Document& document) { return Proposer(document).all(); }

double least_above_m(const Document& document) {
    const Flute flute = flute_of(document);
    const double bore_m = bore_diameter_m(flute, 0.5 * flute.sound_hole.length_m);
    const PlugEntry plug = document.plug.value_or(PlugEntry{});
    const ChamberEntry chamber = document.chamber.value_or(ChamberEntry{});
    const double plug_m = plug.thickness_m.value_or(std::max(kPlugToBore * bore_m, kLeastPlug_m)) +
                          plug.offset_m.value_or(0.0);
    return plug_m + chamber.length_m.value_or(m_from_mm(limit::kChamber_mm.min)) +
           (chamber.length_m ? 0.0 : kMouthToBore * bore_m);
}

Json proposal_json(const Proposal& proposal) {
    Json json = Json::object();
    json["path"] = proposal.path;
    json["mm"] = typed_mm(proposal.size_m);
    json["rule"] = proposal.rule;
    json["of"] = Json::array();
    for (const auto& [path, size_m] : proposal.of)
        json["of"].push_back({{"path", path}, {"mm", typed_mm(size_m)}});
    return json;
}

}  // namespace canewright
