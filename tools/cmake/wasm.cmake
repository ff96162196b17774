# tools/cmake/wasm.cmake -- the WebAssembly module, and the tests as a program for Node.

# --- the modules the page loads: build/wasm/core/{canewright,workshop}.{js,wasm} ----------------
# The first visit gets canewright alone; workshop has everything, for the bench and for links.
function(add_page_module target name bindings)
    # Embind's calls into JavaScript have thread-local statics, which the compiler makes plain ones
    # only where there is no bulk memory.
    set_source_files_properties("${CMAKE_CURRENT_SOURCE_DIR}/${bindings}" wasm/c_library.cpp
        PROPERTIES COMPILE_OPTIONS "-Oz;-mno-bulk-memory")
    # Of a template that several parts use the linker keeps the first copy it meets: the fast part's.
    # With those compiled for size, `next` took three times as long, and the module was no smaller.
    add_executable(${target} $<TARGET_OBJECTS:canewright_fast> ${bindings} wasm/c_library.cpp)
    target_link_libraries(${target} PRIVATE canewright_core)
    set_target_properties(${target} PROPERTIES
        OUTPUT_NAME ${name}
        SUFFIX ".js"
        RUNTIME_OUTPUT_DIRECTORY "${CMAKE_BINARY_DIR}/core")
    target_link_options(${target} PRIVATE
        -Oz
        --bind
        -sMODULARIZE
        -sEXPORT_ES6
        -sEXPORT_NAME=createCanewright
        -sENVIRONMENT=web,worker  # in Node pass {wasmBinary}: its own loader breaks in an ES module
        -sDYNAMIC_EXECUTION=0     # Embind would call `new Function`, which our CSP forbids
        -sFILESYSTEM=0
        -sTEXTDECODER=2  # every browser has one
        -sINCOMING_MODULE_JS_API=wasmBinary,instantiateWasm  # what the page and the tests pass
        -sMALLOC=emmalloc  # small; the core allocates little
        -sALLOW_MEMORY_GROWTH=1)
endfunction()
add_page_module(canewright_wasm canewright wasm/bindings.cpp)
add_page_module(workshop_wasm workshop wasm/bindings_workshop.cpp)

# --- the Catch2 tests, run by Node -------------------------------------------------------------
target_compile_definitions(canewright_test_objects PRIVATE CATCH_CONFIG_NO_POSIX_SIGNALS)
target_link_options(canewright_tests PRIVATE
    -O1
    -sENVIRONMENT=node
    -sNODERAWFS=1  # the tests read tests/data from the real disk
    -sEXIT_RUNTIME=1
    -sALLOW_MEMORY_GROWTH=1)
