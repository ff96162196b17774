// tests/core/link/behind_test.cpp -- what came to the format after version 1 of the link was
// frozen.
#include "core/link/behind.hpp"

#include <algorithm>
#include <catch2/catch.hpp>

#include "core/base/base64url.hpp"
#include "tests/core/link/samples.hpp"

using namespace canewright;
using namespace canewright::samples;

namespace {

Json blown_entry(const Json& open, const char* key, double value, const char* what) {
    return {{"breath", {{"open", open}, {key, value}, {"what", what}}}};
}

// Blowing pressures first, last and in between.
Json blown() {
    Json json = full();
    const Json log = json["log"];
    json["log"] = Json::array();
    json["log"].push_back(blown_entry(Json::array(), "water_mm", 12.7, "at pitch"));
    for (std::size_t i = 0; i < 5; ++i) json["log"].push_back(log[i]);
    json["log"].push_back(blown_entry({5, 4}, "pa", 612.5, "jumps up"));
    json["log"].push_back(blown_entry({5}, "pa", 98.1234567, "falls back"));
    json["log"].back()["at"] = "2026-11-25T15:10";
    json["log"].back()["room_c"] = 18.5;
    for (std::size_t i = 5; i < log.size(); ++i) json["log"].push_back(log[i]);
    return json;
}

// What a page knows that has the walk of version 1 and nothing else: the rest it keeps.
Document as_of_old(const Document& document) {
    Document old = document;
    Behind behind = taken_out(old);
    const auto entries = packed_behind(behind);
    REQUIRE(entries);
    LinkStream stream;
    walk(stream, old);
    REQUIRE(stream.good());
    old.link_rest = base64url(*entries + bytes_of_base64url(document.link_rest).value_or(""));
    return old;
}
// The link that such a page makes of it.
std::string link_of_old(const Document& old) {
    LinkStream stream;
    Document packed = old;
    walk(stream, packed);
    REQUIRE(stream.good());
    return sealed(stream.bytes() + bytes_of_base64url(old.link_rest).value_or(""));
}

Document read_link(const std::string& text) {
    const ReadDocument read = document_of_link(text);
    REQUIRE(said(read.violations) == Said{});
    return read.document;
}

std::string part(const Document& document, const char* key) {
    return json_text(document_json(document)[key]);
}

// A plain flute, and a link of it with these bytes behind it.
std::string with_behind(const std::string& entries) {
    return sealed(packed_bytes(right_document(text_of("documents/flute.json"))) + entries);
}

}  // namespace

TEST_CASE("ramp, edge, block and blowing pressures travel, each in its place", "[link]") {
    const std::string unit = GENERATE("mm", "inch");
    const Document document = right_document(with(blown(), "/show/unit", unit).dump());
    const std::string text = link_text(document);
    CHECK(write_document(read_link(text)) == write_document(document));
    CHECK(write_document(snapped(document)) == write_document(document));
    CHECK(link_text(read_link(text)) == text);
    for (const char* const block : {R"("none")", "{}", R"({"side_walls":"high"})",
                                    R"({"front_mm":-2.99,"side_walls":"none"})"}) {
        const Document other = right_document(with(blown(), "/block", Json::parse(block)).dump());
        CHECK(document_json(read_link(link_text(other)))["block"].dump() == block);
    }
    Json seen = without(blown(), "/sound_hole/ramp_mm");
    for (const char* const word : {"none", "short", "long"}) {
        seen["sound_hole"]["ramp"] = word;
        CHECK(document_json(
                  read_link(link_text(right_document(seen.dump()))))["sound_hole"]["ramp"] == word);
    }
    // a log of nothing else
    Json only = blown();
    only["log"] = {only["log"][0], only["log"][0]};
    CHECK(read_link(link_text(right_document(only.dump()))).log->size() == 2);
}

TEST_CASE("what made a hole travels with the entry of the log", "[link]") {
    Json json = blown();
    const auto is_hole = [](const Json& entry) { return entry.contains("hole"); };
    const auto hole = std::find_if(json["log"].begin(), json["log"].end(), is_hole);
    REQUIRE(hole != json["log"].end());
    (*hole)["hole"]["bit_mm"] = 6.4;
    const Document document = right_document(json.dump());
    CHECK(write_document(read_link(link_text(document))) == write_document(document));
    Document old = as_of_old(document);  // it passes on what it does not know
    CHECK(std::none_of(old.log->begin(), old.log->end(),
                       [](const LogEntry& entry) { return entry.bit_m.has_value(); }));
    CHECK(write_document(read_link(link_of_old(old))) == write_document(document));
    // of what is no hole: the entry stays behind, and the flute is read
    Behind wrong;
    wrong.bits.push_back({0, 6e-3});
    Document other = document;
    REQUIRE(other.log->front().what != Happened::hole);
    CHECK_FALSE(put_back(other, wrong));
    wrong.bits.front().at = other.log->size();
    CHECK_FALSE(put_back(other, wrong));
}

