// core/link/time.cpp -- days of the Gregorian calendar, counted.
#include "core/link/time.hpp"

#include <cstddef>

namespace canewright {

namespace {

constexpr std::int64_t kSecond_ms = 1000;
constexpr std::int64_t kMinute_ms = 60000;
constexpr std::int64_t kDay_ms = 86400000;
constexpr std::int64_t kFirstYear = 1970;
constexpr std::int64_t kLastYear = 9999;
constexpr int kMonth_days[] = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};

bool is_leap(std::int64_t year) { return year % 4 == 0 && (year % 100 != 0 || year % 400 == 0); }

std::int64_t days_of(std::int64_t year, int month) {
    return kMonth_days[month] + (month == 1 && is_leap(year) ? 1 : 0);
}

// Leap years before a year, from year 1 on.
std::int64_t leaps_before(std::int64_t year) {
    return (year - 1) / 4 - (year - 1) / 100 + (year - 1) / 400;
}

std::int64_t days_before(std::int64_t year) {
    return (year - kFirstYear) * 365 + leaps_before(year) - leaps_before(kFirstYear);
}

std::string padded(std::int64_t number, std::size_t digits) {
    std::string text = std::to_string(number);
    return text.size() < digits ? std::string(digits - text.size(), '0') + text : text;
}

// The digits of `text` from `at` on; what is no digit is noticed by the comparison in time_ms().
std::int64_t digits(const std::string& text, std::size_t at, std::size_t count) {
    std::int64_t number = 0;
    for (std::size_t i = at; i < at + count; ++i) number = number * 10 + ((text[i] - '0') & 15);
    return number;
}

// Where each form ends, counted from the start.
std::size_t length_of(TimeForm form) {
    switch (form) {
        case TimeForm::milliseconds:
            return 24;
        case TimeForm::seconds:
            return 20;
        case TimeForm::local_seconds:
            return 19;
        case TimeForm::local_minutes:
            return 16;
    }
    return 0;
}

}  // namespace

std::int64_t unit_ms(TimeForm form) {
    if (form == TimeForm::milliseconds) return 1;
    return form == TimeForm::local_minutes ? kMinute_ms : kSecond_ms;
}

std::string time_text(std::int64_t ms, TimeForm form) {
    if (ms < 0 || ms >= days_before(kLastYear + 1) * kDay_ms) return {};
    std::int64_t day = ms / kDay_ms;
    std::int64_t year = kFirstYear + day / 366;  // never too late, at most a few years too early
    while (days_before(year + 1) <= day) ++year;
    day -= days_before(year);
    int month = 0;
    while (day >= days_of(year, month)) day -= days_of(year, month++);
    const std::int64_t minute = ms % kDay_ms / kMinute_ms;
    std::string text = padded(year, 4) + "-" + padded(month + 1, 2) + "-" + padded(day + 1, 2) +
                       "T" + padded(minute / 60, 2) + ":" + padded(minute % 60, 2);
    if (form == TimeForm::local_minutes) return text;
    text += ":" + padded(ms % kMinute_ms / kSecond_ms, 2);
    if (form == TimeForm::local_seconds) return text;
    if (form == TimeForm::milliseconds) text += "." + padded(ms % kSecond_ms, 3);
    return text + "Z";
}

std::optional<std::int64_t> time_ms(const std::string& text, TimeForm form) {
    if (text.size() != length_of(form)) return {};
    const std::int64_t year = digits(text, 0, 4);
    const auto month = static_cast<int>(digits(text, 5, 2)) - 1;
    if (year < kFirstYear || year > kLastYear || month < 0 || month > 11) return {};
    std::int64_t days = days_before(year) + digits(text, 8, 2) - 1;
    for (int before = 0; before < month; ++before) days += days_of(year, before);
    std::int64_t ms =
        days * kDay_ms + (digits(text, 11, 2) * 60 + digits(text, 14, 2)) * kMinute_ms;
    if (form != TimeForm::local_minutes) ms += digits(text, 17, 2) * kSecond_ms;
    if (form == TimeForm::milliseconds) ms += digits(text, 20, 3);
    if (time_text(ms, form) != text) return {};
    return ms;
}

}  // namespace canewright
