// A strip of the sheet drawn on its own, y counted from its own top edge. The pager puts boxes on pages.
#pragma once
#include "page/page.hpp"
#include "source/text.hpp"
#include <functional>
#include <optional>
#include <string>
#include <vector>

namespace loomsheet {

class Pen;

// What can be drawn only when it is known on which page (0 = the first) something stands. It changes no height.
struct Later {
    std::string anchor; // of what is asked for; one that stands nowhere is on the first page
    std::function<void(Pen&, std::size_t page)> draw;
};

struct Box {
    std::vector<page::Mark> marks;
    std::vector<page::Region> regions;
    std::vector<Later> later;
    double height = 0;   // mm; nothing is drawn below it
    std::string anchor;  // what later pages and outcomes refer to: "check plug-feed"; may be empty
    std::string outline; // its line in the table of contents of the document; may be empty
    bool new_page = false;
    Span at; // what to point at when it does not fit a page
};

// Boxes that belong together under one title.
struct Block {
    std::optional<Box> title;    // stays with the captions and the first `keep` rows
    std::optional<Box> captions; // printed again on every page the rows go on to
    std::vector<Box> rows;
    std::size_t keep = 2;
    bool new_page = false; // starts a page
    bool alone = false;    // nothing follows on its last page
    bool together = false; // not broken when it fits on one page
};

// The marks and regions of `box`, moved down by `down`.
void put(page::Page& page, Box box, double down);

} // namespace loomsheet
