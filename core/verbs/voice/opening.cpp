// core/verbs/voice/opening.cpp -- tries sound holes of rising length under the breath that is
// wanted.
#include "core/verbs/voice/opening.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "core/base/units.hpp"
#include "core/document/typed.hpp"
#include "core/verbs/voice/voice_parts.hpp"

namespace canewright {

namespace {

constexpr double kTenth_m = 1e-4;
// A length whose jet is only roughly in the model's band may be this much further off in pressure.
constexpr double kRoughCosts = 0.5;  // of the pressure's logarithm

struct Wanted {
    const char* breath;
    double pressure_Pa;
};
constexpr Wanted kWanted[] = {{"usual", kUsualBreath_Pa}, {"soft", kSoftBreath_Pa}};

double tenths_m(double length_m) { return kTenth_m * std::round(length_m / kTenth_m); }

double lowest_Hz(const Document& document) {
    for (const NoteTarget& note : song_notes(document))
        if (note.open.empty()) return note.target_Hz;
    return std::numeric_limits<double>::quiet_NaN();
}

double sounding_Hz(const Flute& flute, const Air& air) {
    const Resonance found = resonance(flute, air, {}, 1);
    return found.found && found.converged ? found.frequency_Hz
                                          : std::numeric_limits<double>::quiet_NaN();
}

// The tube alone with a sound hole in it, sawn off where it sounds the lowest note.
class Tried {
   public:
    Tried(const Document& document, double length_m, double width_m, double wanted_Hz) {
        Document alone = document;
        alone.log.reset();
        alone.finger_holes.reset();
        alone.foot_m.reset();
        SoundHoleEntry hole = document.sound_hole.value_or(SoundHoleEntry{});
        hole.length_m = length_m;
        hole.width_m = width_m;
        alone.sound_hole = hole;
        saw(alone, wanted_Hz);
        alone_ = played_document(alone);
        blown_ = blown_case(alone_, {false, false});
    }
    // With what ends its registers.
    void blow() { blown_ = blown_case(alone_); }

    double foot_m() const { return foot_m_; }
    bool reaches() const { return reaches_; }
    const VoiceCase& voice() const { return blown_->one; }
    const Regime& regime() const { return voice().lowest.regimes[0]; }
    double at_pitch_Pa() const {
        return voice().mapped ? regime().at_pitch_Pa : std::numeric_limits<double>::quiet_NaN();
    }
    // How far from the wanted breath, in logarithms; infinite where nothing is promised.
    double off(double wanted_Pa) const {
        if (!(at_pitch_Pa() > 0.0)) return std::numeric_limits<double>::infinity();
        const bool rough = voice().judgement.band != Band::good;
        return std::abs(std::log(at_pitch_Pa() / wanted_Pa)) + (rough ? kRoughCosts : 0.0);
    }

   private:
    // A secant over the foot: half a wave is lost with each as much of tube.
    void saw(Document& alone, double wanted_Hz) {
        const Air air = bore_air(alone);
        Flute flute = flute_of(alone);
        const double end_m = flute.foot_m;
        double Hz = sounding_Hz(flute, air);
        reaches_ = Hz <= wanted_Hz;
        for (int trip = 0; reaches_ && trip < 12; ++trip) {
            const double off_m = 0.5 * air.sound_speed_m_s * (1.0 / wanted_Hz - 1.0 / Hz);
            flute.foot_m = std::clamp(flute.foot_m + off_m, 0.1 * end_m, end_m);
            Hz = sounding_Hz(flute, air);
            if (!(std::abs(cents_between(Hz, wanted_Hz)) > 0.01)) break;
        }
        foot_m_ = flute.foot_m;
        alone.foot_m = foot_m_;
    }

