// core/music/pitch_name.cpp -- note names and their frequencies.
#include "core/music/pitch_name.hpp"

#include <cmath>
#include <cstddef>
#include <limits>
#include <utility>

#include "core/base/units.hpp"

namespace canewright {

namespace {

constexpr int kSemitones = 12;
constexpr double kSemitone_cents = kCentsPerOctave / kSemitones;

constexpr const char* kNames[kSemitones] = {"C", "C\u266F", "D", "E\u266D", "E", "F", "F\u266F",
                                            "G", "A\u266D", "A", "B\u266D", "B"};

// Semitones above C; -1 for anything but A..G.
int semitones_of_letter(char letter) {
    switch (letter) {
        case 'C':
        case 'c':
            return 0;
        case 'D':
        case 'd':
            return 2;
        case 'E':
        case 'e':
            return 4;
        case 'F':
        case 'f':
            return 5;
        case 'G':
        case 'g':
            return 7;
        case 'A':
        case 'a':
            return 9;
        case 'B':
        case 'b':
            return 11;
        default:
            return -1;
    }
}

bool take(std::string_view& text, std::string_view prefix) {
    if (text.substr(0, prefix.size()) != prefix) return false;
    text.remove_prefix(prefix.size());
    return true;
}

std::string_view trimmed(std::string_view text) {
    constexpr std::string_view kSpaces = " \t\r\n";
    const std::size_t first = text.find_first_not_of(kSpaces);
    if (first == std::string_view::npos) return {};
    return text.substr(first, text.find_last_not_of(kSpaces) - first + 1);
}

}  // namespace

ParsedNote read_note(std::string_view text) {
    const ParsedNote no_note{false, 0, Code::not_a_note};
    text = trimmed(text);
    if (text.empty()) return no_note;
    const int letter = semitones_of_letter(text.front());
    if (letter < 0) return no_note;
    text.remove_prefix(1);

    int accidental = 0;
    for (const auto& [sign, semitones] : {std::pair<std::string_view, int>{"#", 1},
                                          {"\u266F", 1},
                                          {"b", -1},
                                          {"B", -1},
                                          {"\u266D", -1},
                                          {"\u266E", 0}}) {
        if (take(text, sign)) {
            accidental = semitones;
            break;
        }
    }

    const bool negative = take(text, "-");
    if (text.empty() || text.size() > 2) return no_note;  // two digits, to say what is wrong
    int octave = 0;
    for (const char digit : text) {
        if (digit < '0' || digit > '9') return no_note;
        octave = octave * 10 + (digit - '0');
    }
    const int note = ((negative ? -octave : octave) + 1) * kSemitones + letter + accidental;
    if (note < kLowestNote) return {false, 0, Code::too_small};
    if (note > kHighestNote) return {false, 0, Code::too_large};
    return {true, note, Code::not_a_note};
}

std::string note_name(int note) {
    if (note < kLowestNote || note > kHighestNote) return "";
    return kNames[note % kSemitones] + std::to_string(note / kSemitones - 1);
}

double note_Hz(int note, double a4_Hz) {
    return shifted_Hz(a4_Hz, kSemitone_cents * static_cast<double>(note - kA4));
}

NearestNote nearest_note(double frequency_Hz, double a4_Hz) {
    const double above_a4_cents = cents_between(frequency_Hz, a4_Hz);  // NaN unless both fit
    const double semitones = std::round(above_a4_cents / kSemitone_cents);
    const double note = kA4 + semitones;
    if (!(frequency_Hz > 0 && a4_Hz > 0 && note >= kLowestNote && note <= kHighestNote)) {
        return {false, 0, "", std::numeric_limits<double>::quiet_NaN()};
    }
    const int number = static_cast<int>(note);
    return {true, number, note_name(number), above_a4_cents - kSemitone_cents * semitones};
}

}  // namespace canewright
