// How long all readings of a plan take, with their ranges: in process, the plan compiled before.
#include "analysis/analysis.hpp"
#include "source/disk.hpp"
#include <algorithm>
#include <chrono>
#include <cstdio>
#include <vector>

using namespace loomsheet;

int main(int count, char** paths) {
    for (int i = 1; i < count; ++i) {
        Sources sources;
        RealDisk disk;
        const Analysis result = analyse(sources, disk, {paths[i]});
        if (!result.unreadable.empty() || !result.usable()) return 1;
        const Plan& plan = *result.plan;
        std::vector<double> times; // ms
        std::size_t rows = 0;
        for (int turn = 0; turn < 51; ++turn) {
            const auto begin = std::chrono::steady_clock::now();
            const Predictor sound(plan.circuit, system_volts(plan));
            const Prediction prediction = predict(plan, sound);
            times.push_back(std::chrono::duration<double, std::milli>(std::chrono::steady_clock::now() - begin).count());
            rows = 0;
            for (const CheckPrediction& check : prediction)
                rows += check.rows.empty() ? 1 : check.rows.size();
        }
        std::sort(times.begin(), times.end());
        std::printf("%-32s %3zu readings  %6.2f ms (fastest %.2f)\n", paths[i], rows, times[times.size() / 2], times.front());
    }
}
