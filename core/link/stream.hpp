// core/link/stream.hpp -- numbers of the document as steps of their grid, and back.
//
// Only this room includes it. What is written is put on its grid at the same time:
// after packing, the document that was packed is the one that will be unpacked.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "core/link/bits.hpp"
#include "core/link/grids.hpp"

namespace canewright {

class LinkStream : public LinkBits {
   public:
    using LinkBits::LinkBits;

    // Set once, before any number: all numbers with six decimals more.
    bool is_fine = false;
    // In a document shown in inches: lengths that are whole 64ths of one stay that.
    bool in_inches = false;
    // How many holes a list of open holes usually speaks of, 1 to 8.
    int holes = 8;

    // A number in the unit of its key.
    void number(double& value, const Grid& grid);
    void number(std::optional<double>& value, const Grid& grid);
    // A length in metres, on a grid of millimetres.
    void length(double& length_m, const Grid& grid);
    void length(std::optional<double>& length_m, const Grid& grid);

    // Where number() and length() put a value; it is its own place there.
    double placed(double value, const Grid& grid) const;
    double placed_m(double length_m, const Grid& grid) const;

    // Numbers of open holes, in any order.
    void open(std::vector<int>& open);

   private:
    std::int64_t steps_of(double value, const Grid& grid) const;
    double of_steps(std::int64_t steps, const Grid& grid) const;
    std::uint64_t counted(std::uint64_t steps, const Grid& grid);
};

// A length in 64ths of an inch where it is a whole number of them; else nothing. To 1e-6 mm.
std::optional<std::int64_t> inch_64ths(double length_m);

}  // namespace canewright
