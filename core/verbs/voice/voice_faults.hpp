// core/verbs/voice/voice_faults.hpp -- what is heard of a voice that does not speak well, and what
// to look at, in which order.
#pragma once

#include "core/verbs/voice/voice_parts.hpp"

namespace canewright {

// Whether a cause is tried out with nothing lost, mended by adding (wax, a shim that is glued), or
// takes material away for good.
enum class Mending { reversible, adds, removes };

struct FaultCause {
    const char* code;
    Mending mending;
    double weight;  // how often it is the cause, where no number of the flute says more
    VoiceNumber number = VoiceNumber::none;
};

struct Fault {
    const char* symptom;
    std::vector<FaultCause> causes;
};

// Data. Common practice, no source; the weights are our judgement.
const std::vector<Fault>& voice_faults();

// [{"symptom","causes":[{"code","first","removes","number":{"what","path","value","limit","out","open"?}|
// null,"weight"}]}]: reversible causes first, then what adds, then what removes material; within
// each those whose number of this flute is out of range, the further the sooner, then by weight.
// `weight` is the one that the order goes by, `number` null where the flute's is not known.
Json faults_json(const VoiceCase& one);

}  // namespace canewright
