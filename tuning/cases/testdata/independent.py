"""Answers the questions of package cases a second time, with numpy and scipy.

Reads a JSON list of {"kind", "question"} from standard input and writes the list
of answers. Written apart from the package: the whole car in matrices and a
general solver with error control, variances from a Lyapunov solver, averages by
quadrature.
"""

import json
import sys

import numpy as np
from scipy.integrate import quad, solve_ivp
from scipy.linalg import eigvals, expm, solve_continuous_lyapunov
from scipy.optimize import brentq
from scipy.stats import norm

G = 9.81
CLASSES = {letter: 16e-6 * 4**i for i, letter in enumerate("ABCDEFGH")}


def solve(rhs, start, times, max_step):
    """States of an initial value problem at the given times, ends included."""
    run = solve_ivp(rhs, (times[0], times[-1]), start, "DOP853", t_eval=times,
                    rtol=1e-10, atol=1e-13, max_step=max_step)
    assert run.success, run.message
    return run.y.T


def damper(d, v):
    """Force by wheel compression speed, an array or a number."""
    v = np.asarray(v, float)
    bump = np.interp(v, [0, d["bump_knee"]], [0, d["bump_lo"] * d["bump_knee"]])
    bump = bump + d["bump_hi"] * np.maximum(v - d["bump_knee"], 0)
    rebound = np.interp(-v, [0, d["reb_knee"]], [0, d["reb_lo"] * d["reb_knee"]])
    rebound = rebound + d["reb_hi"] * np.maximum(-v - d["reb_knee"], 0)
    return bump - rebound


# One corner, x = [z_s, z_s', z_u, z_u'], driven by the road's height.

def corner_matrices(ms, mu, k, c, kt):
    mass = np.diag([ms, mu])
    stiff = np.array([[k, -k], [-k, k + kt]])
    damp = c * np.array([[1, -1], [-1, 1]])
    a = np.zeros((4, 4))
    a[np.ix_([0, 2], [1, 3])] = np.eye(2)
    a[np.ix_([1, 3], [0, 2])] = -np.linalg.solve(mass, stiff)
    a[np.ix_([1, 3], [1, 3])] = -np.linalg.solve(mass, damp)
    return a


def white_road(ms, mu, k, c, kt, s):
    """Covariance of [z_s - z_u, z_s', z_u - z_r, z_u'] on white road velocity."""
    a = np.array([[0, 1, 0, -1], [-k / ms, -c / ms, 0, c / ms],
                  [0, 0, 0, 1], [k / mu, c / mu, -kt / mu, -c / mu]])
    b = np.array([[0.0], [0.0], [-1.0], [0.0]])
    return solve_continuous_lyapunov(a, -s * b @ b.T), a


def step(a, start, settled):
    """Overshoot, time of the peak and 2 % settling of z_s that has to go 1."""
    h = 2 * np.pi / np.abs(eigvals(a)).max() / 200
    whole = expm(a * h)
    place = lambda t, x: (expm(a * t) @ x)[0]
    speed = lambda t, x: (expm(a * t) @ x)[1]
    x, t, best, calm = np.array(start, float), 0.0, (0.0, 0.0), 0.0
    marks = [(0.0, x)]
    while t < settled:
        y = whole @ x
        if x[1] * y[1] < 0:
            turn = brentq(speed, 0, h, args=(x,), xtol=1e-15)
            marks.append((t + turn, expm(a * turn) @ x))
        t, x = t + h, y
        marks.append((t, x))
    for (t0, x0), (t1, x1) in zip(marks, marks[1:]):
        if x1[0] > best[0]:
            best = (x1[0], t1)
        if abs(x0[0]) > 0.02 >= abs(x1[0]):
            edge = lambda t: abs(place(t, x0)) - 0.02
            calm = t0 + brentq(edge, 0, t1 - t0, xtol=1e-15)
    return {"overshoot": best[0], "t_peak": best[1], "t_settle_2pct": calm}


