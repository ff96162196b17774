// core/listen/typed_pitch.cpp -- a small grammar, read from left to right.
#include "core/listen/typed_pitch.hpp"

#include <cmath>
#include <initializer_list>
#include <limits>
#include <optional>
#include <string>
#include <utility>

#include "core/base/fraction.hpp"
#include "core/base/units.hpp"
#include "core/listen/pitch_frame.hpp"
#include "core/listen/register_jump.hpp"
#include "core/music/pitch_name.hpp"

namespace canewright {

namespace {

constexpr double kBareHertz_Hz = 100.0;  // a number alone below this could be cents

bool is_digit(char c) { return c >= '0' && c <= '9'; }

char lower(char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; }

// What is still to be read.
class Rest {
   public:
    explicit Rest(std::string_view text) : text_(text) { skip_spaces(); }
    bool empty() const { return text_.empty(); }

    // The first of `words` that comes next, in any case; words that begin others stand after them.
    bool take(std::initializer_list<std::string_view> words) {
        for (const std::string_view word : words) {
            if (!starts_with(word)) continue;
            text_.remove_prefix(word.size());
            skip_spaces();
            return true;
        }
        return false;
    }

    // Letters that begin a text are a note's name, to its first digit.
    std::optional<ParsedNote> note() {
        if (text_.empty() || is_digit(text_[0]) || lower(text_[0]) < 'a' || lower(text_[0]) > 'g')
            return {};
        std::size_t end = 0;
        while (end < text_.size() && !is_digit(text_[end])) ++end;
        if (end == text_.size()) return {};
        const ParsedNote found = read_note(text_.substr(0, end + 1));
        text_.remove_prefix(end + 1);
        skip_spaces();
        return found;
    }

    // Digits with at most one decimal mark; not negative.
    std::optional<double> number() {
        std::size_t end = 0;
        while (end < text_.size() &&
               (is_digit(text_[end]) || text_[end] == '.' || text_[end] == ','))
            ++end;
        if (end == 0 || !is_digit(text_[end - 1])) return {};
        const ParsedLength parsed = read_length(text_.substr(0, end), LengthUnit::mm);
        if (!parsed.ok) return {};
        text_.remove_prefix(end);
        skip_spaces();
        return mm_from_m(parsed.value_m);
    }

   private:
    bool starts_with(std::string_view word) const {
        if (text_.size() < word.size()) return false;
        for (std::size_t i = 0; i < word.size(); ++i)
            if (lower(text_[i]) != word[i]) return false;
        return true;
    }
    void skip_spaces() {
        for (bool more = true; more;) {
            more = false;
            for (const std::string_view space : {" ", "\t", "\u00A0", "\u2009", "\u202F"}) {
                if (text_.substr(0, space.size()) != space) continue;
                text_.remove_prefix(space.size());
                more = true;
            }
        }
    }
    std::string_view text_;
};

TypedPitch no_pitch(Violation wrong) {
    return {false, std::numeric_limits<double>::quiet_NaN(), std::move(wrong)};
}

TypedPitch judged(double frequency_Hz, double expected_Hz) {
    const auto outside = [&](Code code, double limit_Hz) {
        return no_pitch(violation(code, "hz", frequency_Hz, limit_Hz));
    };
    if (!(frequency_Hz >= kLowestTone_Hz)) return outside(Code::too_small, kLowestTone_Hz);
    if (!(frequency_Hz <= kHighestTone_Hz)) return outside(Code::too_large, kHighestTone_Hz);
    if (expected_Hz > 0) {
        if (is_register_jump(frequency_Hz, expected_Hz))
            return outside(Code::second_register, expected_Hz);
        const double below_cents = cents_between(expected_Hz, frequency_Hz);
        if (std::abs(below_cents - kJumpOctave_cents) <= kJumpWithin_cents)
            return outside(Code::octave_below, expected_Hz);
    }
    return {true, frequency_Hz, violation(Code::not_a_pitch, "text")};
}

}  // namespace

TypedPitch read_typed_pitch(std::string_view text, const MeteredNote& of) {
    const TypedPitch nonsense = no_pitch(violation_of_text(
        Code::not_a_pitch, "text", std::string(text.substr(0, kLongestTyped_bytes))));
    if (text.size() > kLongestTyped_bytes) return nonsense;
    Rest rest(text);
    const std::optional<ParsedNote> note = rest.note();
    if (note && !note->ok) return nonsense;
    const bool minus = rest.take({"-", "\u2212", "\u2013"});
    const bool plus = !minus && rest.take({"+"});
    const std::optional<double> number = rest.number();
    const bool hertz = rest.take({"hertz", "hz"});
    const bool cents = rest.take({"cents", "cent", "ct", "\u00A2"});
    const bool flat = rest.take({"flat"});
    const bool sharp = rest.take({"sharp"});
    const bool told = minus || plus || flat || sharp;  // above or below
    const bool counted = told || cents;
    if (!rest.empty() || (!number && (!note || counted)) || ((minus || plus) && (flat || sharp)) ||
        (flat && sharp) || (hertz && (note || counted)))
        return nonsense;

    if (number && !note && !told) {
        if (!cents && (hertz || *number >= kBareHertz_Hz)) return judged(*number, of.expected_Hz);
        if (*number != 0) return nonsense;
    }
    const double size_cents = number.value_or(0.0);
    if (size_cents > kFarthestTyped_cents)
        return no_pitch(violation(Code::too_large, "cents", size_cents, kFarthestTyped_cents));
    const double from_Hz = note ? note_Hz(note->note, of.a4_Hz) : of.note_Hz;
    if (!(from_Hz > 0)) return nonsense;
    return judged(shifted_Hz(from_Hz, minus || flat ? -size_cents : size_cents), of.expected_Hz);
}

}  // namespace canewright
