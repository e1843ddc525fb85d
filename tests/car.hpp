// A plan as a car that is measured: its checks are read, sound or with one of its planted faults. What its named
// set-ups say is how it was used before.
#pragma once
#include "circuit/reading.hpp"
#include "model/build.hpp"
#include "model/change.hpp"
#include "source/render.hpp"
#include "syntax/parse.hpp"
#include <doctest/doctest.h>
#include <memory>
#include <string>

struct Car {
    explicit Car(const std::string& text) {
        loomsheet::Findings findings;
        std::vector<loomsheet::Tree> trees;
        trees.push_back(loomsheet::parse(sources, sources.add("test.plan", text), findings));
        plan = loomsheet::build(sources, trees, findings);
        for (const auto& finding : findings.list())
            CHECK_MESSAGE(loomsheet::severity_of(finding) != loomsheet::Severity::error, finding.says);
        for (const auto& named : plan.setups)
            used.push_back(named.setup);
    }

    const loomsheet::Check& check(const std::string& label) const {
        for (const auto& each : plan.checks)
            if (each.label == label) return each;
        FAIL("no check " << label);
        return plan.checks.front();
    }
    // Empty: sound.
    std::unique_ptr<loomsheet::Predictor> with(const std::string& fault) const {
        const double volts = loomsheet::system_volts(plan);
        auto sound = std::make_unique<loomsheet::Predictor>(plan.circuit, volts);
        if (fault.empty()) return sound;
        for (const auto& plant : plan.plants)
            if (plant.label == fault) return std::make_unique<loomsheet::Predictor>(*sound, plant.fault, used);
        FAIL("no fault " << fault);
        return nullptr;
    }
    loomsheet::Reading read(const std::string& label, const std::string& fault = {}, std::size_t row = 0) const {
        const auto& asked = check(label);
        return with(fault)->read(asked.with, asked.measure, asked.rows.at(row));
    }
    double value(const std::string& label, const std::string& fault = {}, std::size_t row = 0) const {
        const auto reading = read(label, fault, row);
        CHECK_MESSAGE(reading.kind == loomsheet::ReadingKind::number, label, " ", fault);
        return reading.value;
    }
    // The first state of a look.
    loomsheet::Truth looks(const std::string& label, const std::string& fault = {}) const {
        const auto& asked = check(label);
        return with(fault)->looks(asked.with, asked.look_states.list.at(0));
    }
    std::vector<std::string> blown(const std::string& fault) const {
        std::vector<std::string> names;
        const auto car = with(fault);
        for (const auto part : car->blown_before())
            names.push_back(plan.circuit.parts[part].id);
        return names;
    }

    loomsheet::Sources sources;
    loomsheet::Plan plan;
    std::vector<loomsheet::Setup> used;
};
