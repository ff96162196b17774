// core/base/violation.cpp -- names of the codes, and the three shapes of a violation.
#include "core/base/violation.hpp"

#include <limits>
#include <utility>

namespace canewright {

namespace {
constexpr double kNone = std::numeric_limits<double>::quiet_NaN();
}  // namespace

const std::vector<Code>& all_codes() {
    static const std::vector<Code> codes = {
        Code::not_json,        Code::too_long,     Code::missing,         Code::needs,
        Code::unknown_key,     Code::wrong_type,   Code::wrong_format,    Code::not_finite,
        Code::too_small,       Code::too_large,    Code::out_of_order,    Code::overlap,
        Code::unknown_name,    Code::not_a_length, Code::not_a_note,      Code::not_a_pitch,
        Code::second_register, Code::octave_below, Code::bad_hole_number, Code::missing_fingering,
        Code::not_a_link,      Code::link_cut_off, Code::link_damaged,    Code::link_newer,
        Code::link_too_long,
    };
    return codes;
}

const char* name(Code code) {
    switch (code) {  // no default: the compiler then complains about a code without a name
        case Code::not_json:
            return "not_json";
        case Code::too_long:
            return "too_long";
        case Code::missing:
            return "missing";
        case Code::needs:
            return "needs";
        case Code::unknown_key:
            return "unknown_key";
        case Code::wrong_type:
            return "wrong_type";
        case Code::wrong_format:
            return "wrong_format";
        case Code::not_finite:
            return "not_finite";
        case Code::too_small:
            return "too_small";
        case Code::too_large:
            return "too_large";
        case Code::out_of_order:
            return "out_of_order";
        case Code::overlap:
            return "overlap";
        case Code::unknown_name:
            return "unknown_name";
        case Code::not_a_length:
            return "not_a_length";
        case Code::not_a_note:
            return "not_a_note";
        case Code::not_a_pitch:
            return "not_a_pitch";
        case Code::second_register:
            return "second_register";
        case Code::octave_below:
            return "octave_below";
        case Code::bad_hole_number:
            return "bad_hole_number";
        case Code::missing_fingering:
            return "missing_fingering";
        case Code::not_a_link:
            return "not_a_link";
        case Code::link_cut_off:
            return "link_cut_off";
        case Code::link_damaged:
            return "link_damaged";
        case Code::link_newer:
            return "link_newer";
        case Code::link_too_long:
            return "link_too_long";
    }
    return "";
}

Violation violation(Code code, std::string path) {
    return {code, std::move(path), kNone, kNone, ""};
}

Violation violation(Code code, std::string path, double value, double limit) {
    return {code, std::move(path), value, limit, ""};
}

Violation violation_of_text(Code code, std::string path, std::string given) {
    return {code, std::move(path), kNone, kNone, std::move(given)};
}

}  // namespace canewright
