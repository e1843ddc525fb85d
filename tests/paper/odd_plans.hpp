// Plans that no shop would write, but might: names of sixty letters, words of forty, Greek, Cyrillic and the signs of
// East Asia, notes of four lines, plugs of fifty cavities, two hundred checks or none. The same seed gives the same
// text.
#pragma once
#include <cstdint>
#include <string>

std::string odd_plan(std::uint32_t seed);
