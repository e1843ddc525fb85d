#include "sheet/blocks/blocks.hpp"
#include "sheet/card/card.hpp"

namespace loomsheet {

Block checks_block(Draft& draft) {
    Block block;
    block.new_page = true;
    block.keep = 1;
    for (const int check : draft.order.checks)
        for (Piece& part : check_card(draft, check, draft.page_room))
            block.rows.push_back(std::move(part));
    return block;
}

} // namespace loomsheet
