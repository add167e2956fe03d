#include "roostward/io/output_folder.hpp"

#include <gtest/gtest.h>
#include <linux/audit.h>
#include <linux/filter.h>
#include <linux/seccomp.h>
#include <sys/prctl.h>
#include <sys/syscall.h>

#include <array>
#include <cerrno>
#include <chrono>
#include <cstddef>
#include <optional>
#include <set>
#include <string>
#include <thread>
#include <vector>

#include "io/child_process.hpp"
#include "io/scratch_folder.hpp"
#include "roostward/core/error.hpp"
#include "roostward/io/writers.hpp"

namespace roostward::io {
namespace {

namespace fs = std::filesystem;
using testing::put_text;
using testing::ScratchFolder;
using testing::text_of;

constexpr std::array names{"ranked_sites.geojson", "other_trees.geojson", "findings.csv"};

/// Writes and publishes a run whose files all hold `mark`; returns what publish() says.
std::string run(const fs::path& target, const std::string& mark, bool force = false) {
    OutputFolder folder(target, force);
    core::List files;
    for (const char* name : names) {
        write_json(folder.path_of(name), mark);
        files.emplace_back(core::Object{{"file", name}});
    }
    write_json(folder.path_of("plan.json"), core::Object{{"mark", mark}, {"files", files}});
    return folder.publish();
}

std::set<std::string> names_in(const fs::path& folder) {
    std::set<std::string> found;
    for (const auto& entry : fs::directory_iterator(folder))
        found.insert(entry.path().filename().string());
    return found;
}

const std::set<std::string> whole_run{"ranked_sites.geojson", "other_trees.geojson", "findings.csv",
                                      "plan.json"};

/// The mark that all files of a whole run share; empty where the folder is not one whole run.
std::optional<std::string> mark_of(const fs::path& folder) {
    if (!fs::is_directory(folder) || names_in(folder) != whole_run) return {};
    const std::string mark = text_of(folder / names[0]);
    for (const char* name : names)
        if (text_of(folder / name) != mark) return {};
    if (text_of(folder / "plan.json").find(mark.substr(0, mark.size() - 1)) == std::string::npos) return {};
    return mark;
}

core::Error refusal(const fs::path& target, bool force = false) {
    try {
        const OutputFolder folder(target, force);
    } catch (const core::Error& error) {
        return error;
    }
    ADD_FAILURE() << target << " was not refused";
    return {core::Fault::internal, {}, ""};
}

bool says(const core::Error& error, const std::string& words) {
    return std::string(error.what()).find(words) != std::string::npos;
}

TEST(OutputFolder, AppearsWhole) {
    const ScratchFolder scratch;
    EXPECT_EQ(run(scratch / "out", "one"), "");
    EXPECT_EQ(mark_of(scratch / "out"), "\"one\"\n");
    EXPECT_EQ(names_in(scratch.path()), std::set<std::string>{"out"});
}

TEST(OutputFolder, ReplacesAnEarlierRunAndAnEmptyFolder) {
    const ScratchFolder scratch;
    fs::create_directory(scratch / "out");
    run(scratch / "out", "one");
    run(scratch / "out", "two");
    EXPECT_EQ(mark_of(scratch / "out"), "\"two\"\n");
    EXPECT_EQ(names_in(scratch.path()), std::set<std::string>{"out"});
}

TEST(OutputFolder, TakesANameWithASlashAndFollowsALink) {
    const ScratchFolder scratch;
    run((scratch / "out").string() + "/", "one");
    fs::create_directory_symlink("out", scratch / "link");
    run(scratch / "link", "two");
    EXPECT_EQ(mark_of(scratch / "out"), "\"two\"\n");
    EXPECT_TRUE(fs::is_symlink(scratch / "link"));
}

TEST(OutputFolder, LeavesNothingWhenNotPublished) {
    const ScratchFolder scratch;
    run(scratch / "out", "one");
    {
        OutputFolder folder(scratch / "out", false);
        write_json(folder.path_of("plan.json"), "half");
    }
    EXPECT_EQ(mark_of(scratch / "out"), "\"one\"\n");
    EXPECT_EQ(names_in(scratch.path()), std::set<std::string>{"out"});
}

TEST(OutputFolder, RefusesFilesThatNoRunWrote) {
    const ScratchFolder scratch;
    run(scratch / "out", "one");
    put_text(scratch / "out" / "notes.txt", "mine");
    fs::create_directory(scratch / "out" / "photos");
    const core::Error error = refusal(scratch / "out");
    EXPECT_EQ(error.fault(), core::Fault::usage);
    EXPECT_TRUE(says(error, "notes.txt, photos")) << error.what();
    EXPECT_TRUE(says(error, "--force")) << error.what();
    EXPECT_FALSE(says(error, "findings.csv")) << error.what();
    EXPECT_EQ(text_of(scratch / "out" / "notes.txt"), "mine");
}

TEST(OutputFolder, RefusesAFolderWithoutAPlanOfOurs) {
    const ScratchFolder scratch;
    fs::create_directory(scratch / "out");
    for (const char* plan : {"", "not JSON", "[1]", "{\"files\": 3}", "{\"name\": \"theirs\"}"}) {
        put_text(scratch / "out" / "plan.json", plan);
        EXPECT_TRUE(says(refusal(scratch / "out"), "plan.json")) << plan;
    }
}

TEST(OutputFolder, ForceKeepsWhatIsNotOurs) {
    const ScratchFolder scratch;
    run(scratch / "out", "one");
    put_text(scratch / "out" / "notes.txt", "mine");
    fs::create_directories(scratch / "out" / "photos" / "june");
    put_text(scratch / "out" / "photos" / "june" / "oak.jpg", "picture");
    fs::create_symlink("notes.txt", scratch / "out" / "link");
    run(scratch / "out", "two", true);
    EXPECT_EQ(text_of(scratch / "out" / "findings.csv"), "\"two\"\n");
    EXPECT_EQ(text_of(scratch / "out" / "notes.txt"), "mine");
    EXPECT_EQ(text_of(scratch / "out" / "photos" / "june" / "oak.jpg"), "picture");
    EXPECT_EQ(fs::read_symlink(scratch / "out" / "link"), "notes.txt");
    EXPECT_EQ(names_in(scratch.path()), std::set<std::string>{"out"});
}

TEST(OutputFolder, ForceKeepsAForeignFileOfTheSameName) {
    const ScratchFolder scratch;
    fs::create_directory(scratch / "out");
    put_text(scratch / "out" / "findings.csv", "theirs");
    run(scratch / "out", "one", true);
    EXPECT_EQ(text_of(scratch / "out" / "findings.csv"), "\"one\"\n");
    EXPECT_EQ(text_of(scratch / "out" / "findings.csv.kept"), "theirs");
}

TEST(OutputFolder, RefusesWhatCannotBeAFolder) {
    const ScratchFolder scratch;
    put_text(scratch / "file", "text");
    EXPECT_TRUE(says(refusal(scratch / "file", true), "is a file"));
    EXPECT_TRUE(says(refusal(scratch / "nowhere" / "out", true), "does not exist"));
    EXPECT_EQ(refusal(scratch / "file" / "out").fault(), core::Fault::usage);
    EXPECT_EQ(refusal("").fault(), core::Fault::usage);
    EXPECT_EQ(refusal("/").fault(), core::Fault::usage);
    EXPECT_EQ(text_of(scratch / "file"), "text");
}

TEST(OutputFolder, RemovesWhatADeadRunLeft) {
    const ScratchFolder scratch;
    const ::pid_t child = testing::start_child([&] {
        OutputFolder folder(scratch / "out", false);
        write_json(folder.path_of("plan.json"), "half");
        ::raise(SIGKILL);
        return 0;
    });
    ::waitpid(child, nullptr, 0);
    const std::string left = ".out.writing-" + std::to_string(child);
    const std::string alive = ".out.writing-" + std::to_string(::getppid());
    fs::create_directory(scratch / alive);
    fs::create_directory(scratch / ".out.writing-notes");
    EXPECT_TRUE(fs::exists(scratch / left));
    run(scratch / "out", "one");
    EXPECT_EQ(names_in(scratch.path()), (std::set<std::string>{"out", alive, ".out.writing-notes"}));
}

/// Answers renameat2 as a file system does that knows no exchange; for this process, from now on.
bool forbid_exchange(unsigned fault) {
    ::sock_filter steps[] = {
        BPF_STMT(BPF_LD | BPF_W | BPF_ABS, offsetof(::seccomp_data, nr)),
        BPF_JUMP(BPF_JMP | BPF_JEQ | BPF_K, SYS_renameat2, 0, 1),
        BPF_STMT(BPF_RET | BPF_K, SECCOMP_RET_ERRNO | fault),
        BPF_STMT(BPF_RET | BPF_K, SECCOMP_RET_ALLOW),
    };
    const ::sock_fprog program{static_cast<unsigned short>(std::size(steps)), steps};
    return ::prctl(PR_SET_NO_NEW_PRIVS, 1, 0, 0, 0) == 0 &&
           ::prctl(PR_SET_SECCOMP, SECCOMP_MODE_FILTER, &program) == 0;
}

// renameat2(2): EINVAL where the file system does not support the flag, ENOSYS where the kernel does not.
TEST(OutputFolder, KeepsThePreviousRunWhereFoldersCannotBeExchanged) {
    constexpr int not_allowed = 77;
    for (const unsigned fault : {EINVAL, ENOSYS}) {
        const ScratchFolder scratch;
        run(scratch / "out", "one");
        const int outcome = testing::in_child([&] {
            if (!forbid_exchange(fault)) return not_allowed;
            const std::string said = run(scratch / "out", "two");
            run(scratch / "out", "three");
            return said.find("out.previous") == std::string::npos ? 1 : 0;
        });
        if (outcome == not_allowed) GTEST_SKIP() << "this system lets no test filter system calls";
        EXPECT_EQ(outcome, 0);
        EXPECT_EQ(mark_of(scratch / "out"), "\"three\"\n");
        EXPECT_EQ(mark_of(scratch / "out.previous"), "\"two\"\n");
        EXPECT_EQ(names_in(scratch.path()), (std::set<std::string>{"out", "out.previous"}));
    }
}

TEST(OutputFolder, LeavesAForeignPreviousFolderAlone) {
    const ScratchFolder scratch;
    run(scratch / "out", "one");
    fs::create_directory(scratch / "out.previous");
    put_text(scratch / "out.previous" / "thesis.txt", "mine");
    const int outcome = testing::in_child([&] {
        if (forbid_exchange(EINVAL)) run(scratch / "out", "two");
        return 0;
    });
    EXPECT_EQ(outcome, 0);
    EXPECT_EQ(text_of(scratch / "out.previous" / "thesis.txt"), "mine");
    EXPECT_TRUE(mark_of(scratch / "out"));
}

// Killed at many moments of many runs, the folder is one whole run; nothing is left over after the next.
TEST(OutputFolder, IsWholeWheneverItIsKilled) {
    const fs::path memory = "/dev/shm";  // where a run is quick, so that kills meet every step of many runs
    const ScratchFolder scratch(fs::is_directory(memory) ? memory : fs::temp_directory_path());
    run(scratch / "out", "start");
    const auto runs = [&scratch](int moment) {
        return testing::start_child([&scratch, moment] {
            for (int i = 0;; ++i)
                run(scratch / "out", std::to_string(moment) + "-" + std::to_string(i));
            return 0;
        });
    };
    const auto kill_it = [](::pid_t child) {
        ::kill(child, SIGKILL);
        ::waitpid(child, nullptr, 0);
    };
    // The moments are spread over three times what a first run takes here, so that they fit machines of any
    // speed.
    const auto begun = std::chrono::steady_clock::now();
    const ::pid_t first = runs(-1);
    while (mark_of(scratch / "out") == "\"start\"\n" &&
           std::chrono::steady_clock::now() - begun < std::chrono::seconds(20))
        ::usleep(100);
    const auto one_run = std::chrono::steady_clock::now() - begun;
    kill_it(first);
    constexpr int moments = 120;
    std::set<std::string> seen;
    for (int moment = 0; moment < moments; ++moment) {
        const ::pid_t child = runs(moment);
        std::this_thread::sleep_for(one_run * 3 * (moment + 1) / moments);
        kill_it(child);
        const std::optional<std::string> mark = mark_of(scratch / "out");
        ASSERT_TRUE(mark) << "killed after moment " << moment;
        seen.insert(*mark);
    }
    EXPECT_GT(seen.size(), 20U);  // many of the kills came after a publication
    run(scratch / "out", "end");
    EXPECT_EQ(mark_of(scratch / "out"), "\"end\"\n");
    EXPECT_EQ(names_in(scratch.path()), std::set<std::string>{"out"});
}

TEST(OutputFolder, LeavesTheEarlierRunWhereAFileCannotGrow) {
    const ScratchFolder scratch;
    run(scratch / "out", "one");
    EXPECT_EQ(testing::in_child([&] {
                  testing::limit_file_size(4096);
                  try {
                      run(scratch / "out", std::string(5000, 'x'));
                  } catch (const core::Error& error) {
                      return error.fault() == core::Fault::outputs ? 0 : 1;
                  }
                  return 2;
              }),
              0);
    EXPECT_EQ(mark_of(scratch / "out"), "\"one\"\n");
    EXPECT_EQ(names_in(scratch.path()), std::set<std::string>{"out"});
}

TEST(OutputFolder, LeavesTheEarlierRunOnAFullDisk) {
    constexpr int not_allowed = 77;
    const ScratchFolder scratch;
    const int outcome = testing::in_child([&] {
        if (!testing::mount_small_disk(scratch.path(), "size=64k")) return not_allowed;
        run(scratch / "out", "one");
        try {
            run(scratch / "out", std::string(20'000, 'x'));
            return 2;
        } catch (const core::Error& error) {
            if (error.fault() != core::Fault::outputs) return 1;
        }
        return mark_of(scratch / "out") == "\"one\"\n" && names_in(scratch.path()).size() == 1 ? 0 : 3;
    });
    if (outcome == not_allowed) GTEST_SKIP() << "this system lets no test mount a small disk";
    EXPECT_EQ(outcome, 0);
}

}  // namespace
}  // namespace roostward::io
