// tools/cli/main.cpp -- the native command: canewright VERB FILE.
//
// Standard output carries the answer as JSON and nothing else. Exit status: 0 answered, 2 the
// document is wrong (standard error carries {"violations":[..]}), 1 anything else: a wrong command
// line, a file that cannot be read, a fault of ours (standard error carries {"fault":".."}).
#include <array>
#include <cerrno>
#include <cstdint>
#include <cstdio>
#include <cstdlib>
#include <cstring>
#include <iostream>
#include <string>

#include "core/api.hpp"

namespace {

constexpr int kAnswered = 0;
constexpr int kFault = 1;
constexpr int kWrongDocument = 2;

struct Help {
    const char* verb;
    const char* text;  // JSON: standard output carries nothing else
};

constexpr Help kHelp[] = {
    {"sound", R"json({
  "usage": "canewright sound FILE",
  "answer": "what each note sounds",
  "needs": ["tube.bore", "tube.wall_mm or outer_mm", "tube.end_mm", "sound_hole", "foot_mm",
            "finger_holes"],
  "notes": "notes; else the fingerings of song; else the holes opened one after the other",
  "log": "with a log: the flute as it stands; with sounds_as planned: the plan"
})json"},
    {"spread", R"json({
  "usage": "canewright spread FILE [--builds N] [--seed S]",
  "answer": "how far each note may be off, from what, and what is worth measuring again",
  "needs": ["as sound"],
  "builds": "1 to 1000000 flutes with errors of their own, solved in full; else linear alone",
  "seed": "a whole number, default 1: the same series every time"
})json"},
    {"bore", R"json({
  "usage": "canewright bore FILE",
  "answer": "the bore (or the outside) that a measurement gives, and how sure it is",
  "file": ["{way: water_g, amount, length_mm, water_c, scale_step_g}",
           "{way: water_ml, amount, length_mm}", "{way: gauges, go_mm, no_go_mm}",
           "{way: girth, girth_mm, paper_mm}"]
})json"},
    {"layout", R"json({
  "usage": "canewright layout FILE",
  "answer": "the whole document with foot_mm, finger_holes and notes; it can be fed to sound",
  "needs": ["tube.bore", "tube.wall_mm or outer_mm", "tube.end_mm", "sound_hole", "song.lowest",
            "song.scale", "song.holes"],
  "log": "with a log: for the flute as it stands"
})json"},
    {"next", R"json({
  "usage": "canewright next FILE",
  "answer": "the one thing to do now: read, foot, hole, undercut, rescue, wait or done",
  "needs": ["as layout"],
  "log": "what was cut and heard so far, in order; none yet: the first step",
  "until": "open a little, clear the dust, blow, look at the meter, stop at this pitch"
})json"},
    {"pattern", R"json({
  "usage": "canewright pattern FILE",
  "answer": "what the log's readings taught, for the key pattern of the next tube's document",
  "needs": ["as layout"]
})json"},
    {"strokes", R"json({
  "usage": "canewright strokes FILE",
  "answer": "how many more strokes, from the blows so far",
  "file": "{blows: [{strokes, hz}], stop_hz, meter_cents}"
})json"},
    {"attempts", R"json({
  "usage": "canewright attempts FILE",
  "answer": "the middle of a few attempts at one note, and how sure it is",
  "file": "{hz: [..], usual_cents}"
})json"},
    {"reading", R"json({
  "usage": "canewright reading FILE",
  "answer": "the hertz of what was typed off any meter: 587.3, 587,3 Hz, +12, 7 flat, G4 -3 cents",
  "file": "{text, note_hz, name, expected_hz, a4_hz}",
  "refused": ["not_a_pitch", "second_register", "octave_below"]
})json"},
    {"link", R"json({
  "usage": "canewright link FILE",
  "answer": "the document, log included, as the end of an address: text, not JSON"
})json"},
    {"unlink", R"json({
  "usage": "canewright unlink TEXT",
  "answer": "the document that a link carries; TEXT may be a whole address, - is standard input",
  "refused": ["not_a_link", "link_cut_off", "link_damaged", "link_newer", "link_too_long"]
})json"},
    {"fingerings", R"json({
  "usage": "canewright fingerings FILE",
  "answer": "the default fingerings of the song",
  "needs": ["song.scale", "song.holes"]
})json"},
    {"example", R"json({
  "usage": "canewright example",
  "answer": "a complete document to start from"
})json"},
    {"choices", R"json({
  "usage": "canewright choices",
  "answer": "scales, units and words to choose from, and what an absent key means"
})json"},
    {"help", R"json({
  "usage": "canewright VERB FILE",
  "file": "a JSON document; - is standard input",
  "verbs": ["sound", "spread", "bore", "layout", "next", "pattern", "strokes", "attempts",
            "reading", "link", "unlink", "fingerings", "example", "choices", "help"],
  "more": "canewright help VERB",
  "exit": {"0": "answered", "1": "wrong usage, or a fault of ours", "2": "the document is wrong"}
})json"},
};

