// core/layout/thorough.cpp: what a layout is worth at its best.
#include "core/layout/thorough.hpp"

#include "core/layout/octaves.hpp"
#include "core/layout/placement.hpp"

namespace canewright {

LayoutTask thorough(LayoutTask task) {
    task.octaves = octaves_for(task);
    task.count_anew = place_counting;
    task.stands_on_edge = stands_on_edge;
    task.look_beside = look_beside;
    return task;
}

}  // namespace canewright
