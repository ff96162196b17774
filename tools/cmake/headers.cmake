# tools/cmake/headers.cmake -- Eigen, Boost, nlohmann and Catch2, which are headers only.
#
# Each folder is linked into the build tree. For wasm that is needed: the system's include folder would put the
# machine's C library in front of Emscripten's own. Natively it costs nothing and keeps one way.
set(canewright_headers_dir "${CMAKE_BINARY_DIR}/headers")
file(MAKE_DIRECTORY "${canewright_headers_dir}")

# name: what the sources write before the first slash; from: where the folder is installed.
function(canewright_link_headers name from)
    if(NOT IS_DIRECTORY "${from}")
        message(FATAL_ERROR "${from} is missing: run tools/setup")
    endif()
    file(CREATE_LINK "${from}" "${canewright_headers_dir}/${name}" SYMBOLIC)
endfunction()

set(CANEWRIGHT_INCLUDE "/usr/include" CACHE PATH "where the header-only libraries are installed")
canewright_link_headers(boost "${CANEWRIGHT_INCLUDE}/boost")
canewright_link_headers(catch2 "${CANEWRIGHT_INCLUDE}/catch2")
canewright_link_headers(nlohmann "${CANEWRIGHT_INCLUDE}/nlohmann")
canewright_link_headers(Eigen "${CANEWRIGHT_INCLUDE}/eigen3/Eigen")

add_library(canewright_headers INTERFACE)
target_include_directories(canewright_headers SYSTEM INTERFACE "${canewright_headers_dir}")
target_compile_definitions(canewright_headers INTERFACE
    EIGEN_MPL2_ONLY  # refuses the parts of Eigen under a stricter licence
    # Boost.Math otherwise computes in long double: 80 bits natively, 128 bits in software in wasm.
    BOOST_MATH_PROMOTE_DOUBLE_POLICY=false
    # Boost.Math otherwise writes its error messages with streams: 60 kB of locales in the module.
    # We check what comes back (NaN, a bracket that is not one) and never read the messages.
    BOOST_MATH_DOMAIN_ERROR_POLICY=errno_on_error
    BOOST_MATH_POLE_ERROR_POLICY=errno_on_error
    BOOST_MATH_OVERFLOW_ERROR_POLICY=errno_on_error
    BOOST_MATH_EVALUATION_ERROR_POLICY=errno_on_error
    BOOST_MATH_ROUNDING_ERROR_POLICY=errno_on_error
    JSON_NO_IO)  # documents come and go as text, not as streams
