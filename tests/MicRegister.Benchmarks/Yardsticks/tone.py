"""A recorded tone by numpy and scipy, as one would script it: band-limited rms by Fourier transform, frequency by the interpolated peak,
fluctuation by an exponential average. Prints the seconds of the second pass over all files, then rms and frequency of each.
use: tone.py FILE...   Plain RIFF, 24 bits, one channel."""
import struct
import sys
import time

import numpy as np
from scipy.fft import irfft, rfft
from scipy.signal import lfilter


def read(path):
    raw = np.fromfile(path, np.uint8)
    at = 12
    while True:
        name, size = bytes(raw[at:at + 4]), struct.unpack("<I", bytes(raw[at + 4:at + 8]))[0]
        if name == b"fmt ":
            rate = struct.unpack("<I", bytes(raw[at + 12:at + 16]))[0]
        if name == b"data":
            break
        at += 8 + size + (size & 1)
    data = raw[at + 8:at + 8 + size]
    whole = np.zeros((data.size // 3, 4), np.uint8)
    whole[:, 1:] = data.reshape(-1, 3)
    return rate, whole.view("<i4").ravel() / 2.0**31


def tone(rate, x):
    step = rate / x.size
    spectrum = rfft(x)
    magnitude = np.abs(rfft(x * np.hanning(x.size)))
    low = int(200 / step)
    k = low + int(np.argmax(magnitude[low:int(300 / step)]))
    a, b, c = np.log(magnitude[k - 1:k + 2])
    hertz = (k + 0.5 * (a - c) / (a - 2 * b + c)) * step
    band = np.zeros_like(spectrum)
    band[int(225 / step):int(275 / step)] = spectrum[int(225 / step):int(275 / step)]
    y = irfft(band, x.size)
    share = 1 - np.exp(-1 / (0.125 * rate))
    fast = lfilter([share], [1, share - 1], y * y)[rate:-rate // 4:512]
    return np.sqrt(np.mean(y * y)), hertz, 5 * np.log10(fast.max() / fast.min())


for run in range(2):
    start = time.perf_counter()
    found = [tone(*read(path)) for path in sys.argv[1:]]
    took = time.perf_counter() - start
print(took)
for rms, hertz, _ in found:
    print(repr(float(rms)), repr(float(hertz)))
