// core/link/bits.hpp -- bits to bytes and back, by one and the same calls.
//
// Every call says what is written and gives back what stands there: when writing that is the value
// itself, when reading the value of the stream. So whoever packs a thing has unpacked it too, and
// the two cannot drift apart. Whatever the bytes, reading ends and allocates no more than they are.
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <utility>

namespace canewright {

class LinkBits {
   public:
    LinkBits() = default;                                                                // writes
    explicit LinkBits(std::string bytes) : writing_(false), bytes_(std::move(bytes)) {}  // reads

    bool writing() const { return writing_; }
    // False once the stream ended too early or held what nobody writes. From then on all is 0.
    bool good() const { return good_; }
    void spoil() { good_ = false; }

    // The lowest `count` bits of a number, 0 to 64.
    std::uint64_t bits(std::uint64_t value, int count);
    bool flag(bool value) { return bits(value ? 1 : 0, 1) != 0; }

    // Any number below 2^60: `width` bits, and as often as something is left one bit for "more" and
    // four bits of it. Costs one bit above `width` where the number fits.
    std::uint64_t whole(std::uint64_t value, int width);
    // The same for both signs: 0, -1, 1, -2, 2, ...
    std::int64_t either_sign(std::int64_t value, int width);

    // How many entries a list has, at most `most`.
    std::size_t count(std::size_t entries, std::size_t most, int width);

    // UTF-8, at most `most_bytes`.
    void text(std::string& text, std::size_t most_bytes, int width);

    // Whether there is a value; when reading there is one then, to be filled in.
    template <class Value>
    bool present(std::optional<Value>& value) {
        const bool there = flag(value.has_value());
        if (!there) value.reset();
        if (there && !value) value.emplace();
        return there;
    }

    // Written: all bytes, the last one filled up with zeros. Read: those that were looked at.
    const std::string& bytes() const { return bytes_; }
    std::size_t used_bytes() const { return (at_ + 7) / 8; }

   private:
    bool writing_ = true;
    bool good_ = true;
    std::string bytes_;
    std::size_t at_ = 0;  // in bits
};

}  // namespace canewright
