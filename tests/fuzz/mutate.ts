import type { Random } from "../../src/maths/random.ts";

/** Recordings that a name can be turned into; see `recordings.ts`. */
export const oddRecordings = [
  "silence.wav",
  "one-sample.wav",
  "short.wav",
  "clipped.wav",
  "direct-current.wav",
  "noise.wav",
  "impulse.wav",
  "one-channel.wav",
  "low-rate.wav",
  "missing.wav",
] as const;

const oddNumbers: readonly number[] = [
  0,
  -0,
  1,
  -1,
  0.5,
  2,
  3,
  100,
  1e-3,
  1e-9,
  1e-300,
  5e-324,
  1e6,
  1e9,
  1e15,
  1e300,
  -1e300,
  2 ** 31,
  2 ** 32,
  2 ** 53,
  Number.MAX_VALUE,
  Number.NaN,
  Number.POSITIVE_INFINITY,
];
const oddTexts = [
  "",
  " ",
  "__proto__",
  "constructor",
  "toString",
  "\u0000",
  "🜨é",
  "../../x",
  "1e999",
  "=1+1",
  "x".repeat(5000),
];

type Place = readonly (string | number)[];

/** A value like this one, changed in a few places: figures moved, fields dropped, doubled, exchanged or made nonsense of. */
export function mutated(value: unknown, draw: Random): unknown {
  let result = structuredClone(value);
  const changes = 1 + draw.integer(draw.uniform() < 0.7 ? 2 : 6);
  for (let i = 0; i < changes; i += 1) {
    const places = placesIn(result);
    const place = places[draw.integer(places.length)]!;
    result = changedAt(result, place, draw, places);
  }
  return result;
}

function placesIn(value: unknown, at: Place = [], found: Place[] = []): Place[] {
  found.push(at);
  if (found.length > 4000 || typeof value !== "object" || value === null) return found;
  for (const [key, inner] of Object.entries(value)) {
    placesIn(inner, [...at, Array.isArray(value) ? Number(key) : key], found);
  }
  return found;
}

const at = (value: unknown, place: Place): unknown =>
  place.reduce<unknown>((inner, key) => (inner as Record<string | number, unknown>)[key], value);

function changedAt(value: unknown, place: Place, draw: Random, places: readonly Place[]): unknown {
  const old = at(value, place);
  const other = () => structuredClone(at(value, places[draw.integer(places.length)]!));
  if (place.length === 0) return draw.uniform() < 0.9 ? grown(value, draw, other) : nonsense(draw);
  const holder = at(value, place.slice(0, -1)) as Record<string | number, unknown> & unknown[];
  const key = place.at(-1)!;
  const chance = draw.uniform();
  if (chance < 0.06) {
    if (Array.isArray(holder)) holder.splice(Number(key), 1);
    else delete holder[key];
  } else if (chance < 0.1) put(holder, key, other());
  else if (chance < 0.13) put(holder, key, nonsense(draw));
  else if (typeof old === "number") put(holder, key, movedNumber(old, draw));
  else if (typeof old === "string") put(holder, key, movedText(old, draw, other));
  else if (typeof old === "boolean") put(holder, key, !old);
  else put(holder, key, grown(old, draw, other));
  return value;
}

function put(holder: object, key: string | number, value: unknown): void {
  Object.defineProperty(holder, key, { value, enumerable: true, configurable: true, writable: true });
}

function movedNumber(old: number, draw: Random): number {
  const chance = draw.uniform();
  if (chance < 0.35) return old * (0.5 + draw.uniform());
  if (chance < 0.5) return old * 10 ** Math.round(6 * draw.uniform() - 3);
  if (chance < 0.6) return Math.round(old) + draw.integer(5) - 2;
  if (chance < 0.7) return -old;
  return oddNumbers[draw.integer(oddNumbers.length)]!;
}

function movedText(old: string, draw: Random, other: () => unknown): unknown {
  if (old.endsWith(".wav") && draw.uniform() < 0.8) return oddRecordings[draw.integer(oddRecordings.length)]!;
  if (/^\d{4}-\d\d-\d\d/.test(old) && draw.uniform() < 0.7) {
    const moved = new Date(Date.parse(old) + Math.round((draw.uniform() - 0.5) * 10 ** (5 + draw.integer(7))));
    return Number.isNaN(moved.getTime()) ? old : moved.toISOString().slice(0, old.length < 11 ? 10 : 24);
  }
  for (let i = 0; i < 8; i += 1) {
    const text = other();
    if (typeof text === "string" && text !== old && draw.uniform() < 0.7) return text;
  }
  return oddTexts[draw.integer(oddTexts.length)]!;
}

function grown(old: unknown, draw: Random, other: () => unknown): unknown {
  if (Array.isArray(old)) {
    const one = old[draw.integer(Math.max(1, old.length))];
    const chance = draw.uniform();
    if (chance < 0.25) return [...old, structuredClone(one)];
    if (chance < 0.35) return Array.from({ length: 1 + draw.integer(300) }, () => structuredClone(one));
    if (chance < 0.5) return old.slice(0, draw.integer(old.length + 1));
    if (chance < 0.65) return old.toReversed();
    if (chance < 0.75) return [];
    return [...old, other()];
  }
  if (typeof old === "object" && old !== null) {
    const keys = Object.keys(old);
    const result = { ...old } as Record<string, unknown>;
    if (keys.length > 1 && draw.uniform() < 0.4) {
      const [a, b] = [keys[draw.integer(keys.length)]!, keys[draw.integer(keys.length)]!];
      [result[a], result[b]] = [result[b], result[a]];
    } else if (draw.uniform() < 0.5) result[["more", "", "__proto__x", "toString"][draw.integer(4)]!] = other();
    else delete result[keys[draw.integer(keys.length)] ?? ""];
    return result;
  }
  return nonsense(draw);
}

function nonsense(draw: Random): unknown {
  return [null, [], {}, "", "text", 0, -1, true, [[]], { a: null }][draw.integer(10)];
}

/** Bytes like these, with some turned, cut out, doubled, or set to numbers at the edge. */
export function mutatedBytes(bytes: Uint8Array, draw: Random, head = bytes.length): Buffer {
  let result = Buffer.from(bytes);
  const changes = 1 + draw.integer(6);
  for (let i = 0; i < changes && result.length > 0; i += 1) {
    // Most of what can be got wrong stands at the beginning, and at the end of an archive.
    const near = draw.uniform() < 0.7 ? Math.min(head, result.length) : result.length;
    const from = draw.integer(near);
    const chance = draw.uniform();
    if (chance < 0.4) result[from] = draw.integer(256);
    else if (chance < 0.6 && from + 4 <= result.length) {
      result.writeUInt32LE([0, 1, 0xffff_ffff, 0x7fff_ffff, 0x8000_0000, 0xffff][draw.integer(6)]!, from);
    } else if (chance < 0.7) result = result.subarray(0, from);
    else if (chance < 0.85) {
      const length = 1 + draw.integer(Math.min(64, result.length - from));
      result = Buffer.concat([result.subarray(0, from), result.subarray(from + length)]);
    } else {
      const length = 1 + draw.integer(Math.min(256, result.length - from));
      result = Buffer.concat([result.subarray(0, from + length), result.subarray(from)]);
    }
  }
  return result;
}
