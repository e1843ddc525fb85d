// Whether what a plan names holds the fault that was put in.
#pragma once
#include "oracle/loom.hpp"

namespace oracle {

class Blame {
public:
    Blame(const Loom& loom, const Fault& fault);
    bool by(const Verdict& verdict) const;
    // What a stop names itself, where the plan says so.
    bool by(const Target& target) const;

private:
    const Loom& loom_;
    const Fault& fault_;
    std::vector<int> branches_; // of the fault, that carry current through

    bool names(const Point& point) const;
    bool lies_between(const Point& from, const Point& to) const;
};

} // namespace oracle
