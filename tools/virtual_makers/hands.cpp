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

}  // namespace

Hands::Hands(const Blank& blank, Random& random, bool mishaps)
    : flute_(blank.truth),
      measures_(blank.measures),
      random_(random),
      room_C_(blank.first_room_C),
      warm_C_(blank.first_room_C + kWarming_C),
      thermometer_C_(blank.thermometer_C) {
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

double Hands::blow_Hz(const std::vector<int>& open) {
    return shifted_Hz(true_Hz(open), normal(random_, kReading_cents));
}

Attempts Hands::read(const std::vector<int>& open) {
    std::vector<double> heard;
    for (int n = 0; n < 3; ++n) {
        double Hz = blow_Hz(open);
        if (reads_ == cold_read_) Hz *= sounding_Hz(flute_, open, room_C_, 0.1) / true_Hz(open);
        if (reads_ == jump_read_) Hz = shifted_Hz(2.0 * Hz, 12.0);
        heard.push_back(Hz);
    }
    ++reads_;
    return combine(heard, kReading_cents);
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

Hands::Opened Hands::open_until(int number, const std::vector<int>& open, double stop_Hz) {
    Opened done;
    std::vector<Blow> blows{{0.0, blow_Hz(open)}};
    for (;;) {
        done.last = advise(blows, stop_Hz, kReading_cents);
        double strokes = 0.0;
        if (done.last.what == Stroke::stop || done.strokes > kMostStrokesInAll ||
            blows.size() > kMostBlows)
            break;
        if (done.last.what == Stroke::more)
            for (int n = 0; n < done.last.count; ++n, strokes += 1.0) stroke(number, 1.0);
        if (done.last.what == Stroke::light) stroke(number, kLightStroke), strokes = kLightStroke;
        done.strokes += static_cast<int>(std::ceil(strokes));
        blows.push_back({strokes, blow_Hz(open)});
    }
    if (done.strokes > 0) ++cuts_;
    if (number == 0) done.foot_m = flute_.foot_m + normal(random_, measures_.ruler_m);
    return done;
}

}  // namespace virtual_makers
