"""Lag-1 autocorrelation and a line's slope with its standard error, by statsmodels. Run: /usr/bin/python3 autocorrelation.py"""
import json, math
import numpy as np
import statsmodels.api as sm
from statsmodels.tsa.stattools import acf

rng = np.random.default_rng(13)
cases = []
for n, rho, slope in [(12, 0.0, 0.0), (24, 0.5, 0.001), (40, 0.8, -0.002)]:
    t = np.arange(n) * 1428.5714285714287
    e = np.zeros(n)
    for i in range(n):
        e[i] = (rho * e[i - 1] if i else 0) + rng.normal(0, 5)
    y = slope * t + e
    fit = sm.OLS(y, sm.add_constant(t)).fit()
    r = fit.resid
    cases.append({
        "ms": t.tolist(), "phases": y.tolist(), "slope": fit.params[1], "error": fit.bse[1],
        "squares": float(fit.ssr), "residuals": r.tolist(),
        "autocorrelation": float(acf(r, nlags=1, fft=False)[1]),
    })
json.dump(cases, open("autocorrelation.json", "w"))
