// tests/support/fem.hpp: reads the finite-element tubes of tests/data/fem into flutes.
#pragma once

#include <string>
#include <vector>

#include "core/base/units.hpp"
#include "core/flute/geometry.hpp"
#include "core/flute/network.hpp"
#include "tests/support/flutes.hpp"
#include "tests/support/table.hpp"

namespace canewright::testing {

struct FemTube {
    std::string name, group;
    Flute flute;
    Fingering open;
    double first_Hz = 0.0, second_Hz = 0.0;            // real parts
    double first_imag_Hz = 0.0, second_imag_Hz = 0.0;  // radiation only; negative
    Resonance solve(int register_number) const {
        return resonance(flute, lossless_air(), open, register_number);
    }
};

// "ramp:9;edge:0.225;block:7;.." in mm. A flat under the block that ends at the
// splitting edge is no thinner wall: block and ramp stand at both ends of the opening (the elements
// say 1 cent; a wall thinner all round would be 14).
inline void read_voice(const std::string& text, Flute& flute) {
    VoiceShape& voice = flute.sound_hole.voice;
    std::size_t at = 0;
    while (at < text.size()) {
        const std::size_t colon = text.find(':', at);
        const std::string key = text.substr(at, colon - at);
        const double length_m = m_from_mm(std::stod(text.substr(colon + 1)));
        if (key == "ramp") voice.ramp_m = length_m;
        if (key == "edge") voice.edge_m = length_m;
        if (key == "block") voice.block_height_m = length_m;
        if (key == "block_width") voice.block_width_m = length_m;
        if (key == "front") voice.front_m = length_m;
        if (key == "wings") voice.walls_height_m = length_m;
        if (key == "wing_width") voice.walls_thickness_m = length_m;
        if (key == "wing_length") voice.walls_length_m = length_m;
        const std::size_t next = text.find(';', colon);
        at = next == std::string::npos ? text.size() : next + 1;
    }
    if (voice.walls_height_m > 0.0 && voice.walls_length_m == 0.0)
        voice.walls_length_m = flute.sound_hole.length_m;
}

// Places in the table count from the sound hole's centre, the core's from its upstream edge.
inline FemTube fem_tube(const Row& row) {
    FemTube tube;
    tube.name = row.text("name");
    tube.group = row.text("group");
    const auto length_m = [&row](const char* column) { return m_from_mm(row.number(column)); };
    Flute& flute = tube.flute;
    const double bore_m = length_m("bore_mm"), half_m = 0.5 * length_m("window_length_mm");
    flute.bore = {{0.0, bore_m, bore_m}};
    flute.wall_m = length_m("wall_mm");
    flute.sound_hole = {2.0 * half_m, length_m("window_width_mm"), flute.wall_m};
    if (row.has("voice")) read_voice(row.text("voice"), flute);
    flute.plug_offset_m = length_m("plug_offset_mm");
    flute.foot_m = length_m("foot_mm") + half_m;
    flute.fingers = Fingers::flat;
    std::string rest = row.text("holes");
    while (!rest.empty()) {
        const std::size_t end = rest.find(';');
        const std::string hole = rest.substr(0, end);
        rest = end == std::string::npos ? "" : rest.substr(end + 1);
        const std::size_t one = hole.find(':'), two = hole.find(':', one + 1);
        flute.holes.push_back(round_hole(m_from_mm(std::stod(hole)) + half_m,
                                         m_from_mm(std::stod(hole.substr(one + 1))), flute.wall_m));
        if (hole.substr(two + 1) == "open")
            tube.open.push_back(static_cast<int>(flute.holes.size()));
    }
    tube.first_Hz = row.number("f1_hz");
    tube.second_Hz = row.number("f2_hz");
    tube.first_imag_Hz = row.number("f1_imag_hz");
    tube.second_imag_Hz = row.number("f2_imag_hz");
    return tube;
}

inline std::vector<FemTube> fem_tubes(const std::string& file) {
    std::vector<FemTube> tubes;
    for (const Row& row : table(file)) tubes.push_back(fem_tube(row));
    return tubes;
}

}  // namespace canewright::testing
