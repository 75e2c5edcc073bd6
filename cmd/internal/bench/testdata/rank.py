"""The ranking with numpy, to time it beside lowsone.

csv CSV               ranks axial fans of 60 mm and 12 V for a device that lets
                      the fitted fan (40 m3/h, 60 Pa) move 20 m3/h
prepare CSV COLUMNS   keeps the columns that takes
columns COLUMNS       ranks from these
"""

import sys

import numpy as np

NUMBERS = ["width_mm", "height_mm", "depth_mm", "voltage_v", "airflow_m3h", "static_pressure_pa", "noise_dba", "noise_distance_m", "price"]
TEXTS = ["part", "kind", "noise_kind"]
# Mean shape of an axial fan: pressure at evenly spaced flows, both as shares.
SHAPE = np.array([1, .931, .854, .779, .711, .648, .595, .551, .512, .480, .447, .410, .364, .298, .209, .105, 0])
FLOW = np.linspace(0, 1, len(SHAPE))
NEED = 20.0  # m3/h


def read(source):
    import pandas

    table = pandas.read_csv(source, usecols=NUMBERS + TEXTS, dtype={name: str for name in TEXTS})
    columns = {name: table[name].to_numpy() for name in NUMBERS}
    columns["axial"] = (table["kind"] == "axial").to_numpy()
    columns["power"] = (table["noise_kind"] == "power").to_numpy()
    columns["part"] = table["part"].to_numpy(dtype=str)
    return columns


def prepare(source, target):
    np.savez(target, **read(source))


def rank(c):
    fits = (c["axial"] & (c["width_mm"] == 60) & (c["height_mm"] == 60) & (c["depth_mm"] <= 25) & (c["voltage_v"] == 12)
            & (c["airflow_m3h"] > 0) & (c["static_pressure_pa"] > 0) & (c["noise_dba"] > 0))
    q0, p0, noise, distance = (c[name][fits] for name in ("airflow_m3h", "static_pressure_pa", "noise_dba", "noise_distance_m"))
    noise = noise + np.where(c["power"][fits], -11, 20 * np.log10(np.where(np.isnan(distance), 1, distance)))
    # Device: b * Q^2 through the fitted fan's point at NEED; then the crossing
    # of each fan's curve with it, segment by segment.
    b = 60 * np.interp(NEED / 40, FLOW, SHAPE) / NEED**2
    x = np.full(len(q0), np.nan)
    k = b * q0**2 / p0  # the device on each fan's own scale
    for i in range(len(FLOW) - 1):
        slope = (SHAPE[i + 1] - SHAPE[i]) / (FLOW[i + 1] - FLOW[i])
        start = SHAPE[i] - slope * FLOW[i]
        root = (slope + np.sqrt(slope**2 + 4 * k * start)) / (2 * k)
        here = (root >= FLOW[i]) & (root <= FLOW[i + 1]) & np.isnan(x)
        x[here] = root[here]
    r = NEED / (x * q0)
    v = x / 0.6
    off = np.where(x >= 0.48, 0, np.where(x >= 0.3, 18.9 - 46.6 * v + 33 * v**2 - 5.2 * v**3, np.minimum(3.2 + 17.5 * (0.5 - v), 8)))
    level = noise + off + 50 * np.log10(r) - np.where(r < 0.5, 10 * np.log10(r / 0.5), 0)
    level[~(r <= 1)] = np.inf  # too weak
    price = c["price"][fits]
    for i in np.lexsort((c["part"][fits], price, np.round(level)))[:10]:
        print(c["part"][fits][i], round(float(level[i]), 2), round(float(r[i]), 4), sep="\t")


if __name__ == "__main__":
    job, source = sys.argv[1:3]
    if job == "prepare":
        prepare(source, sys.argv[3])
    else:
        rank(read(source) if job == "csv" else np.load(source))
