#include "roostward/cli/run.hpp"

int main(int argc, char** argv) {
    return roostward::cli::run(argc, argv);
}
