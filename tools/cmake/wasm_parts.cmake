# tools/cmake/wasm_parts.cmake -- how the core is compiled to WebAssembly: in three parts.

# Exceptions are for the tests and for core/api, the last stop of what a library throws. Below it
# nothing throws (core/base/violation.hpp), and the code for unwinding would be a sixth of the module.
target_compile_options(canewright_flags INTERFACE -fwasm-exceptions)
target_link_options(canewright_flags INTERFACE -fwasm-exceptions)
# Every browser with wasm exceptions has these too; they make the code shorter.
target_compile_options(canewright_flags INTERFACE -mnontrapping-fptoint -mbulk-memory -msign-ext)

# A first visit waits for size, every keystroke after it for speed: -O2 where the time goes. That is
# physics, and the small matrices of least squares: without inlining they cost more than the physics.
# The size flags must come after -O2: emcc leaves inlining off once it has seen -Oz.
set(fast_sources ${core_sources})
list(FILTER fast_sources INCLUDE REGEX
     "/core/(air|element|flute|jet|tone|listen|bench)/|/core/layout/(builds|quadratic_program|problem|gauss_newton|step_program|walls)")
list(FILTER fast_sources EXCLUDE REGEX
     "/core/(air/|listen/typed_pitch|element/(sound_hole|voice|widening)|flute/ridge_place|jet/sounding)")
# Of the bench the sums are fast; what decides between them is small: 45 kB of the single file.
list(FILTER fast_sources EXCLUDE REGEX "/core/bench/(cuts|next_step|rescue|make_step|builder|names|strokes|aim)")
set(api_sources ${core_sources})
list(FILTER api_sources INCLUDE REGEX "/core/api[^/]*$")
set(small_sources ${core_sources})
list(REMOVE_ITEM small_sources ${fast_sources} ${api_sources})

add_core_part(canewright_fast ${fast_sources})
target_compile_options(canewright_fast PRIVATE "SHELL:-mllvm -inline-threshold=70" -fno-exceptions -fno-rtti)
add_core_part(canewright_small ${small_sources})
target_compile_options(canewright_small PRIVATE -Oz -fno-exceptions -fno-rtti)
add_core_part(canewright_api ${api_sources})
target_compile_options(canewright_api PRIVATE -Oz)
set(canewright_parts canewright_fast canewright_small canewright_api)
