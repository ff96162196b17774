#!/usr/bin/env python3
# tests/cli/tone_pitch.py -- the pitch of samples by numpy's FFT, which knows nothing of this project.
"""JSON on standard input: {"samples": base64url of 16 bits each, lower byte first, "rate_hz", "from_s",
"seconds", "near_hz"}; on standard output the frequency of the greatest peak within a semitone of
near_hz.

Model   Hann's window, the transform padded eightfold, the peak of the logarithm's parabola through
        three bins: for a lone sinusoid good to 0.01 cent here (J.O. Smith, Spectral Audio Signal
        Processing, from memory; checked below at every run)."""
import base64
import json
import sys

import numpy


def peak_hz(samples, rate_hz, near_hz):
    padded = 8 * len(samples)
    power = numpy.abs(numpy.fft.rfft(samples * numpy.hanning(len(samples)), padded))
    hz = numpy.fft.rfftfreq(padded, 1.0 / rate_hz)
    inside = (hz > near_hz * 2 ** (-1 / 12)) & (hz < near_hz * 2 ** (1 / 12))
    k = int(numpy.argmax(numpy.where(inside, power, 0.0)))
    low, middle, high = numpy.log(power[k - 1:k + 2])
    return (k + 0.5 * (low - high) / (low - 2 * middle + high)) * rate_hz / padded


given = json.load(sys.stdin)
packed = given["samples"]
samples = numpy.frombuffer(base64.urlsafe_b64decode(packed + "=" * (-len(packed) % 4)), "<i2") / 32768.0
rate = given["rate_hz"]
start = int(given["from_s"] * rate)
piece = samples[start:start + int(given["seconds"] * rate)]
known = peak_hz(numpy.sin(2 * numpy.pi * given["near_hz"] / rate * numpy.arange(len(piece)) + 0.3), rate,
                given["near_hz"])
if abs(1200 * numpy.log2(known / given["near_hz"])) > 0.01:
    sys.exit("the measure is off on a sine")
json.dump({"hz": peak_hz(piece, rate, given["near_hz"])}, sys.stdout)
