// tools/mutating/chosen.cpp -- which fault is at work, and a list of those come past.
#include <cstdio>
#include <cstdlib>
#include <vector>

#include "tools/mutating/mutant.hpp"

namespace mutant {
namespace {

// Written as the program ends, whichever way it does.
struct Past {
    std::vector<char> faults = std::vector<char>(100000, 0);
    ~Past() {
        const char* path = std::getenv("CANEWRIGHT_PAST");
        std::FILE* file = path != nullptr ? std::fopen(path, "w") : nullptr;
        if (file == nullptr) return;
        for (std::size_t n = 0; n < faults.size(); ++n)
            if (faults[n] != 0) std::fprintf(file, "%zu\n", n);
        std::fclose(file);
    }
};

int from_environment() {
    if (std::getenv("CANEWRIGHT_PAST") != nullptr) return -1;
    const char* text = std::getenv("CANEWRIGHT_MUTANT");
    return text != nullptr ? std::atoi(text) : 0;
}

}  // namespace

Chosen::Chosen() : fault(from_environment()) {}

// Before the constants of other sources, which may be faulty themselves.
const Chosen chosen __attribute__((init_priority(101)));

void come_past(int fault) {
    static Past past;
    past.faults[static_cast<std::size_t>(fault)] = 1;
}

}  // namespace mutant
