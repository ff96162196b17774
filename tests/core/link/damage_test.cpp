// tests/core/link/damage_test.cpp -- links that are no good: each with the reason, and
// none read as something else.
#include <catch2/catch.hpp>

#include "core/base/base64url.hpp"
#include "core/document/link_rest.hpp"
#include "core/link/link.hpp"
#include "core/link/seal.hpp"
#include "tests/core/link/samples.hpp"

using namespace canewright;
using namespace canewright::samples;

namespace {

constexpr char kAlphabet[] = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_";

// One of less and one of more than 127 bytes: their lengths take one and two.
std::vector<std::string> links() {
    return {link_text(right_document(text_of("documents/tube.json"))),
            link_text(right_document(full().dump()))};
}

}  // namespace

TEST_CASE("a link that stops early is cut off, wherever it stops", "[link][property]") {
    for (const std::string& text : links()) {
        for (std::size_t end = 0; end < text.size(); ++end) {
            const std::string found = why_not(text.substr(0, end));
            CAPTURE(end, text);
            // "1." and seven letters may be anything, from a version number to a price.
            CHECK(found == (end < 10 ? "not_a_link" : "link_cut_off"));
            CHECK(why_not(text.substr(0, end) + "\u2026") == found);
            CHECK(why_not("see https://a.example/#" + text.substr(0, end) + ".") == found);
        }
    }
}

// CRC-32 finds every fault within 32 bits in a row; a letter is six.
TEST_CASE("no letter can be wrong, missing, doubled or swapped", "[link][property][sweep]") {
    for (const std::string& text : links()) {
        const int stride = text.size() > 200 ? 7 : 1;  // the longer one: only some of the letters
        for (std::size_t at = 0; at < text.size(); ++at) {
            CAPTURE(at, text);
            const std::string missing = std::string(text).erase(at, 1);
            CHECK(why_not(missing) != "");
            for (int letter = 0; letter < 64; letter += stride) {
                if (text[at] == kAlphabet[letter]) continue;
                std::string other = text;
                other[at] = kAlphabet[letter];
                const std::string found = why_not(other);
                if (at >= 5) {  // behind version, dot and length
                    CHECK(found == "link_damaged");
                } else {
                    CHECK(found != "");
                }
            }
            std::string odd = text;
            odd[at] = '*';
            CHECK(why_not(odd) != "");
            CHECK(why_not(std::string(text).insert(at, 1, 'A')) != "");
            if (at + 1 < text.size() && text[at] != text[at + 1]) {
                std::string swapped = text;
                std::swap(swapped[at], swapped[at + 1]);
                CHECK(why_not(swapped) != "");
            }
        }
        std::string small = text;
        for (char& c : small) c = c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
        CHECK(why_not(small) != "");
        CHECK(why_not(text + "A") == "link_damaged");
        CHECK(why_not(text + text) == "link_damaged");
    }
}

TEST_CASE("a link of a later version is newer, whole or not", "[link]") {
    const std::string text = links()[0];
    for (const char* const version : {"2", "3", "10", "999999"}) {
        const ReadDocument read = document_of_link(version + text.substr(1));
        REQUIRE(said(read.violations) == Said{"link_newer link"});
        CHECK(read.violations[0].value == std::stod(version));
        CHECK(read.violations[0].limit == kLinkVersion);
    }
    CHECK(why_not("2" + text.substr(1, 40)) == "link_newer");
    CHECK(why_not("0" + text.substr(1)) == "not_a_link");
    CHECK(why_not("99999999999999999999" + text.substr(1)) == "not_a_link");
}

TEST_CASE("other texts are no link", "[link]") {
    for (const char* const text : {"",
                                   " ",
                                   "#",
                                   "%",
                                   "%2",
                                   "%%%",
                                   "hello",
                                   "https://a.example/",
                                   "https://a.example/#top",
                                   "2.5 mm",
                                   "1.5 mm is what the wall has",
                                   "{\"at_mm\": 187.53125001}",
                                   "version 12.0.1234567",
                                   "https://a.example/1.abcdefghijk",
                                   "1.",
                                   "#1.",
                                   "{\"format\":\"canewright/1\"}",
                                   "\xFF\xFE",
                                   "Z",
                                   "."}) {
        CAPTURE(text);
        CHECK(why_not(text) == "not_a_link");
    }
    CHECK(why_not(std::string(1, '\0')) == "not_a_link");
}

