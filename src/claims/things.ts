import type { BodyOf, Model, Thing } from "./evidence.ts";

type Touched = Pick<BodyOf<"rework">, "touched" | "fitted">;

/** Aspects that tie a thing to the net list; the others (case, supply, instrument) stand for themselves. */
export const wiredAspects = ["part", "position", "stage", "channel"] as const;

const partsOf = new WeakMap<Model, readonly Thing[]>();

/**
 * Every part of the net list as a thing with all that it is: its stage, its channel, the valve position it stands in.
 *
 * A part in two channels appears twice. One that names no channel, such as a reservoir capacitor, serves them all,
 * or those that its position feeds.
 */
export function wiredParts(model: Model): readonly Thing[] {
  const known = partsOf.get(model);
  if (known) return known;
  const positionOf = new Map(
    model.positions.flatMap((p) => Object.values(p.sections).map((part) => [part, p.position] as const)),
  );
  const things = netlistParts(model).flatMap((part) => {
    const position = positionOf.get(part.id);
    const channels = strings(part.channel) ?? (position ? model.feeds?.[position] : undefined) ?? model.channels;
    return channels.map((channel): Thing => {
      const thing: Thing = { part: part.id, channel };
      if (position !== undefined) thing.position = position;
      for (const aspect of ["stage", "supply", "case"] as const) {
        const value = part[aspect];
        if (typeof value === "string") thing[aspect] = value;
      }
      return thing;
    });
  });
  partsOf.set(model, things);
  return things;
}

/** The parts of a net list that carry an id; their other fields are the circuit's business. */
export function netlistParts(model: Pick<Model, "netlist">): readonly ({ id: string } & Record<string, unknown>)[] {
  const parts = model.netlist.parts;
  if (!Array.isArray(parts)) return [];
  return parts.filter((part): part is { id: string } & Record<string, unknown> => typeof part?.id === "string");
}

/**
 * What a touched thing reaches: itself, and each part of the net list that is all it names.
 *
 * @example expand(model, { position: "V2" })
 *   // [{ position: "V2" }, { part: "V2a", position: "V2", stage: "driver", channel: "left" }, …]
 */
export function expand(model: Model, touched: Thing): readonly Thing[] {
  return [touched, ...wiredParts(model).filter((part) => isAll(part, touched))];
}

/** All that a rework reached; an exchanged valve touches its position whether it was written down or not. */
export function reached(model: Model, rework: Touched): readonly Thing[] {
  const exchanged = Object.keys(rework.fitted ?? {}).map((position): Thing => ({ position }));
  return [...rework.touched, ...exchanged].flatMap((thing) => expand(model, thing));
}

/** Whether one of the things reached is one that is rested on. */
export function reachesOneOf(things: readonly Thing[], restsOn: readonly Thing[]): boolean {
  return restsOn.some((rest) => things.some((thing) => isAll(thing, rest)));
}

/** Whether `thing` has every aspect of `named`, with the same value. */
export function isAll(thing: Thing, named: Thing): boolean {
  const aspects = Object.entries(named).filter(([, value]) => value !== undefined);
  return aspects.length > 0 && aspects.every(([aspect, value]) => thing[aspect as keyof Thing] === value);
}

/** `position V2, channel left` */
export function thingInWords(thing: Thing): string {
  return Object.entries(thing)
    .map(([aspect, value]) => `${aspect} ${value}`)
    .join(", ");
}

function strings(value: unknown): readonly string[] | undefined {
  if (typeof value === "string") return [value];
  if (Array.isArray(value) && value.length > 0 && value.every((v) => typeof v === "string")) return value;
  return undefined;
}
