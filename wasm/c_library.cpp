// wasm/c_library.cpp -- two functions of the C library in fewer bytes than its own: those calculate
// with 128-bit numbers that no browser has, a twentieth of the first module.
#include <emscripten/emscripten.h>

#include <cstdarg>
#include <cstddef>
#include <cstring>

// Correctly rounded, as the standard asks (ECMA-262, StringToNumber, up to 20 digits; every engine
// does so for any number of them).
EM_JS(double, number_of_text, (const char* at), {
    let text = "";
    for (; HEAPU8[at]; ++at) text += String.fromCharCode(HEAPU8[at]);
    return Number(text);
});

extern "C" {

// Of whole texts that are numbers, which is what the JSON reader and core/base/digits hand over.
double strtod(const char* text, char** end) {
    if (end != nullptr) *end = const_cast<char*>(text) + std::strlen(text);
    return number_of_text(text);
}

// Named by the C++ library in what nobody calls: without them the C library's own strtod comes too.
float strtof(const char* text, char** end) { return static_cast<float>(strtod(text, end)); }
long double strtold(const char* text, char** end) { return strtod(text, end); }

int vsniprintf(char* text, std::size_t size, const char* format, std::va_list values);

// Of whole numbers alone, which is all that is printed (JSON's \u, and its errors).
int snprintf(char* text, std::size_t size, const char* format, ...) {
    std::va_list values;
    va_start(values, format);
    const int length = vsniprintf(text, size, format, values);
    va_end(values);
    return length;
}

}  // extern "C"