TEST_CASE("too long a text is refused before it is looked at", "[link]") {
    const std::string text = links()[0];
    CHECK(why_not(std::string(kMostPasted_bytes, ' ') + text) == "link_too_long");
    CHECK(why_not(std::string(kMostPasted_bytes - text.size(), ' ') + text) == "");
    CHECK(why_not("1." + std::string(kMostLink_chars, 'A')) == "link_too_long");
}

TEST_CASE("what mail and chat programs do to a link is undone", "[link]") {
    for (const std::string& text : links()) {
        const std::string address = "https://a.example/flute/#" + text;
        std::string wrapped;
        std::string soft;
        std::string encoded;
        for (std::size_t i = 0; i < text.size(); ++i) {
            if (i % 60 == 59) wrapped += "\r\n  ";
            if (i % 60 == 59) soft += "=\r\n";
            wrapped += text[i];
            soft += text[i];
            encoded += text[i] == '-' ? "%2D" : text[i] == '.' ? "%2e" : std::string(1, text[i]);
        }
        for (const std::string& pasted :
             {"#" + text, address, text, "My flute: " + text + ", what do you think?",
              " " + text + "\n", "(" + address + ")", "<" + address + ">", "\"" + text + "\"",
              "\u201C" + text + "\u201D.", address + ". It is a fine one.",
              "flute #4: " + address + " , do you see it?", address + "&from=mail", wrapped, soft,
              "https://a.example/%23" + encoded, "https://a.example/%2523" + text,
              "\uFEFF" + text + "\u200B", address + "#", address + "\n\nSecond flute #5"}) {
            CAPTURE(pasted);
            const ReadDocument read = document_of_link(pasted);
            REQUIRE(said(read.violations) == Said{});
            CHECK(link_text(read.document) == text);
        }
    }
}

// Issue 8, point 11: all of these were refused although the link was whole.
TEST_CASE("quoted mail, emphasis, dashes and odd spaces are undone too", "[link]") {
    for (const std::string& text : links()) {
        const std::string address = "https://a.example/flute/#" + text;
        const auto wrapped = [&](const std::string& between) {
            std::string pasted = "> ";
            for (std::size_t i = 0; i < address.size(); ++i) {
                if (i % 40 == 39) pasted += between;
                pasted += address[i];
            }
            return pasted;
        };
        std::vector<std::string> all = {wrapped("\n> "),
                                        wrapped("\r\n> "),
                                        wrapped("\n>"),
                                        wrapped("\r\n> > "),
                                        wrapped("=\r\n>> ") + "\r\n> Yours, and \r\n> thanks",
                                        "_" + text + "_",
                                        "_" + address + "_",
                                        "__" + text + "__",
                                        "see _" + text + "_, it is new",
                                        text + "-",
                                        address + "-",
                                        address + "--\nmore",
                                        "- " + text + " -",
                                        "-" + text,
                                        "> " + text};
        // White space by Unicode's property list, and what has no width.
        for (const char* const space :
             {"\u1680", "\u2000", "\u2003", "\u2009", "\u200A", "\u200E", "\u2028", "\u2029",
              "\u202A", "\u202F", "\u205F", "\u2066", "\u2069", "\u3000", "\v", "\f"}) {
            all.push_back(address.substr(0, 40) + space + address.substr(40) + space + "and so on");
            all.push_back(space + text);
            if (static_cast<unsigned char>(*space) >= 0x80)  // no one types these: the link goes on
                all.push_back(text.substr(0, 5) + space + text.substr(5));
        }
        for (const std::string& pasted : all) {
            CAPTURE(pasted);
            const ReadDocument read = document_of_link(pasted);
            REQUIRE(said(read.violations) == Said{});
            CHECK(link_text(read.document) == text);
        }
        // A mark in the middle or a word joined to the end is still damage.
        CHECK(why_not(text + "-A") == "link_damaged");
        CHECK(why_not(text + "_" + text) == "link_damaged");
        CHECK(why_not(std::string(text).insert(20, ">")) != "");
        CHECK(why_not("foo_" + text) == "not_a_link");
        CHECK(why_not("foo-" + text) == "not_a_link");
    }
}

