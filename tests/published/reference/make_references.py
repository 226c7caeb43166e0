"""Makes the reference figures in fixtures/ that the tests compare with; run it from any folder.

Needs Python 3 with numpy and scipy; the versions that made a file are noted inside it. The tests read the files
only, so nobody needs Python to run them.
"""

import json
from pathlib import Path

import numpy as np
import scipy
from scipy.interpolate import PchipInterpolator
from scipy.optimize import brentq
from scipy.special import erfc, ndtr, ndtri

FIXTURES = Path(__file__).resolve().parent / "fixtures"


def write(name, about, figures):
    made_with = {"numpy": np.__version__, "scipy": scipy.__version__}
    path = FIXTURES / f"{name}.json"
    path.write_text(json.dumps({"about": about, "madeWith": made_with, **figures}, indent=1) + "\n", encoding="utf-8")


def normal():
    z = np.concatenate([np.linspace(-37, 8, 91), [-0.6628, 0.6629, 0.4687 * 2**0.5, -4 * 2**0.5]])
    tails = 10.0 ** np.linspace(-300, -2, 41)
    p = np.concatenate([tails, np.linspace(0.02, 0.98, 97), 1 - 10.0 ** np.linspace(-15, -2, 27)])
    x = np.linspace(-6, 26, 129)
    write(
        "normal",
        "erfc(x), standard normal distribution function cdf(z) and quantile(p)",
        {
            "erfc": {"x": x.tolist(), "erfc": erfc(x).tolist()},
            "cdf": {"z": z.tolist(), "p": ndtr(z).tolist()},
            "quantile": {"p": p.tolist(), "z": ndtri(p).tolist()},
        },
    )


def inverse(curve, x, y, q):
    """The smallest x at which the rising curve reaches q."""
    k = int(np.searchsorted(y, q, side="left"))
    if y[k] == q:
        return float(x[k])
    return float(brentq(lambda at: curve(at) - q, x[k - 1], x[k], xtol=1e-15, rtol=1e-14))


def pchip_case(name, aperture_um, passing_pct):
    x, y = np.log(np.array(aperture_um, float)), np.array(passing_pct, float)
    curve = PchipInterpolator(x, y)
    at = np.linspace(x[0], x[-1], 41)[1:-1]
    wanted = [q for q in np.linspace(y[0], y[-1], 23)[1:-1]]
    return {
        "name": name,
        "apertureUm": list(map(float, aperture_um)),
        "passingPct": list(map(float, passing_pct)),
        "slopes": curve.derivative()(x).tolist(),
        "atUm": np.exp(at).tolist(),
        "passingAtPct": curve(at).tolist(),
        "percentilePct": list(map(float, wanted)),
        "percentileUm": [float(np.exp(inverse(curve, x, y, q))) for q in wanted],
    }


def pchip():
    rng = np.random.default_rng(20)
    uneven = np.cumsum(rng.uniform(1, 900, 24))
    rising = np.sort(np.concatenate([[0, 100], rng.uniform(0, 100, 22)]))
    cases = [
        pchip_case("smooth", [75, 150, 180, 250, 425, 850, 2000, 4750], [1.6, 9.3, 38.1, 54.9, 74.1, 86.3, 94.5, 100]),
        pchip_case("plateau inside", [63, 125, 250, 500, 1000, 2000], [0, 20, 50, 50, 80, 100]),
        pchip_case("flat ends", [63, 125, 250, 500, 1000, 2000], [5, 5, 40, 95, 100, 100]),
        pchip_case("steep end slopes", [63, 90, 500, 1000], [0, 60, 61, 100]),
        pchip_case("three points", [100, 110, 4000], [2, 3, 99]),
        pchip_case("two points", [100, 1000], [10, 90]),
        pchip_case("uneven, 24 points", uneven, rising),
    ]
    write("pchip", "PchipInterpolator of passing % over ln(aperture), and its inverse by brentq", {"cases": cases})


def moments_case(name, sizes_phi, shares):
    m, f = np.array(sizes_phi, float), np.array(shares, float)
    f = f / f.sum()
    mean = float((f * m).sum())
    sd = float(np.sqrt((f * (m - mean) ** 2).sum()))
    return {
        "name": name,
        "sizesPhi": m.tolist(),
        "shares": list(map(float, shares)),
        "mean": mean,
        "sorting": sd,
        "skewness": float((f * (m - mean) ** 3).sum() / sd**3),
        "kurtosis": float((f * (m - mean) ** 4).sum() / sd**4),
    }


def moments():
    rng = np.random.default_rng(3)
    bell = ndtr((np.arange(-4, 4.25, 0.25) + 0.25 - 0.5) / 1.2) - ndtr((np.arange(-4, 4.25, 0.25) - 0.5) / 1.2)
    cases = [
        moments_case("half phi", np.arange(0.25, 4.5, 0.5), [0.9, 2.9, 12.2, 13.7, 23.7, 26.8, 12.2, 5.6, 2.0]),
        moments_case("log-normal, quarter phi", np.arange(-4, 4.25, 0.25) + 0.125, 100 * bell),
        moments_case("two heaps", [-1.5, -0.5, 0.5, 1.5, 2.5, 3.5], [30, 18, 1, 2, 9, 40]),
        moments_case("uneven shares", np.arange(-2.5, 4.5, 1.0), rng.uniform(0, 50, 7)),
    ]
    write("moments", "weighted population moments on class middles in phi", {"cases": cases})


def between(rule, aperture_um, passing_pct):
    """Passing % at sizes and sizes at passing %, by straight lines on the rule's own scales (no plateaus here)."""
    a, p = np.array(aperture_um, float), np.array(passing_pct, float)
    at_um = np.exp(np.linspace(np.log(a[0]), np.log(a[-1]), 31)[1:-1])
    at_pct = np.linspace(p[0], p[-1], 31)[1:-1]
    if rule == "linear":
        passing, sizes = np.interp(at_um, a, p), np.interp(at_pct, p, a)
    elif rule == "log-linear":
        passing, sizes = np.interp(np.log(at_um), np.log(a), p), np.exp(np.interp(at_pct, p, np.log(a)))
    else:
        z = ndtri(p / 100)
        passing = 100 * ndtr(np.interp(np.log(at_um), np.log(a), z))
        sizes = np.exp(np.interp(ndtri(at_pct / 100), z, np.log(a)))
    return {
        "interpolation": rule,
        "apertureUm": a.tolist(),
        "passingPct": p.tolist(),
        "atUm": at_um.tolist(),
        "passingAtPct": passing.tolist(),
        "percentilePct": at_pct.tolist(),
        "percentileUm": sizes.tolist(),
    }


def readings():
    rng = np.random.default_rng(11)
    stacks = [
        ([63, 125, 250, 500, 1000, 2000], [0.4, 3.5, 21, 66, 93, 99.2]),
        ([53, 75, 106, 150, 212, 300, 425, 600, 850], [0.01, 0.2, 2, 11, 34, 69, 92, 98.9, 99.99]),
        (np.cumsum(rng.uniform(5, 700, 14)), np.sort(rng.uniform(0.5, 99.5, 14))),
        ([20, 2000], [5, 95]),
    ]
    rules = ["linear", "log-linear", "log-probability"]
    cases = [between(rule, *stack) for rule in rules for stack in stacks]
    write("readings", "numpy.interp on the scales of each rule; scipy.special.ndtr and ndtri", {"cases": cases})


if __name__ == "__main__":
    FIXTURES.mkdir(exist_ok=True)
    normal()
    pchip()
    moments()
    readings()
