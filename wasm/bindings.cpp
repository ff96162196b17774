// wasm/bindings.cpp -- the names a page may call; nothing is decided here.
#include <emscripten/bind.h>

#include <string>

#include "core/api.hpp"
#include "wasm/convert.hpp"

namespace {

using canewright::js::number;
using canewright::js::text;
using canewright::js::whole;
using emscripten::val;

std::string run(const val& verb, const val& document) {
    return canewright::run(text(verb), text(document));
}

std::string read_length(const val& typed, const val& unit) {
    return canewright::read_length_json(text(typed), text(unit));
}

std::string write_length(const val& value_mm, const val& unit, const val& fraction) {
    return canewright::write_length_text(number(value_mm), text(unit), whole(fraction));
}

}  // namespace

EMSCRIPTEN_BINDINGS(canewright) {
    emscripten::function("run", &run);
    emscripten::function("readLength", &read_length);
    emscripten::function("writeLength", &write_length);
}