TEST_CASE("nonsense under a right checksum is a violation of the document", "[link]") {
    const Document right = right_document(full().dump());
    const auto found = [](const Document& document) {
        const ReadDocument read = document_of_link(unchecked_link(document));
        CHECK(read.is_object);
        return said(read.violations);
    };
    Document wrong = right;
    wrong.tube->bore[0].diameter_m = 9.0;
    CHECK(found(wrong) == Said{"too_large tube.bore[0].diameter_mm"});
    wrong = right;
    wrong.finger_holes->at(1).at_m = 0.1;
    CHECK(found(wrong) == Said{"out_of_order finger_holes[1].at_mm"});
    wrong = right;
    wrong.log->at(5).number = 77;
    CHECK(found(wrong) == Said{"bad_hole_number log[5].undercut.number"});
    wrong = right;
    wrong.pattern = "[1]";
    CHECK(found(wrong) == Said{"wrong_type pattern"});
    wrong = right;
    wrong.song->scale->name = "no such scale";
    CHECK(found(wrong) == Said{"unknown_name song.scale"});
}

TEST_CASE("spellings that nobody writes are damaged", "[link]") {
    // No flag of fineness, no keys, and then a bit that should be 0.
    CHECK(why_not(sealed(std::string(2, '\xFF'))) == "link_damaged");
    const Document right = right_document(full().dump());
    CHECK(why_not(unchecked_link(right)) == "");
    CHECK(why_not(unchecked_link(right, "\x01")) == "link_damaged");  // an entry without length
    CHECK(why_not(unchecked_link(right, std::string("\0\1a", 3))) == "link_damaged");  // tag 0
    CHECK(why_not(unchecked_link(right,
                                 "\x01\x05"
                                 "abc")) == "link_damaged");
    Document wrong = right;
    wrong.name = "\xC3(";  // no UTF-8
    LinkStream stream;
    walk(stream, wrong);
    CHECK_FALSE(stream.good());
}

// What a page after ours adds behind the document: tag 1 with "abc", tag 200 with nothing.
TEST_CASE("what a newer page of this version added is passed on", "[link]") {
    const std::string rest(
        "\x01\x03"
        "abc\xC8\x00",
        7);
    const std::string text = unchecked_link(right_document(full().dump()), rest);
    const ReadDocument read = document_of_link(text);
    REQUIRE(said(read.violations) == Said{});
    CHECK(read.document.link_rest == "AQNhYmPIAA");
    CHECK(link_text(read.document) == text);
    // Also by way of the page, which knows the document as JSON only.
    const Document from_json = right_document(write_document(read.document));
    CHECK(link_text(from_json) == text);

    const auto said_of = [](const char* link_rest) {
        return said(with(full(), "/link_rest", link_rest));
    };
    CHECK(said_of("AQNhYmPIAA") == Said{});
    CHECK(said_of("AQNhYmPIAB") == Said{"link_damaged link_rest"});  // bits left over
    CHECK(said_of("AQNh*mPIAA") == Said{"link_damaged link_rest"});
    CHECK(said_of("AQNhYm") == Said{"link_damaged link_rest"});
    CHECK(said_of("") == Said{"link_damaged link_rest"});
    CHECK(said_of(std::string(5000, 'A').c_str()) == Said{"too_long link_rest"});
}

// Both found by the fuzzer (tools/fuzz): right checksums over a count of half a million million
// entries, which took all the memory there was to look at, and over a bit so many half millimetres
// beyond the one before that the product does not fit.
TEST_CASE("numbers that nobody has are refused before they are used", "[link][corner]") {
    const std::string huge_count =
        "UGFsbCBrZXlz3bEktflMgAKcVagzRWZQ-RrkKBUDwL5koSo1FNQ2r39oruJ7SiodAtaCEReUUUJisDozM4JOwtN1"
        "1SVQAtSEVLQYEpC0FeosHjIulUGh9S6xJTXFiGaNQrHqIkdSlNFFEwbkKQ5BHyo9kTaysLc5kR0tlhiXGpgYF66W"
        "ETezER0RO7QwuhA0uhA7tLY2EDEykT7Iz2RMLc8ujQ0tzORHS2Yljc6th4WPZEzt7K5kR06OTqyvq6-6RjGvMhfx"
        "JOju3kDG3sLo5vP_9_9QKAHiowqK_9BiKIKCrUDMEhR6FRwTCGUSAcNANEYSAA";
    const std::string huge_bit =
        "toWFhYWFhYWFhYWFhYWFhYWFhYWFhYWFhYWFhYX___________-FhYWFhYWFhYWFhYWFhYWFhT-FhYWFhYWFhYWF"
        "hYWFhYWFhYWFhYWFhYWFhYWFhYWFbmE6TTAXAAAAZVM";
    for (const std::string& body : {huge_count, huge_bit}) {
        const auto bytes = bytes_of_base64url(body);
        REQUIRE(bytes);
        CHECK(why_not(sealed(*bytes)) == "link_damaged");
    }
}
