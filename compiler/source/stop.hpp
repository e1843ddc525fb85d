// How whoever waits gives up: every long step asks now and then.
#pragma once
#include <stop_token>

namespace loomsheet {

using Stop = std::stop_token; // one that nobody holds never stops

struct Stopped {}; // thrown; what was being made is lost, nothing else is

inline void give_way(const Stop& stop) {
    if (stop.stop_requested()) throw Stopped();
}

} // namespace loomsheet