TEST_CASE("numbers behind keep six decimals more", "[link]") {
    const auto placed = [](const char* pointer, double value) {
        const Document on_grid = snapped(right_document(with(full(), pointer, value).dump()));
        return document_json(on_grid).at(Json::json_pointer(pointer)).get<double>();
    };
    CHECK(placed("/block/front_mm", -0.123456784) == -0.12345678);
    CHECK(placed("/sound_hole/ramp_mm", 3.175) == 3.175);
    CHECK(placed("/log/10/breath/pa", 100.12345678) == 100.1234568);
    CHECK(placed("/log/11/breath/water_mm", 12.123456784) == 12.12345678);
}

TEST_CASE("keys that nobody gave cost a link nothing", "[link]") {
    Document document = right_document(text_of("documents/flute.json"));
    Behind behind = taken_out(document);
    CHECK(packed_behind(behind) == "");
}

// Its maker may change all that it knows; the bytes behind stay what they are.
TEST_CASE("an older page passes them on, whatever its maker changes", "[link]") {
    const Document document = right_document(blown().dump());
    Document old = as_of_old(document);
    CHECK_FALSE(old.block);
    CHECK(old.log->size() == document.log->size() - 5);
    CHECK(write_document(read_link(link_of_old(old))) == write_document(document));

    old.show->unit = "mm";
    old.finger_holes->at(2).at_m = 0.2425000004;
    LogEntry more;
    more.what = Happened::foot;
    more.at_m = 0.4;
    old.log->push_back(more);
    const Document found = read_link(link_of_old(old));
    CHECK(part(found, "block") == part(document, "block"));
    CHECK(document_json(found)["log"].size() == document.log->size() + 1);
    Document shorter = found;
    shorter.log->pop_back();
    CHECK(part(shorter, "log") == part(document, "log"));
    CHECK(found.link_rest == document.link_rest);
}

TEST_CASE("what no longer fits an older page's changes is kept, not refused", "[link]") {
    const Document document = right_document(blown().dump());
    Document old = as_of_old(document);
    old.log->resize(2);  // its maker took entries back
    const std::string text = link_of_old(old);
    const Document found = read_link(text);
    CHECK(found.log->size() == 2);
    CHECK(part(found, "block") == part(document, "block"));  // this fits
    CHECK(found.link_rest.size() > std::string("AQNhYmPIAA").size());
    CHECK(link_text(found) == text);
    CHECK(write_document(snapped(found)) == write_document(found));

    old = as_of_old(right_document(full().dump()));
    old.sound_hole.reset();
    old.log.reset();
    const Document bare = read_link(link_of_old(old));
    CHECK_FALSE(bare.block);
    CHECK(bare.link_rest == old.link_rest);
}

// A backup or a browser's store of an older page: its rest comes as JSON.
TEST_CASE("what an older page kept is told by the next link", "[link]") {
    const Document document = right_document(blown().dump());
    const Document kept = right_document(write_document(as_of_old(document)));
    CHECK(link_text(kept) == link_text(document));
    CHECK(write_document(snapped(kept)) == write_document(document));
    // What is said since counts, and the rest is passed on.
    Document both = kept;
    both.block = BlockEntry{};
    both.block->none = true;
    const Document found = read_link(link_text(both));
    CHECK(found.block->none);
    CHECK(link_text(found) == link_text(both));
    // A damaged one cannot travel: whoever reads it would refuse it.
    const Document wrong = right_document(
        with(full(), "/link_rest", base64url(std::string("\x02\x01\xFF", 3))).dump());
    Document bare = wrong;
    (void)taken_out(bare);
    CHECK(said(link_of(bare).violations) == Said{"link_damaged link_rest"});
}

