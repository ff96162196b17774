// tests/core/link/samples.hpp -- documents, links and ways to spoil them, for the tests of
// links.
#pragma once

#include <catch2/catch.hpp>
#include <cmath>
#include <fstream>
#include <iterator>
#include <random>
#include <stdexcept>
#include <string>

#include "core/document/write.hpp"
#include "core/link/behind.hpp"
#include "core/link/link.hpp"
#include "core/link/seal.hpp"
#include "core/link/walk.hpp"
#include "tests/core/document/samples.hpp"

namespace canewright::samples {

// `file` below tests/data.
inline std::string text_of(const std::string& file) {
    std::ifstream in(std::string(CANEWRIGHT_TEST_DATA) + "/" + file, std::ios::binary);
    if (!in) throw std::runtime_error("cannot read " + file);
    return {std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()};
}

inline Document right_document(const std::string& text) {
    const ReadDocument read = read_document(text);
    INFO(text);
    REQUIRE(said(read.violations) == Said{});
    return read.document;
}

inline std::string link_text(const Document& document) {
    const Linked linked = link_of(document);
    REQUIRE(said(linked.violations) == Said{});
    return linked.text;
}

// What stands instead of a document: the code of the one violation, "" where there is none.
inline std::string why_not(const std::string& text) {
    const ReadDocument read = document_of_link(text);
    if (read.violations.empty()) return "";
    REQUIRE(read.violations.size() == 1);
    CHECK(read.violations[0].path == "link");
    CHECK_FALSE(read.is_object);
    return name(read.violations[0].code);
}

// The link of a document that may say nonsense: packed and sealed without a look at it.
inline std::string packed_bytes(Document document) {
    LinkStream stream;
    Behind behind = taken_out(document);
    walk(stream, document);
    const auto entries = packed_behind(behind);
    REQUIRE(stream.good());
    REQUIRE(entries);
    return stream.bytes() + *entries;
}
inline std::string unchecked_link(const Document& document, const std::string& rest = "") {
    return sealed(packed_bytes(document) + rest);
}

// One whole random number of a closed range. Not std::uniform_int_distribution: it draws other
// numbers with another standard library.
inline int draw(std::mt19937& random, int least, int most) {
    return least + static_cast<int>(random() % static_cast<unsigned>(most - least + 1));
}

inline double draw_decimal(std::mt19937& random, double least, double most, int decimals) {
    const double scale = std::pow(10.0, decimals);
    const double share = static_cast<double>(random()) / 4294967296.0;
    return std::round((least + share * (most - least)) * scale) / scale;
}

}  // namespace canewright::samples
