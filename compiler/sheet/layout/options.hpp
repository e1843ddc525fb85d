// What is asked of a sheet beyond its plan.
#pragma once
#include "faults/diagnosis.hpp"
#include "faults/planted.hpp"
#include "sheet/layout/template.hpp"

namespace loomsheet {

struct SheetOptions {
    std::optional<Paper> paper = std::nullopt;        // else the template's
    const Diagnosis* diagnosis = nullptr;             // who is suspect where; without it what the plan itself names
    const Prediction* prediction = nullptr;           // of sound cars
    const SheetTemplate* sheet = nullptr;             // else `workshop` in English; blocks of the proof need diagnosis and prediction
    const std::vector<PlantedCar>* planted = nullptr; // by plant: what the teacher's sheets print
};
} // namespace loomsheet