def quarter(q):
    ms, mu, k, c, kt, v = (q[n] for n in ("ms", "mu", "ks", "cs", "kt", "v"))
    a = corner_matrices(ms, mu, k, c, kt)
    roots = [r for r in eigvals(a) if r.imag >= 0]
    roots.sort(key=abs)
    undamped = np.sort(np.abs(eigvals(corner_matrices(ms, mu, k, 0, kt)).imag))[[0, 2]]
    end = 12 / min(-r.real for r in roots)
    s = 2 * np.pi**2 * 0.01 * CLASSES[q["road_class"]] * v
    sigma, b = white_road(ms, mu, k, c, kt, s)
    tyre = lambda c: kt * np.sqrt(white_road(ms, mu, k, c, kt, s)[0][2, 2])
    slope = lambda f, c, h: (f(c + h) ** 2 - f(c - h) ** 2) / (2 * h)
    best = brentq(lambda c: slope(tyre, c, 1e-4 * c), 10, 50000, xtol=1e-9)
    ride = k * kt / (k + kt)
    return {
        "modes": {
            "f_body_undamped_hz": undamped[0] / (2 * np.pi),
            "f_wheel_undamped_hz": undamped[1] / (2 * np.pi),
            "eig_wn_hz": [abs(r) / (2 * np.pi) for r in roots],
            "eig_zeta": [-r.real / abs(r) for r in roots],
        },
        "road_step": step(a, [-1, 0, -1, 0], end),
        "force_step": step(a, [-1, 0, -ride / kt, 0], end),
        "rms": {"acc": np.sqrt(b[1] @ sigma @ b[1]), "travel": np.sqrt(sigma[0, 0]),
                "tyre": tyre(c), "S": s},
        "rms_tyre_at_opt": tyre(best),
        **dict(zip(("load_variation", "lag_loss"), unrest(ms, mu, k, c, kt, s, q["relaxation"] / v))),
    }


# The whole car, q = [z, theta, phi, z_u of FL, FR, RL, RR].

