/** Something that takes room, and the hours it would take in each place open to it. */
export interface Packed {
  readonly room: number;
  readonly hours: ReadonlyMap<string, number>;
}

export interface PackPlace {
  readonly name: string;
  readonly capacity: number;
  readonly freeFrom_h: number;
}

export interface Packing {
  readonly batches: readonly {
    readonly place: string;
    readonly start_h: number;
    readonly end_h: number;
    readonly members: readonly number[];
  }[];
  readonly makespan_h: number;
  readonly bound_h: number;
}

/**
 * Batches whose length is that of their slowest member, so that the last ends early.
 *
 *     slowest first, each batch filled with the next slowest that fit; the batch goes where it ends first
 *
 * @returns for one place and members of one size the least makespan there is; `bound_h` holds for any plan
 * @source  the full-batch rule, P. Brucker, Scheduling Algorithms, chapter on batching (from memory)
 */
export function packBatches(things: readonly Packed[], places: readonly PackPlace[]): Packing {
  const free = new Map(places.map(({ name, freeFrom_h }) => [name, freeFrom_h]));
  const quickest = (thing: Packed) => Math.min(...thing.hours.values());
  const left = things.map((_, i) => i).sort((a, b) => quickest(things[b]!) - quickest(things[a]!));
  const batches: Packing["batches"][number][] = [];
  while (left.length > 0) {
    const first = things[left[0]!]!;
    const fill = (place: PackPlace) => {
      const members: number[] = [];
      let room = 0;
      for (const i of left) {
        const thing = things[i]!;
        if (!thing.hours.has(place.name)) continue;
        const isFirst = members.length === 0;
        if (!isFirst && room + thing.room > place.capacity + 1e-9) continue;
        members.push(i);
        room += thing.room;
      }
      const start_h = free.get(place.name)!;
      const end_h = start_h + Math.max(...members.map((i) => things[i]!.hours.get(place.name)!));
      return { place: place.name, start_h, end_h, members };
    };
    const best = places
      .filter(({ name }) => first.hours.has(name))
      .map(fill)
      .reduce((a, b) => (b.end_h < a.end_h - 1e-9 ? b : a));
    batches.push(best);
    free.set(best.place, best.end_h);
    for (const i of best.members) left.splice(left.indexOf(i), 1);
  }
  const end = Math.max(0, ...batches.map(({ end_h }) => end_h));
  return { batches, makespan_h: end, bound_h: boundOf(things, places) };
}

/** The slowest alone; and all room·hours shared out evenly, each at its quickest. */
function boundOf(things: readonly Packed[], places: readonly PackPlace[]): number {
  const earliest = (thing: Packed) =>
    Math.min(
      ...places.flatMap(({ name, freeFrom_h }) => (thing.hours.has(name) ? [freeFrom_h + thing.hours.get(name)!] : [])),
    );
  const capacity = places.reduce((sum, place) => sum + place.capacity, 0);
  const work = things.reduce((sum, thing) => sum + thing.room * Math.min(...thing.hours.values()), 0);
  return Math.max(0, ...things.map(earliest), things.length > 0 ? work / capacity : 0);
}
