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
#include <cstdio>
#include <optional>
#include <set>
#include <string>
#include <thread>
#include <utility>
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

constexpr std::array names{"ranked_sites.geojson", "boxes_to_hang.csv", "findings.csv"};

core::List listed(const core::FolderIndex& index) {
    core::List files{core::Object{{"file", "plan.json"}}};
    for (const core::OutputFile& file : index.files)
        files.emplace_back(core::Object{{"file", file.name}, {"sha256", file.sha256}});
    return files;
}

core::List kept_of(const core::FolderIndex& index) {
    core::List kept;
    for (const std::string& file : index.kept)
        kept.emplace_back(core::Object{{"file", file}});
    return kept;
}

/// Writes and publishes a run whose files all hold `mark`; returns what publish() says.
std::string run(const fs::path& target, const std::string& mark, PeoplesFiles others = PeoplesFiles::refuse) {
    OutputFolder folder(target, others);
    for (const char* name : names)
        write_json(folder.path_of(name), mark);
    const core::FolderIndex index = folder.index();
    write_json(folder.path_of("plan.json"), core::Object{{"program", "roostward"},
                                                         {"format", 1},
                                                         {"mark", mark},
                                                         {"files", listed(index)},
                                                         {"kept", kept_of(index)}});
    std::string said;
    for (const std::string& sentence : folder.publish())
        said += sentence + "\n";
    return said;
}

std::set<std::string> names_in(const fs::path& folder) {
    std::set<std::string> found;
    for (const auto& entry : fs::directory_iterator(folder))
        found.insert(entry.path().filename().string());
    return found;
}

