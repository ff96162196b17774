// wasm/bindings_workshop.cpp -- the second module: all of the first, with bench, links, listening.
#include <emscripten/bind.h>

#include <string>
#include <vector>

#include "core/api.hpp"
#include "wasm/convert.hpp"

namespace {

using canewright::js::number;
using canewright::js::text;
using canewright::js::whole;
using emscripten::val;

std::string run(const val& verb, const val& document) {
    return canewright::run_workshop(text(verb), text(document));
}

std::string spread_builds(const val& document, const val& from, const val& to, const val& seed,
                          const val& before) {
    return canewright::spread_builds(text(document), whole(from), whole(to),
                                     static_cast<std::uint64_t>(whole(seed)), text(before));
}

std::string read_length(const val& typed, const val& unit) {
    return canewright::read_length_json(text(typed), text(unit));
}

std::string write_length(const val& value_mm, const val& unit, const val& fraction) {
    return canewright::write_length_text(number(value_mm), text(unit), whole(fraction));
}

// A Float32Array; what is none has no samples, which the core answers.
std::string pitch_frame(const val& samples, const val& rate_Hz) {
    const bool is_array = samples.instanceof (val::global("Float32Array"));
    const std::vector<float> heard =
        is_array ? emscripten::convertJSArrayToNumberVector<float>(samples) : std::vector<float>();
    return canewright::pitch_frame_text(heard.data(), heard.size(), number(rate_Hz));
}

std::string held_tone(const val& frames, const val& expected_Hz) {
    return canewright::held_tone_text(text(frames), number(expected_Hz));
}

}  // namespace

EMSCRIPTEN_BINDINGS(workshop) {
    emscripten::function("run", &run);
    emscripten::function("spreadBuilds", &spread_builds);
    emscripten::function("readLength", &read_length);
    emscripten::function("writeLength", &write_length);
    emscripten::function("pitchFrame", &pitch_frame);
    emscripten::function("heldTone", &held_tone);
}
