# tools/cmake/wasm.cmake -- the WebAssembly module, and the tests as a program for Node.

# Size is what a first visit waits for; speed matters in the physics, which stays at -O2. Exceptions
# are for the tests and for core/api, the last stop of what a library throws (no memory); below it
# nothing throws, and the code for unwinding would be a sixth of the module.
set(CMAKE_CXX_FLAGS_RELEASE "-Oz -g0 -DNDEBUG")
target_compile_options(canewright_flags INTERFACE -fwasm-exceptions)
target_link_options(canewright_flags INTERFACE -fwasm-exceptions)
foreach(source IN LISTS core_sources)
    if(source MATCHES "/core/(air|element|flute)/")
        set_source_files_properties("${source}" PROPERTIES COMPILE_OPTIONS "-O2;-fno-exceptions")
    elseif(NOT source MATCHES "/core/api[^/]*$")
        set_source_files_properties("${source}" PROPERTIES COMPILE_OPTIONS "-fno-exceptions")
    endif()
endforeach()

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
