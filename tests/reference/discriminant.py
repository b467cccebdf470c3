"""Values from scikit-learn for tests/grading/apart/identification.test.ts.
Run: /usr/bin/python3 tests/reference/discriminant.py > tests/reference/discriminant.json
(Debian packages python3-sklearn, python3-numpy.)
LinearDiscriminantAnalysis(solver='lsqr', shrinkage='auto') with equal priors, leave one group out."""
import json
import numpy as np
import sklearn
from sklearn.discriminant_analysis import LinearDiscriminantAnalysis
from sklearn.model_selection import LeaveOneGroupOut, cross_val_predict
from sklearn.metrics import balanced_accuracy_score

rng = np.random.default_rng(6)


def case(classes, cycles, dims, shift, scale=1.0, per=1, correlated=False):
    y = np.array([c for _ in range(cycles) for c in range(classes) for _ in range(per)])
    groups = np.repeat(np.arange(cycles), classes * per)
    mix = np.eye(dims)
    if correlated:
        mix = rng.normal(size=(dims, dims)) / np.sqrt(dims) + 0.5 * np.eye(dims)
    x = rng.normal(size=(len(y), dims)) @ mix
    x *= np.linspace(1.0, scale, dims)
    x[y == classes - 1, 0] += shift
    x = np.round(x, 6)
    model = LinearDiscriminantAnalysis(solver="lsqr", shrinkage="auto", priors=np.full(classes, 1 / classes))
    guesses = cross_val_predict(model, x, y, groups=groups, cv=LeaveOneGroupOut())
    return {
        "classes": classes,
        "values": x.tolist(),
        "labels": y.tolist(),
        "cycles": groups.tolist(),
        "guesses": guesses.tolist(),
        "balanced": balanced_accuracy_score(y, guesses),
    }


cases = [
    case(4, 8, 16, 2.0, scale=4.0),
    case(4, 12, 16, 0.0, scale=3.0, correlated=True),
    case(2, 6, 32, 3.0),
    case(3, 10, 5, 1.5, per=2, correlated=True),
    case(2, 8, 1, 1.0),
]
print(json.dumps({"source": f"scikit-learn {sklearn.__version__}, numpy {np.__version__}", "cases": cases}))