def car(q):
    p = q["parameters"]
    track, x = [p["tf"], p["tr"]], [p["a"], -p["b"]]
    mu = np.repeat([p["muf"], p["mur"]], 2)
    kt = np.repeat([p["ktf"], p["ktr"]], 2)
    base = p["a"] + p["b"]
    carried = np.array([p["b"], p["a"]]) / base * p["ms"]
    rc = [p["h_rc_f"], p["h_rc_r"]]

    mass = np.diag(np.concatenate([[p["ms"], p["Iyy"], p["Ixx"]], mu]))
    travel = np.zeros((4, 7))  # d = z_u - z_b
    for i in range(4):
        side = track[i // 2] / 2 * (1 - 2 * (i % 2))
        travel[i, :3] = [-1, x[i // 2], -side]
        travel[i, 3 + i] = 1
    rates = np.diag(np.repeat([p["kwf"], p["kwr"]], 2)).astype(float)
    for axle, bar in enumerate([p["K_arb_f"], p["K_arb_r"]]):
        pair = slice(2 * axle, 2 * axle + 2)
        rates[pair, pair] += bar / track[axle] ** 2 * np.array([[1, -1], [-1, 1]])
    stiff = travel.T @ rates @ travel
    stiff[range(3, 7), range(3, 7)] += kt
    arm = sum(carried[i] * (p["h_s"] - rc[i]) for i in range(2))
    if p.get("gravity_roll"):
        stiff[2, 2] -= G * arm

    lateral, longitudinal = np.zeros(7), np.zeros(7)
    lateral[2] = arm
    moved = (p["ms"] * p["h_s"] + mu.sum() * p["h_u"]) / base
    for axle in range(2):
        link = (carried[axle] * rc[axle] + 2 * mu[2 * axle] * p["h_u"]) / track[axle]
        lateral[3 + 2 * axle: 5 + 2 * axle] = [link, -link]
        anti = p.get(["anti_f", "anti_r"][axle], 0)
        lift = moved * (1 - 2 * axle)
        longitudinal[3 + 2 * axle: 5 + 2 * axle] = lift * anti / 2
        longitudinal[0] += lift * (1 - anti)
        longitudinal[1] -= x[axle] * lift * (1 - anti)

    def course(points):
        t, value = np.array(points, float).T
        return lambda at: np.interp(at, t, value)

    ay, ax = course(q["ay_points"]), course(q["ax_points"])
    inverse = np.linalg.inv(mass)

    def rhs(t, state):
        place, speed = state[:7], state[7:]
        v = travel @ speed
        force = np.concatenate([damper(p["df"], v[:2]), damper(p["dr"], v[2:])])
        push = lateral * ay(t) + longitudinal * ax(t) - stiff @ place - travel.T @ force
        return np.concatenate([speed, inverse @ push])

    static = np.repeat(carried / 2, 2) * G + mu * G
    end = np.linalg.solve(stiff, lateral * q["ay_points"][-1][1] + longitudinal * q["ax_points"][-1][1])
    states = solve(rhs, np.zeros(14), q["t"], 5e-3)
    loads = static - kt * states[:, 3:7]
    return {
        "static_loads": static.tolist(),
        "tyre_loads": loads.tolist(),
        "heave": states[:, 0].tolist(), "pitch": states[:, 1].tolist(), "roll": states[:, 2].tolist(),
        "LT_front": ((loads[:, 1] - loads[:, 0]) / 2).tolist(),
        "LT_rear": ((loads[:, 3] - loads[:, 2]) / 2).tolist(),
        "steady_loads": (static - kt * end[3:]).tolist(),
    }


# The window.

SENSITIVITY, SPEED = 0.10, 35
SURFACES = {"smooth": (0.010, 16e-6), "bumpy": (0.030, 64e-6), "rough": (0.040, 256e-6)}


def side_force(x):
    return x * (1 + SENSITIVITY) - SENSITIVITY * x * x if x > 0 else 0.0


def unrest(ms, mu, k, c, kt, s, tau):
    """Variance of the tyre load over the load at rest, and of its quick part."""
    sigma, a = white_road(ms, mu, k, c, kt, s)
    weight = (ms + mu) * G
    load = kt**2 * sigma[2, 2] / weight**2
    if tau == 0:
        return load, 0.0
    # One more state: tau * b' + b = e, with e = kt * (z_r - z_u) / weight.
    more = np.zeros((5, 5))
    more[:4, :4] = a
    more[4, 2], more[4, 4] = -kt / weight / tau, -1 / tau
    push = np.zeros((5, 1))
    push[2] = -1
    sigma = solve_continuous_lyapunov(more, -s * push @ push.T)
    quick = np.array([0, 0, -kt / weight, 0, -1])
    return load, quick @ sigma @ quick


def road_grip(q, d, spectrum):
    s = 2 * np.pi**2 * 0.01 * spectrum * SPEED
    spread = lambda c: np.sqrt(np.array([0, 1, 0, -1]) @ white_road(
        q["ms"], q["mu"], q["kw"], c, q["kt"], s)[0] @ np.array([0, 1, 0, -1]))

    def excess(c):
        sigma = spread(c)
        knees = sorted({d["bump_knee"], -d["reb_knee"], 0.0})
        power = quad(lambda v: float(damper(d, v)) * v * norm.pdf(v, scale=sigma),
                     -9 * sigma, 9 * sigma, points=knees, limit=400, epsabs=0, epsrel=1e-11)[0]
        return power / sigma**2 - c

    slopes = [d[n] for n in ("bump_lo", "bump_hi", "reb_lo", "reb_hi")]
    c = brentq(excess, 0.5 * min(slopes), 2 * max(slopes), xtol=1e-9)
    load, lag = unrest(q["ms"], q["mu"], q["kw"], c, q["kt"], s, q["relaxation"] / SPEED)
    sigma = np.sqrt(load)
    low = max(0, 1 - 12 * sigma)
    return quad(lambda x: side_force(x) * norm.pdf(x, 1, sigma), low, 1 + 12 * sigma,
                epsabs=0, epsrel=1e-12, points=[1])[0] - lag


def trial(q, d, load, road, watch, corner):
    weight = (q["ms"] + q["mu"]) * G
    relaxation = q["relaxation"]

    def rhs(t, x):
        strut = q["kw"] * (x[2] - x[0]) + float(damper(d, x[3] - x[1]))
        tyre = max(0.0, weight + q["kt"] * (road(t) - x[2]))
        ratio = tyre / weight
        # x[4] is the patch over the relaxation length; nothing is left of it in the air.
        carried = SPEED / relaxation * (1 - x[4] / max(ratio, 1e-6))
        force = side_force(ratio) / ratio * x[4] if ratio > 0 else 0.0
        return [x[1], (strut - load(t) * weight) / q["ms"],
                x[3], (tyre - weight - strut) / q["mu"], carried, force]

    state, total = np.array([0, 0, 0, 0, 1.0, 0]), 0.0
    for begin, end in ((0, corner), (corner, watch)):
        run = solve_ivp(rhs, (begin, end), state, "Radau", rtol=1e-8, atol=1e-11, max_step=1e-3)
        assert run.success, run.message
        state = run.y[:, -1]
    return state[5] / watch


def window(q):
    height, spectrum = SURFACES[q["surface"]]
    past = 1 / SPEED
    bump = lambda t: height / 2 * (1 - np.cos(2 * np.pi * t / past)) if t < past else 0.0
    clicks = []
    for d in q["clicks"]:
        body = [trial(q, d, lambda t: side * 0.6 * min(t / 0.2, 1), lambda t: 0.0, 1.2, 0.2)
                for side in (-1, 1)]
        grip = {"road": road_grip(q, d, spectrum), "body": sum(body) / 2,
                "kerb": trial(q, d, lambda t: 0.0, bump, 0.4, past)}
        grip["index"] = grip["road"] * grip["body"] * grip["kerb"]
        clicks.append(grip)
    best = max(range(len(clicks)), key=lambda i: clicks[i]["index"])
    return {"clicks": clicks, "best": best}


if __name__ == "__main__":
    kinds = {"quarter": quarter, "car": car, "window": window}
    json.dump([kinds[c["kind"]](c["question"]) for c in json.load(sys.stdin)], sys.stdout)
