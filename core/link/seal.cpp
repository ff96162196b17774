// core/link/seal.cpp -- version, length, body, checksum; and finding them in what was
// pasted.
#include "core/link/seal.hpp"

#include <array>
#include <boost/crc.hpp>
#include <cstddef>
#include <utility>

#include "core/base/base64url.hpp"
#include "core/link/link.hpp"
#include "core/link/paste.hpp"

namespace canewright {

namespace {

constexpr char kEnd = 'Z';
constexpr std::size_t kChecksum_bytes = 4;
constexpr std::size_t kFewestLetters = 8;  // length, one byte and checksum; less may be anything
constexpr std::size_t kShortLength = 128;  // lengths below take one byte, others two

std::size_t letters_for(std::size_t bytes) { return (8 * bytes + 5) / 6; }

unsigned byte(const std::string& bytes, std::size_t at) {
    return static_cast<unsigned char>(bytes[at]);
}

char as_char(std::size_t value) { return static_cast<char>(static_cast<unsigned char>(value)); }

std::string checksum_bytes(const std::string& bytes) {
    const std::uint32_t sum = checksum(bytes);
    std::string text;
    for (int shift = 24; shift >= 0; shift -= 8) text += as_char(sum >> shift & 0xFF);
    return text;
}

// How many bytes the payload says it has, itself included; nothing where even that is cut off.
std::optional<std::size_t> announced_bytes(const std::string& letters) {
    // Two bytes are in the first three letters; one byte in the first two.
    const std::string start = letters.substr(0, 3);
    std::array<unsigned, 3> value{};
    for (std::size_t i = 0; i < start.size(); ++i) {
        value[i] = static_cast<unsigned>(base64url_digit(start[i]));
    }
    if (start.size() < 2) return {};
    const unsigned first = value[0] << 2 | value[1] >> 4;
    if (first < kShortLength) return first;
    if (start.size() < 3) return {};
    const unsigned second = (value[1] & 15) << 4 | value[2] >> 2;
    return (first - kShortLength) * 256 + second;
}

Unsealed failed(Code code) { return {{}, violation(code, "link")}; }

// The body in the bytes of a payload of the right length.
std::optional<std::string> body_of(const std::string& letters) {
    const auto bytes = bytes_of_base64url(letters);
    if (!bytes) return {};
    const std::size_t head = byte(*bytes, 0) < kShortLength ? 1 : 2;
    if (bytes->size() < head + kChecksum_bytes) return {};
    // Two bytes for a length that fits into one: nobody writes that.
    if (head == 2 && bytes->size() < kShortLength) return {};
    const std::size_t end = bytes->size() - kChecksum_bytes;
    if (checksum_bytes(bytes->substr(0, end)) != bytes->substr(end)) return {};
    return bytes->substr(head, end - head);
}

}  // namespace

std::uint32_t checksum(const std::string& bytes) {
    boost::crc_32_type crc;
    crc.process_bytes(bytes.data(), bytes.size());
    return crc.checksum();
}

std::string sealed(const std::string& body) {
    const std::size_t inner = body.size() + kChecksum_bytes;
    std::string bytes;
    if (inner + 1 < kShortLength) {
        bytes += as_char(inner + 1);
    } else {
        bytes += as_char(kShortLength + (inner + 2) / 256 % kShortLength);
        bytes += as_char((inner + 2) % 256);
    }
    bytes += body;
    bytes += checksum_bytes(bytes);
    return std::to_string(kLinkVersion) + "." + base64url(bytes) + kEnd;
}

Unsealed unsealed(const std::string& pasted) {
    const auto too_long = [](std::size_t given, std::size_t most) {
        return Unsealed{{},
                        violation(Code::link_too_long, "link", static_cast<double>(given),
                                  static_cast<double>(most))};
    };
    if (pasted.size() > kMostPasted_bytes) return too_long(pasted.size(), kMostPasted_bytes);
    const Pasted found = find_link(pasted);
    const bool too_few = found.letters.size() < kFewestLetters;
    if (found.version < 1 || too_few) return failed(Code::not_a_link);
    if (found.version > kLinkVersion) {
        return {{}, violation(Code::link_newer, "link", found.version, kLinkVersion)};
    }
    const std::size_t given = std::to_string(kLinkVersion).size() + 1 + found.letters.size();
    const auto bytes = announced_bytes(found.letters);
    const Code short_of_it = found.goes_on ? Code::link_damaged : Code::link_cut_off;
    if (!bytes) return failed(short_of_it);
    const std::size_t letters = letters_for(*bytes);
    if (found.letters.size() <= letters) {
        return failed(letters > kMostLink_chars ? Code::link_damaged : short_of_it);
    }
    if (found.letters[letters] != kEnd || !found.ends_at(letters + 1)) {
        if (given > kMostLink_chars) return too_long(given, kMostLink_chars);
        return failed(Code::link_damaged);
    }
    auto body = body_of(found.letters.substr(0, letters));
    if (!body) return failed(Code::link_damaged);
    return {std::move(*body), {}};
}

}  // namespace canewright
