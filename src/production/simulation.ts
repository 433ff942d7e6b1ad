import type { Random } from "../maths/random.ts";
import { eventQueue, joinLine, takeMostUrgent, waitingLine } from "./eventQueue.ts";
import type { Plan } from "./plan.ts";
import type { PlannedStep } from "./planned.ts";
import { day_ms, isFixed } from "./spreads.ts";
import type { WorkingHours } from "./workingHours.ts";

/** A unit's wait is for a part, a place or a person; all three are numbered in one row. */
export interface Culprits {
  readonly ids: readonly string[];
  readonly place: number;
  readonly person: number;
}

/** What one run left behind; overwritten by the next. */
export interface RunTrace {
  /** Milliseconds from `now` at which each order is done; infinity when it was not done within the horizon. */
  readonly done: Float64Array;
  /** The longest wait of each order, and what it was for; −1 when nothing was waited for. */
  readonly longestWait: Float64Array;
  readonly waitedFor: Int32Array;
  /** For each part of each order, in one row: when the first of its units began the step that needs it. */
  readonly firstUse: Float64Array;
  readonly lastDone: () => number;
}

export interface Simulation {
  /**
   * Lets the shop run once.
   *
   * @param random    each unit draws from a fork of its own, so that a unit's luck does not depend on the others
   * @param ready_ms  when each part is there
   * @returns whether all orders were done within the horizon and the allowance of steps
   */
  readonly run: (random: Random | undefined, ready_ms: Float64Array) => "done" | "beyond-horizon" | "too-many-steps";
  readonly trace: RunTrace;
  readonly culprits: Culprits;
  /** Held slot time per place and working time per person, over all runs so far. */
  readonly placeHeld: Float64Array;
  readonly personWorked: Float64Array;
  /** Step executions over all runs so far. */
  readonly executions: () => number;
}

/** More steps than a route can have. */
const mostSteps = 2 ** 20;
const atStart = 0;
const atStep = 1;
const atEnd = 2;
const never = Number.POSITIVE_INFINITY;

/**
 * The shop's rules, event by event: at every instant all that ends is ended first, then waiting units begin in order
 * of urgency wherever their place and person are free.
 *
 * @param horizon_ms      no run looks further ahead
 * @param mostExecutions  step executions allowed over all runs
 */
