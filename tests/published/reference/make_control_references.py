"""Makes fixtures/control.json, the reference figures for the control room; run it from any folder.

Needs Python 3 with numpy and scipy, as make_references.py does; nobody needs Python to run the tests.
"""

import numpy as np
from make_references import FIXTURES, write
from scipy import stats
from scipy.special import gammaln


def log_gamma():
    x = np.concatenate([10.0 ** np.linspace(-6, 5, 56), [0.5, 1, 1.5, 2, 3, 12.5]])
    return {"x": x.tolist(), "logGamma": gammaln(x).tolist()}


def chi_squared():
    cases = []
    for freedom in [0.7, 1, 2, 3.87, 9, 14.96, 49, 199, 1234.5]:
        p = [1e-6, 0.005, 0.025, 0.1, 0.5, 0.9, 0.975, 0.995, 1 - 1e-6]
        x = stats.chi2.ppf(p, freedom)
        cases.append({"freedom": freedom, "p": p, "x": x.tolist(), "cdf": stats.chi2.cdf(x, freedom).tolist()})
    return cases


def between(low, high, nodes=300):
    """Places and weights of Gauss and Legendre."""
    x, weight = np.polynomial.legendre.leggauss(nodes)
    return (low + high) / 2 + x * (high - low) / 2, weight * (high - low) / 2


def range_moments(n):
    x, of_x = between(-9, 9)
    w, of_w = between(0, 14)
    gap = stats.norm.cdf(x[:, None] + w) - stats.norm.cdf(x)[:, None]
    above = 1 - n * (of_x * stats.norm.pdf(x)) @ gap ** (n - 1)
    d2, square = float(of_w @ above), float(of_w @ (2 * w * above))
    return {"n": n, "d2": d2, "d3": float(np.sqrt(square - d2 * d2))}


def series():
    rng = np.random.default_rng(6)
    steps = np.arange(40)
    return {
        "rising": 700 + 0.4 * steps + rng.normal(0, 6, 40),
        "flat": rng.normal(12, 1, 25),
        "falling, rounded": np.round(50 - 0.05 * steps + rng.normal(0, 0.7, 40)),
        "short": rng.normal(0, 1, 10),
        "with wild values": np.where(steps % 13 == 5, 900, 300 - 0.9 * steps + rng.normal(0, 4, 40)),
        "mostly alike": np.array([5, 5, 5, 6, 5, 5, 7, 5, 5, 6, 6, 5, 7, 7.0]),
    }


def trend(name, y):
    n = len(y)
    slope, _, low, high = stats.theilslopes(y, np.arange(n), alpha=0.95)
    score = int(sum(np.sign(y[j] - y[i]) for j in range(n) for i in range(j)))
    ties = np.unique(y, return_counts=True)[1]
    variance = float((n * (n - 1) * (2 * n + 5) - (ties * (ties - 1) * (2 * ties + 5)).sum()) / 18)
    p_without_correction = float(stats.kendalltau(np.arange(n), y, method="asymptotic").pvalue)
    exact = float(stats.kendalltau(np.arange(n), y, method="exact").pvalue) if len(ties) == n else None
    p = float(2 * stats.norm.sf(max(0, abs(score) - 1) / np.sqrt(variance)))
    return {
        "name": name,
        "values": y.tolist(),
        "slope": float(slope),
        "lower": float(low),
        "upper": float(high),
        "score": score,
        "variance": variance,
        "p": p,
        "pUncorrected": p_without_correction,
        "pExact": exact,
    }


def normality():
    rng = np.random.default_rng(8)
    sets = {
        "normal": rng.normal(700, 20, 60),
        "exponential": rng.exponential(3, 30),
        "uniform": rng.uniform(0, 1, 45),
        "eight": rng.normal(0, 1, 8),
        "far tails": rng.standard_t(2, 80),
    }
    statistic = lambda y: float(stats.anderson(y, "norm", method="interpolate").statistic)
    return [{"name": name, "values": y.tolist(), "statistic": statistic(y)} for name, y in sets.items()]


if __name__ == "__main__":
    FIXTURES.mkdir(exist_ok=True)
    write(
        "control",
        "gammaln, chi2, range moments by the rule of Gauss and Legendre, theilslopes and kendalltau, anderson of scipy",
        {
            "logGamma": log_gamma(),
            "chiSquared": chi_squared(),
            "rangeMoments": [range_moments(n) for n in range(2, 26)],
            "trends": [trend(name, y) for name, y in series().items()],
            "normality": normality(),
        },
    )
