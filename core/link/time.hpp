// core/link/time.hpp -- times of the log as they are written, to milliseconds and back.
#pragma once

#include <cstdint>
#include <optional>
#include <string>

namespace canewright {

// How a time is written (ISO 8601): 2026-11-25T14:30:05.123Z, ...:05Z, ...:05, ...14:30.
enum class TimeForm { milliseconds, seconds, local_seconds, local_minutes };

inline constexpr TimeForm kTimeForms[] = {TimeForm::milliseconds, TimeForm::seconds,
                                          TimeForm::local_seconds, TimeForm::local_minutes};

// The smallest difference between two times of a form.
std::int64_t unit_ms(TimeForm form);

// Milliseconds after the start of 1970, as if written in UTC; nothing unless the text is exactly
// what time_text() would write.
std::optional<std::int64_t> time_ms(const std::string& text, TimeForm form);

// Empty outside the years 1970 to 9999.
std::string time_text(std::int64_t ms, TimeForm form);

}  // namespace canewright
