#include "drawing/order.hpp"
#include <algorithm>
#include <cmath>
#include <numeric>

namespace loomsheet::drawing {
namespace {

constexpr double crossing_price = 60, bar_price = 4, width_price = 1.5, over_price = 8, disorder_price = 0.2,
                 apart_price = 14;
constexpr int sweeps = 2;
constexpr long least_effort = 40, usual_size = 80; // nodes: larger circuits are searched less, each try being dearer

// Node by node what the reckoning needs: quick, for it is done some thousand times.
struct Body {
    int layer = 0, block = 0;
    double left = 0, right = 0; // from the node's own x, with all words
    std::vector<double> offset; // of its columns
};

class Search {
public:
    Search(const Ruler& ruler, Layered& layered, double page_width, long effort)
        : layered_(layered), page_width_(page_width), nodes_(layered.scheme.nodes) {
        take_sizes(ruler);
        nets_ = nets_of(layered);
        make_blocks();
        make_bodies();
        list_neighbours();
        budget_ = std::max(least_effort, effort * usual_size / std::max(usual_size, static_cast<long>(nodes_.size())));
    }

    Order run() {
        std::vector<int> best = first_order();
        double least = cost(best);
        std::vector<int> turned(best.rbegin(), best.rend());
        for (std::vector<int> start : {best, turned, halves(best)}) {
            keep_fixed_left(start);
            double price = cost(start);
            sift(start, price, 1);
            if (price < least) least = price, best = start;
        }
        for (bool better = true; better && spent_ < budget_;) {
            const double before = least;
            sift(best, least, 1);
            for (int run = 2; run <= 4; ++run)
                sift(best, least, run);
            better = least < before - 1e-9;
        }
        cost(best);
        return result(best);
    }

private:
    // --- what does not change
    // ------------------------------------------------------------------------------------------
    void make_blocks() {
        block_.resize(nodes_.size());
        std::iota(block_.begin(), block_.end(), 0);
        const auto find = [&](int n) {
            while (block_[n] != n)
                n = block_[n] = block_[block_[n]];
            return n;
        };
        for (const Segment& s : layered_.segments) {
            const bool single =
                layered_.at[s.from][s.from_port].size() == 1 && layered_.at[s.to][s.to_port].size() == 1;
            if (single && nodes_[s.from].columns == 1 && nodes_[s.to].columns == 1) block_[find(s.to)] = find(s.from);
        }
        std::vector<int> number(nodes_.size(), none);
        blocks_ = 0;
        std::vector<int> of(nodes_.size());
        for (std::size_t n = 0; n < nodes_.size(); ++n) {
            int& slot = number[find(static_cast<int>(n))];
            if (slot == none) slot = blocks_++;
            of[n] = slot;
        }
        block_ = of;
        members_.resize(blocks_);
        for (std::size_t n = 0; n < nodes_.size(); ++n)
            members_[block_[n]].push_back(static_cast<int>(n));
        for (int block = 0; block < blocks_; ++block)
            fixed_.push_back(static_cast<char>(is_fixed(block)));
    }

