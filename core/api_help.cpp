// core/api_help.cpp -- what the command says of its verbs; the page links none of it.
#include <vector>

#include "core/api.hpp"

namespace canewright {
namespace {

struct VerbHelp {
    const char* name;
    const char* text;
};

constexpr VerbHelp kHelp[] = {
#define VERB(name, ask, help) {#name, help},
#include "core/verbs/plan_verbs.inc"
#include "core/verbs/workshop_verbs.inc"
#undef VERB
};

std::string of_all() {
    std::string names;
    for (const VerbHelp& each : kHelp) names += std::string("\"") + each.name + "\", ";
    return R"json({
  "usage": "canewright VERB FILE",
  "file": "a JSON document; - is standard input",
  "verbs": [)json" +
           names + R"json("help"],
  "more": "canewright help VERB",
  "exit": {"0": "answered", "1": "wrong usage, or a fault of ours", "2": "the document is wrong"}
})json";
}

}  // namespace

std::string verb_help(const std::string& verb) {
    if (verb == "help") return of_all();
    for (const VerbHelp& each : kHelp)
        if (verb == each.name) return each.text;
    return {};
}

}  // namespace canewright
