"""Level, distortion, hum and noise of a tone by numpy and scipy: the estimates of bench.tone, written plainly.

Reads {"path", "rate_Hz", "frames", "channels", "mains_Hz"} on stdin: float32 samples, channels in turn. Prints the
figures of each channel, the seconds taken and the peak memory.
"""
import json, resource, sys, time
import numpy as np
from scipy import signal as sg

q = json.load(sys.stdin)
rate, frames, channels = q["rate_Hz"], q["frames"], q["channels"]
begun = time.perf_counter()
worked = time.process_time()
data = np.fromfile(q["path"], dtype="<f4").reshape(frames, channels)
out = []
t = (np.arange(frames) - frames / 2) / rate
window = sg.windows.tukey(frames, 0.02)
total = window.sum()


def comb(x, f, t, window, orders):
    """Amplitudes of f, 2f, 3f ..., each taken out before the next; turning phasors by multiplication."""
    one = np.exp(-2j * np.pi * f * t)
    turn = np.ones_like(one)
    found = []
    for _ in range(orders):
        turn *= one
        a = 2 * np.dot(x * window, turn) / window.sum()
        x -= (a * np.conj(turn)).real
        found.append(a)
    return np.array(found)


def refine(x, f, t, rate):
    """Frequency of a line from how its phase turns over blocks of an eighth of a second."""
    n = int(rate) // 8
    blocks = len(x) // n
    low = (x[: blocks * n] * np.exp(-2j * np.pi * f * t[: blocks * n])).reshape(blocks, n).mean(axis=1)
    phase = np.unwrap(np.angle(low))
    return f + np.polyfit(np.arange(blocks) * n / rate, phase, 1, w=np.abs(low))[0] / (2 * np.pi)


down = 6
for c in range(channels):
    x = data[:, c].astype(float)
    x -= x.mean()
    f, p = sg.welch(x, rate, "hann", nperseg=2**18)
    tone = refine(x, refine(x, f[np.argmax(p)], t, rate), t, rate)
    harmonics = np.abs(comb(x, tone, t, window, 10))
    low = sg.resample_poly(x, 1, down)
    t_low = t[0] + np.arange(len(low)) * down / rate
    mains = refine(low, q["mains_Hz"], t_low, rate / down)
    lines = comb(low, mains, t_low, sg.windows.tukey(len(low), 0.02), 100)
    # Lines that stand out are taken out of the full-rate signal too: their skirts would count as noise.
    for order in np.flatnonzero(np.abs(lines) > 4 * np.median(np.abs(lines))) + 1:
        x -= (lines[order - 1] * np.exp(2j * np.pi * order * mains * t)).real
    f, p = sg.welch(x, rate, "hann", nperseg=2**18)
    step = f[1] - f[0]
    for order in range(1, 101):
        k = int(round(order * mains / step))
        p[k - 4 : k + 5] = np.median(p[max(1, k - 40) : k + 41])
    band = (f >= 20) & (f <= 20000)
    out.append(
        {
            "frequency_Hz": tone,
            "level_Vrms": harmonics[0] / np.sqrt(2),
            "thd_pct": 100 * np.sqrt(np.sum(np.square(harmonics[1:]))) / harmonics[0],
            "noise_Vrms": float(np.sqrt(np.sum(p[band]) * step)),
            "mains_Hz": mains,
            "hum_Vrms": float(np.sqrt(np.sum(np.abs(lines) ** 2) / 2)),
        }
    )
taken = time.perf_counter() - begun
usage = resource.getrusage(resource.RUSAGE_SELF)
print(
    json.dumps(
        {
            "channels": out,
            "seconds": taken,
            "processor_s": time.process_time() - worked,
            "peak_MB": usage.ru_maxrss / 1024,
        }
    )
)
