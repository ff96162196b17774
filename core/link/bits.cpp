// core/link/bits.cpp -- bits to bytes, the highest first.
#include "core/link/bits.hpp"

#include "core/base/utf8.hpp"

namespace canewright {

namespace {

constexpr int kMore_bits = 4;
constexpr int kMost_bits = 60;

}  // namespace

std::uint64_t LinkBits::bits(std::uint64_t value, int count) {
    if (!good_) return 0;
    if (!writing_ && at_ + static_cast<std::size_t>(count) > 8 * bytes_.size()) {
        spoil();
        return 0;
    }
    std::uint64_t found = 0;
    for (int i = count - 1; i >= 0; --i, ++at_) {
        const int shift = 7 - static_cast<int>(at_ % 8);
        if (writing_) {
            if (at_ % 8 == 0) bytes_.push_back('\0');
            const auto bit = static_cast<unsigned>((value >> i) & 1);
            const auto byte = static_cast<unsigned char>(bytes_.back());
            bytes_.back() = static_cast<char>(byte | (bit << shift));
            found = found << 1 | bit;
        } else {
            found = found << 1 | ((static_cast<unsigned char>(bytes_[at_ / 8]) >> shift) & 1);
        }
    }
    return found;
}

std::uint64_t LinkBits::whole(std::uint64_t value, int width) {
    if (writing_ && value >> kMost_bits != 0) spoil();
    std::uint64_t found = bits(value, width);
    int done = width;
    while (flag(done < kMost_bits && value >> done != 0)) {
        if (done >= kMost_bits) {
            spoil();
            return 0;
        }
        found |= bits(value >> done, kMore_bits) << done;
        done += kMore_bits;
    }
    return good_ ? found : 0;
}

std::int64_t LinkBits::either_sign(std::int64_t value, int width) {
    const auto folded =
        static_cast<std::uint64_t>(value) << 1 ^ (value < 0 ? ~std::uint64_t{0} : std::uint64_t{0});
    const std::uint64_t found = whole(folded, width);
    const auto half = static_cast<std::int64_t>(found >> 1);
    return (found & 1) != 0 ? -half - 1 : half;
}

std::size_t LinkBits::count(std::size_t entries, std::size_t most, int width) {
    const std::uint64_t found = whole(entries, width);
    if (found <= most) return static_cast<std::size_t>(found);
    spoil();
    return 0;
}

void LinkBits::text(std::string& text, std::size_t most_bytes, int width) {
    const std::size_t length = count(text.size(), most_bytes, width);
    if (!writing_) {
        if (at_ + 8 * length > 8 * bytes_.size()) spoil();
        text.assign(good_ ? length : 0, '\0');
    }
    if (!good_) return;
    for (char& c : text) c = static_cast<char>(bits(static_cast<unsigned char>(c), 8));
    if (!decode_utf8(text)) spoil();
}

}  // namespace canewright
