// tools/properties.cpp -- the property suite over as many random documents as asked for.
#include "tests/support/properties.hpp"

#include <algorithm>
#include <atomic>
#include <chrono>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <map>
#include <mutex>
#include <set>
#include <sstream>
#include <string>
#include <thread>
#include <vector>

#include "core/base/noise.hpp"
#include "tests/support/random_documents.hpp"

using namespace canewright;
using namespace canewright::testing;

namespace {

struct Options {
    long documents = 1000;
    long from = 0;
    unsigned long seed = 1;
    int jobs = 2;
    long kept = 5;  // failing documents written of each property
    std::string folder = "build/properties";
    std::string replay;  // a file with one document
    bool print = false;
    bool quick = false;
};

class Tally {
   public:
    explicit Tally(const Options& options) : options_(options) {}

    void add(long index, const Json& document, const std::vector<Breach>& breaches,
             double spent_s) {
        const std::lock_guard<std::mutex> hold(mutex_);
        ++documents_;
        if (spent_s > slowest_s_) {
            slowest_s_ = spent_s;
            slowest_ = index;
        }
        std::set<std::string> names;
        for (const Breach& breach : breaches) names.insert(breach.property);
        for (const std::string& name : names) keep(name, index, document, breaches);
        if (!names.empty()) ++failing_;
    }
    int print() const {
        std::cout << documents_ << " documents, " << failing_ << " of them break a property\n";
        for (const auto& [name, count] : counts_) std::cout << "  " << name << " " << count << "\n";
        std::cout << "slowest document " << slowest_ << ": " << slowest_s_ << " s\n";
        long jumps = 0, others = 0;
        for (const auto& [name, count] : counts_) (name == "continuity" ? jumps : others) += count;
        const bool few = static_cast<double>(jumps) <= kMayJump * static_cast<double>(documents_);
        return others == 0 && few ? EXIT_SUCCESS : EXIT_FAILURE;
    }

   private:
    void keep(std::string name, long index, const Json& document,
              const std::vector<Breach>& breaches) {
        if (++counts_[name] > options_.kept) return;
        Json kept = document;
        kept["x"]["breaches"] = Json::array();
        for (const Breach& breach : breaches)
            kept["x"]["breaches"].push_back({breach.property, breach.what});
        std::replace(name.begin(), name.end(), ' ', '-');
        std::ofstream(options_.folder + "/" + name + "-" + std::to_string(options_.seed) + "-" +
                      std::to_string(index) + ".json")
            << kept.dump(1) << "\n";
    }

    const Options& options_;
    std::mutex mutex_;
    long documents_ = 0, failing_ = 0;
    long slowest_ = 0;
    double slowest_s_ = 0.0;
    std::map<std::string, long> counts_;
};

int replay(const std::string& file) {
    std::ostringstream text;
    text << std::ifstream(file).rdbuf();
    Json document = Json::parse(text.str(), nullptr, false);
    document.erase("x");
    const std::vector<Breach> breaches = breaches_of(document, Noise(0, 0), kEveryNudge);
    for (const Breach& breach : breaches)
        std::cout << breach.property << ": " << breach.what << "\n";
    return breaches.empty() ? EXIT_SUCCESS : EXIT_FAILURE;
}

bool read_options(int count, char** words, Options& options) {
    for (int i = 1; i < count; ++i) {
        const std::string word = words[i];
        if (word == "--print" || word == "--quick") {
            (word == "--print" ? options.print : options.quick) = true;
            continue;
        }
        if (i + 1 == count) return false;
        const std::string value = words[++i];
        if (word == "--documents")
            options.documents = std::atol(value.c_str());
        else if (word == "--from")
            options.from = std::atol(value.c_str());
        else if (word == "--seed")
            options.seed = std::strtoul(value.c_str(), nullptr, 10);
        else if (word == "--jobs")
            options.jobs = std::atoi(value.c_str());
        else if (word == "--kept")
            options.kept = std::atol(value.c_str());
        else if (word == "--into")
            options.folder = value;
        else if (word == "--replay")
            options.replay = value;
        else
            return false;
    }
    return options.documents > 0 && options.jobs > 0;
}

}  // namespace

int main(int count, char** words) {
    Options options;
    if (!read_options(count, words, options)) {
        std::cerr << "tools/properties --documents N --seed S [--jobs J] [--from FIRST] [--kept K]"
                     " [--into FOLDER] [--print] [--quick] | --replay FILE\n";
        return 2;
    }
    if (!options.replay.empty()) return replay(options.replay);
    if (options.print) {
        for (long n = 0; n < options.documents; ++n) {
            Json line = Json::object();
            line["document"] =
                random_document(options.seed, static_cast<std::uint64_t>(options.from + n));
            line["layout"] = answer_of("layout", line["document"]);
            std::cout << line.dump() << "\n";
        }
        return EXIT_SUCCESS;
    }
    std::filesystem::create_directories(options.folder);
    Tally tally(options);
    std::atomic<long> next{0};
    const auto work = [&] {
        for (long n = next++; n < options.documents; n = next++) {
            const auto since = std::chrono::steady_clock::now();
            const long index = options.from + n;
            const Json document = random_document(options.seed, static_cast<std::uint64_t>(index));
            const std::vector<Breach> breaches =
                breaches_of(document, Noise(options.seed + 1, static_cast<std::uint64_t>(index)),
                            options.quick ? kQuick : Effort{});
            const std::chrono::duration<double> spent = std::chrono::steady_clock::now() - since;
            tally.add(index, document, breaches, spent.count());
        }
    };
    std::vector<std::thread> threads;
    for (int i = 0; i < options.jobs; ++i) threads.emplace_back(work);
    for (std::thread& thread : threads) thread.join();
    return tally.print();
}
