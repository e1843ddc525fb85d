#include "sheet/digest.hpp"
#include <cstdint>
#include <fmt/format.h>

namespace loomsheet {

std::string digest(std::string_view printed) {
    std::uint64_t sum = 0xcbf29ce484222325U;
    for (const char byte : printed) {
        sum ^= static_cast<unsigned char>(byte);
        sum *= 0x100000001b3U;
    }
    return fmt::format("{:08X}", static_cast<std::uint32_t>(sum ^ (sum >> 32)));
}

} // namespace loomsheet
