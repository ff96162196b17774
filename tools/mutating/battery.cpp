// tools/mutating/battery.cpp -- questions to the core, one answer a line: what a fault must move.
//
// Standard input holds lines VERB <tab> TEXT, the verbs of core/api.hpp and a few more below.
#include <cstdio>
#include <iostream>
#include <sstream>
#include <string>

#include "core/air/air.hpp"
#include "core/api.hpp"
#include "tests/core/listen/sounds.hpp"

namespace {

using namespace canewright;

std::string number(double value) {
    char text[40];
    std::snprintf(text, sizeof text, "%.12g", value);
    return std::isfinite(value) ? text : "null";
}

// TEXT: room's degrees, humidity, CO2, pascal, share of breath.
std::string air_text(const std::string& text) {
    std::istringstream in(text);
    AirState room;
    double share = 0.0;
    in >> room.temperature_C >> room.humidity_fraction >> room.co2_fraction >> room.pressure_Pa >>
        share;
    const AirState state = sounding_air(room, share);
    const Air air = moist_air(state);
    return "{\"sound_speed_hz\":" + number(air.sound_speed_m_s) +
           ",\"density\":" + number(air.density_kg_m3) +
           ",\"gamma\":" + number(air.heat_capacity_ratio) +
           ",\"viscosity\":" + number(air.viscosity_Pa_s) +
           ",\"diffusivity\":" + number(air.thermal_diffusivity_m2_s()) +
           ",\"prandtl\":" + number(air.prandtl()) +
           ",\"temperature\":" + number(state.temperature_C) +
           ",\"humidity\":" + number(state.humidity_fraction) +
           ",\"co2\":" + number(state.co2_fraction) + "}";
}

// The frames of a sound, 8192 samples each, and what they are as a held tone.
std::string heard(const sounds::Samples& sound, double rate_Hz, double expected_Hz) {
    const std::size_t frame = static_cast<std::size_t>(0.17 * rate_Hz);
    std::string all = "[", frames = "[";
    for (std::size_t from = 0; from + frame <= sound.size(); from += frame / 4) {
        const std::string pitch = pitch_frame_text(sound.data() + from, frame, rate_Hz);
        const std::string time = number(static_cast<double>(from + frame) / rate_Hz);
        if (frames.size() > 1) frames += ",";
        frames += "{\"s\":" + time + ",\"pitch\":" + pitch + "}";
        const std::string state = held_tone_text(frames + "]", expected_Hz);
        if (all.size() > 1) all += ",";
        all += "{\"pitch\":" + pitch + ",\"held\":" + state + "}";
    }
    return all + "]";
}

// TEXT: a seed; the sounds are those of the tests, other seeds.
std::string listen_text(const std::string& text) {
    const int seed = std::stoi(text);
    sounds::Dice dice(9000 + static_cast<std::uint64_t>(seed));
    const double rate_Hz = seed % 3 == 0 ? 44100.0 : 48000.0;
    const double tone_Hz = dice.pitch_between(160.0, 1500.0);
    const double expected_Hz = seed % 4 == 1 ? tone_Hz : seed % 4 == 2 ? 0.5 * tone_Hz : 0.0;
    const auto steady = [=](double) { return tone_Hz; };
    const auto gliding = [=](double t_s) { return tone_Hz * std::exp2(0.1 * seed * t_s / 4.0); };
    const double level = std::pow(10.0, dice.between(-62.0, -3.0) / 20.0);
    switch (seed % 8) {
        case 0:
            return heard(sounds::voice(dice, rate_Hz, 0.6, 0.9, gliding, seed % 5), rate_Hz, 0.0);
        case 1:
            return heard(sounds::fan(dice, rate_Hz, 0.5), rate_Hz, 0.0);
        case 2:
            return heard(
                sounds::flute(dice, {rate_Hz, 1.2, gliding, {1.0, 0.4}, -20.0, true, 0.1}).samples,
                rate_Hz, expected_Hz);
        case 3:
            return heard(
                sounds::flute(dice, {rate_Hz, 0.8, steady, {0.3, 1.0, 0.5}, -15.0, false, level})
                    .samples,
                rate_Hz, expected_Hz);
        case 4:
            return heard(
                sounds::flute(
                    dice,
                    {rate_Hz, 1.0, steady, {1.0, 0.2, 0.1}, dice.between(-12.0, 0.0), true, level})
                    .samples,
                rate_Hz, expected_Hz);
        case 5: {
            sounds::Samples loud =
                sounds::flute(dice, {rate_Hz, 0.6, steady, {1.0, 0.3}, -30.0, true, 0.9}).samples;
            for (float& x : loud) x = std::max(-1.0F, std::min(1.0F, x));
            return heard(loud, rate_Hz, expected_Hz);
        }
        case 6: {  // a jump to the octave in the middle
            const auto jump = [=](double t_s) { return t_s < 0.6 ? tone_Hz : 2.0 * tone_Hz; };
            return heard(
                sounds::flute(dice, {rate_Hz, 1.2, jump, {1.0, 0.2}, -25.0, true, 0.1}).samples,
                rate_Hz, expected_Hz);
        }
        default:
            return heard(sounds::random_flute(dice, rate_Hz, 1.0, 150.0, 3000.0).samples, rate_Hz,
                         expected_Hz);
    }
}

std::string answer(const std::string& verb, const std::string& text) {
    if (verb == "air") return air_text(text);
    if (verb == "listen") return listen_text(text);
    if (verb == "mm" || verb == "inch") return read_length_json(text, verb);
    if (verb == "write")
        return "\"" + write_length_text(std::stod(text), "inch", 32) + " " +
               write_length_text(std::stod(text), "mm", 32) + "\"";
    if (verb == "builds") return spread_with_builds(text, 6, 1);
    return run_workshop(verb, text);
}

}  // namespace

int main() {
    for (std::string line; std::getline(std::cin, line);) {
        const auto tab = line.find('\t');
        std::cout << answer(line.substr(0, tab), line.substr(tab + 1)) << std::endl;
    }
}
