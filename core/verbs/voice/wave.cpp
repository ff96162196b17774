// core/verbs/voice/wave.cpp -- what the air in the tube does for one fingering.
#include <algorithm>
#include <cmath>

#include "core/base/units.hpp"
#include "core/flute/resonance.hpp"
#include "core/verbs/voice/tone.hpp"
#include "core/verbs/voice/tone_asked.hpp"

namespace canewright {

namespace {

constexpr double kWaveStep_m = 0.004;  // fine for a picture

// A complex amplitude along the tube as what it is at the moment at which it is greatest. In a
// standing wave that is nearly all of it; the rest is the little that travels.
Json drawn_wave(const std::vector<Complex>& values) {
    Complex greatest = 0.0;
    for (const Complex& each : values)
        if (std::abs(each) > std::abs(greatest)) greatest = each;
    Json json = Json::array();
    for (const Complex& each : values) json.push_back((each / greatest).real());
    return json;
}

Answer wave_of(const Document& given, const std::vector<int>& open, int register_number) {
    const PlayedFlute flute = played_flute(with_fingering(given, open));
    Json json = Json::object();
    const auto none = [&json](const char* why) {
        json["hz"] = nullptr;
        for (const char* key : {"at_mm", "pressure", "flow", "openings"}) json[key] = Json::array();
        json["why"] = why_json(why);
        return Answer{json, {}};
    };
    if (!flute.task.playable.front()) return none("hole_not_cut");
    const Network network(flute.task.flute, flute.air, flute.task.fingering.front());
    const Resonance found = resonance(network, register_number);
    if (!found.found || !found.converged) return none(found.found ? "not_converged" : found.why);

    std::vector<Complex> pressure, flow;
    Json at_mm = Json::array();
    for (const FieldPlace& each : network.field(found.frequency_Hz, kWaveStep_m)) {
        at_mm.push_back(mm_from_m(each.at_m));
        pressure.push_back(each.pressure);
        flow.push_back(each.flow);
    }
    const Network::State state = network.state(found.frequency_Hz);
    Json openings = Json::array();
    for (std::size_t n = 0; n < state.openings.size(); ++n) {
        Json one = Json::object();
        one["at_mm"] = mm_from_m(network.openings_m()[n]);
        one["share"] = std::abs(state.openings[n].u / state.openings.back().u);
        openings.push_back(std::move(one));
    }
    json["hz"] = found.frequency_Hz;
    json["at_mm"] = std::move(at_mm);
    json["pressure"] = drawn_wave(pressure);
    json["flow"] = drawn_wave(flow);
    json["openings"] = std::move(openings);
    json["why"] = nullptr;
    return {std::move(json), {}};
}

}  // namespace

Answer wave_answer(const std::string& text) {
    std::vector<int> open;
    int register_number = 1;
    return asked_of_flute(
        text, [&](Fields& fields) { read_fingering(fields, open, register_number); },
        [&](const Document& document) { return wave_of(document, open, register_number); });
}

}  // namespace canewright