    void take_sizes(const Ruler& ruler) {
        for (const Node& node : nodes_) {
            sizes_.push_back(sizes_of(ruler, layered_.scheme, node));
            Node turned;
            if (node.columns > 1 && node.kind == NodeKind::part && can_turn(node)) turned = node, turn_round(turned);
            turned_sizes_.push_back(turned.columns > 1 ? sizes_of(ruler, layered_.scheme, turned) : Sizes{});
        }
    }
    void make_bodies() {
        bodies_.resize(nodes_.size());
        for (std::size_t n = 0; n < nodes_.size(); ++n)
            if (nodes_[n].columns > 1) wide_.push_back(static_cast<int>(n));
        for (std::size_t n = 0; n < nodes_.size(); ++n) {
            const Node& node = nodes_[n];
            Body& body = bodies_[n];
            body.layer = node.layer, body.block = block_[n];
            body.offset.assign(std::max(1, node.columns), 0);
            lay_columns(static_cast<int>(n));
        }
    }
    void lay_columns(int n) {
        if (nodes_[n].kind == NodeKind::part)
            for (int c = 1; c < nodes_[n].columns; ++c)
                bodies_[n].offset[c] =
                    bodies_[n].offset[c - 1] + std::max(sizes_[n].pitch[c - 1], words_pitch(n, c - 1, c));
        lay_out(n);
    }
    double words_pitch(int n, int a, int b) const {
        double pitch = 0;
        for (const int zone : {0, 2})
            pitch = std::max(pitch, sizes_[n].extents[a].right[zone] + sizes_[n].extents[b].left[zone] + mm::gap);
        return pitch;
    }
    // How far the node reaches, its columns as they stand.
    void lay_out(int n) {
        Body& body = bodies_[n];
        body.left = body.right = 0;
        for (std::size_t c = 0; c < body.offset.size(); ++c)
            for (int zone = 0; zone < 3; ++zone) {
                body.left = std::max(body.left, sizes_[n].extents[c].left[zone] - body.offset[c]);
                body.right = std::max(body.right, sizes_[n].extents[c].right[zone] + body.offset[c]);
            }
        if (nodes_[n].kind == NodeKind::box) body.right = std::max(body.right, sizes_[n].least_width - body.left);
    }

    void list_neighbours() {
        near_.resize(nodes_.size());
        for (std::size_t n = 0; n < nodes_.size(); ++n) {
            near_[n].resize(nodes_[n].ports.size());
            for (std::size_t p = 0; p < nodes_[n].ports.size(); ++p)
                for (const int s : layered_.at[n][p]) {
                    const Segment& segment = layered_.segments[s];
                    const bool from = segment.from == static_cast<int>(n) && segment.from_port == static_cast<int>(p);
                    near_[n][p].push_back(from ? std::pair(segment.to, segment.to_port)
                                               : std::pair(segment.from, segment.from_port));
                }
        }
        ties_.resize(blocks_);
        for (std::size_t n = 0; n < nodes_.size(); ++n)
            for (std::size_t p = 0; p < near_[n].size(); ++p)
                for (const auto& [other, port] : near_[n][p])
                    if (block_[other] != block_[n])
                        ties_[block_[n]].push_back({block_[other], &bodies_[other].offset,
                                                    &nodes_[other].ports[port].column, &bodies_[n].offset,
                                                    &nodes_[n].ports[p].column});
    }

    // --- starts
    // ----------------------------------------------------------------------------------------------------------
    std::vector<int> first_order() {
        std::vector<char> seen(blocks_, 0);
        std::vector<int> order;
        std::vector<int> roots(nodes_.size());
        std::iota(roots.begin(), roots.end(), 0);
        std::stable_sort(roots.begin(), roots.end(), [&](int a, int b) { return nodes_[a].layer < nodes_[b].layer; });
        for (const int root : roots) {
            std::vector<int> next{root};
            while (!next.empty()) {
                const int n = next.back();
                next.pop_back();
                if (seen[block_[n]]) continue;
                seen[block_[n]] = 1;
                order.push_back(block_[n]);
                std::vector<int> after;
                for (const int member : members_[block_[n]])
                    for (const auto& port : near_[member])
                        for (const auto& [other, unused] : port)
                            if (!seen[block_[other]]) after.push_back(other);
                next.insert(next.end(), after.rbegin(), after.rend());
            }
        }
        first_.resize(blocks_);
        keep_fixed_left(order);
        for (int i = 0; i < blocks_; ++i)
            first_[order[i]] = i;
        return order;
    }
    std::vector<int> halves(const std::vector<int>& order) const {
        std::vector<int> made(order);
        std::rotate(made.begin(), made.begin() + static_cast<long>(made.size() / 2), made.end());
        return made;
    }
    bool is_fixed(int block) const { // the battery stands left
        return std::any_of(members_[block].begin(), members_[block].end(), [&](int n) {
            return nodes_[n].kind == NodeKind::part && !nodes_[n].grid.cells.empty() &&
                   nodes_[n].grid.cells[0].sign == Sign::battery;
        });
    }
    void keep_fixed_left(std::vector<int>& order) const {
        std::stable_partition(order.begin(), order.end(), [&](int block) { return fixed_[block] != 0; });
    }

