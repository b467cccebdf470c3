"""Robust regression with errors clustered by bar, by statsmodels, for tests/grading/models/time-model.test.ts.

Run: /usr/bin/python3 tests/reference/time_model.py > tests/reference/time_model.json

A phrase's bars are played with planted terms and errors of which a part is one for the whole bar and its hands. In each
bar the mean is taken off the columns and the median off the deviations. RLM with the scale that grading.md section 5
asks for (1.4826*median|r|, at least max(1 ms, 0.4 % of the gap)): least squares, Huber (1.345) to 1e-12, Tukey's
bisquare (4.685) from there. RLM has no clustered covariance; but with pseudo-values y* = X b + psi/mean(psi') ordinary
least squares gives the same b, and its residuals are psi/mean(psi'), so that OLS with cov_type='cluster', use_t, on y*
is the covariance asked for, small-sample factors and t with G-1 degrees among it.
MASS::rlm checks the coefficients by the same two stages (its scale is median|r|/0.6745, no floor).
"""
import json
import subprocess
import tempfile

import numpy
import scipy
import statsmodels
import statsmodels.api as sm
from statsmodels.robust.norms import HuberT, TukeyBiweight
from statsmodels.robust.robust_linear_model import RLM

SEED = 23


class FloorRLM(RLM):
    floor = 1.0

    def _estimate_scale(self, resid):
        return max(self.floor, 1.4826 * numpy.median(numpy.abs(resid)))


def bars_of(cycle, cycles):
    for c in range(cycles):
        for v, sticking in cycle:
            yield c, v, sticking


def doubles(sticking):
    n = len(sticking)
    return [
        i > 0 and sticking[i] == sticking[i - 1] and (i < 2 or sticking[i - 2] != sticking[i])
        and (i + 1 >= n or sticking[i + 1] != sticking[i])
        for i in range(n)
    ]


def played(cycle, cycles, gap, truth, sd, generator, missed=0.0, strays=0.0):
    """rows: bar, cycle, variation, right, partial, second, seam, deviation"""
    rows = []
    for bar, (c, v, sticking) in enumerate(bars_of(cycle, cycles)):
        whole, ofhand = 4 * generator.standard_normal(), 4 * generator.standard_normal()
        seam = len(cycle) > 1 and cycle[(bar - 1) % len(cycle)][0] != v and bar > 0
        for i, (hand, second) in enumerate(zip(sticking, doubles(sticking))):
            right = hand == "R"
            d = whole + (right - 0.5) * (truth["lag"] + ofhand) + truth["feel"] * (i % 2) + truth["second"] * second
            d += sd * generator.standard_normal() + truth["seam"] * (seam and i == 0)
            if generator.random() < strays:
                d += 70
            if generator.random() >= missed:
                rows.append([bar, c, v, int(right), i % 4, int(second), int(seam and i == 0), d])
    return {"gap": gap, "rows": rows}


def columns(rows, feel):
    x = [rows[:, 3] - 0.5]
    names = ["lag"]
    if rows[:, 5].any():
        x.append(rows[:, 5])
        names.append("second")
    if rows[:, 6].any():
        x.append(rows[:, 6])
        names.append("seam")
    if feel == "swing":
        x.append(rows[:, 4] % 2 - 0.5)
        names.append("feel")
    if feel == "places":
        x += [(rows[:, 4] == place).astype(float) for place in (1, 2, 3)]
        names += ["p1", "p2", "p3"]
    return numpy.column_stack(x), names


