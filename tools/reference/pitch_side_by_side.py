#!/usr/bin/env python3
# tools/reference/pitch_side_by_side.py -- our pitch tracker beside a general pitch library.
"""Makes flute tones with numpy (150 to 3000 Hz, 3 to 8 harmonics below a strong fundamental, breath
noise 10 dB below the tone, +-30 cents of drift), and noise, and lets both trackers hear the very
same frames: core/listen, and the methods of aubio (Debian: python3-aubio; used here and nowhere
else; run with the Python it was installed for). Prints errors in cents against the phase the tones
were made from. The tones are drawn here a second time, not taken from the C++ tests.

Usage: pitch_side_by_side.py TEST_PROGRAM [--tones N] [--seed S]
       TEST_PROGRAM is the built test program (build/native/canewright_tests)
"""
import argparse
import os
import re
import subprocess
import tempfile

import aubio
import numpy as np

FRAME = 8192
METHODS = ("yinfft", "yin", "mcomb", "fcomb", "specacf", "schmitt")


def tone(rng, rate):
    """One frame and its mean frequency."""
    t = np.arange(FRAME + 1) / rate
    middle = 150 * 20 ** rng.random()  # 150 to 3000 Hz, evenly in cents
    begin = rng.uniform(0, 1 - t[-1])  # any part of a drift that takes one second
    if rng.random() < 0.5:
        drift = 30 * (2 * (begin + t) - 1)
    else:
        drift = 30 * np.sin(np.pi * (begin + t) + rng.uniform(0, 2 * np.pi))
    drift *= rng.choice([-1, 1])
    frequency = middle * 2 ** (drift / 1200)
    turns = np.concatenate([[0], np.cumsum(frequency[:-1]) / rate])
    sound = np.sin(2 * np.pi * turns[:-1] + rng.uniform(0, 2 * np.pi))
    for k in range(2, rng.integers(3, 9) + 1):
        if k * middle < 0.48 * rate:
            sound += rng.uniform(0.05, 1.2) / k * np.sin(
                2 * np.pi * k * turns[:-1] + rng.uniform(0, 2 * np.pi))
    spectrum = np.fft.rfft(rng.standard_normal(FRAME))
    if rng.random() < 0.5:  # pink
        spectrum[1:] /= np.sqrt(np.arange(1, len(spectrum)))
        spectrum[0] = 0
    breath = np.fft.irfft(spectrum)
    breath *= np.sqrt(np.mean(sound**2) / np.mean(breath**2) / 10)
    both = sound + breath
    both *= 10 ** (rng.uniform(-40, -12) / 20) / np.sqrt(np.mean(both**2))
    return both.astype(np.float32), turns[-1] * rate / FRAME


def noise(rng, _rate):
    return (0.05 * rng.standard_normal(FRAME)).astype(np.float32)


def heard_by_us(program, frames, rate):
    with tempfile.NamedTemporaryFile() as file:
        file.write(np.array([rate, FRAME, len(frames)], np.int32).tobytes())
        file.write(np.array(frames).tobytes())
        file.flush()
        out = subprocess.run([program, "[.frames]"], check=True, capture_output=True, text=True,
                             env={**os.environ, "CANEWRIGHT_FRAMES": file.name}).stdout
    return np.array([float(f) for f in re.findall(r"^frame \d+ (\S+)", out, re.MULTILINE)])


def heard_by_aubio(method, size, frames, rate):
    """The whole frame at once; or, with windows of the library's usual size, the median of all
    that lie inside the frame."""
    hop = 512 if size < FRAME else FRAME
    heard = []
    for frame in frames:
        tracker = aubio.pitch(method, size, hop, rate)  # anew: no memory of the tone before
        tracker.set_unit("Hz")
        pitches = [float(tracker(part)[0]) for part in frame.reshape(-1, hop)]
        heard.append(np.median(pitches[size // hop - 1:]))
    return np.array(heard)


def row(name, heard, truth, in_noise):
    called = heard > 0
    errors = np.abs(1200 * np.log2(heard[called] / truth[called]))
    gross = np.count_nonzero(errors > 50)
    median, most = np.percentile(errors, [50, 95]) if len(errors) else (np.nan, np.nan)
    print(f"  {name:<20}{median:>9.3f}{most:>10.3f}{gross:>9d}{np.count_nonzero(~called):>9d}"
          f"{np.count_nonzero(in_noise > 0):>12d}/{len(in_noise)}")


def main():
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("program")
    parser.add_argument("--tones", type=int, default=1000)
    parser.add_argument("--seed", type=int, default=1)
    given = parser.parse_args()
    for rate in (44100, 48000):
        rng = np.random.default_rng(given.seed)
        pairs = [tone(rng, rate) for _ in range(given.tones)]
        frames = [frame for frame, _ in pairs]
        truth = np.array([frequency for _, frequency in pairs])
        noises = [noise(rng, rate) for _ in range(100)]
        print(f"{rate} Hz, {given.tones} tones of {FRAME} samples; errors in cents")
        print("                         median      95 %    gross  unheard   tone in noise")
        row("core/listen", heard_by_us(given.program, frames, rate), truth,
            heard_by_us(given.program, noises, rate))
        for method in METHODS:
            for size in (FRAME, 2048):
                row(f"aubio {method} {size}", heard_by_aubio(method, size, frames, rate), truth,
                    heard_by_aubio(method, size, noises, rate))


if __name__ == "__main__":
    main()
