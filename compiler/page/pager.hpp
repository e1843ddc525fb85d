// Puts blocks on pages, top to bottom. A box is never broken; a page is never stretched.
#pragma once
#include "page/box.hpp"
#include "source/diagnostic.hpp"
#include <map>

namespace loomsheet {

struct PaperSize {
    double width = 210, height = 297;
    double top = 20;     // first content, mm from the top edge
    double bottom = 279; // nothing but the foot below it, mm from the top edge
};

class Pager {
public:
    Pager(PaperSize size, Findings& findings) : size_(size), findings_(&findings) {}
    void place(Block block);

    std::vector<page::Page>& pages() { return pages_; }
    std::vector<page::OutlineEntry>& outline() { return outline_; }
    // On which page (0 = the first) each anchor stands.
    const std::map<std::string, std::size_t>& anchors() const { return anchors_; }
    // What waits for those anchors, and where it goes.
    struct Waiting {
        Later later;
        std::size_t page = 0;
        double down = 0;
        Span at;
    };
    const std::vector<Waiting>& waiting() const { return waiting_; }

private:
    PaperSize size_;
    Findings* findings_;
    std::vector<page::Page> pages_;
    std::vector<page::OutlineEntry> outline_;
    std::map<std::string, std::size_t> anchors_;
    std::vector<Waiting> waiting_;
    double y_ = 0; // where the next box goes

    void new_page();
    bool at_top() const;
    double room() const { return size_.bottom - y_; }
    void put_down(Box box);
    void start(Block& block);
};

} // namespace loomsheet