int help(std::ostream& out, const std::string& verb) {
    for (const Help& each : kHelp) {
        if (verb != each.verb) continue;
        out << each.text << "\n";
        return kAnswered;
    }
    std::cerr << "{\"fault\":\"no such verb\"}\n";
    return kFault;
}

int fault(const char* what) {
    std::cerr << "{\"fault\":\"" << what << "\"}\n";
    return kFault;
}

// False where the file cannot be read. Through C streams: the others throw on a folder.
bool read_all(const std::string& file, std::string& text) {
    std::FILE* const in = file == "-" ? stdin : std::fopen(file.c_str(), "rb");
    if (!in) return false;
    std::array<char, 65536> part{};
    std::size_t count = 0;
    while ((count = std::fread(part.data(), 1, part.size(), in)) > 0) {
        text.append(part.data(), count);
    }
    const bool good = std::ferror(in) == 0;
    if (in != stdin) std::fclose(in);
    return good;
}

// A whole number of 0 or more, or -1.
long long whole_number(const char* word) {
    char* end = nullptr;
    errno = 0;
    const long long value = std::strtoll(word, &end, 10);
    return end != word && *end == '\0' && errno == 0 && value >= 0 ? value : -1;
}

// The options of `spread`, each with a number after it.
struct SpreadOptions {
    long long builds = 0;
    long long seed = 1;
    bool good = true;
};

SpreadOptions spread_options(int count, char** words) {
    SpreadOptions options;
    for (int n = 3; n < count; n += 2) {
        const std::string option = words[n];
        const long long value = n + 1 < count ? whole_number(words[n + 1]) : -1;
        options.good = options.good && value >= 0;
        if (option == "--builds") {
            options.builds = value;
            options.good = options.good && value > 0;
        } else if (option == "--seed") {
            options.seed = value;
        } else {
            options.good = false;
        }
    }
    return options;
}

int print(const std::string& out) {
    // The envelope is ours and compact, so that its first bytes tell what it holds.
    constexpr const char* kAnswer = "{\"answer\":";
    constexpr const char* kViolations = "{\"violations\":";
    if (out.compare(0, std::strlen(kAnswer), kAnswer) == 0) {
        const std::size_t start = std::strlen(kAnswer);
        std::cout << out.substr(start, out.size() - start - 1) << "\n" << std::flush;
        return std::cout ? kAnswered : kFault;
    }
    std::cerr << out << "\n";
    return out.compare(0, std::strlen(kViolations), kViolations) == 0 ? kWrongDocument : kFault;
}

int run(const std::string& verb, const std::string& text) {
    const std::string out = canewright::run_workshop(verb, text);
    // A link is for pasting: no quotes round it.
    constexpr const char* kLink = "{\"answer\":{\"link\":\"";
    if (verb != "link" || out.compare(0, std::strlen(kLink), kLink) != 0) return print(out);
    const std::size_t start = std::strlen(kLink);
    std::cout << out.substr(start, out.find('"', start) - start) << "\n" << std::flush;
    return std::cout ? kAnswered : kFault;
}

}  // namespace

int main(int count, char** words) {
    const std::string verb = count > 1 ? words[1] : "";
    if (verb == "help" && count <= 3) return help(std::cout, count == 3 ? words[2] : "help");
    if ((verb == "example" || verb == "choices") && count == 2) return run(verb, "");
    if (verb == "unlink" && count == 3 && std::string(words[2]) != "-") return run(verb, words[2]);
    const SpreadOptions options = spread_options(count, words);
    const bool with_options = verb == "spread" && count > 3;
    if (count < 3 || (count > 3 && !(with_options && options.good))) {
        help(std::cerr, "help");
        return kFault;
    }
    std::string text;
    if (!read_all(words[2], text)) return fault("the file cannot be read");
    if (with_options && options.builds > 0) {
        return print(canewright::spread_with_builds(text, static_cast<long>(options.builds),
                                                    static_cast<std::uint64_t>(options.seed)));
    }
    return run(verb, text);
}
