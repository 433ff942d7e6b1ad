"""The shortest schedule of a job shop as a mixed whole-number program: one variable for each pair on a machine."""

import json
import sys
import time

import numpy as np
from scipy.optimize import Bounds, LinearConstraint, milp
from scipy.sparse import coo_matrix

jobs = json.load(sys.stdin)["jobs"]
begun = time.perf_counter()
ops = [(j, k, m, p) for j, job in enumerate(jobs) for k, (m, p) in enumerate(job)]
n = len(ops)
pairs = [(a, b) for a in range(n) for b in range(a + 1, n) if ops[a][2] == ops[b][2] and ops[a][0] != ops[b][0]]
span = n
horizon = sum(p for *_, p in ops)
rows, cols, vals, low = [], [], [], []


def at_least(terms, bound):
    r = len(low)
    for column, value in terms:
        rows.append(r)
        cols.append(column)
        vals.append(value)
    low.append(bound)


for a, (j, k, m, p) in enumerate(ops):
    if k + 1 < len(jobs[j]):
        at_least([(a + 1, 1), (a, -1)], p)
    else:
        at_least([(span, 1), (a, -1)], p)
for i, (a, b) in enumerate(pairs):
    y = n + 1 + i
    at_least([(b, 1), (a, -1), (y, horizon)], ops[a][3])
    at_least([(a, 1), (b, -1), (y, -horizon)], ops[b][3] - horizon)
size = n + 1 + len(pairs)
cost = np.zeros(size)
cost[span] = 1
found = milp(
    cost,
    constraints=LinearConstraint(coo_matrix((vals, (rows, cols)), shape=(len(low), size)).tocsr(), lb=low),
    integrality=np.r_[np.zeros(n + 1), np.ones(len(pairs))],
    bounds=Bounds(np.zeros(size), np.r_[np.full(n + 1, horizon), np.ones(len(pairs))]),
    options={"time_limit": 60, "mip_rel_gap": 0},
)
print(json.dumps({"makespan": round(found.fun, 6), "proved": bool(found.status == 0), "ms": 1000 * (time.perf_counter() - begun)}))
