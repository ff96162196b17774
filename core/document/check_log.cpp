// core/document/check_log.cpp -- violations in the log: what cannot have happened in this order.
#include <cmath>
#include <map>

#include "core/document/asked.hpp"
#include "core/document/check_parts.hpp"

namespace canewright {

namespace {

// As it was cut: where, and how wide where that is known.
struct CutHole {
    double at_m = 0.0, size_m = 0.0;
};

class LogCheck {
   public:
    LogCheck(const Document& document, Faults& faults)
        : document_(document),
          faults_(faults),
          planned_(planned_holes(document).value_or(static_cast<int>(limit::kHoles))) {
        if (document.sound_hole) voice_m_ = document.sound_hole->length_m;
        if (document.foot_plug) disc_m_ = thickness_m(*document.foot_plug);
    }

    void check(const LogEntry& entry, const std::string& path) {
        switch (entry.what) {
            case Happened::read:
                return check_read(entry, path + ".read.open");
            case Happened::foot:
                return check_foot(entry, path + ".foot.at_mm");
            case Happened::hole:
                return check_hole(entry, path + ".hole");
            case Happened::undercut:
                return check_cut(entry, path + ".undercut.number");
            case Happened::narrow:
                return check_narrow(entry, path + ".narrow");
            case Happened::sound_hole:
                return check_sound_hole(entry, path + ".sound_hole");
            case Happened::foot_plug:
                return check_foot_plug(entry, path + ".foot_plug");
            case Happened::block_moved:
                return;
            case Happened::bore_sealed:
                return;
            case Happened::breath:
                return check_read(entry, path + ".breath.open");
        }
    }