const std::set<std::string> whole_run{"ranked_sites.geojson", "boxes_to_hang.csv", "findings.csv",
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

core::Error refusal(const fs::path& target, PeoplesFiles others = PeoplesFiles::refuse) {
    try {
        const OutputFolder folder(target, others);
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
        OutputFolder folder(scratch / "out", PeoplesFiles::refuse);
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
    for (const char* plan : {"", "not JSON", "[1]", "{\"files\": 3}", "{\"name\": \"theirs\"}",
                             R"({"files": [{"file": "plan.json"}]})",
                             R"({"program": "roostward", "files": [{"file": "plan.json"}]})",
                             R"({"program": "another", "format": 1, "files": [{"file": "plan.json"}]})"}) {
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
    run(scratch / "out", "two", PeoplesFiles::keep);
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
    const std::string said = run(scratch / "out", "one", PeoplesFiles::keep);
    EXPECT_EQ(text_of(scratch / "out" / "findings.csv"), "\"one\"\n");
    EXPECT_EQ(text_of(scratch / "out" / "kept" / "findings.csv.1"), "theirs");
    EXPECT_NE(said.find("kept/findings.csv.1"), std::string::npos) << said;
}

// A plan.json that merely names files once made every file that it names ours, to be removed.
TEST(OutputFolder, APlanOfAnybodyDoesNotMakeTheirFilesOurs) {
    const std::string theirs = R"({"files": [{"file": "thesis.txt"}, {"file": "plan.json"}]})";
    const ScratchFolder scratch;
    fs::create_directory(scratch / "out");
    put_text(scratch / "out" / "thesis.txt", "mine");
    put_text(scratch / "out" / "plan.json", theirs);
    EXPECT_TRUE(says(refusal(scratch / "out"), "plan.json, thesis.txt"));
    run(scratch / "out", "one", PeoplesFiles::keep);
    EXPECT_EQ(text_of(scratch / "out" / "thesis.txt"), "mine");
    EXPECT_EQ(text_of(scratch / "out" / "kept" / "plan.json.1"), theirs);
}

TEST(OutputFolder, RefusesWhereSomebodyWroteInAFileOfOurs) {
    const ScratchFolder scratch;
    run(scratch / "out", "one");
    put_text(scratch / "out" / "boxes_to_hang.csv", "hung on 3 June");
    const core::Error error = refusal(scratch / "out");
    EXPECT_EQ(error.fault(), core::Fault::usage);
    EXPECT_TRUE(says(error, "people may have written in it: boxes_to_hang.csv")) << error.what();
    EXPECT_TRUE(says(error, "--force")) << error.what();
    EXPECT_TRUE(says(error, "name the copy in the site file")) << error.what();
    EXPECT_EQ(text_of(scratch / "out" / "boxes_to_hang.csv"), "hung on 3 June");
    EXPECT_EQ(names_in(scratch.path()), std::set<std::string>{"out"});
}

TEST(OutputFolder, WhatPeopleWroteInIsKeptForEver) {
    const ScratchFolder scratch;
    const fs::path out = scratch / "out", first = out / "kept" / "boxes_to_hang.csv.1",
                   second = out / "kept" / "boxes_to_hang.csv.2";
    run(out, "one");
    put_text(out / "boxes_to_hang.csv", "hung on 3 June");
    EXPECT_EQ(run(out, "two", PeoplesFiles::keep),
              "boxes_to_hang.csv may have been written in: it is kept as kept/boxes_to_hang.csv.1.\n");
    EXPECT_EQ(text_of(first), "hung on 3 June");
    EXPECT_EQ(text_of(out / "boxes_to_hang.csv"), "\"two\"\n");
    EXPECT_NE(text_of(out / "plan.json").find("kept/boxes_to_hang.csv.1"), std::string::npos);
    EXPECT_EQ(run(out, "three"), "") << "what is kept, and listed, is in nobody's way";
    put_text(first, "hung on 3 June, fell on 5 July");
    run(out, "four");
    put_text(out / "boxes_to_hang.csv", "hung on 9 June");
    run(out, "five", PeoplesFiles::keep);
    EXPECT_EQ(text_of(first), "hung on 3 June, fell on 5 July");
    EXPECT_EQ(text_of(second), "hung on 9 June");
    EXPECT_EQ(names_in(scratch.path()), std::set<std::string>{"out"});
}

TEST(OutputFolder, RefusesWhatSomebodyPutAmongTheKept) {
    const ScratchFolder scratch;
    run(scratch / "out", "one");
    fs::create_directory(scratch / "out" / "kept");
    put_text(scratch / "out" / "kept" / "photo.jpg", "picture");
    EXPECT_TRUE(says(refusal(scratch / "out"), "kept/photo.jpg"));
    run(scratch / "out", "two", PeoplesFiles::keep);
    run(scratch / "out", "three");
    EXPECT_EQ(text_of(scratch / "out" / "kept" / "photo.jpg"), "picture");
}

TEST(OutputFolder, AFileNamedKeptIsKept) {
    const ScratchFolder scratch;
    run(scratch / "out", "one");
    put_text(scratch / "out" / "kept", "mine");
    run(scratch / "out", "two", PeoplesFiles::keep);
    EXPECT_EQ(text_of(scratch / "out" / "kept" / "kept.1"), "mine");
}

// While a plan is made somebody saves the table, or puts a file there.
TEST(OutputFolder, KeepsWhatIsWrittenInMeanwhile) {
    const ScratchFolder scratch;
    run(scratch / "out", "one");
    OutputFolder folder(scratch / "out", PeoplesFiles::refuse);
    write_json(folder.path_of("boxes_to_hang.csv"), "two");
    put_text(scratch / "out" / "boxes_to_hang.csv", "hung on 3 June");
    put_text(scratch / "out" / "notes.txt", "mine");
    EXPECT_EQ(folder.publish().size(), 1U);
    EXPECT_EQ(text_of(scratch / "out" / "kept" / "boxes_to_hang.csv.1"), "hung on 3 June");
    EXPECT_EQ(text_of(scratch / "out" / "notes.txt"), "mine");
}

TEST(OutputFolder, AnEarlierVersionDidNotSayWhatItWrote) {
    const ScratchFolder scratch;
    fs::create_directory(scratch / "out");
    put_text(scratch / "out" / "boxes_to_hang.csv", "hung on 3 June");
    put_text(scratch / "out" / "plan.json",
             R"({"format": 1, "program": "roostward",
                 "files": [{"file": "boxes_to_hang.csv"}, {"file": "plan.json"}]})");
    const core::Error error = refusal(scratch / "out");
    EXPECT_TRUE(says(error, "An earlier version wrote this folder")) << error.what();
    EXPECT_TRUE(says(error, "boxes_to_hang.csv")) << error.what();
    run(scratch / "out", "one", PeoplesFiles::keep);
    EXPECT_EQ(text_of(scratch / "out" / "kept" / "boxes_to_hang.csv.1"), "hung on 3 June");
    EXPECT_FALSE(fs::exists(scratch / "out" / "kept" / "plan.json.1"));
}

TEST(OutputFolder, RefusesAFolderOfANewerVersion) {
    const ScratchFolder scratch;
    fs::create_directory(scratch / "out");
    put_text(scratch / "out" / "plan.json", R"({"format": 2, "program": "roostward", "files": []})");
    EXPECT_TRUE(says(refusal(scratch / "out"), "a newer version wrote this folder"));
}

TEST(OutputFolder, ACopyForEverybodyStandsAlone) {
    const ScratchFolder scratch;
    run(scratch / "out", "one");
    run(scratch / "out", "two", PeoplesFiles::refuse_kept_ones);
    put_text(scratch / "out" / "boxes_to_hang.csv", "hung on 3 June");
    EXPECT_TRUE(says(refusal(scratch / "out", PeoplesFiles::refuse_kept_ones), "boxes_to_hang.csv"));
    run(scratch / "out", "three", PeoplesFiles::keep);
    EXPECT_TRUE(says(refusal(scratch / "out", PeoplesFiles::refuse_kept_ones), "kept/boxes_to_hang.csv.1"));
}

TEST(OutputFolder, RefusesWhatCannotBeAFolder) {
    const ScratchFolder scratch;
    put_text(scratch / "file", "text");
    EXPECT_TRUE(says(refusal(scratch / "file", PeoplesFiles::keep), "is a file"));
    EXPECT_TRUE(says(refusal(scratch / "nowhere" / "out", PeoplesFiles::keep), "does not exist"));
    EXPECT_EQ(refusal(scratch / "file" / "out").fault(), core::Fault::usage);
    EXPECT_EQ(refusal("").fault(), core::Fault::usage);
    EXPECT_EQ(refusal("/").fault(), core::Fault::usage);
    EXPECT_EQ(text_of(scratch / "file"), "text");
}

TEST(OutputFolder, RemovesWhatADeadRunLeft) {
    const ScratchFolder scratch;
    const ::pid_t child = testing::start_child([&] {
        OutputFolder folder(scratch / "out", PeoplesFiles::refuse);
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

fs::path unflushable;  ///< fsync fails there, as on a disk that loses what it was given
std::set<std::pair<fs::path, fs::path>> unmovable;  ///< rename fails from the first to the second

}  // namespace
}  // namespace roostward::io

// The program's own functions come before those of the C library.
extern "C" int fsync(int descriptor) {
    namespace fs = std::filesystem;
    const fs::path& fails = roostward::io::unflushable;
    if (!fails.empty() && fs::read_symlink("/proc/self/fd/" + std::to_string(descriptor)) == fails) {
        errno = EIO;
        return -1;
    }
    return static_cast<int>(::syscall(SYS_fsync, descriptor));
}

extern "C" int rename(const char* from, const char* to) noexcept {
    for (const auto& [a, b] : roostward::io::unmovable)
        if (std::filesystem::path(from).filename().string().starts_with(a.string()) && b == to) {
            errno = EIO;
            return -1;
        }
    return static_cast<int>(::syscall(SYS_renameat2, AT_FDCWD, from, AT_FDCWD, to, 0));
}

namespace roostward::io {
namespace {

std::string failure_of(const fs::path& target, const std::string& mark) {
    try {
        run(target, mark);
    } catch (const core::Error& error) {
        EXPECT_EQ(error.fault(), core::Fault::outputs);
        return error.what();
    }
    ADD_FAILURE() << "was written";
    return {};
}

// fsync(2): EIO. By then the folders are exchanged.
TEST(OutputFolder, SaysThatTheNewRunStandsWhereTheLastFlushFails) {
    const ScratchFolder scratch;
    run(scratch / "out", "one");
    unflushable = fs::canonical(scratch.path());
    const std::string said = failure_of(scratch / "out", "two");
    const std::string anew = failure_of(scratch / "new", "three");
    unflushable.clear();
    EXPECT_NE(said.find("the new plan stands here"), std::string::npos) << said;
    EXPECT_NE(said.find("The earlier plan is in"), std::string::npos) << said;
    EXPECT_NE(said.find("out.previous"), std::string::npos) << said;
    EXPECT_EQ(said.find("untouched"), std::string::npos) << said;
    EXPECT_EQ(mark_of(scratch / "out"), "\"two\"\n");
    EXPECT_EQ(mark_of(scratch / "out.previous"), "\"one\"\n");
    EXPECT_EQ(anew.find("earlier plan"), std::string::npos) << anew;
    EXPECT_EQ(mark_of(scratch / "new"), "\"three\"\n");
    EXPECT_EQ(names_in(scratch.path()), (std::set<std::string>{"out", "out.previous", "new"}));
}

TEST(OutputFolder, SaysThatTheEarlierRunStandsWhereAFlushBeforeFails) {
    const ScratchFolder scratch;
    run(scratch / "out", "one");
    unflushable = fs::canonical(scratch.path()) / (".out.writing-" + std::to_string(::getpid()));
    const std::string said = failure_of(scratch / "out", "two");
    unflushable.clear();
    EXPECT_NE(said.find("what was there before is untouched"), std::string::npos) << said;
    EXPECT_EQ(mark_of(scratch / "out"), "\"one\"\n");
    EXPECT_EQ(names_in(scratch.path()), std::set<std::string>{"out"});
}

/// Answers renameat2 as a file system does that knows no exchange; for this process, from now on.
bool forbid_exchange(unsigned fault) {
    ::sock_filter steps[] = {
        BPF_STMT(BPF_LD | BPF_W | BPF_ABS, offsetof(::seccomp_data, nr)),
        BPF_JUMP(BPF_JMP | BPF_JEQ | BPF_K, SYS_renameat2, 0, 3),
        BPF_STMT(BPF_LD | BPF_W | BPF_ABS, offsetof(::seccomp_data, args[4])),
        BPF_JUMP(BPF_JMP | BPF_JEQ | BPF_K, RENAME_EXCHANGE, 0, 1),
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

// The second of two steps fails, and then the way back too.
TEST(OutputFolder, SaysWhatStandsWhereBetweenTwoSteps) {
    constexpr int not_allowed = 77;
    const ScratchFolder scratch;
    run(scratch / "out", "one");
    const fs::path out = fs::canonical(scratch / "out");
    const int outcome = testing::in_child([&] {
        if (!forbid_exchange(EINVAL)) return not_allowed;
        unmovable = {{".out.writing-", out}};
        if (failure_of(out, "two").find("untouched") == std::string::npos) return 1;
        if (mark_of(out) != "\"one\"\n") return 2;
        unmovable.emplace("out.previous", out);
        const std::string said = failure_of(out, "three");
        if (said.find("nothing stands here now") == std::string::npos) return 3;
        return said.find("out.previous") == std::string::npos ? 4 : 0;
    });
    if (outcome == not_allowed) GTEST_SKIP() << "this system lets no test filter system calls";
    EXPECT_EQ(outcome, 0);
    EXPECT_FALSE(fs::exists(out));
    EXPECT_EQ(mark_of(scratch / "out.previous"), "\"one\"\n");
}

// What people wrote in a folder that stood aside is as dear as what they wrote in the folder itself.
TEST(OutputFolder, LeavesAPreviousRunThatSomebodyWroteInAlone) {
    const ScratchFolder scratch;
    run(scratch / "out", "one");
    run(scratch / "out.previous", "older");
    put_text(scratch / "out.previous" / "boxes_to_hang.csv", "hung on 3 June");
    const int outcome = testing::in_child([&] {
        if (forbid_exchange(EINVAL)) run(scratch / "out", "two");
        return 0;
    });
    EXPECT_EQ(outcome, 0);
    EXPECT_EQ(text_of(scratch / "out.previous" / "boxes_to_hang.csv"), "hung on 3 June");
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
