"""What `evaluate` works out of a sheet, by numpy and scipy: for the bench only. Prints JSON of numbers by name."""
import csv
import json
import sys

import numpy as np
from scipy.optimize import curve_fit
from scipy.special import ndtr

rows = [r for r in csv.reader(open(sys.argv[1], encoding="utf-8")) if r and not r[0].startswith("#")][1:]
net = np.array([float(full) - float(empty) for _, empty, full in rows])
sizes = np.array([float(name) for name, _, _ in rows if name != "pan"])
retained = 100 * net / net.sum()
passing = 100 - np.cumsum(retained)[: len(sizes)]

found = {}


def percentile(q):
    return float(np.exp(np.interp(q, passing[::-1], np.log(sizes[::-1]))))


for q in (5, 10, 16, 25, 30, 50, 60, 75, 80, 84, 90, 95):
    found[str(q)] = percentile(q)
found["uniformityCoefficient"] = found["60"] / found["10"]
found["curvatureCoefficient"] = found["30"] ** 2 / (found["10"] * found["60"])
found["relativeSpan"] = (found["90"] - found["10"]) / found["50"]
phi = {q: -np.log2(percentile(100 - q) / 1000) for q in (5, 16, 25, 50, 75, 84, 95)}
found["phiGraphicMean"] = (phi[16] + phi[50] + phi[84]) / 3
found["phiGraphicSorting"] = (phi[84] - phi[16]) / 4 + (phi[95] - phi[5]) / 6.6
found["phiGraphicSkewness"] = (phi[16] + phi[84] - 2 * phi[50]) / (2 * (phi[84] - phi[16])) + (
    phi[5] + phi[95] - 2 * phi[50]
) / (2 * (phi[95] - phi[5]))
found["phiGraphicKurtosis"] = (phi[95] - phi[5]) / (2.44 * (phi[75] - phi[25]))

inside = (passing > 0) & (passing < 100)
x, y = sizes[inside], passing[inside]
models = {
    "rosinRammler": (lambda d, size, n: 100 * (1 - np.exp(-((d / size) ** n))), (found["60"], 3)),
    "gatesGaudinSchuhmann": (lambda d, size, m: np.minimum(100, 100 * (d / size) ** m), (found["80"], 2)),
    "logNormal": (lambda d, middle, s: 100 * ndtr(np.log(d / middle) / s), (found["50"], 0.4)),
}
for name, (model, start) in models.items():
    fitted, _ = curve_fit(model, x, y, p0=start)
    found[name] = float(fitted[0])
print(json.dumps({name: float(value) for name, value in found.items()}))
