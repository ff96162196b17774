// tests/support/properties.cpp: the properties of one document's answers.
#include "tests/support/properties.hpp"

#include <cmath>
#include <sstream>

#include "core/api.hpp"
#include "core/base/units.hpp"
#include "core/document/read.hpp"
#include "core/layout/place_holes.hpp"
#include "core/task/task.hpp"
#include "core/verbs/taught.hpp"
#include "tests/support/random_documents.hpp"

namespace canewright::testing {

namespace {

template <typename... Parts>
std::string text(const Parts&... parts) {
    std::ostringstream out;
    (out << ... << parts);
    return out.str();
}

// What is no number where one belongs, by its key.
std::string not_a_number(const Json& tree, const std::vector<const char*>& keys) {
    for (const char* key : keys)
        if (!tree.contains(key) || !tree[key].is_number()) return key;
    return {};
}

double number(const Json& node) { return node.is_number() ? node.get<double>() : NAN; }

class Checks {
   public:
    Checks(const Json& document, bool asked_more) : document_(document), asked_more_(asked_more) {}

    Checked run() {
        const Json all = Json::parse(run_workshop("layout", document_.dump()), nullptr, false);
        if (!all.is_object() || !all.contains("answer")) {
            breach("answered", all.dump());
            return found_;
        }
        found_.layout = all["answer"];
        found_.converged = layout()["converged"].is_boolean() && layout()["converged"];
        finite();
        worst();
        sound();
        reason();
        plan();
        if (asked_more_) {
            spread();
            evaluations();
        }
        return found_;
    }

   private:
    const Json& layout() const { return found_.layout; }
    void breach(const char* property, const std::string& what) {
        found_.breaches.push_back({property, what});
    }

    void finite() {
        std::string missing = not_a_number(layout(), {"foot_mm"});
        for (const Json& hole : layout()["finger_holes"])
            if (missing.empty())
                missing = not_a_number(hole, {"at_mm", "diameter_mm", "inner_diameter_mm"});
        // one that is thicker than the format's is the tube's, which is given by its outside
        for (const Json& hole : layout()["finger_holes"])
            if (missing.empty() &&
                (hole.contains("wall_mm") || !layout()["tube"].contains("outer_mm")))
                missing = not_a_number(hole, {"wall_mm"});
        for (const Json& note : layout()["notes"])
            if (missing.empty()) missing = not_a_number(note, {"target_hz"});
        if (!missing.empty())
            breach("finite", text(missing, found_.converged ? ", converged" : ", not converged"));
    }

    // A note that does not speak has no pitch: then nothing is claimed of the whole.
    void worst() {
        double most_cents = 0.0;
        int silent = 0;
        for (const Json& note : layout()["notes"]) {
            if (note["hz"].is_number() && note["cents"].is_number())
                most_cents = std::max(most_cents, std::abs(number(note["cents"])));
            else
                ++silent;
        }
        found_.in_tune = silent == 0 && most_cents <= kReasonFrom_cents;
        const Json& said = layout()["worst_cents"];
        if (silent == 0 && !(std::abs(number(said) - most_cents) < 1e-6))
            breach("worst", text("worst_cents ", said.dump(), ", of the notes ", most_cents));
        if (silent > 0 && (found_.converged || said.is_number()))
            breach("worst", text(silent, " notes do not speak, worst_cents ", said.dump(),
                                 found_.converged ? ", converged" : ""));
    }

    void sound() {
        const Json all = Json::parse(run_workshop("sound", layout().dump()), nullptr, false);
        if (!all.contains("answer")) {
            breach("sound accepts", all.dump());
            return;
        }
        const Json& heard = all["answer"]["notes"];
        for (std::size_t n = 0; n < layout()["notes"].size(); ++n) {
            const double said_Hz = number(layout()["notes"][n]["hz"]);
            if (!std::isfinite(said_Hz)) continue;  // "finite" has said so
            const double heard_Hz = number(heard[n]["hz"]);
            const double off_cents = cents_between(heard_Hz, said_Hz);
            if (std::abs(off_cents) < kSoundAgrees_cents) continue;
            breach("sound agrees", text("note ", n, ": layout ", said_Hz, " Hz, sound ", heard_Hz,
                                        " Hz (", off_cents, " cents)"));
            return;
        }
    }

