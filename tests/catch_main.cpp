// tests/catch_main.cpp -- the one object that holds Catch2 itself and its main().
#define CATCH_CONFIG_MAIN
#include <catch2/catch.hpp>
