// Stages that were made before, by what they were made of: a plan of which only the words have changed is not computed again.
#pragma once
#include "faults/matrix.hpp"
#include <list>
#include <memory>
#include <string>
#include <utility>

namespace loomsheet {

// The last few of one kind. Of one thread.
template <class Stage>
class KeptStages {
public:
    template <class Make>
    std::shared_ptr<const Stage> of(const std::string& made_of, Make&& make) {
        for (const auto& [key, stage] : kept_)
            if (key == made_of) return stage;
        kept_.emplace_front(made_of, std::make_shared<const Stage>(make()));
        if (kept_.size() > most) kept_.pop_back();
        ++made_;
        return kept_.front().second;
    }
    std::size_t made() const { return made_; } // as often as one was not there

private:
    static constexpr std::size_t most = 4;
    std::list<std::pair<std::string, std::shared_ptr<const Stage>>> kept_; // the newest first
    std::size_t made_ = 0;
};

struct Kept {
    KeptStages<Prediction> predictions;
    KeptStages<Matrix> matrices;
};

} // namespace loomsheet