    // --- the price of an order
    // ---------------------------------------------------------------------------------------------
    double cost(const std::vector<int>& order) {
        ++spent_;
        place_.resize(blocks_);
        for (int i = 0; i < blocks_; ++i)
            place_[order[i]] = i;
        arrange_ports();
        pack(order);
        for (int i = 0; i < sweeps; ++i)
            pull(order);
        return price(order);
    }

    // A box's pins follow what they lead to; a part turns round when more of its wires then run straight.
    void arrange_ports() {
        for (const int n : wide_) {
            Node& node = nodes_[n];
            const auto aim = [&](std::size_t p) {
                double sum = 0;
                for (const auto& [other, port] : near_[n][p])
                    sum += place_[block_[other]] +
                           (nodes_[other].columns > 1 ? 0.01 * nodes_[other].ports[port].column : 0);
                return near_[n][p].empty() ? -1.0 : sum / static_cast<double>(near_[n][p].size());
            };
            if (node.kind == NodeKind::box) {
                for (const bool top : {true, false}) {
                    std::vector<std::pair<double, int>> row;
                    for (std::size_t p = 0; p < node.ports.size(); ++p)
                        if (node.ports[p].top == top) row.emplace_back(aim(p), static_cast<int>(p));
                    std::stable_sort(row.begin(), row.end(),
                                     [](const auto& a, const auto& b) { return a.first < b.first; });
                    double x = 0;
                    for (std::size_t i = 0; i < row.size(); ++i) {
                        const int column = node.ports[row[i].second].column;
                        if (i > 0) {
                            const int before = node.ports[row[i - 1].second].column;
                            double pitch = words_pitch(n, before, column);
                            pitch = std::max(pitch, sizes_[n].extents[before].right[1] +
                                                        sizes_[n].extents[column].left[1] - 2 * mm::box_margin + 4);
                            x += pitch;
                        }
                        bodies_[n].offset[column] = x;
                    }
                }
                lay_out(n);
            } else {
                int ahead = 0, back = 0;
                for (std::size_t a = 0; a < node.ports.size(); ++a)
                    for (std::size_t b = a + 1; b < node.ports.size(); ++b) {
                        if (near_[n][a].empty() || near_[n][b].empty()) continue;
                        const double lead = (aim(a) - aim(b)) * (bodies_[n].offset[node.ports[a].column] -
                                                                 bodies_[n].offset[node.ports[b].column]);
                        ahead += lead > 0, back += lead < 0;
                    }
                if (node.mirrored) std::swap(ahead, back);
                if ((back > ahead) != node.mirrored && can_turn(node)) {
                    turn_round(node);
                    std::swap(sizes_[n], turned_sizes_[n]);
                    lay_columns(n);
                }
            }
        }
    }
    static bool can_turn(const Node& node) { // a second column is right of its first
        return std::none_of(node.grid.cells.begin(), node.grid.cells.end(),
                            [](const Cell& cell) { return cell.side != none; });
    }
    static void turn_round(Node& node) {
        node.mirrored = !node.mirrored;
        const int last = node.columns - 1;
        for (Cell& cell : node.grid.cells)
            cell.column = last - cell.column;
        for (GridPin& pin : node.grid.pins)
            pin.column = last - pin.column;
        for (Bar& bar : node.grid.bars)
            std::swap(bar.from, bar.to), bar.from = last - bar.from, bar.to = last - bar.to;
        for (Port& port : node.ports)
            port.column = last - port.column;
    }

