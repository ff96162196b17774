# tools/reference/flute_model.py -- the flute of core/ written a second time, in numpy and scipy.
"""The same formulas as core/element and core/flute/network (sources stand there), for a uniform
round bore, straight finger holes, an open foot and soft fingers. Two uses: the comparison of speed
in tools/bench, and a check that core/ computes what its formulas say: Bessel functions come from
scipy here, the resonance from the sign of Im Z instead of the turn of the reflection.

A flute is a dict of SI numbers: bore_m, wall_m, window_length_m, foot_m, holes [(at_m, diameter_m)]
and the sound hole's two constants from core/element/sound_hole: inertance_m, cavity_m. Air is a
dict: c, rho, gamma, mu, kappa, cp.
"""
import numpy as np
from scipy.optimize import toms748
from scipy.special import jv

ROOT_ERROR = 1e-12  # as kResonanceError in core/flute/resonance.hpp
WINDOW_GROWTH = 0.229  # as kWindowGrowth in core/element/sound_hole
STEP = 1.05  # as kBracketStep


def line(air, radius, w):
    """Propagation constant and characteristic impedance of a viscothermal cylinder."""
    area = np.pi * radius**2
    shear = radius * np.sqrt(air["rho"] * w / air["mu"])

    def loss(s):
        z = s * np.exp(-0.25j * np.pi)
        return 2 / z * jv(1, z) / jv(0, z)

    friction = loss(shear)
    heat = loss(shear * np.sqrt(air["mu"] * air["cp"] / air["kappa"]))
    z = 1j * w * air["rho"] / area / (1 - friction)
    y = 1j * w * area / (air["rho"] * air["c"] ** 2) * (1 + (air["gamma"] - 1) * heat)
    propagation = np.sqrt(z * y)
    return propagation, z / propagation


def cylinder(constants, length):
    propagation, impedance = constants
    cosh, sinh = np.cosh(propagation * length), np.sinh(propagation * length)
    return np.array([[cosh, impedance * sinh], [sinh / impedance, cosh]])


def end_impedance(air, a, outer, w):
    k, s = w / air["c"], a / outer
    v, ka = 1 - s, k * a
    low = 0.8216 - 0.2089 * s + s * (
        0.0836 * v ** (2 / 3) + 0.2676 * v - 0.4331 * v ** (4 / 3) + 0.1537 * v * v)
    part = min(v, 2 / 3)
    delta = a * (low + ka**2 * (-0.1455 - 0.0933 * part + 0.9662 * part**2))
    size = (1 + 0.8 * ka**2) / (1 + 1.3 * ka**2 + ka**4 * (0.266 + 0.0263 * ka**2))
    reflection = -size * np.exp(-2j * k * delta)
    return air["rho"] * air["c"] / (np.pi * a * a) * (1 + reflection) / (1 - reflection)


def inner_length(b, g):
    return b * (0.82 - 0.193 * g - 1.09 * g**2 + 1.27 * g**3 - 0.71 * g**4)


def matching(b, g):
    return b * g / 8 * (1 + 0.207 * g**3)


def open_length(b, g, t):
    f = np.polyval([0.560, -1.897, 2.332, -1.519, 0.269, -0.044], g)
    h = np.polyval([-0.063, 0.295, -0.394, 0.182, -0.684, 1.643], g)
    return t + b * (1 + f * (1 - np.tanh(0.788 * t / b))) * h


def open_series(b, g, t):
    return -b * g * g * (0.301 + 0.1234 * np.exp(-4.7 * t / b))


def fingered_series(b, a, t):
    g = b / a
    intrusion = b * (0.55 - 0.15 / np.cosh(9 * t / a) + 0.4 / np.cosh(6.5 * t / a) * (g - 1))
    x = 1.84 * (t - intrusion) / b
    q = np.tanh(x) if x > 0 else x
    return -b * g * g * q / (1.78 + (0.940 + 0.540 * g + 0.285 * g * g) * q)


