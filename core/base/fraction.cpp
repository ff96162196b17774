// core/base/fraction.cpp -- lengths as makers write them: a small reader and two writers.
//
// No strtod, no streams, no printf: all three take the decimal mark from the locale.
#include "core/base/fraction.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <limits>
#include <numeric>
#include <optional>

#include "core/base/units.hpp"
#include "core/base/utf8.hpp"

namespace canewright {

namespace {

constexpr double kNaN = std::numeric_limits<double>::quiet_NaN();
constexpr double kMostMarks = 1e15;  // below 2^53: every whole number of marks is exact
// Relative; far above the rounding of the unit conversions, far below any ruler. So that a length
// half way between two marks is rounded up whether or not its double lies a hair below.
constexpr double kHalfway = 1e-12;
constexpr const char* kMinus = "\u2212";
constexpr const char* kDoublePrime = "\u2033";

// One spelling for everything that phones and word processors put in its place.
char32_t plain(char32_t c) {
    switch (c) {
        case U'\t':
        case U'\n':
        case U'\r':
        case U'\u00A0':
        case U'\u202F':
        case U'\u205F':
        case U'\u3000':
            return U' ';
        case U'\u2010':
        case U'\u2011':
        case U'\u2012':
        case U'\u2013':
        case U'\u2212':
            return U'-';
        case U'\u2044':
        case U'\u2215':  // fraction slash, division slash
            return U'/';
        case U'\u2033':
        case U'\u201C':
        case U'\u201D':
        case U'\u02BA':
            return U'"';
        case U'\u2032':
        case U'\u2018':
        case U'\u2019':
        case U'\u02B9':
            return U'\'';
        default:
            break;
    }
    if (c >= U'\u2000' && c <= U'\u200A') return U' ';  // the fixed-width spaces
    if (c >= U'A' && c <= U'Z') return c - U'A' + U'a';
    return c;
}

// The one-character fractions of an inch; 0 when `c` is none.
double vulgar_fraction(char32_t c) {
    switch (c) {
        case U'\u00BC':
            return 0.25;
        case U'\u00BD':
            return 0.5;
        case U'\u00BE':
            return 0.75;
        case U'\u215B':
            return 0.125;
        case U'\u215C':
            return 0.375;
        case U'\u215D':
            return 0.625;
        case U'\u215E':
            return 0.875;
        default:
            return 0.0;
    }
}

bool is_digit(char32_t c) { return c >= U'0' && c <= U'9'; }

struct Digits {
    std::size_t count;
    std::uint64_t value;  // meaningless above kMostDigits
};

struct Magnitude {
    std::optional<Code> error;
    double value;
    bool fraction;
};

Magnitude refused(Code error) { return {error, kNaN, false}; }

std::uint64_t power_of_ten(std::size_t exponent) {
    std::uint64_t power = 1;
    while (exponent-- > 0) power *= 10;
    return power;
}

class Reader {
   public:
    explicit Reader(std::u32string_view text) : rest_(text) {}

    // 0 at the end; a NUL in the text is refused like any other stray character.
    char32_t peek() const { return rest_.empty() ? U'\0' : rest_.front(); }
    std::u32string_view rest() const { return rest_; }

    bool take(char32_t c) {
        if (rest_.empty() || rest_.front() != c) return false;
        rest_.remove_prefix(1);
        return true;
    }

    bool skip_spaces() {
        bool any = false;
        while (take(U' ')) any = true;
        return any;
    }

    Magnitude magnitude() {
        if (vulgar_fraction(peek()) > 0) return vulgar(0.0);
        const Digits whole = digits();
        if (peek() == U'.' || peek() == U',') return decimal(whole);
        if (whole.count == 0) return refused(Code::not_a_length);
        if (whole.count > kMostDigits) return refused(Code::too_long);
        const auto value = static_cast<double>(whole.value);
        if (peek() == U'/') return fraction(whole);

        const bool hyphen = take(U'-');
        const bool joined = hyphen || skip_spaces();
        if (vulgar_fraction(peek()) > 0) return vulgar(value);
        if (joined && is_digit(peek())) {
            const Magnitude part = fraction(digits());
            if (part.error) return part;
            if (!(part.value < 1.0)) return refused(Code::not_a_length);
            return {std::nullopt, value + part.value, true};
        }
        if (hyphen) return refused(Code::not_a_length);
        return {std::nullopt, value, false};
    }

   private:
    std::u32string_view rest_;

    Digits digits() {
        Digits read{0, 0};
        for (; is_digit(peek()); rest_.remove_prefix(1)) {
            if (++read.count <= kMostDigits) read.value = read.value * 10 + (peek() - U'0');
        }
        return read;
    }

    Magnitude vulgar(double whole) {
        const double part = vulgar_fraction(peek());
        rest_.remove_prefix(1);
        return {std::nullopt, whole + part, true};
    }

