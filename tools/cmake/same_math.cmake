# tools/cmake/same_math.cmake -- canewright_math: sine, power and the like as WebAssembly has them.
#
# What is added, multiplied, divided or rooted is the same double on every machine (IEEE 754); what a C library
# reckons beyond that is not, in the last digit, and where a layout has two ways to go one digit decides. So the
# native programs have Emscripten's own copy of these functions (musl), those of a module linked for size.
set(CANEWRIGHT_MUSL "/usr/share/emscripten/system/lib/libc/musl" CACHE PATH "Emscripten's C library, its sources")
add_library(canewright_math STATIC EXCLUDE_FROM_ALL "${CMAKE_CURRENT_SOURCE_DIR}/tools/same_math/complex.c")
target_compile_options(canewright_math PRIVATE -O2 -ffp-contract=off -fno-builtin)

if(NOT EXISTS "${CANEWRIGHT_MUSL}/src/math/pow_small.c")
    message(WARNING "No sources of Emscripten's C library (run tools/setup): answers are those of WebAssembly to 1e-9 only.")
    return()
endif()
add_library(canewright_musl OBJECT EXCLUDE_FROM_ALL)
foreach(name
        __cos __expo2 __math_divzero __math_invalid __math_oflow __math_uflow __math_xflow __rem_pio2
        __rem_pio2_large __sin __tan asin asinh atan atan2 cbrt cos cosh erf exp exp2 exp_data expm1 hypot log10
        log1p log2_small log_small pow_small scalbn sin sincos sinh tan tanh)
    target_sources(canewright_musl PRIVATE "${CANEWRIGHT_MUSL}/src/math/${name}.c")
endforeach()
# Its own headers in place of the machine's, and none of its warnings.
target_compile_options(canewright_musl PRIVATE -std=gnu99 -nostdinc -D_XOPEN_SOURCE=700 -O2 -ffp-contract=off -fno-builtin -w)
target_include_directories(canewright_musl PRIVATE "${CANEWRIGHT_MUSL}/arch/emscripten" "${CANEWRIGHT_MUSL}/arch/generic"
    "${CANEWRIGHT_MUSL}/src/include" "${CANEWRIGHT_MUSL}/src/internal" "${CANEWRIGHT_MUSL}/include")
target_sources(canewright_math PRIVATE $<TARGET_OBJECTS:canewright_musl>)