    void pack(const std::vector<int>& order) {
        edge_.assign(layered_.layers, 0);
        x_.assign(blocks_, 0);
        for (const int block : order) {
            double x = 0;
            for (const int n : members_[block])
                x = std::max(x, edge_[bodies_[n].layer] + bodies_[n].left);
            x_[block] = x;
            for (const int n : members_[block])
                edge_[bodies_[n].layer] = x + bodies_[n].right + mm::gap;
        }
    }
    double port_x(int node, int port) const {
        return x_[block_[node]] + bodies_[node].offset[nodes_[node].ports[port].column];
    }

    double aim_of(int block) {
        aims_.clear();
        for (const Tie& tie : ties_[block])
            aims_.push_back(x_[tie.other] + (*tie.other_offset)[*tie.other_column] - (*tie.offset)[*tie.column]);
        if (aims_.empty()) return x_[block];
        const auto middle = aims_.begin() + static_cast<long>((aims_.size() - 1) / 2);
        std::nth_element(aims_.begin(), middle, aims_.end());
        return *middle;
    }

    // Everything towards the middle of what it is joined to: once to the right, once to the left.
    void pull(const std::vector<int>& order) {
        double width = 0;
        for (const double right : edge_)
            width = std::max(width, right);
        edge_.assign(layered_.layers, width);
        for (auto it = order.rbegin(); it != order.rend(); ++it) {
            double most = 1e9;
            for (const int n : members_[*it])
                most = std::min(most, edge_[bodies_[n].layer] - bodies_[n].right - mm::gap);
            x_[*it] = std::max(std::min(aim_of(*it), most), std::min(x_[*it], most));
            for (const int n : members_[*it])
                edge_[bodies_[n].layer] = x_[*it] - bodies_[n].left;
        }
        edge_.assign(layered_.layers, 0);
        for (const int block : order) {
            double least = 0;
            for (const int n : members_[block])
                least = std::max(least, edge_[bodies_[n].layer] + bodies_[n].left);
            x_[block] = std::max(least, std::min(aim_of(block), x_[block]));
            for (const int n : members_[block])
                edge_[bodies_[n].layer] = x_[block] + bodies_[n].right + mm::gap;
        }
    }

    struct Ends {
        double low = 0, high = 0;
        std::size_t upper = 0, upper_end = 0, lower_end = 0; // in the list of all x
        bool bar = false;
    };
    double price(const std::vector<int>& order) {
        double sum = 0, width = 0;
        crossings_ = 0;
        for (const double right : edge_)
            width = std::max(width, right);
        width_ = width;
        for (const auto& channel : nets_)
            sum += price_of(channel);
        sum += crossing_price * static_cast<double>(crossings_) + width_price * width +
               over_price * std::max(0.0, width - page_width_ * 1.06);
        for (int i = 0; i < blocks_; ++i)
            sum += disorder_price * std::abs(first_[order[i]] - i);
        return sum + apart_price * static_cast<double>(split_grounds(order));
    }
    // Grounds of one point that do not stand side by side.
    int split_grounds(const std::vector<int>& order) const {
        int count = 0;
        PartId last = none;
        bool any = false;
        for (const int block : order)
            for (const int n : members_[block])
                if (nodes_[n].kind == NodeKind::ground) {
                    count += !any || nodes_[n].part != last;
                    last = nodes_[n].part, any = true;
                }
        return count;
    }
    double price_of(const std::vector<Net>& channel) {
        ends_.clear(), all_x_.clear();
        double sum = 0;
        for (const Net& net : channel) {
            Ends ends;
            ends.upper = all_x_.size();
            for (const auto& [node, port] : net.uppers)
                all_x_.push_back(port_x(node, port));
            ends.upper_end = all_x_.size();
            for (const auto& [node, port] : net.lowers)
                all_x_.push_back(port_x(node, port));
            ends.lower_end = all_x_.size();
            ends.low = 1e9, ends.high = -1e9;
            for (std::size_t i = ends.upper; i < ends.lower_end; ++i)
                ends.low = std::min(ends.low, all_x_[i]), ends.high = std::max(ends.high, all_x_[i]);
            ends.bar = ends.high - ends.low > 1.0;
            if (ends.bar) sum += ends.high - ends.low + bar_price;
            ends_.push_back(ends);
        }
        for (std::size_t i = 0; i < ends_.size(); ++i)
            for (std::size_t j = i + 1; j < ends_.size(); ++j) {
                const Ends &a = ends_[i], &b = ends_[j];
                if ((!a.bar && !b.bar) || a.high < b.low || b.high < a.low) continue;
                crossings_ += std::min(over(a, b), over(b, a));
            }
        return sum;
    }
    // Crossings when the bar of `a` lies above that of `b`.
    long over(const Ends& a, const Ends& b) const {
        long count = 0;
        if (a.bar)
            for (std::size_t i = b.upper; i < b.upper_end; ++i)
                count += all_x_[i] > a.low && all_x_[i] < a.high;
        if (b.bar)
            for (std::size_t i = a.upper_end; i < a.lower_end; ++i)
                count += all_x_[i] > b.low && all_x_[i] < b.high;
        return count;
    }

