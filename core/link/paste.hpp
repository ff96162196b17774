// core/link/paste.hpp -- where in a pasted text the link is. Only this room includes it.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

namespace canewright {

struct Pasted {
    int version = 0;          // what stands before the dot; 0 where there is no link to be seen
    std::string letters;      // all of the alphabet after it, spaces and line breaks taken out
    std::vector<bool> after;  // of each: whether it stood directly behind the one before
    bool goes_on = false;     // what ended them is followed by more letters

    bool joined(std::size_t at) const { return at < after.size() && after[at]; }
    // Whether a word can end before this letter: nothing is joined to it but dashes and emphasis.
    bool ends_at(std::size_t at) const;
};

// Undoes percent-encoding, also where it was done twice. What follows the last '#' that a link
// follows; where there is no such '#', the first word that can be a link.
Pasted find_link(const std::string& pasted);

}  // namespace canewright
