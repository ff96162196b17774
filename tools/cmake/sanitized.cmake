# tools/cmake/sanitized.cmake -- the core under the address and undefined-behaviour sanitizers, with
# the very objects of the tests: they are compiled once.

add_core_part(canewright_core_asan ${core_sources})

# Asserts of Eigen and of the standard library stay on, and a finding ends the program. Left out are
# the checks whose faults the address sanitizer stops as well: they double the time to compile.
set(sanitizers -fsanitize=address,undefined -fno-sanitize=null,alignment,object-size,vptr
    -fno-sanitize-recover=all)
target_compile_options(canewright_core_asan PRIVATE
    -O1 -g1 -UNDEBUG -D_GLIBCXX_ASSERTIONS -fno-omit-frame-pointer ${sanitizers})
if(CMAKE_CXX_COMPILER_ID STREQUAL "GNU")
    # gcc's own note: -fsanitize=... makes this warning report variables that are set.
    target_compile_options(canewright_core_asan PRIVATE -Wno-maybe-uninitialized)
endif()

add_executable(canewright_tests_asan EXCLUDE_FROM_ALL
    $<TARGET_OBJECTS:canewright_core_asan> $<TARGET_OBJECTS:canewright_test_objects>
    $<TARGET_OBJECTS:canewright_test_support>)
target_link_options(canewright_tests_asan PRIVATE ${sanitizers})
target_link_libraries(canewright_tests_asan PRIVATE canewright_math)
