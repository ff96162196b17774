// tools/virtual_makers/hands.cpp: the errors of hands, with their sizes.
#include "tools/virtual_makers/hands.hpp"

#include <algorithm>
#include <cmath>

#include "core/base/units.hpp"

namespace virtual_makers {
namespace {

using namespace canewright;

constexpr double kStepsToWarm = 35.0;      // the room has warmed after so many steps
constexpr double kHoleStroke_m = 0.05e-3;  // on the diameter; a knife or a rolled sandpaper
constexpr double kFootStroke_m = 0.20e-3;  // rubbed on a sheet of sandpaper
constexpr double kUnevenStrokes = 0.45;    // of the logarithm
constexpr double kNarrowing_m = 0.1e-3;    // how well a hole is narrowed to a size
constexpr int kMostStrokesInAll = 150;
constexpr std::size_t kMostBlows = 150;

Known known_of(const Until& until) {
    return {until.now_Hz, until.now_sigma_cents, until.moment_cents};
}

}  // namespace

Hands::Hands(const Blank& blank, Random& random, bool mishaps)
    : flute_(blank.truth),
      measures_(blank.measures),
      habits_(blank.habits),
      random_(random),
      room_C_(blank.first_room_C),
      warm_C_(blank.first_room_C + kWarming_C),
      thermometer_C_(blank.thermometer_C) {
    for (double* sigma_m :
         {&measures_.ruler_m, &measures_.saw_m, &measures_.bit_m, &measures_.size_m})
        *sigma_m *= habits_.hands;
    const double cold = uniform(random, 0.0, 14.0), jump = uniform(random, 0.0, 14.0);
    if (!mishaps) return;
    cold_read_ = static_cast<int>(cold);
    jump_read_ = static_cast<int>(jump);
    if (jump_read_ == cold_read_) ++jump_read_;
}

void Hands::let_time_pass() { room_C_ = std::min(room_C_ + kWarming_C / kStepsToWarm, warm_C_); }

double Hands::true_Hz(const std::vector<int>& open) const {
    for (auto& [known, Hz] : sounded_)
        if (known == open) {
            Hz = sounding_Hz(flute_, open, room_C_, 1.0, Hz);
            return Hz;
        }
    sounded_.push_back({open, sounding_Hz(flute_, open, room_C_)});
    return sounded_.back().second;
}

double Hands::note_cents(const std::vector<int>& open) {
    for (const auto& [known, cents] : note_cents_)
        if (known == open) return cents;
    note_cents_.push_back({open, normal(random_, habits_.note_cents)});
    return note_cents_.back().second;
}

double Hands::blow_Hz(const std::vector<int>& open, double shared_cents) {
    const double Hz = shifted_Hz(true_Hz(open), shared_cents + normal(random_, habits_.blow_cents));
    if (habits_.kind != Kind::first_sight) return Hz;
    // a meter that shows the note's name and whole cents
    constexpr double kA4_Hz = 440.0;
    return shifted_Hz(kA4_Hz, std::round(cents_between(Hz, kA4_Hz)));
}

Attempts Hands::read(const std::vector<int>& open) {
    std::vector<double> heard;
    const double shared = note_cents(open) + normal(random_, habits_.moment_cents);
    for (int n = 0; n < 3; ++n) {
        double Hz = blow_Hz(open, shared);
        if (reads_ == cold_read_) Hz *= sounding_Hz(flute_, open, room_C_, 0.1) / true_Hz(open);
        if (reads_ == jump_read_) Hz = shifted_Hz(2.0 * Hz, 12.0);
        heard.push_back(Hz);
    }
    ++reads_;
    const Attempts attempts = combine(heard, scatter_);
    scatter_ = attempts.scatter;
    return attempts;
}

double Hands::saw(double at_m) {
    ++cuts_;
    const double marked_m = at_m + normal(random_, measures_.ruler_m);
    flute_.foot_m = std::min(flute_.foot_m, marked_m + normal(random_, measures_.saw_m));
    sounded_.clear();
    return at_m;
}

void Hands::drill(int number, double at_m, double bit_m) {
    ++cuts_;
    TrueHole& hole = flute_.holes[static_cast<std::size_t>(number - 1)];
    hole.cut = true;
    hole.at_m = at_m + normal(random_, measures_.ruler_m);
    hole.diameter_m = bit_m + normal(random_, measures_.bit_m);
    sounded_.clear();
}

void Hands::narrow(int number, double diameter_m) {
    flute_.holes[static_cast<std::size_t>(number - 1)].diameter_m =
        diameter_m + normal(random_, kNarrowing_m);
    sounded_.clear();
}

void Hands::close_foot(double opening_m, double thickness_m) {
    flute_.disc_opening_m = opening_m > 0.0 ? opening_m + normal(random_, measures_.bit_m) : 0.0;
    flute_.disc_thickness_m = thickness_m;
    sounded_.clear();
}

double Hands::measured_hole_m(int number) {
    return flute_.holes[static_cast<std::size_t>(number - 1)].diameter_m +
           normal(random_, measures_.size_m);
}

void Hands::stroke(int number, double strength) {
    const double uneven = std::exp(normal(random_, kUnevenStrokes));
    if (number == 0) {
        flute_.foot_m -= strength * uneven * kFootStroke_m;
    } else {
        TrueHole& hole = flute_.holes[static_cast<std::size_t>(number - 1)];
        hole.diameter_m =
            std::min(hole.diameter_m + strength * uneven * kHoleStroke_m, 0.9 * flute_.bore_m);
    }
}

std::vector<Blow> Hands::by_advice(int number, const Until& until, Opened& done) {
    const std::vector<int>& open = until.open;
    const double shared = note_cents(open) + normal(random_, habits_.moment_cents);
    std::vector<Blow> blows{{0.0, blow_Hz(open, shared)}};
    for (;;) {
        const StrokeAdvice advice = advise(blows, until.stop_Hz, scatter_, known_of(until));
        double strokes = 0.0;
        if (advice.what == Stroke::stop || done.strokes > kMostStrokesInAll ||
            blows.size() > kMostBlows)
            return blows;
        if (advice.what == Stroke::more)
            for (int n = 0; n < advice.count; ++n, strokes += 1.0) stroke(number, 1.0);
        if (advice.what == Stroke::light) stroke(number, kLightStroke), strokes = kLightStroke;
        done.strokes += static_cast<int>(std::ceil(strokes));
        blows.push_back({strokes, blow_Hz(open, shared)});
    }
}

std::vector<Blow> Hands::at_first_sight(int number, const Until& until, Opened& done) {
    const std::vector<int>& open = until.open;
    constexpr double kFar_cents = 20.0;  // from where on more than one stroke is made at once
    const double shared = note_cents(open) + normal(random_, habits_.moment_cents);
    std::vector<Blow> blows{{0.0, blow_Hz(open, shared)}};
    while (done.strokes < kMostStrokesInAll && blows.size() < kMostBlows) {
        const double to_go = cents_between(until.stop_Hz, blows.back().frequency_Hz);
        if (to_go <= 0.5) return blows;  // whole cents: it shows the pitch
        for (int n = to_go > kFar_cents ? 3 : 1; n > 0; --n, ++done.strokes) stroke(number, 1.0);
        blows.push_back({0.0, blow_Hz(open, shared)});
    }
    return blows;
}

// A knife that slips, once a hole at most, when it is first opened.
bool Hands::slips(int number) {
    if (number == 0 || std::find(opened_.begin(), opened_.end(), number) != opened_.end())
        return false;
    opened_.push_back(number);
    if (!(habits_.spoils > 0.0) || uniform(random_, 0.0, 1.0) >= habits_.spoils) return false;
    flute_.holes[static_cast<std::size_t>(number - 1)].diameter_m *= uniform(random_, 1.06, 1.16);
    return true;
}

Hands::Opened Hands::open_until(int number, const Until& until) {
    const std::vector<int>& open = until.open;
    Opened done;
    const std::vector<Blow> blows = habits_.kind == Kind::first_sight
                                        ? at_first_sight(number, until, done)
                                        : by_advice(number, until, done);
    done.last = advise(blows, until.stop_Hz, scatter_, known_of(until));
    done.first = before_strokes(blows, scatter_, done.last.opened_untold);
    scatter_ = done.last.scatter;
    ++openings_;
    if (slips(number)) {
        ++done.strokes;
        const Attempts after = read(open);
        done.last.frequency_Hz = after.frequency_Hz;
        done.last.sigma_cents = after.sigma_cents;
    }
    if (done.strokes > 0) ++cuts_;
    if (number == 0) done.foot_m = flute_.foot_m + normal(random_, measures_.ruler_m);
    return done;
}

}  // namespace virtual_makers
