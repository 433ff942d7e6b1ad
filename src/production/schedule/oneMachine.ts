/**
 * Least makespan of one place whose operations may be broken off and taken up again, each with a head before which it
 * can't start and a tail that must follow it.
 *
 * No schedule of the shop is shorter. At every moment the operation in hand is the one with the longest tail.
 *
 * @param members  operations of the place
 * @source J. R. Jackson 1955; J. Carlier, The one-machine sequencing problem, European J. Operational Research 11 (1982)
 *         42-47 (remembered)
 */
export function preemptiveBound(
  members: Int32Array,
  heads: Float64Array,
  lasts: Float64Array,
  tails: Float64Array,
): number {
  const waiting = [...members].sort((a, b) => heads[a]! - heads[b]! || a - b);
  const left = new Map(waiting.map((i) => [i, lasts[i]!]));
  const heap = tailHeap(tails);
  let now = 0;
  let bound = 0;
  for (let k = 0; k < waiting.length || heap.size() > 0; ) {
    if (heap.size() === 0) now = Math.max(now, heads[waiting[k]!]!);
    while (k < waiting.length && heads[waiting[k]!]! <= now) heap.push(waiting[k++]!);
    const inHand = heap.top();
    const until = k < waiting.length ? heads[waiting[k]!]! : Number.POSITIVE_INFINITY;
    const end = now + left.get(inHand)!;
    if (end <= until) {
      heap.pop();
      now = end;
      bound = Math.max(bound, end + tails[inHand]!);
    } else {
      left.set(inHand, end - until);
      now = until;
    }
  }
  return bound;
}

function tailHeap(tails: Float64Array) {
  const heap: number[] = [];
  const above = (a: number, b: number): boolean => tails[a]! > tails[b]! || (tails[a] === tails[b] && a < b);
  const swap = (i: number, j: number): void => {
    const held = heap[i]!;
    heap[i] = heap[j]!;
    heap[j] = held;
  };
  return {
    size: () => heap.length,
    top: () => heap[0]!,
    push(item: number) {
      heap.push(item);
      for (let i = heap.length - 1; i > 0; ) {
        const parent = (i - 1) >> 1;
        if (!above(heap[i]!, heap[parent]!)) break;
        swap(i, parent);
        i = parent;
      }
    },
    pop() {
      const last = heap.pop()!;
      if (heap.length === 0) return;
      heap[0] = last;
      for (let i = 0; ; ) {
        let child = 2 * i + 1;
        if (child >= heap.length) break;
        if (child + 1 < heap.length && above(heap[child + 1]!, heap[child]!)) child++;
        if (!above(heap[child]!, heap[i]!)) break;
        swap(i, child);
        i = child;
      }
    },
  };
}
