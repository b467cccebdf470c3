"""Values from scipy for tests/grading/numbers/theil-sen.test.ts.
Run: /usr/bin/python3 tests/reference/theil_sen.py > tests/reference/theil_sen.json
(Debian package python3-scipy.)"""
import json
import numpy as np
import scipy
from scipy.stats import theilslopes

rng = np.random.default_rng(26)


def case(x, y, level):
    slope, intercept, low, high = theilslopes(y, x, alpha=level, method='separate')
    return {"x": list(map(float, x)), "y": list(map(float, y)), "level": level,
            "slope": slope, "intercept": intercept, "low": low, "high": high}


days = np.sort(rng.uniform(0, 60, 24)).round(3)
twice = np.repeat(np.arange(8.0), 2)
cases = [
    case(np.arange(12.0), np.round(80 + 0.4 * np.arange(12) + rng.normal(0, 2, 12), 3), 0.9),
    case(days, np.round(96 - 0.1 * days + rng.normal(0, 1.5, 24), 2), 0.9),
    case(days, np.round(96 - 0.1 * days + rng.normal(0, 1.5, 24), 0), 0.95),
    case(twice, np.round(rng.normal(0, 1, 16), 1), 0.9),
    case([0.0, 1.0, 3.0, 7.0, 8.0, 9.0], [5.0, 4.0, 9.0, 40.0, 12.0, 15.0], 0.9),
]
print(json.dumps({"source": f"scipy {scipy.__version__}, scipy.stats.theilslopes", "cases": cases}))
