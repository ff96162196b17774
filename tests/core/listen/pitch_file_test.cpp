// tests/core/listen/pitch_file_test.cpp -- hidden: reads frames made elsewhere, prints each pitch.
//
// For tools/reference/pitch_side_by_side.py, so that our tracker and another one hear the very same
// samples. CANEWRIGHT_FRAMES names the file: three 32-bit whole numbers (sample rate, samples per
// frame, frames), then the samples as 32-bit floats, all in the machine's own order.
#include <catch2/catch.hpp>
#include <cstdint>
#include <cstdio>
#include <cstdlib>
#include <fstream>
#include <vector>

#include "core/listen/pitch_frame.hpp"

namespace pitch_file_test {  // its own where tests are compiled together

TEST_CASE("pitch of frames from a file", "[.frames]") {
    const char* path = std::getenv("CANEWRIGHT_FRAMES");
    REQUIRE(path != nullptr);
    std::ifstream file(path, std::ios::binary);
    std::int32_t head[3] = {0, 0, 0};
    file.read(reinterpret_cast<char*>(head), sizeof head);
    REQUIRE(file.good());
    REQUIRE(head[1] > 0);
    std::vector<float> frame(static_cast<std::size_t>(head[1]));
    for (std::int32_t i = 0; i < head[2]; ++i) {
        file.read(reinterpret_cast<char*>(frame.data()),
                  static_cast<std::streamsize>(frame.size() * sizeof(float)));
        REQUIRE(file.good());
        const canewright::PitchFrame heard =
            canewright::pitch_frame(frame.data(), frame.size(), head[0]);
        std::printf("frame %d %.6f %s\n", static_cast<int>(i),
                    heard.tone ? heard.frequency_Hz : 0.0, canewright::name(heard.why_not));
    }
}

}  // namespace pitch_file_test
