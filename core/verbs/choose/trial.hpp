// core/verbs/choose/trial.hpp -- the wishes that are tried on a tube, one by one, for the verb
// `suits`.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "core/choose/grid.hpp"
#include "core/choose/merit.hpp"
#include "core/verbs/choose/suits.hpp"

namespace canewright {

// A wish that has been laid out, with its merits where it is carried.
struct Carried {
    Wish wish;
    Document document;
    LaidOut laid;
    std::vector<Merit> merits;
    double score = 0.0;
};

// What came of a wish; goes to a page and comes back as JSON.
struct WishVerdict {
    std::size_t wish = 0;  // of Trial::grid
    enum class Outcome { carried, limits, too_short } outcome = Outcome::limits;
    double value = 0.0;    // the score; the worst note [cents]; the sounding length [bores]
    double foot_mm = 0.0;  // where it is carried, as it is typed
};

// {"wish","score","foot_mm"} or {"wish","worst_cents"} or {"wish","bores"}; what is no number is
// null.
Json verdict_json(const WishVerdict& verdict);

// The bare tube of a document, and the grid of wishes for it (core/choose/grid), the document's own
// scale and holes among them.
class Trial {
   public:
    explicit Trial(const Document& document);
    Trial(const Trial&) = delete;  // wishes point into it
    Trial& operator=(const Trial&) = delete;

    // Numbers of wishes, those first whose sounding length is nearest to the middle of what small
    // flutes have: soon there is a good one.
    std::vector<std::size_t> order() const;
    double bores(const Wish& wish) const;
    WishVerdict verdict(std::size_t wish) const;
    // `carried_only`: where it is not, nothing is asked but that.
    Carried laid(std::size_t wish, bool carried_only) const;
    bool is_own(const Wish& wish) const;

    Document tube;
    Flute whole;
    Air air;
    double whole_Hz = 0.0;  // 0: it does not speak
    double a4_Hz = 0.0, tolerance_cents = 0.0;
    std::optional<Scale> own_scale;
    int own_holes = 0;
    std::vector<Wish> grid;
};

// With the breath of their lowest notes, and their scores anew.
void add_breath(std::vector<Carried>& choices);
// The best first; of equals those that came first.
void order_by_score(std::vector<Carried>& choices);

Json wish_json(const Wish& wish);
Json choice_json(const Carried& choice);

}  // namespace canewright
