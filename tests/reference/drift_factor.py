"""Autocorrelations by statsmodels, for tests/grading/numbers/drift-factor.test.ts.

Run: /usr/bin/python3 tests/reference/drift_factor.py > tests/reference/drift_factor.json

bartlett: n times Bartlett's variance of the autocorrelation at lag m+1 of a moving average of order m, which statsmodels
reads out as the half width of its interval: 1 + 2*sum of rho_k**2, k = 1..m. tapered: the same sum, its terms times
1 - k/(m+1), from the same autocorrelations.
"""
import json

import numpy
import statsmodels
from scipy.stats import norm
from statsmodels.tsa.stattools import acf

generator = numpy.random.default_rng(5)


def case(values, m):
    values = values - values.mean()
    n = len(values)
    rho, interval = acf(values, nlags=m + 1, fft=False, adjusted=False, bartlett_confint=True, alpha=0.1)
    half = (interval[m + 1, 1] - interval[m + 1, 0]) / 2
    k = numpy.arange(1, m + 1)
    return {
        "values": values.tolist(),
        "m": m,
        "rho": rho[1 : m + 1].tolist(),
        "bartlett": float(n * (half / norm.ppf(0.95)) ** 2),
        "tapered": float(1 + 2 * ((1 - k / (m + 1)) * rho[1 : m + 1] ** 2).sum()),
    }


white = generator.standard_normal(120)
walk = numpy.cumsum(0.3 * generator.standard_normal(120)) + generator.standard_normal(120)
print(
    json.dumps(
        {
            "source": f"statsmodels {statsmodels.__version__}",
            "cases": {"white noise": case(white, 8), "a slow drift": case(walk, 16), "one step": case(walk, 1)},
        }
    )
)
