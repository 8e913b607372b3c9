"""The work of the signal benchmark in numpy and scipy: python3 signal_scipy.py FILE

Reads a CSV file of time and two channels, finds each channel's fundamental, fits it together with nine harmonics and
the constant by nonlinear least squares, and prints frequency and distortion. Written for numpy 2.4.6, scipy 1.17.1.
"""

import sys

import numpy as np
from scipy.fft import rfft
from scipy.optimize import least_squares
from scipy.signal.windows import blackmanharris

ORDERS = 10


def harmonics(values, rate):
    count = len(values)
    times = np.arange(count) - (count - 1) / 2
    spectrum = np.abs(rfft((values - values.mean()) * blackmanharris(count, sym=False)))
    peak = int(np.argmax(spectrum[8:])) + 8
    before, here, after = np.log(spectrum[peak - 1 : peak + 2])
    start = 2 * np.pi * (peak + (before - after) / (2 * (before - 2 * here + after))) / count

    def columns(angle):
        phases = np.outer(times, angle * np.arange(1, ORDERS + 1))
        return np.hstack([np.ones((count, 1)), np.cos(phases), np.sin(phases)])

    def solved(angle):
        design = columns(angle)
        return design, np.linalg.solve(design.T @ design, design.T @ values)

    def rest(scaled):
        design, amplitudes = solved(start + scaled[0] / count)
        return values - design @ amplitudes

    found = least_squares(rest, [0.0], method="lm", xtol=1e-9, ftol=1e-15)
    angle = start + found.x[0] / count
    _, amplitudes = solved(angle)
    levels = np.hypot(amplitudes[1 : ORDERS + 1], amplitudes[ORDERS + 1 :])
    return angle * rate / (2 * np.pi), np.sqrt(np.sum(levels[1:] ** 2)) / levels[0]


time, *channels = np.loadtxt(sys.argv[1], delimiter=",", skiprows=1, unpack=True)
rate = (len(time) - 1) / (time[-1] - time[0])
for channel in channels:
    print(*harmonics(channel, rate))