export function simulation(plan: Plan, horizon_ms: number, mostExecutions: number): Simulation {
  const { units, lines, places, people, parts, orders } = plan;
  /** What stands in a place at the start comes out of it; a batch place opens with the last. */
  const comingOut = places.flatMap(({ isBatch, busy }, place) =>
    isBatch && busy.length > 0
      ? [{ place, slots: 1, until_ms: Math.max(...busy.map(({ until_ms }) => until_ms)) }]
      : busy.map((one) => ({ place, ...one })),
  );
  const events = eventQueue(units.length + places.length + comingOut.length + 1);
  const waiting = lines.map(() => waitingLine(units.length));
  // Read at every instant, so kept flat.
  const slots = Int32Array.from(places, ({ isBatch, capacity }) => (isBatch ? 1 : capacity));
  const linePlace = Int32Array.from(lines, ({ place }) => place);
  const linePeople = lines.map((line) => Int32Array.from(line.people));
  const needsPerson = Uint8Array.from(lines, (line) => (line.needsPerson ? 1 : 0));

  const position = new Int32Array(units.length);
  const phase = new Uint8Array(units.length);
  const failed = new Uint8Array(units.length);
  /** Steps at which a unit has failed as it was bound to. */
  const hasFailed = new Set<number>();
  const joinedAt = new Float64Array(units.length);
  const fullWhenJoined = new Float64Array(units.length);
  const begunAt = new Float64Array(units.length);
  const servedBy = new Int32Array(units.length);
  const chance: (Random | undefined)[] = new Array(units.length).fill(undefined);

  const taken = new Int32Array(places.length);
  const fullSince = new Float64Array(places.length);
  const fullTime = new Float64Array(places.length);
  const inBatch: number[][] = places.map(() => []);
  const isBusy = new Uint8Array(people.length);
  const interval = new Int32Array(people.length);

  const culprits: Culprits = {
    ids: [...parts.map(({ id }) => id), ...places.map(({ id }) => id), ...people.map(({ id }) => id)],
    place: parts.length,
    person: parts.length + places.length,
  };
  const done = new Float64Array(orders.length);
  const openUnits = new Int32Array(orders.length);
  const longestWait = new Float64Array(orders.length);
  const waitedFor = new Int32Array(orders.length);
  const firstUse = new Float64Array(plan.orderParts);
  const placeHeld = new Float64Array(places.length);
  const personWorked = new Float64Array(people.length);

  let ready: Float64Array = new Float64Array(parts.length);
  let unitsOpen = 0;
  let executions = 0;
  let last = 0;

  function stepOf(unit: number): PlannedStep {
    return units[unit]!.route[position[unit]!]!;
  }

  function noteWait(unit: number, culprit: number, wait: number): void {
    const order = units[unit]!.order;
    if (wait > longestWait[order]!) {
      longestWait[order] = wait;
      waitedFor[order] = culprit;
    }
  }

  function arrive(unit: number, now: number): void {
    const { route, order } = units[unit]!;
    if (position[unit] === route.length) {
      unitsOpen--;
      if (--openUnits[order]! === 0) {
        done[order] = now;
        last = now;
      }
      return;
    }
    const step = stepOf(unit);
    let latest = -1;
    for (const part of step.parts) if (latest < 0 || ready[part]! > ready[latest]!) latest = part;
    if (latest >= 0 && ready[latest]! > now) {
      noteWait(unit, latest, ready[latest]! - now);
      phase[unit] = atStep;
      events.push(ready[latest]!, unit);
    } else {
      join(unit, step, now);
    }
  }

  function join(unit: number, step: PlannedStep, now: number): void {
    joinedAt[unit] = now;
    if (step.line < 0) {
      begin(unit, step, -1, now);
      return;
    }
    if (step.place >= 0) fullWhenJoined[unit] = timeFull(step.place, now);
    joinLine(waiting[step.line]!, unit);
  }

  function timeFull(place: number, now: number): number {
    return taken[place]! >= slots[place]! ? fullTime[place]! + now - fullSince[place]! : fullTime[place]!;
  }

  function take(place: number, now: number): void {
    if (++taken[place]! === slots[place]!) fullSince[place] = now;
  }

  function giveBack(place: number, now: number): void {
    if (taken[place]! === slots[place]!) fullTime[place]! += now - fullSince[place]!;
    taken[place]!--;
  }

  /** Draws what this execution will be: its work, and whether it ends in a fail. */
  function drawWork(unit: number, step: PlannedStep): number {
    executions++;
    const random = chance[unit];
    const { fast, usual, slow } = step.work_ms;
    const work = isFixed(step.work_ms) ? usual : Math.round(random!.triangle(fast, usual, slow));
    failed[unit] = step.failOdds > 0 && random!.uniform() < step.failOdds ? 1 : 0;
    if (step.failsOnce) failOnce(unit);
    return work;
  }

  function failOnce(unit: number): void {
    const key = unit * mostSteps + position[unit]!;
    if (hasFailed.has(key)) return;
    hasFailed.add(key);
    failed[unit] = 1;
  }

  function noteBegin(unit: number, step: PlannedStep, now: number): void {
    const { firstPart } = orders[units[unit]!.order]!;
    for (const use of step.uses) if (now < firstUse[firstPart + use]!) firstUse[firstPart + use] = now;
  }

  /** A unit begins on its own, in a slot of a single place or in none, with a person or without. */
  function begin(unit: number, step: PlannedStep, person: number, now: number): void {
    noteBegin(unit, step, now);
    const wait = now - joinedAt[unit]!;
    const waitForPlace = step.place >= 0 ? timeFull(step.place, now) - fullWhenJoined[unit]! : 0;
    if (waitForPlace > 0) noteWait(unit, culprits.place + step.place, waitForPlace);
    if (person >= 0 && wait > waitForPlace) noteWait(unit, culprits.person + person, wait - waitForPlace);

    const work = drawWork(unit, step);
    const held = failed[unit] === 1 && !step.isUnattended ? work + step.repair_ms : work;
    if (step.place >= 0) take(step.place, now);
    begunAt[unit] = now;
    servedBy[unit] = person;
    phase[unit] = atEnd;
    if (person < 0) {
      events.push(now + held, unit);
      return;
    }
    isBusy[person] = 1;
    personWorked[person]! += held;
    events.push(endOfWork(people[person]!.hours, interval[person]!, now, held, horizon_ms), unit);
  }

  function beginBatch(place: number, line: number, now: number): void {
    const { capacity, cycle_ms } = places[place]!;
    const queue = waiting[line]!;
    const batch = inBatch[place]!;
    let longest = 0;
    while (batch.length < capacity && queue.length > 0) {
      const unit = takeMostUrgent(queue);
      const step = stepOf(unit);
      noteBegin(unit, step, now);
      const wait = now - joinedAt[unit]!;
      if (wait > 0) noteWait(unit, culprits.place + place, wait);
      longest = Math.max(longest, drawWork(unit, step));
      batch.push(unit);
    }
    const cycle = cycle_ms ?? longest;
    placeHeld[place]! += cycle;
    take(place, now);
    events.push(now + cycle, -1 - place);
  }

  function endBatch(place: number, now: number): void {
    giveBack(place, now);
    const batch = inBatch[place]!;
    for (const unit of batch) moveOn(unit, stepOf(unit), now);
    batch.length = 0;
  }

  function end(unit: number, now: number): void {
    const step = stepOf(unit);
    if (step.place >= 0) {
      giveBack(step.place, now);
      placeHeld[step.place]! += now - begunAt[unit]!;
    }
    const person = servedBy[unit]!;
    if (person >= 0) isBusy[person] = 0;
    moveOn(unit, step, now);
  }

  function moveOn(unit: number, step: PlannedStep, now: number): void {
    if (failed[unit] === 0) {
      position[unit]!++;
      arrive(unit, now);
      return;
    }
    position[unit] = step.back;
    if (step.isUnattended && step.repair_ms > 0) {
      phase[unit] = atStart;
      events.push(now + step.repair_ms, unit);
    } else {
      arrive(unit, now);
    }
  }

  function happen(whom: number, now: number): void {
    if (whom < 0) endBatch(-1 - whom, now);
    else if (whom >= units.length) comeOut(whom - units.length, now);
    else if (phase[whom] === atEnd) end(whom, now);
    else if (phase[whom] === atStep) join(whom, stepOf(whom), now);
    else arrive(whom, now);
  }

  function comeOut(which: number, now: number): void {
    const { place, slots: taken } = comingOut[which]!;
    for (let i = 0; i < taken; i++) giveBack(place, now);
  }

  function isAtWork(person: number, now: number): boolean {
    const { hours } = people[person]!;
    if (hours.known <= now) extendBeyond(hours, now, horizon_ms);
    let i = interval[person]!;
    while (i < hours.ends.length && hours.ends[i]! <= now) i++;
    interval[person] = i;
    return i < hours.starts.length && hours.starts[i]! <= now;
  }

  /** The first person in the list who can serve the line now, or −1. */
  function personFor(line: number, now: number): number {
    const able = linePeople[line]!;
    for (let i = 0; i < able.length; i++) {
      const person = able[i]!;
      if (isBusy[person] === 0 && isAtWork(person, now)) return person;
    }
    return -1;
  }

  /** When the first of the line's people who are free, but not at work, comes to work. */
  function nextToCome(line: number, now: number): number {
    const able = linePeople[line]!;
    let next = never;
    for (let i = 0; i < able.length; i++) {
      const person = able[i]!;
      if (isBusy[person] === 1) continue;
      const start = nextStart(people[person]!.hours, interval[person]!, now, horizon_ms);
      if (start < next) next = start;
    }
    return next;
  }

  /**
   * Lets waiting units begin, the most urgent first, until none can.
   *
   * @returns the instant at which somebody for whom a unit waits, with its place free, comes to work
   */
  function beginWhoCan(now: number): number {
    for (;;) {
      let bestLine = -1;
      let bestPerson = -1;
      let bestUnit = units.length;
      let arrival = never;
      for (let line = 0; line < waiting.length; line++) {
        const queue = waiting[line]!;
        if (queue.length === 0 || queue.units[0]! >= bestUnit) continue;
        const place = linePlace[line]!;
        if (place >= 0 && taken[place]! >= slots[place]!) continue;
        let person = -1;
        if (needsPerson[line] === 1) {
          person = personFor(line, now);
          if (person < 0) {
            arrival = Math.min(arrival, nextToCome(line, now));
            continue;
          }
        }
        bestLine = line;
        bestPerson = person;
        bestUnit = queue.units[0]!;
      }
      if (bestLine < 0) return arrival;
      if (lines[bestLine]!.isBatch) {
        beginBatch(linePlace[bestLine]!, bestLine, now);
      } else {
        const unit = takeMostUrgent(waiting[bestLine]!);
        begin(unit, stepOf(unit), bestPerson, now);
      }
    }
  }

  function reset(random: Random | undefined): void {
    events.clear();
    hasFailed.clear();
    for (const queue of waiting) queue.length = 0;
    for (const batch of inBatch) batch.length = 0;
    for (const array of [position, isBusy, interval, taken, fullTime, openUnits, longestWait]) array.fill(0);
    done.fill(never);
    waitedFor.fill(-1);
    firstUse.fill(never);
    unitsOpen = units.length;
    last = 0;
    comingOut.forEach(({ place, slots: standing, until_ms }, which) => {
      for (let i = 0; i < standing; i++) take(place, 0);
      placeHeld[place]! += standing * until_ms;
      events.push(until_ms, units.length + which);
    });
    units.forEach(({ order, label, start_ms }, unit) => {
      openUnits[order]!++;
      chance[unit] = random?.fork(label);
      phase[unit] = atStart;
      events.push(start_ms, unit);
    });
  }

  function run(random: Random | undefined, ready_ms: Float64Array): "done" | "beyond-horizon" | "too-many-steps" {
    ready = ready_ms;
    reset(random);
    let now = 0;
    let arrival = never;
    while (unitsOpen > 0) {
      now = Math.min(events.next(), arrival);
      if (now >= horizon_ms) return "beyond-horizon";
      while (events.next() === now) {
        happen(events.pop(), now);
        if (executions > mostExecutions) return "too-many-steps";
      }
      arrival = beginWhoCan(now);
    }
    return "done";
  }

  return {
    run,
    trace: { done, longestWait, waitedFor, firstUse, lastDone: () => last },
    culprits,
    placeHeld,
    personWorked,
    executions: () => executions,
  };
}