    // A note that does not speak is named by itself, and leaves no errors to lower.
    void reason() {
        if (!layout()["worst_cents"].is_number()) return;
        if (found_.in_tune || !layout()["binding"].empty()) return;
        breach("reason", text("worst ", number(layout()["worst_cents"]), " cents",
                              found_.converged ? "" : ", not converged"));
    }

    void plan() {
        if (!document_.contains("log") || document_["log"].empty()) return;
        const Json all = Json::parse(run_workshop("next", document_.dump()), nullptr, false);
        if (!all.contains("answer")) {
            breach("next answers", all.dump());
            return;
        }
        const Json& next = all["answer"];
        const Json &one = layout()["finger_holes"], &other = next["finger_holes"];
        std::string worst;
        double most_mm = kSamePlan_mm;
        const auto compare = [&](const std::string& what, const Json& a, const Json& b) {
            const double off_mm = std::abs(number(a) - number(b));
            if (off_mm < most_mm) return;
            if (std::isfinite(off_mm)) most_mm = off_mm;
            worst = text(what, ": layout ", a.dump(), ", next ", b.dump());
        };
        compare("foot", layout()["foot_mm"], next["foot_mm"]);
        if (one.size() != other.size()) worst = "another number of holes";
        for (std::size_t i = 0; i < std::min(one.size(), other.size()); ++i) {
            compare(text("place ", i + 1), one[i]["at_mm"], other[i]["at_mm"]);
            compare(text("size ", i + 1), one[i]["diameter_mm"], other[i]["diameter_mm"]);
        }
        if (!worst.empty()) breach("plan", worst);
    }

    void spread() {
        const Json all = Json::parse(run_workshop("spread", layout().dump()), nullptr, false);
        if (!all.contains("answer")) {
            breach("spread accepts", all.dump());
            return;
        }
        for (std::size_t n = 0; n < layout()["notes"].size(); ++n) {
            const Json &said = layout()["notes"][n], &spread = all["answer"]["notes"][n];
            if (!said["cents"].is_number() || !spread["hz"].is_number()) continue;
            const double off_cents = cents_between(number(spread["hz"]), number(said["hz"]));
            if (std::abs(off_cents) < kSoundAgrees_cents) continue;
            breach("spread agrees", text("note ", n, ": ", off_cents, " cents above layout"));
            return;
        }
    }

    void evaluations() {
        const ReadDocument read = read_document(document_.dump());
        if (is_taught(read.document)) return;
        found_.evaluations =
            place_holes(layout_task(read.document), bore_air(read.document)).evaluations;
        if (found_.evaluations > kMostEvaluations) breach("evaluations", text(found_.evaluations));
    }

    const Json& document_;
    const bool asked_more_;
    Checked found_;
};

}  // namespace

Checked check_properties(const Json& document, bool asked_more) {
    return Checks(document, asked_more).run();
}

std::vector<Breach> breaches_of(const Json& document, Noise noise, const Effort& effort) {
    Checked found = check_properties(document, noise.uniform() < effort.more);
    if (!found.layout.is_object()) return found.breaches;
    const auto add = [&found](const std::vector<Breach>& more) {
        found.breaches.insert(found.breaches.end(), more.begin(), more.end());
    };
    if (noise.uniform() < effort.nudged)
        add(check_continuity(document, found.layout, noise, effort.nudges));
    if (noise.uniform() < effort.swept) add(check_sweep(document, noise));
    return found.breaches;
}

}  // namespace canewright::testing
