# tools/cmake/compiler.cmake -- what every target is compiled with.
set(CMAKE_CXX_STANDARD 17)
set(CMAKE_CXX_STANDARD_REQUIRED ON)
set(CMAKE_CXX_EXTENSIONS OFF)
set(CMAKE_EXPORT_COMPILE_COMMANDS ON)  # for clang-tidy and editors

# The presets name only the build type; the flags behind the name are here, once.
set(CMAKE_CXX_FLAGS_RELEASE "-O2 -g0 -DNDEBUG")
add_library(canewright_flags INTERFACE)
target_compile_options(canewright_flags INTERFACE
    -Wall -Wextra -Wpedantic -Wshadow -Wconversion -Werror
    # No fused multiply-add where the processor has one: native and wasm give the same doubles.
    -ffp-contract=off)
# g++ 12 takes an empty optional's inside for read (GCC bug 80635), now and then, as its inlining falls;
# clang and the sanitizers look for the real thing.
if(CMAKE_CXX_COMPILER_ID STREQUAL "GNU")
    target_compile_options(canewright_flags INTERFACE -Wno-maybe-uninitialized
        # collecting its garbage costs the compiler a fifth of its time: not before 600 MB [kB]
        --param=ggc-min-heapsize=600000)
endif()
# Eigen chooses its allocator by whether a file is sanitized; the core may be and its tests are not.
# On the machines we build on, malloc gives 16 bytes as Eigen wants them, and so does the sanitizer's.
if(NOT EMSCRIPTEN)
    target_compile_definitions(canewright_flags INTERFACE EIGEN_MALLOC_ALREADY_ALIGNED=1
        # Sums in the order that they have in wasm, not in that of the processor's vectors.
        EIGEN_DONT_VECTORIZE)
endif()

find_program(CANEWRIGHT_CCACHE ccache)
if(CANEWRIGHT_CCACHE AND NOT CMAKE_CXX_COMPILER_LAUNCHER)
    set(CMAKE_C_COMPILER_LAUNCHER "${CANEWRIGHT_CCACHE}")
    set(CMAKE_CXX_COMPILER_LAUNCHER "${CANEWRIGHT_CCACHE}")
endif()
