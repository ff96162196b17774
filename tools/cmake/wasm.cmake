# tools/cmake/wasm.cmake -- the WebAssembly module, and the tests as a program for Node.

# Exceptions exist because libraries throw; ours are data (core/base/violation.hpp).
target_compile_options(canewright_flags INTERFACE -fwasm-exceptions)
target_link_options(canewright_flags INTERFACE -fwasm-exceptions)

# --- the module the page loads: build/wasm/core/canewright.{js,wasm} ---------------------------
add_executable(canewright_wasm wasm/bindings.cpp)
target_link_libraries(canewright_wasm PRIVATE canewright_core)
set_target_properties(canewright_wasm PROPERTIES
    OUTPUT_NAME canewright
    SUFFIX ".js"
    RUNTIME_OUTPUT_DIRECTORY "${CMAKE_BINARY_DIR}/core")
target_link_options(canewright_wasm PRIVATE
    -O2
    --bind
    -sMODULARIZE
    -sEXPORT_ES6
    -sEXPORT_NAME=createCanewright
    -sENVIRONMENT=web,worker  # in Node pass {wasmBinary}: its own loader breaks in an ES module
    -sDYNAMIC_EXECUTION=0     # Embind would call `new Function`, which our CSP forbids
    -sFILESYSTEM=0
    -sALLOW_MEMORY_GROWTH=1)

# --- the Catch2 tests, run by Node -------------------------------------------------------------
target_compile_definitions(canewright_tests PRIVATE CATCH_CONFIG_NO_POSIX_SIGNALS)
target_link_options(canewright_tests PRIVATE
    -O1
    -sENVIRONMENT=node
    -sNODERAWFS=1  # the tests read tests/data from the real disk
    -sEXIT_RUNTIME=1
    -sALLOW_MEMORY_GROWTH=1)
