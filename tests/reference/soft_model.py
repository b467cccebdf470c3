"""Robust regressions by statsmodels and by R's MASS::rlm, for tests/grading/models/soft-model.test.ts.

Run: /usr/bin/python3 tests/reference/soft_model.py > tests/reference/soft_model.json

Each case is one hand's soft strokes: rows [velocity, after, before, spill, second], level 40*log10(velocity/127).
statsmodels' RLM gives what grading.md section 5 asks for once two things are changed:
- its scale is median|r|/0.67449; here it is 1.4826*median|r|, at least 0.5 dB (a subclass);
- its H1 covariance carries k**2, k = 1 + p/n * var(psi')/mean(psi')**2, Huber's factor for small samples (1981, section
  7.6); it is divided out.
Start: ordinary least squares, Huber (1.345) to 1e-12, then Tukey's bisquare (4.685) from there to 1e-12. Intervals use
t with n - rank degrees of freedom (statsmodels itself uses the normal). Designs without full rank are solved by the
pseudo-inverse, which leaves every estimable coefficient as it is.
MASS::rlm runs the same two stages, with its own scale (median|r|/0.6745, no floor); only its coefficients are kept.
"""
import json
import subprocess
import tempfile

import numpy
import scipy
import statsmodels
from scipy.stats import t as student
from statsmodels.robust.norms import HuberT, TukeyBiweight
from statsmodels.robust.robust_linear_model import RLM

SEED = 11
TERMS = ["rest", "after", "before", "spill", "second"]
# What surrounds the soft strokes of one hand (after, before, spill, second), written as one cycle would have them.
WALK = [(0, 0, 1, 0), (0, 1, 0, 0), (0, 0, 0, 1), (1, 0, 0, 0), (0, 0, 1, 1), (0, 0, 0, 0), (1, 0, 0, 1), (0, 1, 1, 0)]
# One variation only: every stroke beside the other hand's accent, or second of a double and before its own accent.
ONE_BAR = [(0, 0, 1, 0), (0, 1, 0, 1), (1, 0, 1, 0)]


class FloorRLM(RLM):
    def _estimate_scale(self, resid):
        return max(0.5, 1.4826 * numpy.median(numpy.abs(resid)))


def level(velocity):
    return 40 * numpy.log10(numpy.asarray(velocity) / 127)


def played(design, cycles, truth, sd, generator, faults=0.0, fault_db=8.0):
    rows = []
    for _ in range(cycles):
        for flags in design:
            db = truth[0] + numpy.dot(truth[1:], flags) + sd * generator.standard_normal()
            if generator.random() < faults:
                db += fault_db
            rows.append([int(numpy.clip(round(127 * 10 ** (db / 40)), 1, 127)), *flags])
    return rows


def told(x):
    """A coefficient is estimable where adding its unit vector to the rows does not raise their rank."""
    rank = numpy.linalg.matrix_rank(x)
    return [bool(numpy.linalg.matrix_rank(numpy.vstack([x, unit])) == rank) for unit in numpy.eye(x.shape[1])]


def fitted(rows, which=None):
    rows_ = numpy.array(rows, dtype=float)
    y, x = level(rows_[:, 0]), numpy.column_stack([numpy.ones(len(rows_)), rows_[:, 1:]])
    options = dict(conv="coefs", tol=1e-12, maxiter=500)
    huber = FloorRLM(y, x, M=HuberT(1.345)).fit(**options)
    tukey = FloorRLM(y, x, M=TukeyBiweight(4.685)).fit(start_params=huber.params, cov="H1", **options)
    slope = tukey.model.M.psi_deriv(tukey.resid / tukey.scale)
    rank = numpy.linalg.matrix_rank(x)
    k = 1 + rank / len(y) * slope.var() / slope.mean() ** 2
    reach = student.ppf(0.95, len(y) - rank) * numpy.sqrt(numpy.diag(tukey.bcov_scaled)) / k
    terms = {
        term: [b, b - half, b + half] if ok else None
        for term, ok, b, half in zip(TERMS, told(x), tukey.params.tolist(), reach.tolist())
    }
    case = {"rows": rows, "terms": terms, "residuals": tukey.resid.tolist()[:12], "scale": tukey.scale, "factor": k}
    if all(told(x)):
        case["mass"] = mass(rows)
    if which is not None:
        partial = tukey.resid[which] + tukey.params[2] * x[which, 2]
        half = student.ppf(0.95, len(which) - 1) * partial.std(ddof=1) / len(which) ** 0.5
        case["partial"] = {"term": "before", "which": which, "estimate": [partial.mean(), partial.mean() - half, partial.mean() + half]}
    return case


def mass(rows):
    script = """
      suppressMessages(library(MASS)); d <- read.csv(commandArgs(TRUE)[1], header = FALSE)
      names(d) <- c("v", "after", "before", "spill", "second"); d$y <- 40 * log10(d$v / 127)
      f <- y ~ after + before + spill + second
      h <- rlm(f, d, psi = psi.huber, k = 1.345, maxit = 500, acc = 1e-12)
      b <- rlm(f, d, psi = psi.bisquare, c = 4.685, init = coef(h), maxit = 500, acc = 1e-12)
      cat(format(coef(b), digits = 12), sep = "\\n")"""
    with tempfile.NamedTemporaryFile("w", suffix=".csv") as file:
        file.writelines(",".join(map(str, row)) + "\n" for row in rows)
        file.flush()
        out = subprocess.run(["Rscript", "-e", script, file.name], capture_output=True, text=True, check=True)
    return [float(line) for line in out.stdout.split()]


generator = numpy.random.default_rng(SEED)
truth = (-20, 1.5, 3, 0.5, -1)
clean = played(WALK, 8, truth, 1.8, generator)
faulty = played(WALK, 16, truth, 1.8, generator, faults=0.08)
tight = played(WALK, 6, truth, 0.2, generator)
bar = played(ONE_BAR, 10, truth, 1.5, generator, faults=0.05)
# A seed where bisquare straight from least squares, or by Huber with k = 1.5, ends 1.2 dB elsewhere.
third = played(WALK, 3, truth, 0.9, numpy.random.default_rng(29), faults=0.3, fault_db=9.0)
walk = [i for i, row in enumerate(faulty) if row[2] and i % 3 == 0]
print(
    json.dumps(
        {
            "source": f"statsmodels {statsmodels.__version__}, scipy {scipy.__version__}, MASS::rlm, seed {SEED}",
            "cases": {
                "clean": fitted(clean),
                "one stroke in twelve 8 dB loud": fitted(faulty, walk),
                "a third 9 dB loud, where the way decides the end": fitted(third),
                "scale at its floor of 0.5 dB": fitted(tight),
                "one bar, where no soft stroke is away from accents": fitted(bar),
                "one bar after a bar without accents": fitted(bar + played([(0, 0, 0, 0), (0, 0, 0, 1)], 4, truth, 1.5, generator)),
            },
        }
    )
)
