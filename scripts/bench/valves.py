"""Sets of valves by general-purpose libraries: reads one JSON question on stdin, prints one JSON answer."""

import itertools
import json
import os
import sys
import time

try:
    import networkx
except ModuleNotFoundError:
    # The system's Python may lack the graph library where the user's own has it.
    if "VALVES_TRIED" in os.environ:
        raise
    os.environ["VALVES_TRIED"] = "1"
    os.execvp("python3", ["python3", *sys.argv])
import numpy
from scipy.optimize import LinearConstraint, milp
from scipy.sparse import csc_matrix, vstack

question = json.load(sys.stdin)
places = numpy.array(question["places"])
count = len(places)
distances = numpy.abs(places[:, None] - places[None]).sum(2)

if question["kind"] == "pairs":
    begun = time.perf_counter()
    graph = networkx.Graph()
    graph.add_weighted_edges_from(
        (a, b, distances[a, b]) for a in range(count) for b in range(a + 1, count)
    )
    pairs = networkx.min_weight_matching(graph)
    taken = time.perf_counter() - begun
    print(json.dumps({"ms": 1e3 * taken, "cost": float(sum(distances[a, b] for a, b in pairs))}))
else:
    begun = time.perf_counter()
    sets = set()
    for valve in range(count):
        for others in itertools.combinations(numpy.argsort(distances[valve])[1:11], 3):
            sets.add(tuple(sorted((valve, *map(int, others)))))
    members = numpy.array(sorted(sets))
    costs = (places[members].max(1) - places[members].min(1)).sum(1)
    total = len(members)
    holds = csc_matrix((numpy.ones(4 * total), (members.ravel(), numpy.repeat(numpy.arange(total), 4))), shape=(count, total))
    rows = vstack([holds, csc_matrix(numpy.ones((1, total)))])
    low = numpy.append(numpy.zeros(count), question["sets"])
    high = numpy.append(numpy.ones(count), question["sets"])
    found = milp(
        costs,
        constraints=LinearConstraint(rows, low, high),
        integrality=numpy.ones(total),
        options={"time_limit": question["seconds"]},
    )
    taken = time.perf_counter() - begun
    print(json.dumps({"ms": 1e3 * taken, "cost": float(found.fun), "bound": float(found.mip_dual_bound)}))
