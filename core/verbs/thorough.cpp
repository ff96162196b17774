// core/verbs/thorough.cpp -- the verbs `layout` and `marks` of the workshop: thorough.
#include "core/layout/thorough.hpp"

#include "core/task/task.hpp"
#include "core/verbs/answer.hpp"

namespace canewright {

Json thorough_layout(const Document& document) {
    return layout_of(document, thorough(layout_task(document)), Explain::yes);
}

Json thorough_marks(const Document& document) {
    return layout_of(document, thorough(layout_task(document)), Explain::no);
}

}  // namespace canewright
