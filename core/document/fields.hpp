// core/document/fields.hpp -- reads the keys of one JSON object and remembers everything wrong.
//
// Every wrong value becomes one violation with its path; what was read instead is "absent", so that
// reading goes on and finds the rest. Nothing here throws.
#pragma once

#include <cstddef>
#include <functional>
#include <initializer_list>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "core/base/violation.hpp"
#include "core/document/json_text.hpp"
#include "core/document/limits.hpp"

namespace canewright {

// What was found so far. More than kMostViolations help nobody and could fill a phone's memory.
class Faults {
   public:
    void add(Violation found) {
        if (all_.size() < kMostViolations) all_.push_back(std::move(found));
    }
    void add(const std::vector<Violation>& found) {
        for (const Violation& each : found) add(each);
    }
    std::size_t count() const { return all_.size(); }
    const std::vector<Violation>& all() const { return all_; }

    static constexpr std::size_t kMostViolations = 200;

   private:
    std::vector<Violation> all_;
};

// The keys of one object. Keys that nobody asked for are unknown: close() says so.
class Fields {
   public:
    // `node` may be anything; what is no object is a violation and has no keys.
    Fields(const Json& node, std::string path, Faults& faults);

    std::string path(const std::string& key) const;  // "tube.wall_mm"
    bool has(const char* key) const;
    Faults& faults() { return faults_; }

    // Each returns nothing where the key is absent or its value wrong. Numbers are in the unit of
    // the key, and within `range` when they come back.
    std::optional<double> number(const char* key, Range range);
    std::optional<int> integer(const char* key, Range range);
    std::optional<bool> boolean(const char* key);
    std::optional<std::string> text(const char* key, std::size_t most_bytes);
    std::optional<std::string> choice(const char* key, std::initializer_list<const char*> names);
    std::optional<std::vector<int>> integers(const char* key, Range range, std::size_t most);

    // As number(); absent is a violation too (`missing`). NaN where there is no good value.
    double needed(const char* key, Range range);

    // Calls `read` with the object's own keys, and closes it. True where there is an object.
    bool object(const char* key, const std::function<void(Fields&)>& read);
    // Calls `read` for each entry, of which there may be `least` to `most`. True where a list is.
    bool list(const char* key, std::size_t least, std::size_t most,
              const std::function<void(const Json&, const std::string& path)>& read);
    // The value as it is, or nullptr.
    const Json* raw(const char* key);

    // Keys that an answer of ours adds: known, not read (they are computed anew).
    void ignore(std::initializer_list<const char*> keys);
    // What stands here is not ours to judge.
    void ignore_rest() { judged_ = false; }
    void missing(const char* key);
    void close();

   private:
    const Json* find(const char* key) const;

    const Json* node_;  // nullptr where there is no object
    std::string path_;
    Faults& faults_;
    std::vector<std::string> known_;
    bool judged_ = true;
};

// One value at a path: what number(), text() and integers() do for a key.
std::optional<double> read_number(const Json& node, const std::string& path, Range range,
                                  Faults& faults);
std::optional<int> read_integer(const Json& node, const std::string& path, Range range,
                                Faults& faults);
std::optional<std::string> read_text(const Json& node, const std::string& path,
                                     std::size_t most_bytes, Faults& faults);
std::optional<std::vector<int>> read_integers(const Json& node, const std::string& path,
                                              Range range, std::size_t most, Faults& faults);

}  // namespace canewright
