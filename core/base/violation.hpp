// core/base/violation.hpp -- what is wrong with an input, in a form that a form field can show.
//
// A user's mistake is data, never an exception: whoever checks something returns all violations at
// once. Checks are written `!(x > 0)`, so that NaN fails.
#pragma once

#include <string>
#include <vector>

namespace canewright {

enum class Code {
    not_json,           // the text is no JSON at all
    too_long,           // a text with more bytes or digits than allowed
    missing,            // a key that is always needed
    needs,              // a key that this command needs
    unknown_key,        // a key nobody reads: a typing error
    wrong_type,         // a number where a list belongs, and the like
    wrong_format,       // `format` is not one we read
    not_finite,         // NaN or infinite
    too_small,          // value below limit; of a list, too few entries
    too_large,          // value above limit; of a list, too many entries
    out_of_order,       // must rise, but does not
    overlap,            // two things at the same place, or the same thing twice
    unknown_name,       // a name that is not in its list
    not_a_length,       // text that cannot be read as a length
    not_a_note,         // text that cannot be read as a note name
    not_a_pitch,        // text that cannot be read as hertz or as cents from a note
    second_register,    // a pitch an octave or a twelfth above what was asked for
    octave_below,       // a pitch an octave below what was asked for
    bad_hole_number,    // no such finger hole, or not cut yet
    missing_fingering,  // a scale step that nobody said how to finger
    not_a_link,         // no link is to be seen in the text
    link_cut_off,       // a link that stops before its end
    link_damaged,       // a link with a wrong letter in it
    link_newer,         // a link of a later version than ours
    link_too_long,      // more than a link may have, made or read
};

// Every code, in the order above; for lists of texts and for tests.
const std::vector<Code>& all_codes();

// The one place where a code gets its stable name ("too_small"); the page keys its texts on it.
const char* name(Code code);

struct Violation {
    Code code;
    std::string path;   // "finger_holes[2].diameter_mm": the JSON path of the offending value
    double value;       // what was given, in the unit of `path`; NaN when it is no number
    double limit;       // the bound that it broke, same unit; NaN when there is none
    std::string given;  // what was given where it is no number, else empty
};

// One of each shape, so that no caller writes NaN by hand.
Violation violation(Code code, std::string path);
Violation violation(Code code, std::string path, double value, double limit);
Violation violation_of_text(Code code, std::string path, std::string given);

}  // namespace canewright