    // Behind the numerator.
    Magnitude fraction(Digits numerator) {
        if (!take(U'/')) return refused(Code::not_a_length);
        const Digits denominator = digits();
        if (numerator.count > kMostDigits || denominator.count > kMostDigits) {
            return refused(Code::too_long);
        }
        if (denominator.value == 0) return refused(Code::not_a_length);  // also: no digits at all
        return {std::nullopt,
                static_cast<double>(numerator.value) / static_cast<double>(denominator.value),
                true};
    }

    // At the decimal mark. Both whole numbers below are exact to 15 digits, so that the one
    // division gives the nearest double.
    Magnitude decimal(Digits whole) {
        rest_.remove_prefix(1);
        const Digits tail = digits();
        if (whole.count + tail.count == 0) return refused(Code::not_a_length);
        if (whole.count + tail.count > kMostDigits) return refused(Code::too_long);
        const std::uint64_t scale = power_of_ten(tail.count);
        return {std::nullopt,
                static_cast<double>(whole.value * scale + tail.value) / static_cast<double>(scale),
                false};
    }
};

enum class UnitWord { none, mm, cm, inch, unknown };

UnitWord unit_word(std::u32string_view word) {
    if (word.empty()) return UnitWord::none;
    if (word == U"mm") return UnitWord::mm;
    if (word == U"cm") return UnitWord::cm;
    for (const auto* inch : {U"in", U"in.", U"inch", U"inches", U"\"", U"''"}) {
        if (word == inch) return UnitWord::inch;
    }
    return UnitWord::unknown;
}

// The nearest whole number of marks, halves up. Requires marks >= 0 or NaN.
double nearest_mark(double marks) { return std::floor(marks * (1.0 + kHalfway) + 0.5); }

std::string signed_text(bool negative, std::string text) {
    return negative ? kMinus + std::move(text) : text;
}

}  // namespace

ParsedLength read_length(std::string_view text, LengthUnit assumed) {
    const auto failed = [&](Code error) { return ParsedLength{false, kNaN, assumed, error}; };
    if (text.size() > kLongestLength_bytes) return failed(Code::too_long);
    std::optional<std::u32string> points = decode_utf8(text);
    if (!points) return failed(Code::not_a_length);
    std::transform(points->begin(), points->end(), points->begin(), plain);
    while (!points->empty() && points->back() == U' ') points->pop_back();

    Reader reader(*points);
    reader.skip_spaces();
    const bool negative = reader.take(U'-');
    if (!negative) reader.take(U'+');
    const Magnitude read = reader.magnitude();
    if (read.error) return failed(*read.error);
    reader.skip_spaces();

    UnitWord word = unit_word(reader.rest());
    if (word == UnitWord::unknown) return failed(Code::not_a_length);
    if (word == UnitWord::none) {
        word = read.fraction || assumed == LengthUnit::inch ? UnitWord::inch : UnitWord::mm;
    }
    const double size_m = word == UnitWord::inch ? m_from_inch(read.value)
                          : word == UnitWord::cm ? m_from_cm(read.value)
                                                 : m_from_mm(read.value);
    return {true, negative && size_m > 0 ? -size_m : size_m,  // never -0
            word == UnitWord::inch ? LengthUnit::inch : LengthUnit::mm, Code::not_a_length};
}

std::string write_mm(double value_m, int decimals) {
    const auto places = static_cast<std::size_t>(std::clamp(decimals, 0, 6));
    const std::uint64_t scale = power_of_ten(places);
    const double marks = nearest_mark(std::fabs(mm_from_m(value_m)) * static_cast<double>(scale));
    if (!(marks <= kMostMarks)) return "";
    const auto count = static_cast<std::uint64_t>(marks);
    std::string text = std::to_string(count / scale);
    if (places > 0) {
        const std::string tail = std::to_string(count % scale);
        text += '.' + std::string(places - tail.size(), '0') + tail;
    }
    return signed_text(value_m < 0 && count > 0, text + " mm");
}

std::string write_inch(double value_m, int denominator) {
    const auto parts = static_cast<std::uint64_t>(std::clamp(denominator, 1, 1024));
    const double marks = nearest_mark(std::fabs(inch_from_m(value_m)) * static_cast<double>(parts));
    if (!(marks <= kMostMarks)) return "";
    const auto count = static_cast<std::uint64_t>(marks);
    const std::uint64_t whole = count / parts;
    const std::uint64_t rest = count % parts;
    std::string text;
    if (whole > 0 || rest == 0) text = std::to_string(whole);
    if (rest > 0) {
        const std::uint64_t common = std::gcd(rest, parts);
        if (!text.empty()) text += ' ';
        text += std::to_string(rest / common) + '/' + std::to_string(parts / common);
    }
    return signed_text(value_m < 0 && count > 0, text + kDoublePrime);
}

std::string write_length(double value_m, LengthUnit unit, int fineness) {
    return unit == LengthUnit::inch ? write_inch(value_m, fineness) : write_mm(value_m, fineness);
}

std::string write_length(double value_m, LengthUnit unit) {
    return unit == LengthUnit::inch ? write_inch(value_m) : write_mm(value_m);
}

}  // namespace canewright
