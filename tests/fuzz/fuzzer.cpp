// The entry that libFuzzer calls.
#include "fuzz/take.hpp"
#include <cstddef>
#include <cstdint>

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    take({reinterpret_cast<const char*>(data), size});
    return 0;
}
