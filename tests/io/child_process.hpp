#pragma once

#include <fcntl.h>
#include <sched.h>
#include <signal.h>
#include <sys/mount.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <exception>
#include <filesystem>
#include <functional>

namespace roostward::testing {

/// Runs `work` in a process of its own.
inline ::pid_t start_child(const std::function<int()>& work) {
    const ::pid_t child = ::fork();
    if (child != 0) return child;
    try {
        ::_exit(work());
    } catch (const std::exception&) {
        ::_exit(99);
    }
}

/// What `work` returned; -1 where it was killed, 99 where it threw.
inline int in_child(const std::function<int()>& work) {
    int status = 0;
    ::waitpid(start_child(work), &status, 0);
    return WIFEXITED(status) ? WEXITSTATUS(status) : -1;
}

/// From now on no file of this process grows beyond `bytes`.
inline void limit_file_size(::rlim_t bytes) {
    ::signal(SIGXFSZ, SIG_IGN);
    const ::rlimit limit{bytes, bytes};
    ::setrlimit(RLIMIT_FSIZE, &limit);
}

/// A disk of this size at `where`, seen by this process only. False where the system does not allow it.
inline bool mount_small_disk(const std::filesystem::path& where, const char* size_option) {
    const int own_user = ::geteuid() == 0 ? 0 : CLONE_NEWUSER;
    return ::unshare(CLONE_NEWNS | own_user) == 0 &&
           ::mount(nullptr, "/", nullptr, MS_REC | MS_PRIVATE, nullptr) == 0 &&
           ::mount("tmpfs", where.c_str(), "tmpfs", 0, size_option) == 0;
}

}  // namespace roostward::testing
