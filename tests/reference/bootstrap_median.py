"""Bootstrap distributions of the median, for tests/grading/numbers/intervals.test.ts.

Run: /usr/bin/python3 tests/reference/bootstrap_median.py > tests/reference/bootstrap_median.json

`exact`: every one of the n^n samples drawn from the sample, counted in whole numbers; nothing of the closed form.
`drawn`: half a million seeded resamples with numpy for sizes that cannot be enumerated; shares of the medians at or
under each value.
"""
import itertools
import json
from collections import Counter
from fractions import Fraction

import numpy

SEED = 7
DRAWS = 500_000


def medians(values):
    """Median -> chance, from all resamples."""
    n = len(values)
    found = Counter()
    for sample in itertools.product(values, repeat=n):
        s = sorted(sample)
        found[Fraction(s[(n - 1) // 2] + s[n // 2], 2)] += 1
    return {value: Fraction(count, n**n) for value, count in found.items()}


def ends(distribution):
    sums, total = [], Fraction(0)
    for share in (Fraction(1, 20), Fraction(19, 20)):
        total = Fraction(0)
        for value in sorted(distribution):
            total += distribution[value]
            if total >= share:
                sums.append(float(value))
                break
    return sums


def exact(values):
    d = medians(values)
    return {
        "values": values,
        "chances": [[float(v), float(d[v])] for v in sorted(d)],
        "interval": ends(d),
    }


def difference(a, b):
    of, less = medians(a), medians(b)
    d = Counter()
    for (x, p), (y, q) in itertools.product(of.items(), less.items()):
        d[x - y] += p * q
    return {"a": a, "b": b, "interval": ends(d)}


def spread(values):
    """Values are even, so that their median and the deviations from it are whole."""
    s = sorted(values)
    n = len(s)
    middle = (s[(n - 1) // 2] + s[n // 2]) // 2
    return {"values": values, "interval": [1.4826 * end for end in ends(medians([abs(v - middle) for v in values]))]}


def drawn(values, generator):
    sample = numpy.array(values)
    found = Counter()
    for _ in range(50):
        picks = generator.choice(sample, size=(DRAWS // 50, len(values)))
        found.update(numpy.median(picks, axis=1).tolist())
    total, shares = 0, []
    for value in sorted(found):
        total += found[value]
        shares.append([value, total / DRAWS])
    return {"values": values, "shares": shares}


generator = numpy.random.default_rng(SEED)
velocities = lambda n: sorted(int(v) for v in generator.normal(40, 7, n).round())
print(
    json.dumps(
        {
            "source": f"enumeration; numpy {numpy.__version__}, seed {SEED}, {DRAWS} draws",
            "exact": [exact(v) for v in ([1, 2, 4], [3, 5, 5, 9], [1, 2, 4, 8, 16], [1, 2, 2, 3, 5, 8], [1, 1, 2, 3, 5, 8, 9])],
            "difference": [difference([10, 12, 13, 17, 20], [1, 3, 3, 8]), difference([4, 6, 7, 7, 9, 30], [5, 5, 6, 8, 9])],
            "spread": [spread([2, 4, 8, 16, 30]), spread([0, 4, 6, 10, 12, 18])],
            "drawn": [drawn(velocities(40), generator), drawn(velocities(41), generator)],
        },
    )
)
