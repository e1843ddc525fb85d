#include "drawing/place/order.hpp"
#include "drawing/place/crossings.hpp"
#include "drawing/place/packing.hpp"
#include <algorithm>
#include <cstdlib>

namespace loomsheet::drawing {
namespace {

constexpr double crossing_price = 60, width_price = 1.5, over_price = 8, disorder_price = 0.2, apart_price = 14;
constexpr double page_slack = 1.06; // the last placing of columns saves about so much of the width
constexpr int sweeps = 2, rounds = 6, longest_run = 4;
constexpr long least_effort = 40, usual_size = 80; // nodes: larger circuits are searched less, each try being dearer

// Crossing reduction by sifting: each block, then each short run of blocks, is put where the order costs least.
class Search {
public:
    Search(const Ruler& ruler, Layered& layered, double page_width, long effort)
        : layered_(layered), nodes_(layered.scheme.nodes), page_width_(page_width), nets_(nets_of(layered)), blocks_(blocks_of(layered)),
          neighbours_(neighbours_of(layered)), bodies_(ruler, layered), packing_(layered, blocks_, bodies_, neighbours_),
          place_(blocks_.count()),
          budget_(std::max(least_effort, effort * usual_size / std::max(usual_size, static_cast<long>(nodes_.size())))) {}

    Order run() {
        std::vector<int> best = depth_first(layered_, blocks_, neighbours_);
        first_place_.resize(blocks_.count());
        for (int i = 0; i < blocks_.count(); ++i)
            first_place_[best[i]] = i;
        double least = cost(best);
        std::vector<int> reversed(best.rbegin(), best.rend()), halves(best);
        std::rotate(halves.begin(), halves.begin() + static_cast<long>(halves.size() / 2), halves.end());
        for (std::vector<int> start : {best, reversed, halves}) {
            blocks_.keep_fixed_left(start);
            double price = cost(start);
            sift(start, price, 1);
            if (price < least) least = price, best = start;
        }
        for (bool better = true; better && spent_ < budget_;) {
            const double before = least;
            for (int run = 1; run <= longest_run; ++run)
                sift(best, least, run);
            better = least < before - 1e-9;
        }
        cost(best);
        return result(best);
    }

private:
    double cost(const std::vector<int>& order) {
        ++spent_;
        for (int i = 0; i < blocks_.count(); ++i)
            place_[order[i]] = i;
        bodies_.arrange_ports(blocks_, neighbours_, place_);
        packing_.pack(order);
        for (int i = 0; i < sweeps; ++i)
            packing_.sweep(order);
        return price(order);
    }

    double price(const std::vector<int>& order) {
        double sum = 0;
        long crossed = 0;
        for (const auto& channel : nets_) {
            crossings_.clear();
            for (const Net& net : channel) {
                uppers_.clear(), lowers_.clear();
                for (const auto& [node, port] : net.uppers)
                    uppers_.push_back(packing_.x_of(node, port));
                for (const auto& [node, port] : net.lowers)
                    lowers_.push_back(packing_.x_of(node, port));
                crossings_.add(uppers_, lowers_);
            }
            sum += crossings_.bar_price();
            crossed += crossings_.count();
        }
        const double width = packing_.width();
        sum += crossing_price * static_cast<double>(crossed) + width_price * width +
               over_price * std::max(0.0, width - page_width_ * page_slack);
        for (int i = 0; i < blocks_.count(); ++i)
            sum += disorder_price * std::abs(first_place_[order[i]] - i);
        return sum + apart_price * static_cast<double>(split_grounds(order));
    }
    // Grounds of one point that do not stand side by side.
    int split_grounds(const std::vector<int>& order) const {
        int count = 0;
        PartId last = none;
        bool any = false;
        for (const int block : order)
            for (const int n : blocks_.members[block])
                if (nodes_[n].kind == NodeKind::ground) {
                    count += !any || nodes_[n].part != last;
                    last = nodes_[n].part, any = true;
                }
        return count;
    }

    // Takes each run of blocks out and puts it where the order costs least.
    void sift(std::vector<int>& order, double& least, int run) {
        bool better = true;
        for (int round = 0; better && round < rounds && spent_ < budget_; ++round) {
            better = false;
            for (int block = 0; block < blocks_.count() && spent_ < budget_; ++block) {
                const auto found = std::find(order.begin(), order.end(), block);
                const long from = found - order.begin();
                if (from + run > static_cast<long>(order.size())) continue;
                std::vector<int> rest(order), taken(found, found + run);
                rest.erase(rest.begin() + from, rest.begin() + from + run);
                std::vector<int> best;
                for (long to = 0; to <= static_cast<long>(rest.size()); ++to) {
                    if (to == from) continue;
                    std::vector<int> trial(rest);
                    trial.insert(trial.begin() + to, taken.begin(), taken.end());
                    blocks_.keep_fixed_left(trial);
                    if (trial == order) continue;
                    if (const double price = cost(trial); price < least - 1e-9) least = price, best = trial;
                }
                if (!best.empty()) order = best, better = true;
            }
            if (run > 1) break;
        }
    }

    Order result(const std::vector<int>& order) {
        Order made;
        made.block = blocks_.of;
        made.place = place_;
        made.width = packing_.width();
        made.rows.resize(layered_.layers);
        for (const int block : order)
            for (const int n : blocks_.members[block])
                made.rows[nodes_[n].layer].push_back(n);
        bodies_.number_pins();
        return made;
    }

    const Layered& layered_;
    const std::vector<Node>& nodes_;
    double page_width_;
    std::vector<std::vector<Net>> nets_;
    Blocks blocks_;
    Neighbours neighbours_;
    Bodies bodies_;
    Packing packing_;
    std::vector<int> first_place_, place_; // by block
    Crossings crossings_;
    std::vector<double> uppers_, lowers_; // of one net
    long spent_ = 0, budget_ = 0;
};

} // namespace

Order find_order(const Ruler& ruler, Layered& layered, double page_width, long effort) {
    return Search(ruler, layered, page_width, effort).run();
}

} // namespace loomsheet::drawing
