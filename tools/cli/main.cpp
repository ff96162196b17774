// tools/cli/main.cpp -- the native command: canewright VERB FILE.
//
// Standard output carries the answer as JSON and nothing else; of `hand`, standard error has it in
// words. Exit status: 0 answered, 2 the document is wrong (standard error carries
// {"violations":[..]}), 1 anything else: a wrong command line, a file that cannot be read, a fault
// of ours (standard error carries {"fault":".."}).
#include <array>
#include <cerrno>
#include <cstdint>
#include <cstdio>
#include <cstdlib>
#include <cstring>
#include <iostream>
#include <string>

#include "core/api.hpp"
#include "tools/cli/hand_words.hpp"

namespace {

constexpr int kAnswered = 0;
constexpr int kFault = 1;
constexpr int kWrongDocument = 2;

int help(std::ostream& out, const std::string& verb) {
    const std::string text = canewright::verb_help(verb);
    if (text.empty()) {
        std::cerr << "{\"fault\":\"no such verb\"}\n";
        return kFault;
    }
    out << text << "\n";
    return kAnswered;
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

// Several flutes are one question; a single file may be that already.
int hand(int count, char** words) {
    std::string all;
    for (int n = 2; n < count; ++n) {
        std::string text;
        if (!read_all(words[n], text)) return fault("the file cannot be read");
        if (count == 3 && canewright::is_question(text)) {
            all = text;
            break;
        }
        all += (n == 2 ? "{\"documents\":[" : ",") + text;
        if (n + 1 == count) all += "]}";
    }
    const std::string out = canewright::run_workshop("hand", all);
    const int status = print(out);
    if (status == kAnswered) std::cerr << canewright::hand_words(out) << std::flush;
    return status;
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
    if (verb == "hand" && count >= 3) return hand(count, words);
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