TEST_CASE("entries that nobody writes are damaged", "[link]") {
    const std::string none("\x02\x01\x18", 3);  // a block: none
    REQUIRE(read_link(with_behind(none)).block->none);
    const auto bytes = [](std::initializer_list<int> list) {
        std::string text;
        for (const int byte : list) text += static_cast<char>(static_cast<unsigned char>(byte));
        return text;
    };
    CHECK(why_not(with_behind(bytes({2, 0}))) == "link_damaged");              // nothing in it
    CHECK(why_not(with_behind(bytes({2, 1, 0}))) == "link_damaged");           // nothing said
    CHECK(why_not(with_behind(bytes({2, 1, 0x19}))) == "link_damaged");        // a bit too many
    CHECK(why_not(with_behind(bytes({2, 2, 0x18, 0}))) == "link_damaged");     // a byte too many
    CHECK(why_not(with_behind(bytes({2, 0x81, 0, 0x18}))) == "link_damaged");  // a longer length
    CHECK(why_not(with_behind(bytes({2, 1, 0x70}))) == "link_damaged");        // a fourth word
    CHECK(why_not(with_behind(bytes({3, 1, 0}))) == "link_damaged");           // no pressures
    CHECK(why_not(with_behind(bytes({2, 1, 0x18, 2}))) == "link_damaged");     // no length
    // Not in our order: they may be anyone's.
    const Document twice = read_link(with_behind(none + none));
    CHECK(twice.block->none);
    CHECK(twice.link_rest == base64url(none));
    const Document later = read_link(with_behind(bytes({1, 0}) + none));
    CHECK_FALSE(later.block);
    CHECK(link_text(later) == with_behind(bytes({1, 0}) + none));
}

TEST_CASE("no bit of an entry can be wrong unseen", "[link][property][sweep]") {
    const Document document = right_document(blown().dump());
    Document plain = document;
    Behind behind = taken_out(plain);
    const std::string entries = packed_behind(behind).value();
    const std::string front = packed_bytes(plain);
    for (std::size_t bit = 0; bit < 8 * entries.size(); ++bit) {
        std::string other = entries;
        char& c = other[bit / 8];
        c = static_cast<char>(static_cast<unsigned char>(c) ^ (1U << (bit % 8)));
        const std::string text = sealed(front + other);
        CAPTURE(bit);
        const ReadDocument read = document_of_link(text);
        if (!read.violations.empty()) {
            CHECK(said(read.violations) == Said{"link_damaged link"});
        } else {
            CHECK(link_text(read.document) == text);
        }
    }
}

// song.octaves_weight: any weight, nought too.
TEST_CASE("what octaves count travels behind", "[link]") {
    for (const double weight : {0.0, 0.1, 0.333, 1.0}) {
        const Json octaves = with(blown(), "/song/octaves_weight", weight);
        const Document document = right_document(octaves.dump());
        const std::string text = link_text(document);
        CHECK(write_document(read_link(text)) == write_document(document));
        CHECK(read_link(text).song->octaves_weight == weight);
        Document old = as_of_old(document);
        CHECK_FALSE(old.song->octaves_weight);
        CHECK(read_link(link_of_old(old)).song->octaves_weight == weight);
        old.song.reset();
        CHECK_FALSE(read_link(link_of_old(old)).song);
        CHECK_FALSE(read_link(link_of_old(old)).link_rest.empty());
    }
    CHECK(why_not(with_behind(std::string("\x07\x01\x00", 3))) == "link_damaged");
}

// song.lift_cents came last.
TEST_CASE("how the breath lifts high notes travels behind", "[link]") {
    for (const double lift : {-30.0, -12.5, -0.13, 0.0, 5.0, 7.25, 59.99}) {
        const Document document = right_document(
            with(with(blown(), "/song/octaves_weight", 0.5), "/song/lift_cents", lift).dump());
        CHECK(write_document(read_link(link_text(document))) == write_document(document));
        Document old = as_of_old(document);
        CHECK_FALSE(old.song->lift_cents);
        CHECK(read_link(link_of_old(old)).song->lift_cents == lift);
        old.song.reset();
        CHECK_FALSE(read_link(link_of_old(old)).song);
        CHECK_FALSE(read_link(link_of_old(old)).link_rest.empty());
    }
    CHECK(why_not(with_behind(std::string("\x08\x01\x00", 3))) == "link_damaged");
}

// song.good_enough_cents came after the blowing pressures.
TEST_CASE("the finish line travels behind", "[link]") {
    const Json line = with(blown(), "/song/good_enough_cents", 7.25);
    const Document document = right_document(line.dump());
    const std::string text = link_text(document);
    CHECK(write_document(read_link(text)) == write_document(document));
    CHECK(read_link(text).song->good_enough_cents == 7.25);
    // an older page passes it on; without a song there is no place for it
    Document old = as_of_old(document);
    CHECK_FALSE(old.song->good_enough_cents);
    CHECK(read_link(link_of_old(old)).song->good_enough_cents == 7.25);
    old.song.reset();
    CHECK_FALSE(read_link(link_of_old(old)).song);
    CHECK_FALSE(read_link(link_of_old(old)).link_rest.empty());
    // nothing said by an entry is damage
    CHECK(why_not(with_behind(std::string("\x04\x01\x00", 3))) == "link_damaged");
}