   private:
    // Only what is cut can be open, undercut or narrowed. The limit is how many are planned.
    void check_number(int number, const std::string& path) {
        if (cut_.count(number) > 0) return;
        faults_.add(violation(Code::bad_hole_number, path, number, planned_));
    }
    void check_cut(const LogEntry& entry, const std::string& path) {
        check_number(entry.number, path);
    }
    void check_read(const LogEntry& entry, const std::string& path) {
        for (std::size_t i = 0; i < entry.open.size(); ++i) {
            check_number(entry.open[i], path + "[" + std::to_string(i) + "]");
        }
    }
    void check_narrow(const LogEntry& entry, const std::string& path) {
        check_number(entry.number, path + ".number");
        const auto cut = cut_.find(entry.number);
        if (cut != cut_.end()) check_diameter(entry, path, cut->second.at_m);
    }
    void check_diameter(const LogEntry& entry, const std::string& path, double at_m) {
        const double widest_m = widest_hole_m(document_, at_m);
        if (exceeds(entry.diameter_m.value_or(0.0), widest_m)) {
            add_mm(faults_, Code::too_large, path + ".diameter_mm", *entry.diameter_m, widest_m);
        }
    }
    void check_hole(const LogEntry& entry, const std::string& path) {
        check_diameter(entry, path, entry.at_m);
        if (entry.number < 1 || entry.number > planned_) {
            faults_.add(violation(Code::bad_hole_number, path + ".number", entry.number, planned_));
            return;
        }
        // Numbers count from the sound hole, so that positions must rise with them.
        for (const auto& [number, other] : cut_) {
            const bool wrong = number < entry.number   ? entry.at_m <= other.at_m
                               : number > entry.number ? entry.at_m >= other.at_m
                                                       : false;
            if (wrong) {
                add_mm(faults_, Code::out_of_order, path + ".at_mm", entry.at_m, other.at_m);
                cut_[entry.number] = {entry.at_m, size_m(entry)};
                return;
            }
        }
        const CutHole hole{entry.at_m, size_m(entry)};
        for (const auto& [number, other] : cut_) {  // two that cut into each other are one
            const double apart_m = 0.5 * (hole.size_m + other.size_m);
            if (number == entry.number || !exceeds(apart_m, std::abs(entry.at_m - other.at_m)))
                continue;
            add_mm(faults_, Code::overlap, path + ".at_mm", entry.at_m,
                   other.at_m + (number < entry.number ? apart_m : -apart_m));
            break;
        }
        const double least_m = entry.at_m + voice_m_ - room_above_m(entry.number, hole);
        if (exceeds(least_m, entry.at_m))
            add_mm(faults_, Code::too_small, path + ".at_mm", entry.at_m, least_m);
        if (const auto end_m = end()) {
            const double most_m = *end_m - disc_m_ - below_m(entry.number, hole) + entry.at_m;
            if (exceeds(entry.at_m, most_m))
                add_mm(faults_, Code::too_large, path + ".at_mm", entry.at_m, most_m);
        }
        cut_[entry.number] = hole;
    }
    // However small they be, the holes that are still to come need room: from the sound hole down
    // to this one, and from this one to the disc in the foot.
    double room_above_m(int number, const CutHole& hole) const {
        return hole.at_m - 0.5 * hole.size_m - kLeastRoom_m * (number - 1);
    }
    double below_m(int number, const CutHole& hole) const {
        return hole.at_m + 0.5 * hole.size_m + kLeastRoom_m * (planned_ - number);
    }
    std::optional<double> end() const {
        std::optional<double> end_m = document_.tube ? document_.tube->end_m : std::nullopt;
        if (foot_m_) end_m = std::min(end_m.value_or(*foot_m_), *foot_m_);
        return end_m;
    }
    // As thick as the one before, where nothing else is said.
    double thickness_m(const FootPlugEntry& disc) const {
        return disc.thickness_m.value_or(disc_m_ > 0.0 ? disc_m_ : kFootPlugThickness_m);
    }
    // One that is not measured has the planned size.
    double size_m(const LogEntry& entry) const {
        const auto index = static_cast<std::size_t>(entry.number - 1);
        if (entry.diameter_m) return *entry.diameter_m;
        if (!document_.finger_holes || index >= document_.finger_holes->size()) return 0.0;
        return (*document_.finger_holes)[index].diameter_m;
    }
    void check_foot(const LogEntry& entry, const std::string& path) {
        for (const auto& [number, hole] : cut_) {
            const double least_m = below_m(number, hole) + disc_m_;
            if (exceeds(least_m, entry.at_m)) {
                add_mm(faults_, Code::too_small, path, entry.at_m, least_m);
                break;
            }
        }
        foot_m_ = entry.at_m;
    }
    void check_sound_hole(const LogEntry& entry, const std::string& path) {
        const double bore_m = widest_bore_m(document_, 0.5 * entry.length_m);
        if (exceeds(entry.width_m, bore_m)) {
            add_mm(faults_, Code::too_large, path + ".width_mm", entry.width_m, bore_m);
        }
        if (document_.block) {  // which may overhang the opening, but not close it
            const double least_m = -document_.block->front_m.value_or(0.0);
            if (entry.length_m <= least_m)
                add_mm(faults_, Code::too_small, path + ".length_mm", entry.length_m, least_m);
        }
        for (const auto& [number, hole] : cut_) {
            const double most_m = room_above_m(number, hole);
            if (exceeds(entry.length_m, most_m)) {
                add_mm(faults_, Code::too_large, path + ".length_mm", entry.length_m, most_m);
                break;
            }
        }
        voice_m_ = entry.length_m;
    }
    void check_foot_plug(const LogEntry& entry, const std::string& path) {
        const auto end_m = document_.tube ? document_.tube->end_m : std::nullopt;
        const double bore_m = widest_bore_m(document_, end_m.value_or(0.0));
        if (exceeds(entry.foot_plug.opening_m, bore_m)) {
            add_mm(faults_, Code::too_large, path + ".opening_mm", entry.foot_plug.opening_m,
                   bore_m);
        }
        disc_m_ = thickness_m(entry.foot_plug);
        const auto foot_m = end();
        for (const auto& [number, hole] : cut_) {
            const double most_m = foot_m ? *foot_m - below_m(number, hole) : disc_m_;
            if (exceeds(disc_m_, most_m)) {
                add_mm(faults_, Code::too_large, path + ".thickness_mm", disc_m_, most_m);
                break;
            }
        }
    }

    const Document& document_;
    Faults& faults_;
    int planned_;
    std::map<int, CutHole> cut_;
    double voice_m_ = 0.0, disc_m_ = 0.0;  // length of the sound hole, thickness of the disc
    std::optional<double> foot_m_;         // where it was last sawn
};

}  // namespace

void check_log(const Document& document, Faults& faults) {
    if (!document.log) return;
    LogCheck log(document, faults);
    for (std::size_t i = 0; i < document.log->size(); ++i) {
        log.check((*document.log)[i], "log[" + std::to_string(i) + "]");
    }
}

}  // namespace canewright
