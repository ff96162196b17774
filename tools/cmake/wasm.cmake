# tools/cmake/wasm.cmake -- the WebAssembly module, and the tests as a program for Node.

# Exceptions exist because libraries throw; ours are data (core/base/violation.hpp).
target_compile_options(canewright_flags INTERFACE -fwasm-exceptions)
target_link_options(canewright_flags INTERFACE -fwasm-exceptions)

# Reading and writing JSON is most of the code and none of the work: small there, fast in the
# acoustics. Halves the download.
file(GLOB_RECURSE small_sources CONFIGURE_DEPENDS
     "${CMAKE_CURRENT_SOURCE_DIR}/core/document/*.cpp" "${CMAKE_CURRENT_SOURCE_DIR}/core/api.cpp"
     "${CMAKE_CURRENT_SOURCE_DIR}/core/music/*.cpp" "${CMAKE_CURRENT_SOURCE_DIR}/core/base/*.cpp")
set_source_files_properties(
    ${small_sources} "${CMAKE_CURRENT_SOURCE_DIR}/wasm/bindings.cpp" PROPERTIES COMPILE_OPTIONS -Oz)

# Nothing throws in the acoustics (core/base/violation.hpp), so no call there needs clean-up code
# for an exception; only what calls Boost.Math or the JSON library keeps it.
file(GLOB_RECURSE calm_sources CONFIGURE_DEPENDS
     "${CMAKE_CURRENT_SOURCE_DIR}/core/air/*.cpp" "${CMAKE_CURRENT_SOURCE_DIR}/core/element/*.cpp"
     "${CMAKE_CURRENT_SOURCE_DIR}/core/flute/network*.cpp"
     "${CMAKE_CURRENT_SOURCE_DIR}/core/flute/geometry.cpp"
     "${CMAKE_CURRENT_SOURCE_DIR}/core/layout/*.cpp")
set_source_files_properties(${calm_sources} PROPERTIES COMPILE_OPTIONS -fno-exceptions)

# --- the module the page loads: build/wasm/core/canewright.{js,wasm} ---------------------------
add_executable(canewright_wasm wasm/bindings.cpp)
target_link_libraries(canewright_wasm PRIVATE canewright_core)
set_target_properties(canewright_wasm PROPERTIES
    OUTPUT_NAME canewright
    SUFFIX ".js"
    RUNTIME_OUTPUT_DIRECTORY "${CMAKE_BINARY_DIR}/core")
target_link_options(canewright_wasm PRIVATE
    -Os
    --bind
    -sMODULARIZE
    -sEXPORT_ES6
    -sEXPORT_NAME=createCanewright
    -sENVIRONMENT=web,worker  # in Node pass {wasmBinary}: its own loader breaks in an ES module
    -sDYNAMIC_EXECUTION=0     # Embind would call `new Function`, which our CSP forbids
    -sFILESYSTEM=0
    -sMALLOC=emmalloc  # small; the core allocates little
    -sALLOW_MEMORY_GROWTH=1)

# --- the Catch2 tests, run by Node -------------------------------------------------------------
target_compile_definitions(canewright_tests PRIVATE CATCH_CONFIG_NO_POSIX_SIGNALS)
target_link_options(canewright_tests PRIVATE
    -O1
    -sENVIRONMENT=node
    -sNODERAWFS=1  # the tests read tests/data from the real disk
    -sEXIT_RUNTIME=1
    -sALLOW_MEMORY_GROWTH=1)
