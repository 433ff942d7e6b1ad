"""The spread of a net list in numerical Python: all draws at once, Newton's method by numpy.linalg.solve over the batch.

Nodal analysis with branch currents for sources and coils, valves as their tangents, every draw started from the nominal
rest and refined together until none moves. Reads {netlist, models, samples, seed} on stdin; prints the windows and the
processor time taken without reading and importing. On one thread: on several, small matrices wait for one another.
"""
import json, os, sys, time
os.environ["OPENBLAS_NUM_THREADS"] = os.environ["OMP_NUM_THREADS"] = "1"
import numpy as np

question = json.load(sys.stdin)
netlist, models, samples = question["netlist"], question["models"], question["samples"]
rng = np.random.default_rng(question["seed"])
PER99 = 2.5758293035489


def softened(u, s):
    """s*ln(1 + exp(u/s)) and its slopes by u and s."""
    x = u / s
    small = np.exp(-np.abs(x))
    log = np.maximum(x, 0) + np.log1p(small)
    logistic = np.where(x >= 0, 1, small) / (1 + small)
    return s * log, logistic, log - x * logistic


def triode(m, va, vg):
    """Plate and grid current of the project's curve model, with slopes by plate and grid voltage."""
    ve = np.maximum(va, 0)
    low = m["lowPlate_V"]
    root = np.sqrt(low**2 + ve**2)
    h = ve / root if low else 1.0
    h_a = low**2 / root**3 if low else 0.0
    r = 100 / m["mu"]
    bow = np.sqrt(1 + (vg / r) ** 2)
    eff = vg + m["bend"] * r * (bow - 1) + m["offset_V"]
    eff_g = 1 + m["bend"] * vg / (r * bow)
    s = m["softness_V"] + m["softness"] * ve
    e, e_u, e_s = softened(ve / m["mu"] + h * eff, s)
    power = m["current_A"] * e ** (m["exponent"] - 1)
    i = power * e
    slope = m["exponent"] * power
    knee = m["knee_V"]
    whole = va**2 + knee**2
    open_ = np.where(va > 0, va**2 / whole, 0) if knee else 1.0
    open_a = np.where(va > 0, 2 * va * knee**2 / whole**2, 0) if knee else 0.0
    ia = open_ * i
    di_a = open_ * slope * (e_u * (1 / m["mu"] + h_a * eff) + e_s * m["softness"]) + open_a * i
    di_g = open_ * slope * e_u * h * eff_g
    g = m.get("gridCurrent")
    if g is None:
        return ia, di_a, di_g, 0.0, 0.0
    v, v_u, _ = softened(vg + g["onset_V"], g["softness_V"])
    ig = g["current_A"] * v ** g["exponent"]
    return ia, di_a, di_g, ig, g["exponent"] * g["current_A"] * v ** (g["exponent"] - 1) * v_u