    Document alone_;
    double foot_m_ = 0.0;
    bool reaches_ = false;
    std::optional<BlownCase> blown_;
};

Json choice_json(const Wanted& wanted, const Tried& best, double bore_m, double shortest_m,
                 double longest_m) {
    const VoiceCase& one = best.voice();
    const double length_m = one.task.flute.sound_hole.length_m;
    Json json = Json::object();
    json["breath"] = wanted.breath;
    json["wanted_pa"] = wanted.pressure_Pa;
    json["foot_mm"] = typed_mm(best.foot_m());
    json["tube_reaches"] = best.reaches();
    json["sound_hole"] = {{"length_mm", typed_mm(length_m)},
                          {"width_mm", typed_mm(one.task.flute.sound_hole.width_m)}};
    json["track"] = {{"depth_mm", number_json(typed_mm(one.voice.track.depth_m))},
                     {"width_mm", number_json(typed_mm(one.voice.track.width_m))},
                     {"length_mm", number_json(typed_mm(one.voice.track.length_m))}};
    json["rules"] = Json::array();
    for (const Proposal& each : one.proposals) {
        if (each.path == "sound_hole.ramp_mm")
            json["sound_hole"]["ramp_mm"] = typed_mm(tenths_m(each.size_m));
        if (each.path.rfind("sound_hole.", 0) == 0 || each.path.rfind("track.", 0) == 0)
            json["rules"].push_back(proposal_json(each));
    }
    json["rules"].push_back({{"path", "sound_hole.width_mm"},
                             {"rule", "half_the_bore"},
                             {"of", {{{"path", "tube.bore"}, {"mm", typed_mm(bore_m)}}}}});
    json["limit"] = length_m <= shortest_m + 0.5 * kTenth_m  ? Json("shortest")
                    : length_m >= longest_m - 0.5 * kTenth_m ? Json("longest")
                                                             : Json(nullptr);
    Json all = Json::object();
    add_voice(one, all);
    const Json& voice = all["with_proposed"].is_object() ? all["with_proposed"] : all["voice"];
    for (const char* key : {"water_mm", "flow_ml_s", "seconds", "ratio", "band", "why"})
        json[key] = voice.is_object() && voice.contains(key) ? voice[key] : Json(nullptr);
    const Json note = voice_notes_json(one)[0];
    json["pa"] = note["pa"];
    json["jumps_up_pa"] = note["jumps_up_pa"];
    const bool both = note["jumps_up_pa"].is_number() && best.at_pitch_Pa() > 0.0;
    json["jump_over_pitch"] =
        both ? Json(note["jumps_up_pa"].get<double>() / best.at_pitch_Pa()) : Json(nullptr);
    return json;
}

}  // namespace

Answer opening_answer(const Document& document) {
    const double wanted_Hz = lowest_Hz(document);
    Document tube = document;
    tube.sound_hole = SoundHoleEntry{};  // for the bore where it will be
    const double bore_m = bore_diameter_m(flute_of(tube), 0.0);
    const double width_m = tenths_m(kOpeningWidth * bore_m);
    const double shortest_m = tenths_m(kShortestOpening * bore_m);
    const double longest_m = tenths_m(kLongestOpening * bore_m);
    // A dozen lengths first, then tenths of a millimetre round the best of them.
    const double coarse_m = std::max(kTenth_m, tenths_m((longest_m - shortest_m) / 10.0));

    Json json = Json::object();
    json["lowest_hz"] = wanted_Hz;
    json["choices"] = Json::array();
    for (const Wanted& wanted : kWanted) {
        std::optional<Tried> best;
        const auto consider = [&](double length_m) {
            if (length_m < shortest_m - 1e-9 || length_m > longest_m + 1e-9) return;
            Tried tried(document, length_m, width_m, wanted_Hz);
            if (!best || tried.off(wanted.pressure_Pa) < best->off(wanted.pressure_Pa))
                best = std::move(tried);
        };
        // The middle first: it stays where nothing is promised of any.
        consider(tenths_m(0.5 * (shortest_m + longest_m)));
        for (double length_m = shortest_m; length_m <= longest_m + 1e-9; length_m += coarse_m)
            consider(tenths_m(length_m));
        const double near_m = best->voice().task.flute.sound_hole.length_m;
        for (double by_m = kTenth_m; by_m < coarse_m - 1e-9; by_m += kTenth_m)
            for (const double sign : {-1.0, 1.0}) consider(tenths_m(near_m + sign * by_m));
        best->blow();
        json["choices"].push_back(choice_json(wanted, *best, bore_m, shortest_m, longest_m));
    }
    return {std::move(json), {}};
}

}  // namespace canewright
