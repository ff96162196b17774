// core/verbs/voice/voice_faults.cpp -- the fault guide's data, and their order for one flute.
#include "core/verbs/voice/voice_faults.hpp"

#include <algorithm>
#include <cmath>

#include "core/base/stable_order.hpp"

namespace canewright {

namespace {

// One that is out of range comes before every one that is not.
constexpr double kOut = 1.0;

double weight_of(const FaultCause& cause, const VoiceGauge& gauge) {
    if (!gauge.out) return cause.weight;
    const double far = std::abs(std::log(gauge.value / gauge.limit));
    return kOut + cause.weight + (std::isfinite(far) ? std::min(far, 1.0) : 0.0);
}

Json number_of(const VoiceGauge& gauge, VoiceNumber number) {
    if (!std::isfinite(gauge.value)) return nullptr;
    Json json = gauge_json(gauge, number, "what");
    json["out"] = gauge.out;
    return json;
}

}  // namespace

const std::vector<Fault>& voice_faults() {
    using Number = VoiceNumber;
    constexpr Mending kFirst = Mending::reversible, kAdds = Mending::adds, kCuts = Mending::removes;
    static const std::vector<Fault> kFaults = {
        {"hisses_only",
         {{"block_over_opening", kFirst, 0.8, Number::block_over},
          {"block_too_far_back", kFirst, 0.8, Number::block_back},
          {"block_not_sealing", kFirst, 0.7, Number::gap_high},
          {"track_dirty_or_wet", kFirst, 0.6},
          {"holes_not_covered", kFirst, 0.5},
          {"track_shallow_shim_block", kFirst, 0.3, Number::ratio_high},
          {"track_high_lower_block", kFirst, 0.3, Number::ratio_low},
          {"plug_leaks", kAdds, 0.5},
          {"bore_leaks", kAdds, 0.3},
          {"edge_thick", kCuts, 0.5, Number::edge_thick},
          {"sound_hole_short", kCuts, 0.4, Number::ratio_low},
          {"track_shallow", kCuts, 0.3, Number::ratio_high}}},
        {"airy",
         {{"block_not_sealing", kFirst, 0.8, Number::gap_high},
          {"block_too_far_back", kFirst, 0.7, Number::block_back},
          {"track_high_lower_block", kFirst, 0.5, Number::ratio_low},
          {"track_dirty_or_wet", kFirst, 0.4},
          {"sound_hole_wider_than_track", kAdds, 0.5, Number::sound_hole_wider_than_track},
          {"edge_thick", kCuts, 0.6, Number::edge_thick},
          {"track_rough", kCuts, 0.5},
          {"sound_hole_short", kCuts, 0.3, Number::ratio_low}}},
        {"squeals",
         {{"blown_too_hard", kFirst, 0.7, Number::jump_near},
          {"holes_not_covered", kFirst, 0.7},
          {"block_over_opening", kFirst, 0.6, Number::block_over},
          {"block_not_sealing", kFirst, 0.4, Number::gap_high},
          {"track_high_lower_block", kFirst, 0.4, Number::ratio_low},
          {"bore_leaks", kAdds, 0.4},
          {"sound_hole_short", kCuts, 0.5, Number::ratio_low},
          {"edge_rough", kCuts, 0.3, Number::edge_thick}}},
        {"lowest_weak",
         {{"holes_not_covered", kFirst, 0.9},
          {"blown_too_hard", kFirst, 0.5, Number::jump_near},
          {"block_over_opening", kFirst, 0.5, Number::block_over},
          {"foot_covered", kFirst, 0.2},
          {"bore_leaks", kAdds, 0.6},
          {"plug_leaks", kAdds, 0.4},
          {"tube_long_for_bore", kCuts, 0.4, Number::tube_long},
          {"bore_not_cleared", kCuts, 0.4},
          {"sound_hole_short", kCuts, 0.4, Number::ratio_low}}},
        {"only_top",
         {{"blown_too_hard", kFirst, 0.8, Number::jump_near},
          {"holes_not_covered", kFirst, 0.8},
          {"block_over_opening", kFirst, 0.5, Number::block_over},
          {"track_high_lower_block", kFirst, 0.4, Number::ratio_low},
          {"bore_leaks", kAdds, 0.6},
          {"bore_not_cleared", kCuts, 0.5},
          {"sound_hole_short", kCuts, 0.5, Number::ratio_low},
          {"tube_long_for_bore", kCuts, 0.3, Number::tube_long}}},
        {"wobbles",
         {{"breath_unsteady", kFirst, 0.6, Number::needs_much_air},
          {"block_loose", kFirst, 0.6, Number::gap_high},
          {"octave_far_off", kFirst, 0.5, Number::octave_off},
          {"block_askew", kFirst, 0.5},
          {"plug_leaks", kAdds, 0.5},
          {"bore_leaks", kAdds, 0.3},
          {"bore_not_cleared", kCuts, 0.4},
          {"edge_uneven", kCuts, 0.4, Number::edge_thick}}},
        {"good_until_tied",
         {{"tie_pulls_block_over", kFirst, 0.8, Number::block_over},
          {"tie_pulls_block_back", kFirst, 0.6, Number::block_back},
          {"tie_closes_the_gap", kFirst, 0.7, Number::gap_high},
          {"tie_too_tight", kFirst, 0.6},
          {"track_shallow_shim_block", kFirst, 0.5, Number::ratio_high},
          {"block_not_flat", kCuts, 0.6},
          {"seat_not_flat", kCuts, 0.5}}},
        {"chokes_wet",
         {{"flute_cold", kFirst, 0.8},
          {"water_in_track", kFirst, 0.8, Number::track_shallow},
          {"track_shallow_shim_block", kFirst, 0.5, Number::track_shallow},
          {"chamber_small", kFirst, 0.3, Number::above_short},
          {"track_not_sealed", kAdds, 0.5},
          {"track_shallow", kCuts, 0.4, Number::track_shallow},
          {"air_hole_edge_rough", kCuts, 0.3}}},
        {"one_hole_weak",
         {{"finger_leaks_above", kFirst, 0.8},
          {"blown_too_hard", kFirst, 0.4, Number::jump_near},
          {"second_register_missing", kFirst, 0.3, Number::no_overblow},
          {"wall_leaks_at_hole", kAdds, 0.4},
          {"hole_small", kCuts, 0.5, Number::hole_small},
          {"hole_edge_rough", kCuts, 0.5},
          {"bore_not_cleared", kCuts, 0.3}}}};
    return kFaults;
}

Json faults_json(const VoiceCase& one) {
    struct Weighed {
        const FaultCause* cause;
        VoiceGauge gauge;
        double weight;
    };
    Json json = Json::array();
    for (const Fault& fault : voice_faults()) {
        std::vector<Weighed> all;
        for (const FaultCause& cause : fault.causes) {
            const VoiceGauge gauge = voice_gauge(one, cause.number);
            all.push_back({&cause, gauge, weight_of(cause, gauge)});
        }
        stable_order(all, [](const Weighed& a, const Weighed& b) {
            if (a.cause->mending != b.cause->mending) return a.cause->mending < b.cause->mending;
            return a.weight > b.weight;
        });
        Json entry = Json::object();
        entry["symptom"] = fault.symptom;
        entry["causes"] = Json::array();
        for (const Weighed& each : all)
            entry["causes"].push_back({{"code", each.cause->code},
                                       {"first", each.cause->mending == Mending::reversible},
                                       {"removes", each.cause->mending == Mending::removes},
                                       {"number", number_of(each.gauge, each.cause->number)},
                                       {"weight", each.weight}});
        json.push_back(std::move(entry));
    }
    return json;
}

}  // namespace canewright
