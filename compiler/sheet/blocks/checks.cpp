#include "sheet/blocks/blocks.hpp"
#include "sheet/card/card.hpp"

namespace loomsheet {

Block checks_block(LayoutContext& context) {
    Block block;
    block.new_page = true;
    block.keep = 1;
    for (const int check : context.order.checks)
        for (Box& part : check_card(context, check, context.page_room))
            block.rows.push_back(std::move(part));
    return block;
}

} // namespace loomsheet
