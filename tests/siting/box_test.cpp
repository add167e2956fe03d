#include "roostward/siting/box.hpp"

#include <gtest/gtest.h>

namespace roostward::siting {
namespace {

// Thin, dark and plastic boxes: common practice, no source.
TEST(Box, HeatsUpWhenThinDarkOrPlastic) {
    Box box;
    EXPECT_TRUE(box.heats_up()) << "thin unless told otherwise";
    box.wall = Wall::insulated;
    EXPECT_FALSE(box.heats_up());
    box.colour = Colour::dark;
    EXPECT_TRUE(box.heats_up());
    box.colour = Colour::pale;
    box.made_of = "Reclaimed PVC pipe";
    EXPECT_TRUE(box.plastic());
    EXPECT_TRUE(box.heats_up());
    box.made_of = "reclaimed softwood boards";
    EXPECT_FALSE(box.heats_up());
}

}  // namespace
}  // namespace roostward::siting
