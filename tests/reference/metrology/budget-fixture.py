"""Reference values for budget.test.ts, worked out by general-purpose packages.

Run: python budget-fixture.py > budget-fixture.json
"""
import json
import platform

import numpy as np
import scipy
import uncertainties
from scipy import integrate, optimize, stats
from uncertainties import correlated_values, covariance_matrix, ufloat, umath
from uncertainties.unumpy import nominal_values, std_devs

SEED = 20260118


def gum_h2():
    """JCGM 100:2008, H.2: R, X, Z from five simultaneous readings, and P = V I of the same."""
    v = np.array([5.007, 4.994, 5.005, 4.990, 4.999])
    i = np.array([19.663, 19.639, 19.640, 19.685, 19.678]) * 1e-3
    phi = np.array([1.0456, 1.0438, 1.0468, 1.0428, 1.0433])
    covariance = np.cov([v, i, phi]) / 5
    V, I, F = correlated_values([v.mean(), i.mean(), phi.mean()], covariance)
    outputs = [V * umath.cos(F) / I, V * umath.sin(F) / I, V / I, V * I]
    C = np.array(covariance_matrix(outputs))
    u = np.sqrt(np.diag(C))
    return {
        "values": [one.nominal_value for one in outputs],
        "u": u.tolist(),
        "correlation": (C / np.outer(u, u)).tolist(),
    }


def power_coefficient():
    P, rho, D, U = ufloat(0.150, 0.003), ufloat(1.1993, 0.004), ufloat(0.40, 0.002), ufloat(4.0, 0.12)
    cp = P / (0.5 * rho * np.pi / 4 * D**2 * U**3)
    parts = [cp.derivatives[one] * one.std_dev for one in (P, rho, D, U)]
    return {"value": cp.nominal_value, "u": cp.std_dev, "shares": [(one / cp.std_dev) ** 2 for one in parts]}


def coverage_factors():
    """97.5 % quantile of a rectangle and a normal law of variance 1 together, by quadrature."""
    found = []
    for share in (0.05, 0.2, 0.5, 0.8, 0.95, 0.999):
        a, s = np.sqrt(3 * share), np.sqrt(1 - share)

        def cdf(x):
            points = [x] if abs(x) < a else None
            return integrate.quad(lambda w: stats.norm.cdf((x - w) / s) / (2 * a), -a, a, points=points, limit=500)[0]

        found.append({"share": share, "k": optimize.brentq(lambda x: cdf(x) - 0.975, 1, 3, xtol=1e-12)})
    return found


def normal_law():
    x = [-8.0, -4.5, -3.0, -2.9, -1.0, 0.0, 0.3, 1.959963984540054, 3.0, 3.1, 6.0]
    return [{"x": one, "p": float(stats.norm.cdf(one))} for one in x]


def rig():
    """
    Two trials through a divider (20 kOhm over 10 kOhm, 1 %) and a shunt (0.5 Ohm, 1 %, x 20 +- 1 %,
    0.5 mV) into one 10-bit converter of 5 V +- 5 % with a zero within 2 steps; scatter 0.4 %.
    """
    root3 = np.sqrt(3)
    eps_ref, eps_up, eps_lo = ufloat(0, 0.05 / root3), ufloat(0, 0.01 / root3), ufloat(0, 0.01 / root3)
    eps_sh, eps_amp = ufloat(0, 0.01 / root3), ufloat(0, 0.01 / root3)
    zero, amp_zero = ufloat(0, 2 / root3), ufloat(0, 0.5e-3 / 0.5 / root3)
    step_V, step_A = 5 / 1024 * 3, 5 / 1024 / (0.5 * 20)
    gain_V = (1 + eps_ref) * (20 * (1 + eps_up) + 10 * (1 + eps_lo)) / (30 * (1 + eps_lo))
    gain_I = (1 + eps_ref) / ((1 + eps_sh) * (1 + eps_amp))

    def power(v, i, u_v, u_i):
        rounding_V = ufloat(0, np.sqrt(max(step_V**2 / 12 - u_v**2, 0)))
        rounding_A = ufloat(0, np.sqrt(max(step_A**2 / 12 - u_i**2, 0)))
        scatter = ufloat(0, 0.004 * v * i)
        V = v * gain_V + zero * step_V + rounding_V
        I = i * gain_I + zero * step_A + amp_zero + rounding_A
        return V * I + scatter

    a, b = power(3.2, 0.052, 0.0016, 0.00003), power(2.1, 0.034, 0.0012, 0.00002)
    return {
        "a": {"value": a.nominal_value, "u": a.std_dev},
        "b": {"value": b.nominal_value, "u": b.std_dev},
        "difference": {"value": (a - b).nominal_value, "u": (a - b).std_dev},
        "ratio": {"value": (a / b).nominal_value, "u": (a / b).std_dev},
    }


def additive_models():
    """JCGM 101:2008, 9.2: ends of the 95 % interval by 10^7 draws."""
    random = np.random.default_rng(SEED)
    wide = lambda sd: random.uniform(-np.sqrt(3) * sd, np.sqrt(3) * sd, 10_000_000)
    same = sum(wide(1) for _ in range(4))
    unlike = sum(wide(1) for _ in range(3)) + wide(10)
    return {name: np.quantile(y, [0.025, 0.975]).tolist() for name, y in (("same", same), ("unlike", unlike))}


print(json.dumps({
    "generator": "budget-fixture.py",
    "versions": {
        "python": platform.python_version(), "numpy": np.__version__, "scipy": scipy.__version__,
        "uncertainties": uncertainties.__version__,
    },
    "seed": SEED,
    "gumH2": gum_h2(),
    "powerCoefficient": power_coefficient(),
    "coverageFactors": coverage_factors(),
    "normalLaw": normal_law(),
    "rig": rig(),
    "additive": additive_models(),
}, indent=2))
