// What is printed and does not arrive is told, and never ends well. /dev/full answers every write with ENOSPC
// (full(4)).
#include <gtest/gtest.h>
#include <sys/wait.h>

#include <cstdlib>
#include <string>

#include "cli/small_park.hpp"

namespace roostward {
namespace {

class StandardOutput : public testing::SmallPark {
 protected:
    /// Runs a line of bash; `%` stands for the program, and what it says on standard error goes to err.txt.
    int shell(std::string line) {
        while (line.find('%') != std::string::npos)
            line.replace(line.find('%'), 1, "\"" ROOSTWARD_PROGRAM "\"");
        testing::put_text(folder / "line.sh", "cd '" + folder.path().string() + "'\n" + line + "\n");
        const int status = std::system(("bash '" + (folder / "line.sh").string() + "'").c_str());
        return WIFEXITED(status) ? WEXITSTATUS(status) : -1;
    }
    std::string said() { return testing::text_of(folder / "err.txt"); }
    void tells_of_it(const std::string& line) {
        EXPECT_EQ(shell(line + " 2>err.txt"), 1) << line;
        EXPECT_NE(said().find("standard output cannot be written"), std::string::npos)
            << line << ": " << said();
    }
};

TEST_F(StandardOutput, AFullDiskIsTold) {
    ASSERT_EQ(shell("% plan site.toml --out out --quiet >answer.txt"), 0);
    ASSERT_EQ(shell("% plan site.toml --out other --quiet --set choose.sites=2 >answer.txt"), 0);
    for (const char* command : {"check site.toml", "check site.toml --json", "check site.toml --explain",
                                "why out T4", "why out T4 --json", "compare out other",
                                "compare out out --json", "--help", "plan --help", "--version", "new park"})
        tells_of_it(std::string("% ") + command + " >/dev/full");
}

TEST_F(StandardOutput, AClosedOneIsToldAndNoFileGetsItsNumber) {
    for (const char* command : {"check site.toml", "--help"})
        tells_of_it(std::string("% ") + command + " >&-");
    tells_of_it("% plan site.toml --out out --quiet >&- <&-");
    ASSERT_EQ(shell("% plan site.toml --out open --quiet >answer.txt"), 0);
    auto closed = testing::bytes_of(folder / "out"), open = testing::bytes_of(folder / "open");
    const auto is_index = [](const auto& file) { return file.first == "plan.json"; };
    std::erase_if(closed, is_index);  // which holds the time of the run
    std::erase_if(open, is_index);
    EXPECT_TRUE(closed == open);
}

TEST_F(StandardOutput, ThePlanStandsAllTheSame) {
    for (const char* more : {"", " --json", " --public"}) {
        tells_of_it(std::string("% plan site.toml --out out --quiet >/dev/full") + more);
        EXPECT_NE(said().find("The plan itself is whole, in out."), std::string::npos) << said();
        EXPECT_TRUE(std::filesystem::exists(folder / "out/plan.json"));
    }
}

// As other tools do: signal 13, which bash tells as 128 + 13, and not a word.
TEST_F(StandardOutput, AReaderThatHadEnoughEndsItQuietly) {
    EXPECT_EQ(shell("% check site.toml --explain 2>err.txt | { exec <&-; sleep 1; }; exit ${PIPESTATUS[0]}"),
              141);
    EXPECT_EQ(said().find("standard output"), std::string::npos) << said();
}

}  // namespace
}  // namespace roostward
