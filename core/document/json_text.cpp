// core/document/json_text.cpp -- one pass that only looks (depth, doubled keys), one that builds.
#include "core/document/json_text.hpp"

#include <cmath>
#include <limits>
#include <set>
#include <utility>

#include "core/document/limits.hpp"

namespace canewright {

namespace {

constexpr double kNoNumber = std::numeric_limits<double>::quiet_NaN();
constexpr int kNumberOutOfRange = 406;  // the library's id of this one parse error

// Walks the text event by event, without building anything, and keeps the path.
class Guard {
   public:
    using number_integer_t = Json::number_integer_t;
    using number_unsigned_t = Json::number_unsigned_t;
    using number_float_t = Json::number_float_t;
    using string_t = Json::string_t;
    using binary_t = Json::binary_t;

    std::vector<Violation> found;

    bool null() { return value(); }
    bool boolean(bool) { return value(); }
    bool number_integer(number_integer_t) { return value(); }
    bool number_unsigned(number_unsigned_t) { return value(); }
    bool number_float(number_float_t, const string_t&) { return value(); }
    bool string(string_t&) { return value(); }
    bool binary(binary_t&) { return value(); }
    bool start_object(std::size_t) { return open(true); }
    bool start_array(std::size_t) { return open(false); }
    bool end_object() { return close(); }
    bool end_array() { return close(); }

    bool key(string_t& text) {
        Level& level = levels_.back();
        level.key = text;
        if (!level.seen.insert(text).second) found.push_back(violation(Code::overlap, path()));
        if (level.seen.size() <= kMostMembers) return true;
        levels_.pop_back();
        return stop(static_cast<double>(kMostMembers + 1), static_cast<double>(kMostMembers));
    }

    bool parse_error(std::size_t position, const std::string&, const Json::exception& error) {
        if (error.id == kNumberOutOfRange) {
            value();
            found.push_back(violation(Code::not_finite, path()));
        } else {
            found.push_back({Code::not_json, "", static_cast<double>(position), kNoNumber, ""});
        }
        return false;
    }

   private:
    struct Level {
        bool is_object = false;
        std::size_t count = 0;  // entries begun, of a list
        std::string key;
        std::set<std::string> seen;
    };

    bool value() {
        if (!levels_.empty() && !levels_.back().is_object) ++levels_.back().count;
        return true;
    }
    bool open(bool is_object) {
        value();
        if (levels_.size() >= limit::kDepth) {
            return stop(static_cast<double>(levels_.size() + 1),
                        static_cast<double>(limit::kDepth));
        }
        levels_.push_back({is_object, 0, "", {}});
        return true;
    }
    bool close() {
        levels_.pop_back();
        return true;
    }
    bool stop(double given, double allowed) {
        found.push_back(violation(Code::too_large, path(), given, allowed));
        return false;
    }
    std::string path() const {
        std::string text;
        for (const Level& level : levels_) {
            if (level.is_object) {
                text += (text.empty() ? "" : ".") + shortened(level.key);
            } else if (level.count > 0) {
                text += "[" + std::to_string(level.count - 1) + "]";
            }
        }
        return text;
    }

    std::vector<Level> levels_;
};

}  // namespace

std::string shortened(const std::string& text) {
    constexpr std::size_t kShown_bytes = 60;
    if (text.size() <= kShown_bytes) return text;
    std::size_t end = kShown_bytes;
    while (end > 0 && (static_cast<unsigned char>(text[end]) & 0xC0) == 0x80) --end;
    return text.substr(0, end) + "\u2026";
}

Json json_of(const std::string& text) {
    Json tree;
    nlohmann::detail::json_sax_dom_parser<Json> builder(tree, false);
    return Json::sax_parse(text, &builder) ? tree : Json(Json::value_t::discarded);
}

ParsedJson parse_json(const std::string& text) {
    if (text.size() > limit::kDocument_bytes) {
        return {Json(),
                {violation(Code::too_long, "", static_cast<double>(text.size()),
                           static_cast<double>(limit::kDocument_bytes))}};
    }
    // The library takes a zero byte for the end, and would let pass whatever comes after it.
    const std::size_t zero = text.find('\0');
    if (zero != std::string::npos) {
        return {Json(), {{Code::not_json, "", static_cast<double>(zero), kNoNumber, ""}}};
    }
    Guard guard;
    Json::sax_parse(text, &guard);
    if (!guard.found.empty()) return {Json(), std::move(guard.found)};
    Json tree = json_of(text);
    if (tree.is_discarded()) return {Json(), {violation(Code::not_json, "")}};
    return {std::move(tree), {}};
}

Json number_json(double value) { return std::isfinite(value) ? Json(value) : Json(nullptr); }

std::optional<std::string> no_number_at(const Json& json) {
    if (json.is_number_float() && !std::isfinite(json.get<double>())) return "";
    if (!json.is_structured()) return {};
    for (const auto& part : json.items())
        if (const auto within = no_number_at(part.value())) return "/" + part.key() + *within;
    return {};
}

}  // namespace canewright
