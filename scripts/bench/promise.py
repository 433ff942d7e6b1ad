"""The shop of the promise in a general discrete-event library (SimPy, Debian's python3-simpy): a process for each unit,
one that hands out places and people, the same rules and calendars.

Reads {"shop", "runs", "starts_ms", "ends_ms"} on stdin: working hours as intervals from now. Prints the hours after now
by which 50, 80 and 95 % of the runs have each order done, and the time taken.
"""

import bisect
import heapq
import json
import math
import random
import sys
import time

from SimPy.Simulation import Process, Simulation, hold, passivate

question = json.load(sys.stdin)
shop, runs = question["shop"], question["runs"]
starts, ends = question["starts_ms"], question["ends_ms"]
HOUR = 3_600_000
people = [(p["id"], frozenset(p["skills"])) for p in shop["people"]]
places = {p["id"]: p for p in shop["places"]}
routes = {
    model: [
        (
            s["step"],
            s.get("skill"),
            s.get("place"),
            s["hours"],
            s.get("failOdds", 0),
            [o["step"] for o in route].index(s.get("onFail", {}).get("back", s["step"])),
            s.get("onFail", {}).get("repair_h", 0) * HOUR,
            s.get("place") in places and places[s["place"]]["kind"] == "batch",
        )
        for s in route
    ]
    for model, route in shop["routes"].items()
}


def at_work(now):
    i = bisect.bisect_right(starts, now) - 1
    return i >= 0 and now < ends[i]


def end_of_work(now, work):
    i = bisect.bisect_right(starts, now) - 1
    left = work - (ends[i] - now)
    if left <= 0:
        return now + work
    while True:
        i += 1
        length = ends[i] - starts[i]
        if left <= length:
            return starts[i] + left
        left -= length


def drawn(hours):
    if hours["fast"] == hours["slow"]:
        return hours["usual"] * HOUR
    return round(random.triangular(hours["fast"], hours["slow"], hours["usual"]) * HOUR)


class Floor(Process):
    """Hands out places and people to waiting units, the most urgent first, whenever something has ended."""

    def __init__(self, sim):
        Process.__init__(self, sim=sim)
        self.waiting = []
        self.free_people = [True] * len(people)
        self.held = {place: 0 for place in places}

    def call(self):
        if self.passive():
            self.sim.reactivate(self)

    def work(self):
        while True:
            now = self.sim.now()
            self.waiting.sort(key=lambda unit: unit.rank)
            batches = {}
            still = []
            open_hours = at_work(now)
            for unit in self.waiting:
                _, skill, place, *_, is_batch = unit.step()
                if is_batch:
                    batch = batches.get(place)
                    if batch is None and self.held[place] == 0:
                        batch = batches[place] = []
                    if batch is None or len(batch) == places[place].get("capacity", 1):
                        still.append(unit)
                    else:
                        batch.append(unit)
                    continue
                if place is not None and self.held[place] == places[place].get("capacity", 1):
                    still.append(unit)
                    continue
                person = None
                if skill is not None:
                    if open_hours:
                        for i, (_, skills) in enumerate(people):
                            if self.free_people[i] and skill in skills:
                                person = i
                                break
                    if person is None:
                        still.append(unit)
                        continue
                    self.free_people[person] = False
                if place is not None:
                    self.held[place] += 1
                unit.person = person
                self.sim.reactivate(unit)
            for place, batch in batches.items():
                self.held[place] = 1
                cycle = places[place].get("cycle_h")
                length = max(drawn(unit.step()[3]) for unit in batch) if cycle is None else cycle * HOUR
                for unit in batch:
                    unit.cycle = length
                    self.sim.reactivate(unit)
            self.waiting = still
            if still and not open_hours:
                yield hold, self, starts[bisect.bisect_right(starts, now)] - now
            else:
                yield passivate, self


class Unit(Process):
    def __init__(self, sim, floor, rank, order, route, done):
        Process.__init__(self, sim=sim)
        self.floor, self.rank, self.order, self.route, self.done = floor, rank, order, route, done
        self.at, self.person, self.cycle = 0, None, 0

    def step(self):
        return self.route[self.at]

    def work(self):
        floor = self.floor
        while self.at < len(self.route):
            _, skill, place, hours, odds, back, repair, is_batch = self.step()
            if place is not None or skill is not None:
                floor.waiting.append(self)
                floor.call()
                yield passivate, self
            now = self.sim.now()
            failed = odds > 0 and random.random() < odds
            if is_batch:
                yield hold, self, self.cycle
                floor.held[place] = 0
            else:
                work = drawn(hours) + (repair if failed and skill is not None else 0)
                yield hold, self, (end_of_work(now, work) if skill is not None else now + work) - now
                if place is not None:
                    floor.held[place] -= 1
                if self.person is not None:
                    floor.free_people[self.person] = True
            floor.call()
            if failed and skill is None and repair > 0:
                yield hold, self, repair
            self.at = back if failed else self.at + 1
        self.done[self.order] = max(self.done[self.order], self.sim.now())


def once(number):
    random.seed(number)
    sim = Simulation()
    sim.initialize()
    floor = Floor(sim)
    done = [0.0] * len(shop["orders"])
    sim.activate(floor, floor.work())
    rank = 0
    for order, asked in enumerate(shop["orders"]):
        for _ in range(asked["units"]):
            unit = Unit(sim, floor, rank, order, routes[asked["model"]], done)
            sim.activate(unit, unit.work())
            rank += 1
    sim.simulate(until=20 * 365 * 24 * HOUR)
    return done


begun = time.perf_counter()
seen = [once(run) for run in range(runs)]
taken = time.perf_counter() - begun
by = [sorted(dates) for dates in zip(*seen)]
print(
    json.dumps(
        {
            "ms": 1000 * taken,
            "hours": [[d[math.ceil(runs * q - 1e-9) - 1] / HOUR for q in (0.5, 0.8, 0.95)] for d in by],
        }
    )
)