def spread():
    parts = netlist["parts"]
    ends = [n for p in parts for n in p.get("between", []) + [p[k] for k in ("plate", "grid", "cathode") if k in p]]
    nodes = {n: i for i, n in enumerate(dict.fromkeys(n for n in ends if n != netlist["ground"]))}
    branches = [p for p in parts if p["kind"] in ("voltage", "inductor")]
    size = len(nodes) + len(branches)
    ground = size  # a row and a column more, left out when solving
    at = lambda n: nodes.get(n, ground)

    def factor(tolerance, count):
        if not tolerance or count == 1:
            return np.ones(count)
        f = rng.normal(1, tolerance / PER99, count)
        while (f <= 0).any():
            f = np.where(f <= 0, rng.normal(1, tolerance / PER99, count), f)
        return f

    def solve(count, start):
        a = np.zeros((count, size + 1, size + 1))
        b = np.zeros((count, size + 1))
        branch = len(nodes)
        valves, diodes = [], []
        for p in parts:
            if p["kind"] == "triode":
                t = p.get("tolerance", {})
                valves.append((models[p["type"]], at(p["plate"]), at(p["grid"]), at(p["cathode"]),
                               factor(t.get("current"), count), factor(t.get("mu"), count)))
                continue
            if p["kind"] == "capacitor":
                continue
            i, j = at(p["between"][0]), at(p["between"][1])
            f = factor(p.get("tolerance"), count)
            if p["kind"] == "diode":
                law = p["law"]
                scale = law["emission"] * 1.380649e-23 / 1.602176634e-19 * (law["temperature_C"] + 273.15)
                diodes.append((i, j, law["saturation_A"] * f, scale, scale * np.log(10 / law["saturation_A"])))
                continue
            if p["kind"] == "resistor":
                g = 1 / (p["ohm"] * f)
                a[:, i, i] += g
                a[:, j, j] += g
                a[:, i, j] -= g
                a[:, j, i] -= g
                continue
            a[:, i, branch] += 1
            a[:, j, branch] -= 1
            a[:, branch, i] += 1
            a[:, branch, j] -= 1
            if p["kind"] == "voltage":
                b[:, branch] = p["dc_V"] * f
            else:
                a[:, branch, branch] -= p.get("resistance_ohm", 0) * f
            branch += 1
        x = np.broadcast_to(start, (count, size + 1)).copy()
        jacobian = np.empty_like(a)
        for _ in range(60):
            np.copyto(jacobian, a)
            side = b.copy()
            for model, plate, grid, cathode, current, mu in valves:
                va, vg = x[:, plate] - x[:, cathode], x[:, grid] - x[:, cathode]
                ia, ia_a, ia_g, ig, ig_g = triode(model, va / mu, vg)
                ia, ia_a, ia_g = current * ia, current * ia_a / mu, current * ia_g
                rest = ia - ia_a * va - ia_g * vg
                jacobian[:, plate, plate] += ia_a
                jacobian[:, plate, grid] += ia_g
                jacobian[:, plate, cathode] -= ia_a + ia_g
                jacobian[:, cathode, plate] -= ia_a
                jacobian[:, cathode, grid] -= ia_g + ig_g
                jacobian[:, cathode, cathode] += ia_a + ia_g + ig_g
                jacobian[:, grid, grid] += ig_g
                jacobian[:, grid, cathode] -= ig_g
                side[:, plate] -= rest
                side[:, cathode] += rest + ig - ig_g * vg
                side[:, grid] -= ig - ig_g * vg
            for i, j, saturation, scale, most in diodes:
                v = np.minimum(x[:, i] - x[:, j], most)  # no junction is looked at beyond 10 A
                g = saturation * np.exp(v / scale) / scale
                rest = saturation * np.expm1(v / scale) - g * v
                jacobian[:, i, i] += g
                jacobian[:, j, j] += g
                jacobian[:, i, j] -= g
                jacobian[:, j, i] -= g
                side[:, i] -= rest
                side[:, j] += rest
            new = np.linalg.solve(jacobian[:, :size, :size], side[:, :size])
            step = np.abs(new - x[:, :size]) / (1 + np.abs(new))
            # One unit alone starts far off: its steps are held to 50 V.
            x[:, :size] += np.clip(new - x[:, :size], -50, 50) if count == 1 else new - x[:, :size]
            if step.max() < (1e-6 if not diodes else 1e-7):  # the next step would be its square
                break
        return x, nodes

    nominal, _ = solve(1, np.zeros(size + 1))
    x, nodes = solve(samples, nominal[0])
    points = netlist.get("testPoints") or list(nodes)
    named = [(p, p) if isinstance(p, str) else (p["name"], p["node"]) for p in points]
    quantiles = np.quantile(x[:, [at(node) for _, node in named]], [0.005, 0.5, 0.995], axis=0)
    return {name: quantiles[:, i].tolist() for i, (name, _) in enumerate(named)}


spread()
taken = []
for _ in range(question.get("times", 3)):
    begun = time.process_time()
    windows = spread()
    taken.append(time.process_time() - begun)
print(json.dumps({"ms": sorted(taken)[len(taken) // 2] * 1e3, "windows": windows}))
