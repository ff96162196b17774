// core/document/fields.cpp -- one wrong value, one violation.
#include "core/document/fields.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

namespace canewright {

namespace {

// What stands there instead of what belongs there, for the sentence beside the field.
std::string kind(const Json& node) {
    if (node.is_null()) return "null";
    if (node.is_boolean()) return node.get<bool>() ? "true" : "false";
    if (node.is_string()) return shortened(node.get_ref<const std::string&>());
    if (node.is_number()) return node.dump();
    return node.is_array() ? "a list" : "an object";
}

void wrong_type(const Json& node, const std::string& path, Faults& faults) {
    faults.add(violation_of_text(Code::wrong_type, path, kind(node)));
}

// False, and a violation, where a list is too short or too long.
bool count_fits(const Json& node, const std::string& path, std::size_t least, std::size_t most,
                Faults& faults) {
    const auto count = static_cast<double>(node.size());
    if (node.size() < least) {
        faults.add(violation(Code::too_small, path, count, static_cast<double>(least)));
    } else if (node.size() > most) {
        faults.add(violation(Code::too_large, path, count, static_cast<double>(most)));
    } else {
        return true;
    }
    return false;
}

}  // namespace

std::optional<double> read_number(const Json& node, const std::string& path, Range range,
                                  Faults& faults) {
    if (!node.is_number()) {
        wrong_type(node, path, faults);
        return {};
    }
    const double value = node.get<double>();
    if (!std::isfinite(value)) {
        faults.add(violation(Code::not_finite, path));
    } else if (!(value >= range.min)) {
        faults.add(violation(Code::too_small, path, value, range.min));
    } else if (!(value <= range.max)) {
        faults.add(violation(Code::too_large, path, value, range.max));
    } else {
        return value;
    }
    return {};
}

std::optional<int> read_integer(const Json& node, const std::string& path, Range range,
                                Faults& faults) {
    const auto value = read_number(node, path, range, faults);
    if (!value) return {};
    if (std::trunc(*value) != *value) {
        wrong_type(node, path, faults);
        return {};
    }
    return static_cast<int>(*value);
}

std::optional<std::string> read_text(const Json& node, const std::string& path,
                                     std::size_t most_bytes, Faults& faults) {
    if (!node.is_string()) {
        wrong_type(node, path, faults);
        return {};
    }
    const auto& text = node.get_ref<const std::string&>();
    if (text.size() > most_bytes) {
        faults.add(violation(Code::too_long, path, static_cast<double>(text.size()),
                             static_cast<double>(most_bytes)));
        return {};
    }
    return text;
}

std::optional<std::vector<int>> read_integers(const Json& node, const std::string& path,
                                              Range range, std::size_t most, Faults& faults) {
    if (!node.is_array()) {
        wrong_type(node, path, faults);
        return {};
    }
    if (!count_fits(node, path, 0, most, faults)) return {};
    std::vector<int> values;
    for (std::size_t i = 0; i < node.size(); ++i) {
        const auto value =
            read_integer(node[i], path + "[" + std::to_string(i) + "]", range, faults);
        if (value) values.push_back(*value);
    }
    if (values.size() < node.size()) return {};
    return values;
}

Fields::Fields(const Json& node, std::string path, Faults& faults)
    : node_(node.is_object() ? &node : nullptr), path_(std::move(path)), faults_(faults) {
    if (!node_) wrong_type(node, path_, faults_);
}

std::string Fields::path(const std::string& key) const {
    return path_.empty() ? key : path_ + "." + key;
}

const Json* Fields::find(const char* key) const {
    if (!node_) return nullptr;
    const auto at = node_->find(key);
    return at == node_->end() ? nullptr : &*at;
}

bool Fields::has(const char* key) const { return find(key) != nullptr; }

const Json* Fields::raw(const char* key) {
    known_.emplace_back(key);
    return find(key);
}

std::optional<double> Fields::number(const char* key, Range range) {
    const Json* node = raw(key);
    if (!node) return {};
    return read_number(*node, path(key), range, faults_);
}

std::optional<int> Fields::integer(const char* key, Range range) {
    const Json* node = raw(key);
    if (!node) return {};
    return read_integer(*node, path(key), range, faults_);
}

std::optional<bool> Fields::boolean(const char* key) {
    const Json* node = raw(key);
    if (!node) return {};
    if (node->is_boolean()) return node->get<bool>();
    wrong_type(*node, path(key), faults_);
    return {};
}

std::optional<std::string> Fields::text(const char* key, std::size_t most_bytes) {
    const Json* node = raw(key);
    if (!node) return {};
    return read_text(*node, path(key), most_bytes, faults_);
}

std::optional<std::string> Fields::choice(const char* key,
                                          std::initializer_list<const char*> names) {
    const Json* node = raw(key);
    if (!node) return {};
    if (!node->is_string()) {
        wrong_type(*node, path(key), faults_);
        return {};
    }
    const auto& given = node->get_ref<const std::string&>();
    if (std::find(names.begin(), names.end(), given) != names.end()) return given;
    faults_.add(violation_of_text(Code::unknown_name, path(key), shortened(given)));
    return {};
}

std::optional<std::vector<int>> Fields::integers(const char* key, Range range, std::size_t most) {
    const Json* node = raw(key);
    if (!node) return {};
    return read_integers(*node, path(key), range, most, faults_);
}

double Fields::needed(const char* key, Range range) {
    if (!has(key)) missing(key);
    return number(key, range).value_or(std::numeric_limits<double>::quiet_NaN());
}

bool Fields::object(const char* key, const std::function<void(Fields&)>& read) {
    const Json* node = raw(key);
    if (!node) return false;
    Fields fields(*node, path(key), faults_);
    if (!node->is_object()) return false;
    read(fields);
    fields.close();
    return true;
}

bool Fields::list(const char* key, std::size_t least, std::size_t most,
                  const std::function<void(const Json&, const std::string& path)>& read) {
    const Json* node = raw(key);
    if (!node) return false;
    if (!node->is_array()) {
        wrong_type(*node, path(key), faults_);
        return false;
    }
    if (!count_fits(*node, path(key), least, most, faults_)) return false;
    for (std::size_t i = 0; i < node->size(); ++i) {
        read((*node)[i], path(key) + "[" + std::to_string(i) + "]");
    }
    return true;
}

void Fields::ignore(std::initializer_list<const char*> keys) {
    for (const char* key : keys) known_.emplace_back(key);
}

void Fields::missing(const char* key) {
    if (node_) faults_.add(violation(Code::missing, path(key)));
}

void Fields::close() {
    if (!node_ || !judged_) return;
    for (const auto& item : node_->items()) {
        const std::string& key = item.key();
        if (std::find(known_.begin(), known_.end(), key) == known_.end()) {
            faults_.add(violation(Code::unknown_key, path(shortened(key))));
        }
    }
}

}  // namespace canewright
