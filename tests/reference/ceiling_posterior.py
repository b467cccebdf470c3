"""Values for tests/insight/ceiling/posterior.test.ts: the ceiling's posterior on a dense grid.

Run: /usr/bin/python3 tests/reference/ceiling_posterior.py > tests/reference/ceiling_posterior.json
p(T, t) = (1 - l)/(1 + (T/T50)^b), ln T50 = a + s t + u, u ~ Normal(0, d) anew each day and integrated by
Gauss-Hermite quadrature of 15 points; everything else on a plain grid in one go, no search.
"""
import json
import numpy as np
import scipy
from scipy.special import logsumexp

LAPSES = [(0.02, 0.5), (0.07, 0.3), (0.12, 0.2)]
DAYS = [(0.03, 0.5), (0.07, 0.5)]
nodes, weights = np.polynomial.hermite_e.hermegauss(15)
lnw = np.log(weights / weights.sum())


def posterior(rows, at_day):
    rows = np.array(rows, float)
    days = np.unique(rows[:, 3])
    middle = days.mean()
    grows = len(days) >= 3 and days[-1] - days[0] >= 14
    a = np.linspace(np.log(20), np.log(400), 600)
    s = np.linspace(-0.09, 0.09, 91) if grows else np.array([0.0])
    z = np.linspace(-3, 3, 25)
    b = 12 * np.exp(0.6 * z)
    logs, tops, growths = [], [], []
    for share, w in LAPSES:
        for sd, v in DAYS:
            for zi, bi in zip(z, b):
                total = np.full((len(s), len(a)), np.log(w * v) - zi * zi / 2) - (s[:, None] / 0.03) ** 2 / 2
                for day in days:
                    own = rows[rows[:, 3] == day]
                    middles = a[None, :, None] + (s * (day - middle) / 7)[:, None, None] + sd * nodes[None, None, :]
                    ll = np.zeros_like(middles)
                    for bpm, bars, clean, _ in own:
                        x = bi * (np.log(bpm) - middles)
                        ll += clean * (np.log(1 - share) - np.logaddexp(0, x))
                        if bars > clean:
                            ll += (bars - clean) * (np.logaddexp(np.log(share), x) - np.logaddexp(0, x))
                    total += logsumexp(ll + lnw, axis=2)
                logs.append(total.ravel())
                tops.append((a[None, :] + (s * (at_day - middle) / 7)[:, None] - np.log(4) / bi).ravel())
                growths.append(np.repeat(s, len(a)))
    logs, tops, growths = map(np.concatenate, (logs, tops, growths))
    w = np.exp(logs - logs.max())

    def quantiles(values, step):
        order = np.argsort(values, kind="stable")
        cum = (np.cumsum(w[order]) - w[order] / 2) / w.sum()
        return [float(np.interp(q, cum, values[order])) for q in (0.05, 0.5, 0.95)]

    def of_nodes(values):
        mass = np.array([w[growths == v].sum() for v in values])
        edges = np.concatenate([[values[0] - (values[1] - values[0]) / 2], (values[1:] + values[:-1]) / 2,
                                [values[-1] + (values[-1] - values[-2]) / 2]])
        cum = np.concatenate([[0], np.cumsum(mass)]) / mass.sum()
        return [float(np.interp(q, cum, edges)) for q in (0.05, 0.5, 0.95)]

    return [float(np.exp(q)) for q in quantiles(tops, 0)], (of_nodes(s) if grows else None)


CASES = [
    # one day
    ([(80, 8, 8, 0), (90, 8, 7, 0), (100, 8, 5, 0), (110, 8, 1, 0)], 0),
    # two days, a lapse low down
    ([(70, 12, 11, 0), (84, 8, 8, 0), (96, 8, 4, 6), (108, 8, 0, 6)], 6),
    # four weeks, falling, ramps among them
    ([(90, 8, 8, 0), (100, 8, 6, 0), (88, 8, 7, 9), (98, 8, 4, 9), (92, 4, 2, 18), (84, 8, 7, 18), (84, 8, 6, 27), (90, 8, 2, 27)], 27),
    # all clean: only the flat prior ends it
    ([(84, 8, 8, 0), (92, 8, 8, 8), (100, 8, 8, 16)], 16),
    # nothing clean
    ([(110, 6, 0, 0), (104, 6, 0, 10), (98, 8, 0, 20)], 20),
]
out = []
for rows, day in CASES:
    ceiling, growth = posterior(rows, day)
    out.append({"rows": rows, "day": day, "ceiling": ceiling, "growth": growth})
print(json.dumps({"source": f"numpy {np.__version__}, scipy {scipy.__version__}", "cases": out}))
