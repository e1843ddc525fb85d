#include "model/plan.hpp"

namespace loomsheet {

const Limit* limit_of(const Check& check, const std::string& row) {
    const Limit* for_all = nullptr;
    for (const Limit& limit : check.limits) {
        if (!row.empty() && limit.row == row) return &limit;
        if (limit.row.empty()) for_all = &limit;
    }
    return for_all;
}

} // namespace loomsheet
