"""Reference points of splines by scipy, for the tests of the DXF reader.

    python3 splines.py > splines.json

Each case of "splines" is degree, knots, control points and weights, and points of the curve
at 60 parameters by scipy.interpolate.BSpline (in homogeneous coordinates where weights are
given). Each case of "through" is points and end tangents, and points of the cubic spline
through them by scipy.interpolate.CubicSpline over chord lengths, its second derivative zero
at an end without tangent.
"""
import json
import random

import numpy as np
from scipy.interpolate import BSpline, CubicSpline

rng = random.Random(20)


def points(n, step):
    x, out = 0.0, []
    for _ in range(n):
        x += rng.uniform(0.3, 1) * step
        out.append([round(x, 4), round(rng.uniform(-1, 1) * 3 * step, 4)])
    return out


def clamped(n, degree, even):
    inner, at = [], 0.0
    for _ in range(n - degree - 1):
        at += 1 if even else round(rng.uniform(0.1, 2), 3)
        inner.append(round(at, 3))
    return [0.0] * (degree + 1) + inner + [round(at + 1, 3)] * (degree + 1)


def spline(degree, knots, ctrl, weights):
    w = np.array(weights or [1.0] * len(ctrl))
    c = np.column_stack([np.array(ctrl) * w[:, None], w])
    t = np.linspace(knots[degree], knots[len(ctrl)], 60)
    p = BSpline(np.array(knots), c, degree)(t)
    return {"degree": degree, "knots": knots, "ctrl": ctrl, "weights": weights, "points": np.round(p[:, :2] / p[:, 2:], 6).tolist()}


def through(pts, start, end):
    p = np.array(pts)
    s = np.concatenate([[0], np.cumsum(np.hypot(*np.diff(p, axis=0).T))])
    unit = lambda v: np.array(v) / np.hypot(*v)
    ends = ((1, unit(start)) if start else (2, np.zeros(2)), (1, unit(end)) if end else (2, np.zeros(2)))
    c = CubicSpline(s, p, bc_type=ends)
    return {"pts": pts, "start": start, "end": end, "points": np.round(c(np.linspace(0, s[-1], 60)), 6).tolist()}


cases = {"splines": [], "through": []}
for degree in (1, 2, 3, 4, 5, 7):
    ctrl = points(degree + 9, 8)
    cases["splines"].append(spline(degree, clamped(len(ctrl), degree, True), ctrl, []))
    cases["splines"].append(spline(degree, clamped(len(ctrl), degree, False), ctrl, []))
    cases["splines"].append(spline(degree, clamped(len(ctrl), degree, False), ctrl, [round(rng.uniform(0.3, 3), 3) for _ in ctrl]))
    open_knots = [float(i) for i in range(len(ctrl) + degree + 1)]
    cases["splines"].append(spline(degree, open_knots, ctrl, []))
ctrl = points(10, 8)  # a knot that comes twice
cases["splines"].append(spline(3, [0.0] * 4 + [1.0, 2, 2, 3, 4, 5] + [6.0] * 4, ctrl, []))
for n in (2, 3, 5, 12, 40):
    pts = points(n, 9)
    cases["through"].append(through(pts, None, None))
    cases["through"].append(through(pts, [1.0, 2.0], None))
    cases["through"].append(through(pts, [1.0, -1.0], [3.0, 1.0]))


def named(v):
    """Places as objects, as the test reads them."""
    if isinstance(v, list) and len(v) == 2 and not isinstance(v[0], list) and all(isinstance(x, (int, float)) for x in v):
        return {"X": v[0], "Y": v[1]}
    if isinstance(v, list):
        return [named(x) for x in v]
    return {k: named(x) for k, x in v.items()} if isinstance(v, dict) else v


print(json.dumps(named(cases)).replace("}}, ", "}},\n"))