    // --- moves
    // -------------------------------------------------------------------------------------------------------------
    // Takes each run of blocks out and puts it where it costs least.
    void sift(std::vector<int>& order, double& least, int run) {
        bool better = true;
        for (int round = 0; better && round < 6 && spent_ < budget_; ++round) {
            better = false;
            for (int block = 0; block < blocks_ && spent_ < budget_; ++block) {
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
                    keep_fixed_left(trial);
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
        made.block = block_;
        made.place = place_;
        made.crossings = crossings_;
        made.width = width_;
        made.rows.resize(layered_.layers);
        for (const int block : order)
            for (const int n : members_[block])
                made.rows[nodes_[n].layer].push_back(n);
        for (std::size_t n = 0; n < nodes_.size(); ++n) { // the columns of boxes from left to right, row by row
            Node& node = nodes_[n];
            if (node.kind != NodeKind::box) continue;
            std::vector<int> ports(node.ports.size());
            std::iota(ports.begin(), ports.end(), 0);
            std::stable_sort(ports.begin(), ports.end(), [&](int a, int b) {
                return bodies_[n].offset[node.ports[a].column] < bodies_[n].offset[node.ports[b].column];
            });
            std::vector<int> rank(node.columns);
            for (std::size_t i = 0; i < ports.size(); ++i)
                rank[node.ports[ports[i]].column] = static_cast<int>(i);
            for (Port& port : node.ports)
                port.column = rank[port.column];
        }
        return made;
    }

    Layered& layered_;
    std::vector<Sizes> sizes_;
    std::vector<Sizes> turned_sizes_; // of parts that are turned round
    double page_width_;
    std::vector<Node>& nodes_;
    std::vector<std::vector<Net>> nets_;
    std::vector<int> block_, first_, place_;
    int blocks_ = 0;
    std::vector<char> fixed_; // by block
    std::vector<std::vector<int>> members_;
    std::vector<Body> bodies_;
    std::vector<int> wide_;                                           // nodes of several columns
    std::vector<std::vector<std::vector<std::pair<int, int>>>> near_; // by node and port
    struct Tie {                                                      // of a block to another
        int other = 0;
        const std::vector<double>* other_offset = nullptr;
        const int* other_column = nullptr;
        const std::vector<double>* offset = nullptr;
        const int* column = nullptr;
    };
    std::vector<std::vector<Tie>> ties_; // by block
    std::vector<double> x_, edge_, aims_, all_x_;
    std::vector<Ends> ends_;
    double width_ = 0;
    long crossings_ = 0, spent_ = 0, budget_ = 0;
};

} // namespace

Order find_order(const Ruler& ruler, Layered& layered, double page_width, long effort) {
    return Search(ruler, layered, page_width, effort).run();
}

} // namespace loomsheet::drawing