/** When each part is there: its instant of ordering plus its lead. */
export function drawParts(plan: Plan, random: Random | undefined): Float64Array {
  return Float64Array.from(plan.parts, (part) => part.ordered_ms + drawLead(part, random));
}

function drawLead({ lead_ms, label }: Plan["parts"][number], random: Random | undefined): number {
  const { fast, usual, slow } = lead_ms;
  return isFixed(lead_ms) ? usual : Math.round(random!.fork(`part/${label}`).triangle(fast, usual, slow));
}

/** When work begun at `now` by someone at work in interval `i` is done, pausing outside their hours. */
function endOfWork(hours: WorkingHours, i: number, now: number, work: number, horizon_ms: number): number {
  let left = work - (hours.ends[i]! - now);
  if (left <= 0) return now + work;
  for (let j = i + 1; ; j++) {
    while (j >= hours.starts.length) {
      if (hours.known >= horizon_ms) return never;
      hours.extend();
    }
    const length = hours.ends[j]! - hours.starts[j]!;
    if (left <= length) return hours.starts[j]! + left;
    left -= length;
  }
}

function nextStart(hours: WorkingHours, i: number, now: number, horizon_ms: number): number {
  for (let j = i; ; j++) {
    while (j >= hours.starts.length) {
      if (hours.known >= horizon_ms) return never;
      hours.extend();
    }
    if (hours.starts[j]! > now) return hours.starts[j]!;
  }
}

function extendBeyond(hours: WorkingHours, instant: number, horizon_ms: number): void {
  while (hours.known <= instant && hours.known < horizon_ms + day_ms) hours.extend();
}
