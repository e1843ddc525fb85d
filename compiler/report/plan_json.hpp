// The compiled plan, for programs: everything a second opinion needs, and no result of ours.
#pragma once
#include "model/plan.hpp"
#include <nlohmann/json_fwd.hpp>

namespace loomsheet {

// Circuit, set-ups of the checks with their labels replaced, measures, rows, limits in force, outcomes with targets, verdicts, complaint,
// planted faults. Values in SI with the unit (V A W ohm m m2 s degC K 1 Hz rpm Pa Nm Ah) and the ± that is written (null: none).
nlohmann::ordered_json plan_json(const Plan& plan);
// What a fault is and where, as plan_json names things.
nlohmann::ordered_json fault_json(const Circuit& circuit, const Fault& fault);
// The table of usual values: by the words of the reference page, with unit, low, value and high.
nlohmann::ordered_json usual_json();

} // namespace loomsheet