def coupling(air, distance, outer, along_wall, w):
    kd = w / air["c"] * distance
    wall = 1 + np.exp(-0.944 * (distance / outer) ** 0.717) if along_wall else 1.0
    return air["rho"] * w / (4 * np.pi * distance) * (np.sin(kd) + 1j * wall * np.cos(kd))


def loop_impedance(flute, air, opened, frequency):
    """Impedance of the loop through sound hole, bore and the air outside [Pa s/m^3]."""
    w = 2 * np.pi * frequency
    a, t = flute["bore_m"] / 2, flute["wall_m"]
    area = np.pi * a * a
    centre = flute["window_length_m"] / 2
    holes = list(enumerate(flute["holes"], 1))[::-1]  # from the foot upwards
    places = [flute["foot_m"]] + [h[0] for i, h in holes if i in opened] + [centre]
    ports, window = len(places), len(places) - 1
    resistance = air["rho"] * air["c"] * (w / air["c"]) ** 2 / (4 * np.pi)

    outside = np.zeros((ports, ports), complex)
    for i in range(ports):
        for j in range(i + 1, ports):
            distance = places[i] - places[j]
            if i == 0:  # the foot radiates from beyond its edge, the others from the wall
                distance = np.hypot(distance + 0.6 * a, a + t)
            outside[i, j] = outside[j, i] = coupling(
                air, distance, a + t, i > 0 and j < window, w)

    bore = line(air, a, w)
    state = np.zeros((2, ports), complex)  # p and U as linear forms in the flows out
    state[0] = outside[0]
    state[0, 0] = end_impedance(air, a, a + t, w)
    state[1, 0] = 1
    equations, port, at = [], 0, flute["foot_m"]
    for number, (hole_at, diameter) in holes:
        state = cylinder(bore, at - hole_at) @ state
        at, b = hole_at, diameter / 2
        g, inside = b / a, line(air, b, w)
        if number in opened:
            port += 1
            half = 0.5j * w * air["rho"] * open_series(b, g, t) / area
            m = cylinder(inside, open_length(b, g, t))
            state[0] += half * state[1]
            outer = outside[port].copy()
            outer[port] += resistance
            unit = np.eye(ports)[port]
            equations.append(state[0] - m[0, 0] * outer - m[0, 1] * unit)
            state[1] += m[1, 0] * outer + m[1, 1] * unit
        else:
            half = 0.5j * w * air["rho"] * fingered_series(b, a, t) / area
            taken = min(0.9 * t, b * (0.1 + 0.7 * g))
            m = cylinder(inside, matching(b, g) + t - taken)
            mass = 1j * w * air["rho"] * inner_length(b, g) / (np.pi * b * b)
            state[0] += half * state[1]
            state[1] += m[1, 0] / (m[0, 0] + mass * m[1, 0]) * state[0]
        state[0] += half * state[1]
    state = cylinder(bore, at - centre) @ state
    state[1] += np.tanh(bore[0] * flute["cavity_m"]) / bore[1] * state[0]
    equations.append(state[1] + np.eye(ports)[window])

    equations = np.array(equations)
    flow = np.concatenate([[1], np.linalg.solve(equations[:, 1:], -equations[:, 0])])
    growth = 1 + WINDOW_GROWTH * (w / air["c"] * flute["window_length_m"]) ** 2
    mass = air["rho"] * flute["inertance_m"] * growth / area
    p, u = state @ flow
    return (p + (resistance + 1j * w * mass) * u - outside[window] @ flow) / u


def first_resonance(flute, air, opened):
    """(frequency, evaluations): the lowest one at which Im Z rises through zero."""
    count = 0

    def reactance(f):
        nonlocal count
        count += 1
        return loop_impedance(flute, air, opened, f).imag

    first = min([flute["foot_m"]] + [flute["holes"][i - 1][0] for i in opened])
    low = 0.4 * air["c"] / (first - flute["window_length_m"] / 2)
    high, before = low, reactance(low)
    if before < 0:
        while before < 0:
            low, high = high, high * STEP
            before = reactance(high)
    else:
        while before >= 0:
            low, high = low / STEP, low
            before = reactance(low)
    return toms748(reactance, low, high, rtol=ROOT_ERROR), count
