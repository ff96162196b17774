// tools/mutating/mutant.hpp -- the faults that tools/mutate sows, all compiled in, one at work.
//
// Read before every source of the core's faulty copy. The environment names the fault of a run
// (CANEWRIGHT_MUTANT=17; nothing: none), or a file that receives what a run came past. An operator
// is replaced by two with an object between: both keep the place in the order of operations that
// the one had.
#pragma once

#include <algorithm>
#include <initializer_list>
#include <type_traits>

namespace mutant {

// A class, so that it can be there before the constants of other sources (chosen.cpp).
struct Chosen {
    Chosen();
    int fault;  // below 0: only note what is come past
};
extern const Chosen chosen;
void come_past(int fault);

inline bool on(int fault) {
    if (chosen.fault == fault) return true;
    if (chosen.fault < 0) come_past(fault);
    return false;
}

template <class T>
T scaled(int fault, T value, double factor) {
    return on(fault) ? static_cast<T>(value * factor) : value;
}
template <class T>
T stepped(int fault, T value, int by) {
    return on(fault) ? static_cast<T>(value + static_cast<T>(by)) : value;
}
// The neighbour of an index, downwards where there is one.
template <class T>
std::enable_if_t<std::is_integral_v<T>, T> beside(int fault, T index) {
    if (!on(fault)) return index;
    return static_cast<T>(index > 0 ? index - 1 : index + 1);
}

template <class T>
T lesser(int fault, const T& a, const T& b) {
    return on(fault) ? std::max<T>(a, b) : std::min<T>(a, b);
}
template <class T>
T lesser(int fault, std::initializer_list<T> all) {
    return on(fault) ? std::max<T>(all) : std::min<T>(all);
}
template <class T>
T greater(int fault, const T& a, const T& b) {
    return on(fault) ? std::min<T>(a, b) : std::max<T>(a, b);
}
template <class T>
T greater(int fault, std::initializer_list<T> all) {
    return on(fault) ? std::min<T>(all) : std::max<T>(all);
}

// a +Sign{n}* b: a - b, or a, where fault n is at work.
struct Sign {
    int fault;
    bool drops;
};
template <class T>
T operator*(Sign sign, const T& term) {
    if (!on(sign.fault)) return term;
    return sign.drops ? T{} : T(-term);
}

// a *Over{n}% b: a / b, and the other way round.
struct Over {
    int fault;
};
struct Times {
    int fault;
};
template <class A, class F>
struct Left {
    const A& a;
    F f;
};
template <class A>
Left<A, Over> operator*(const A& a, Over f) {
    return {a, f};
}
template <class A>
Left<A, Times> operator/(const A& a, Times f) {
    return {a, f};
}
template <class A, class B>
auto operator%(Left<A, Over> left, const B& b) -> decltype(left.a * b) {
    if (on(left.f.fault)) return left.a / b;
    return left.a * b;
}
template <class A, class B>
auto operator%(Left<A, Times> left, const B& b) -> decltype(left.a / b) {
    if (on(left.f.fault)) return left.a * b;
    return left.a / b;
}

// a <Less{n}< b, and its like: turned round, or moved by one where both are whole numbers.
template <class A, class B>
inline constexpr bool kWhole = std::is_integral_v<A>&& std::is_integral_v<B>;
struct Less {
    int fault;
};
struct NoMore {
    int fault;
};
struct More {
    int fault;
};
struct NoLess {
    int fault;
};
struct Same {
    int fault;
};
struct Other {
    int fault;
};
template <class A>
Left<A, Less> operator<(const A& a, Less f) {
    return {a, f};
}
template <class A>
Left<A, NoMore> operator<=(const A& a, NoMore f) {
    return {a, f};
}
template <class A>
Left<A, More> operator>(const A& a, More f) {
    return {a, f};
}
template <class A>
Left<A, NoLess> operator>=(const A& a, NoLess f) {
    return {a, f};
}
template <class A>
Left<A, Same> operator==(const A& a, Same f) {
    return {a, f};
}
template <class A>
Left<A, Other> operator!=(const A& a, Other f) {
    return {a, f};
}
template <class A, class B>
bool operator<(Left<A, Less> left, const B& b) {
    if constexpr (kWhole<A, B>) return on(left.f.fault) ? left.a + 1 < b : left.a < b;
    return on(left.f.fault) ? left.a >= b : left.a < b;
}
template <class A, class B>
bool operator<=(Left<A, NoMore> left, const B& b) {
    if constexpr (kWhole<A, B>) return on(left.f.fault) ? left.a < b : left.a <= b;
    return on(left.f.fault) ? left.a > b : left.a <= b;
}
template <class A, class B>
bool operator>(Left<A, More> left, const B& b) {
    if constexpr (kWhole<A, B>) return on(left.f.fault) ? left.a >= b : left.a > b;
    return on(left.f.fault) ? left.a <= b : left.a > b;
}
template <class A, class B>
bool operator>=(Left<A, NoLess> left, const B& b) {
    if constexpr (kWhole<A, B>) return on(left.f.fault) ? left.a > b : left.a >= b;
    return on(left.f.fault) ? left.a < b : left.a >= b;
}
template <class A, class B>
bool operator==(Left<A, Same> left, const B& b) {
    return on(left.f.fault) ? left.a != b : left.a == b;
}
template <class A, class B>
bool operator!=(Left<A, Other> left, const B& b) {
    return on(left.f.fault) ? left.a == b : left.a != b;
}

}  // namespace mutant
