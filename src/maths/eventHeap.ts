/** Whole numbers kept by time, the earliest first. */
export interface EventHeap {
  readonly size: number;
  /** Time of the earliest; only when there is one. */
  readonly time: number;
  push(time: number, event: number): void;
  /** Takes the earliest event out. */
  pop(): number;
}

/** A binary heap on typed arrays that grow by doubling. */
export function eventHeap(capacity = 1024): EventHeap {
  let times = new Float64Array(capacity);
  let events = new Int32Array(capacity);
  let size = 0;
  return {
    get size() {
      return size;
    },
    get time() {
      return times[0]!;
    },
    push(time, event) {
      if (size === times.length) {
        const [oldTimes, oldEvents] = [times, events];
        times = new Float64Array(2 * size);
        events = new Int32Array(2 * size);
        times.set(oldTimes);
        events.set(oldEvents);
      }
      let at = size++;
      while (at > 0) {
        const up = (at - 1) >> 1;
        if (times[up]! <= time) break;
        times[at] = times[up]!;
        events[at] = events[up]!;
        at = up;
      }
      times[at] = time;
      events[at] = event;
    },
    pop() {
      const first = events[0]!;
      const [time, event] = [times[--size]!, events[size]!];
      let at = 0;
      for (;;) {
        let down = 2 * at + 1;
        if (down >= size) break;
        if (down + 1 < size && times[down + 1]! < times[down]!) down++;
        if (times[down]! >= time) break;
        times[at] = times[down]!;
        events[at] = events[down]!;
        at = down;
      }
      times[at] = time;
      events[at] = event;
      return first;
    },
  };
}
