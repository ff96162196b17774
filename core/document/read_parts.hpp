// core/document/read_parts.hpp -- the parts of read.cpp. Only its own files include this.
//
// Where a value that must be there is not, or is wrong, the parts leave NaN: the violation is
// noted, and the checks between values (check.cpp) let NaN pass.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/document/document.hpp"
#include "core/document/fields.hpp"

namespace canewright {

TubeEntry read_tube(Fields& fields);
SoundHoleEntry read_sound_hole(Fields& fields);
std::optional<BlockEntry> read_block(Fields& fields);
std::vector<HoleEntry> read_finger_holes(Fields& fields);
std::vector<NoteEntry> read_notes(Fields& fields);
SongEntry read_song(Fields& fields);
ShopEntry read_shop(Fields& fields);
std::vector<LogEntry> read_log(Fields& fields);

// A key in mm as metres.
std::optional<double> read_mm(Fields& fields, const char* key, Range range_mm);
double need_mm(Fields& fields, const char* key, Range range_mm);

// A list of open holes: whole numbers, none twice. Which numbers exist is checked in check.cpp.
Fingering read_open(const Json& node, const std::string& path, Faults& faults);
Fingering need_open(Fields& fields);

// Violations between values: order, overlap, what exceeds what, numbers of holes.
void check_document(const Document& document, Faults& faults);

}  // namespace canewright
