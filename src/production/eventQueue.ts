/** What happens next: a binary heap of instants, each with whom it concerns. */
export interface EventQueue {
  /** Earliest instant, or infinity when nothing is to come. */
  readonly next: () => number;
  readonly push: (time: number, whom: number) => void;
  /** Takes the earliest event off and says whom it concerns. */
  readonly pop: () => number;
  readonly clear: () => void;
}

/** @param most  events that can be pending at once */
export function eventQueue(most: number): EventQueue {
  const times = new Float64Array(most);
  const whoms = new Int32Array(most);
  let size = 0;

  return {
    next: () => (size === 0 ? Number.POSITIVE_INFINITY : times[0]!),
    clear: () => {
      size = 0;
    },
    push(time, whom) {
      let hole = size++;
      while (hole > 0) {
        const parent = (hole - 1) >> 1;
        if (times[parent]! <= time) break;
        times[hole] = times[parent]!;
        whoms[hole] = whoms[parent]!;
        hole = parent;
      }
      times[hole] = time;
      whoms[hole] = whom;
    },
    pop() {
      const first = whoms[0]!;
      const time = times[--size]!;
      const whom = whoms[size]!;
      let hole = 0;
      for (;;) {
        let child = 2 * hole + 1;
        if (child >= size) break;
        if (child + 1 < size && times[child + 1]! < times[child]!) child++;
        if (times[child]! >= time) break;
        times[hole] = times[child]!;
        whoms[hole] = whoms[child]!;
        hole = child;
      }
      times[hole] = time;
      whoms[hole] = whom;
      return first;
    },
  };
}

/** Units waiting for the same person and place, the most urgent first; a unit's number is its urgency. */
export interface WaitingLine {
  length: number;
  readonly units: Int32Array;
}

export function waitingLine(most: number): WaitingLine {
  return { length: 0, units: new Int32Array(most) };
}

export function joinLine(line: WaitingLine, unit: number): void {
  const { units } = line;
  let hole = line.length++;
  while (hole > 0) {
    const parent = (hole - 1) >> 1;
    if (units[parent]! <= unit) break;
    units[hole] = units[parent]!;
    hole = parent;
  }
  units[hole] = unit;
}

export function takeMostUrgent(line: WaitingLine): number {
  const { units } = line;
  const first = units[0]!;
  const last = units[--line.length]!;
  let hole = 0;
  for (;;) {
    let child = 2 * hole + 1;
    if (child >= line.length) break;
    if (child + 1 < line.length && units[child + 1]! < units[child]!) child++;
    if (units[child]! >= last) break;
    units[hole] = units[child]!;
    hole = child;
  }
  units[hole] = last;
  return first;
}
