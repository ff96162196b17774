# tools/cmake/compiler.cmake -- what every target is compiled with.
set(CMAKE_CXX_STANDARD 17)
set(CMAKE_CXX_STANDARD_REQUIRED ON)
set(CMAKE_CXX_EXTENSIONS OFF)
set(CMAKE_EXPORT_COMPILE_COMMANDS ON)  # for clang-tidy and editors

# The presets name only the build type; the flags behind the names are here, once.
set(CMAKE_CXX_FLAGS_RELEASE "-O2 -g0 -DNDEBUG")
# Asserts of Eigen and of the standard library stay on, and a finding ends the program. Left out are
# the checks whose faults the address sanitizer stops as well: they double the time to compile.
string(JOIN " " CMAKE_CXX_FLAGS_SANITIZE
    -O1 -g1 -D_GLIBCXX_ASSERTIONS -fno-omit-frame-pointer
    -fsanitize=address,undefined -fno-sanitize=null,alignment,object-size,vptr
    -fno-sanitize-recover=all)

add_library(canewright_flags INTERFACE)
target_compile_options(canewright_flags INTERFACE
    -Wall -Wextra -Wpedantic -Wshadow -Wconversion -Werror
    # No fused multiply-add where the processor has one: native and wasm must agree to 1e-9.
    -ffp-contract=off)
# Eigen chooses its allocator by whether a file is sanitized; the core is and the tests are not.
target_compile_definitions(
    canewright_flags INTERFACE $<$<CONFIG:Sanitize>:EIGEN_MALLOC_ALREADY_ALIGNED=0>)
if(CMAKE_BUILD_TYPE STREQUAL "Sanitize" AND CMAKE_CXX_COMPILER_ID STREQUAL "GNU")
    # gcc's own note: -fsanitize=... makes this warning report variables that are set.
    target_compile_options(canewright_flags INTERFACE -Wno-maybe-uninitialized)
endif()

find_program(CANEWRIGHT_CCACHE ccache)
if(CANEWRIGHT_CCACHE AND NOT CMAKE_CXX_COMPILER_LAUNCHER)
    set(CMAKE_CXX_COMPILER_LAUNCHER "${CANEWRIGHT_CCACHE}")
endif()