def fitted(take, feel):
    rows = numpy.array(take["rows"], dtype=float)
    x, names = columns(rows, feel)
    y = rows[:, 7].copy()
    for bar in numpy.unique(rows[:, 0]):
        of = rows[:, 0] == bar
        x[of] -= x[of].mean(axis=0)
        y[of] -= numpy.median(y[of])
    FloorRLM.floor = max(1.0, 0.004 * take["gap"])
    options = dict(conv="coefs", tol=1e-12, maxiter=500)
    huber = FloorRLM(y, x, M=HuberT(1.345)).fit(**options)
    tukey = FloorRLM(y, x, M=TukeyBiweight(4.685)).fit(start_params=numpy.atleast_1d(huber.params), **options)
    u = tukey.resid / tukey.scale
    psi = tukey.model.M.weights(u) * tukey.resid
    slope = tukey.model.M.psi_deriv(u).mean()
    pseudo = sm.OLS(x @ numpy.atleast_1d(tukey.params) + psi / slope, x).fit(
        cov_type="cluster", cov_kwds={"groups": rows[:, 0].astype(int)}, use_t=True
    )
    assert numpy.allclose(pseudo.params, tukey.params, atol=1e-8)
    told = {}
    sums = {name: [float(n == name) for n in names] for name in ("lag", "second", "feel") if name in names}
    if feel == "places":
        sums["feel"] = [{"p1": 0.5, "p3": 0.5, "p2": -0.5}.get(n, 0.0) for n in names]
    for name, by in sums.items():
        test = pseudo.t_test(numpy.array(by))
        low, high = test.conf_int(alpha=0.1)[0]
        told[name] = [float(test.effect[0]), float(low), float(high)]
    out = {**take, "feel": feel, "told": told, "residuals": tukey.resid[:10].tolist(), "scale": tukey.scale}
    if tukey.scale > FloorRLM.floor:
        out["mass"] = dict(zip(names, mass(x, y)))
    return out


def mass(x, y):
    script = """
      suppressMessages(library(MASS)); d <- read.csv(commandArgs(TRUE)[1], header = FALSE)
      x <- as.matrix(d[, -1, drop = FALSE]); y <- d[, 1]
      h <- rlm(x, y, psi = psi.huber, k = 1.345, maxit = 500, acc = 1e-12)
      b <- rlm(x, y, psi = psi.bisquare, c = 4.685, init = coef(h), maxit = 500, acc = 1e-12)
      cat(format(coef(b), digits = 12), sep = "\\n")"""
    with tempfile.NamedTemporaryFile("w", suffix=".csv") as file:
        file.writelines(",".join(map(repr, map(float, (a, *row)))) + "\n" for a, row in zip(y, x))
        file.flush()
        out = subprocess.run(["Rscript", "-e", script, file.name], stdout=subprocess.PIPE, text=True, check=True)
    return [float(line) for line in out.stdout.split()]


generator = numpy.random.default_rng(SEED)
PARADIDDLE = "RLRRLRLLRLRRLRLL"
WALK = [(v, PARADIDDLE) for v in range(4)]
ROTATIONS = list(enumerate(["RLRRLRLL" * 2, "RLLRLRRL" * 2, "RRLRLLRL" * 2, "RLRLLRLR" * 2]))
SINGLES = [(0, "RL" * 8), (1, "RL" * 8)]
DOUBLES = [(0, "RRLL" * 4)]
swung = {"lag": -18, "feel": 30, "second": 5, "seam": -12}
late = {"lag": 12, "feel": 0, "second": -9, "seam": 0}
print(
    json.dumps(
        {
            "source": f"statsmodels {statsmodels.__version__}, scipy {scipy.__version__}, MASS::rlm, seed {SEED}",
            "cases": {
                "walk, swung": fitted(played(WALK, 4, 125, swung, 6, generator), "swing"),
                "rotations, misses and strays": fitted(played(ROTATIONS, 4, 125, swung, 7, generator, 0.05, 0.06), "places"),
                "a tight player, the scale at its floor": fitted(played(WALK, 3, 900, late, 0.8, generator), "swing"),
                "singles, swung or late": fitted(played(SINGLES, 8, 125, {**late, "second": 0}, 6, generator, 0.02), "none"),
                "doubles, swung or wide": fitted(played(DOUBLES, 8, 125, late, 6, generator), "none"),
            },
        }
    )
)
