import type { Netlist, Part, PartOf } from "../netlist.ts";
import type { Edit } from "./edit.ts";
import type { Fault } from "./fault.ts";
import { ohmsInWords } from "./inWords.ts";

const everywhere = { steady: true, signal: true, dead: true } as const;
const live = { steady: true, signal: true, dead: false } as const;
const signalOnly = { steady: false, signal: true, dead: false } as const;

/** A break as it is met: a cracked track still leaks a little, and no meter reads beyond this. */
export const open_ohm = 1e9;
const short_ohm = 0.2;

/** The single faults that every part of a net list may have by its kind. */
export function partFaults(netlist: Netlist): Fault[] {
  const last = netlist.parts.length;
  return netlist.parts.flatMap((part, index) => faultsOf(part, index, last, netlist.ground));
}

function faultsOf(part: Part, index: number, last: number, ground: string): Fault[] {
  switch (part.kind) {
    case "resistor":
      return resistorFaults(part, index);
    case "capacitor":
      return capacitorFaults(part, index, last);
    case "inductor":
      return inductorFaults(part, index);
    case "transformer":
      return transformerFaults(part, index, last);
    case "voltage":
    case "current":
      return sourceFaults(part, index);
    case "diode":
    case "rectifier":
      return diodeFaults(part, index, last);
    case "triode":
    case "pentode":
      return valveFaults(part, index, last, ground);
    case "jfet":
    case "bipolar":
      return transistorFaults(part, index, last);
    case "switch":
      return [
        fault(part, part.closed ? "open" : "short", 1, everywhere, () => ({
          ...inPlace(index, { ...part, closed: !part.closed }),
          relaid: true,
        })),
      ];
  }
}

/** A fault without degrees. */
function fault(
  part: { readonly id: string },
  name: string,
  prior: number,
  felt: Fault["felt"],
  edit: () => Edit,
  more: Partial<Fault> = {},
): Fault {
  return { part: part.id, fault: name, prior, felt, starts: [0], edit, ...more };
}

/** A fault of any degree within a range of the value it moves. */
function graded(
  part: { readonly id: string },
  name: string,
  prior: number,
  felt: Fault["felt"],
  range: readonly [number, number],
  starts: readonly number[],
  edit: (value: number) => Edit,
  words: (value: number) => string,
): Fault {
  return {
    part: part.id,
    fault: name,
    prior,
    felt,
    range: [Math.log(range[0]), Math.log(range[1])],
    starts: starts.filter((start) => start >= range[0] && start <= range[1]).map(Math.log),
    edit: (severity) => edit(Math.exp(severity)),
    words: (severity) => words(Math.exp(severity)),
  };
}

function inPlace(index: number, part: Part): Edit {
  return { instead: new Map([[index, part]]) };
}

/** A resistance beside the net list's own parts; its place comes after the last of them. */
function beside(last: number, between: readonly [string, string], ohm: number): Edit {
  return {
    added: [{ id: "\u0000beside", kind: "resistor", between: [...between], ohm }],
    severe: { part: last, of: "value" },
  };
}

/** Just outside what passes for good: a fault begins where the tolerance ends. */
function edge(tolerance: number | undefined): number {
  return Math.max(1.2 * (tolerance ?? 0), 0.03);
}

const upward = [1.12, 1.5, 3, 10, 60];
const downward = upward.map((factor) => 1 / factor);

function resistorFaults(part: PartOf<"resistor">, index: number): Fault[] {
  const to = (ohm: number): Edit => ({
    ...inPlace(index, { ...part, ohm }),
    severe: { part: index, of: "value" },
    freed: [index],
  });
  const { ohm } = part;
  const least = edge(part.tolerance);
  const now = (factor: number): string => valueInWords(ohm, ohm * factor);
  const leastOpen_ohm = Math.max(3e6, 300 * ohm);
  const mostShort_ohm = Math.min(10, ohm / 300);
  return [
    graded(
      part,
      "open",
      3,
      everywhere,
      [leastOpen_ohm, 1e6 * leastOpen_ohm],
      [leastOpen_ohm * 30, leastOpen_ohm * 3e4],
      to,
      () => "open",
    ),
    graded(part, "high", 3, everywhere, [1 + least, 300], upward, (factor) => to(ohm * factor), now),
    graded(part, "low", 1.5, everywhere, [1 / 300, 1 / (1 + least)], downward, (factor) => to(ohm * factor), now),
    graded(
      part,
      "short",
      1.5,
      everywhere,
      [mostShort_ohm * 1e-4, mostShort_ohm],
      [mostShort_ohm * 0.2],
      to,
      () => "short",
    ),
  ];
}

/** A value found, and where it lies a decade or so from the one meant, that another may have been fitted. */
function valueInWords(meant: number, found: number): string {
  const slip = [10, 100, 0.1, 0.01].find((factor) => Math.abs(Math.log(found / (meant * factor))) < 0.15);
  const about = `about ${ohmsInWords(found)} in place of ${ohmsInWords(meant)}`;
  return slip === undefined ? about : `${about}; perhaps ${ohmsInWords(meant * slip)} was fitted`;
}

/** From here on a capacitor is most likely an electrolytic. */
const electrolytic_uF = 1;

function capacitorFaults(part: PartOf<"capacitor">, index: number, last: number): Fault[] {
  const wet = part.uF >= electrolytic_uF;
  const leak = (ohm: number): Edit => beside(last, part.between, ohm);
  const to = (factor: number): Edit => ({
    ...inPlace(index, { ...part, uF: part.uF * factor }),
    severe: { part: index, of: "value" },
    freed: [index],
  });
  const least = edge(part.tolerance);
  return [
    graded(part, "short", wet ? 2 : 1, everywhere, [1e-3, 100], [short_ohm, 10], leak, () => "short"),
    graded(
      part,
      "leaky",
      wet ? 4 : 2,
      everywhere,
      [100, 3e8],
      [500, 5e3, 5e4, 5e5, 5e6, 5e7],
      leak,
      (ohm) => `leaks like ${ohmsInWords(ohm)}${wet ? "; an electrolytic fitted backwards reads so too" : ""}`,
    ),
    fault(part, "open", wet ? 4 : 2, signalOnly, () => inPlace(index, { ...part, uF: part.uF * 1e-6 })),
    graded(
      part,
      "low",
      wet ? 2 : 1,
      signalOnly,
      [0.01, 1 / (1 + least)],
      [0.03, 0.1, 0.3, 0.6],
      to,
      (factor) => `about ${Number((part.uF * factor).toPrecision(2))} uF in place of ${part.uF} uF`,
    ),
    graded(
      part,
      "high",
      0.5,
      signalOnly,
      [1 + least, 100],
      [1.5, 4, 10, 40],
      to,
      (factor) => `about ${Number((part.uF * factor).toPrecision(2))} uF in place of ${part.uF} uF`,
    ),
  ];
}

function inductorFaults(part: PartOf<"inductor">, index: number): Fault[] {
  const ohm = part.resistance_ohm ?? 0;
  const to = (factor: number): Edit => ({
    ...inPlace(index, { ...part, H: part.H * factor, resistance_ohm: ohm * factor }),
    severe: { part: index, of: "value" },
    freed: [index],
  });
  return [
    fault(part, "open", 1.5, everywhere, () => ({
      ...inPlace(index, { ...part, resistance_ohm: open_ohm }),
      freed: [index],
    })),
    fault(part, "short", 1, everywhere, () => ({ ...to(1e-3), severe: undefined })),
    graded(
      part,
      "low",
      1,
      everywhere,
      [0.03, 1 / (1 + edge(part.tolerance))],
      [0.1, 0.4, 0.7, 0.9],
      to,
      (factor) => `${Math.round(100 * (1 - factor))} % of its turns shorted`,
    ),
  ];
}

function transformerFaults(part: PartOf<"transformer">, index: number, last: number): Fault[] {
  const winding = (w: number, change: Partial<(typeof part.windings)[number]>): Part => ({
    ...part,
    windings: part.windings.map((own, i) => (i === w ? { ...own, ...change } : own)),
  });
  const each = part.windings.flatMap((own, w): Fault[] => {
    const named = { detail: `winding ${w + 1}`, also: { winding: w + 1, between: own.between } };
    return [
      fault(part, "open", 1, everywhere, () => inPlace(index, winding(w, { resistance_ohm: open_ohm })), named),
      fault(part, "short", 0.7, everywhere, () => beside(last, own.between, short_ohm), named),
      ...(w === 0
        ? []
        : [
            fault(
              part,
              "reversed",
              0.7,
              { steady: false, signal: true, dead: false },
              () => inPlace(index, winding(w, { between: [own.between[1], own.between[0]] })),
              named,
            ),
          ]),
    ];
  });
  const swapped = part.windings.slice(1).map((other, i): Fault => {
    const w = i + 1;
    const first = part.windings[0]!;
    return fault(
      part,
      "swapped",
      0.4,
      everywhere,
      () => ({
        ...inPlace(index, {
          ...part,
          windings: part.windings.map((own, j) => ({
            ...own,
            between: j === 0 ? other.between : j === w ? first.between : own.between,
          })),
        }),
        relaid: true,
      }),
      { detail: `windings 1 and ${w + 1}`, also: { winding: w + 1 } },
    );
  });
  return [...each, ...swapped];
}

function sourceFaults(part: PartOf<"voltage" | "current">, index: number): Fault[] {
  const given = part.kind === "voltage" ? part.dc_V : part.dc_mA;
  // A source that carries only the signal is the bench's own generator.
  if (given === 0) return [];
  const to = (factor: number): Edit => ({
    ...inPlace(
      index,
      part.kind === "voltage" ? { ...part, dc_V: part.dc_V * factor } : { ...part, dc_mA: part.dc_mA * factor },
    ),
    severe: { part: index, of: "value" },
    freed: [index],
  });
  const unit = part.kind === "voltage" ? "V" : "mA";
  const now = (factor: number): string =>
    `about ${Number((given * factor).toPrecision(3))} ${unit} in place of ${given} ${unit}`;
  const least = edge(part.tolerance);
  return [
    fault(part, "dead", 2, live, () => ({ ...to(0), severe: undefined })),
    graded(part, "low", 1.5, live, [0.03, 1 / (1 + least)], [0.93, 0.8, 0.5, 0.2, 0.07], to, now),
    graded(part, "high", 1, live, [1 + least, 3], [1.07, 1.25, 1.7, 2.5], to, now),
  ];
}

function diodeFaults(part: PartOf<"diode" | "rectifier">, index: number, last: number): Fault[] {
  const across = (ohm: number, silent: boolean): Edit => ({
    ...beside(last, part.between, ohm),
    ...(silent ? { silent: [index] } : {}),
  });
  const valve = part.kind === "rectifier";
  return [
    fault(part, valve ? "dead" : "open", 2, everywhere, () => ({ ...across(open_ohm, true), severe: undefined })),
    fault(part, "short", 2, everywhere, () => ({ ...across(short_ohm, true), severe: undefined })),
    graded(
      part,
      "leaky",
      1,
      everywhere,
      [10, 1e7],
      [100, 1e4, 1e6],
      (ohm) => across(ohm, false),
      (ohm) => `leaks like ${ohmsInWords(ohm)}`,
    ),
    fault(part, "reversed", 1.5, everywhere, () => ({
      ...inPlace(index, { ...part, between: [part.between[1], part.between[0]] }),
      relaid: true,
    })),
  ];
}

function valveFaults(part: PartOf<"triode" | "pentode">, index: number, last: number, ground: string): Fault[] {
  const weak = (current: number): Edit => ({
    factors: new Map([[part.id, { current, mu: 1 }]]),
    severe: { part: index, of: "current" },
  });
  const gas = (microamps: number): Edit => ({
    added: [{ id: "\u0000gas", kind: "current", between: [part.cathode, part.grid], dc_mA: microamps / 1e3, ac_mA: 0 }],
    severe: { part: last, of: "value" },
  });
  const faults = [
    fault(part, "dead", 3, live, () => ({ silent: [index], added: insulationOf(part) })),
    {
      ...graded(
        part,
        "weak",
        5,
        live,
        [0.02, 1 / (1 + edge(part.tolerance?.current))],
        [0.85, 0.65, 0.4, 0.2, 0.06],
        weak,
        (factor) => `passes about ${Math.round(100 * factor)} % of its current`,
      ),
    },
    graded(
      part,
      "gassy",
      1,
      live,
      [0.05, 200],
      [0.2, 1, 5, 25, 100],
      gas,
      (microamps) => `about ${Number(microamps.toPrecision(2))} uA into its grid circuit`,
    ),
  ];
  // Where the heater stands is not in the net list: most stand at ground or near it.
  if (part.cathode !== ground) {
    faults.push(
      graded(
        part,
        "leaky",
        1,
        live,
        [300, 3e7],
        [1e3, 1e4, 1e5, 1e6, 1e7],
        (ohm) => beside(last, [part.cathode, ground], ohm),
        (ohm) => `from cathode to heater, like ${ohmsInWords(ohm)} to ground`,
      ),
    );
  }
  return faults;
}

/** What a cold valve still leaks from plate and screen to cathode. */
export function insulationOf(part: PartOf<"triode" | "pentode">): Part[] {
  return [part.plate, ...(part.kind === "pentode" ? [part.screen] : [])].map(
    (node, i): Part => ({
      id: `\u0000insulation ${part.id} ${i}`,
      kind: "resistor",
      between: [node, part.cathode],
      ohm: open_ohm * 10,
    }),
  );
}

function transistorFaults(part: PartOf<"jfet" | "bipolar">, index: number, last: number): Fault[] {
  const [from, to] = part.kind === "jfet" ? [part.drain, part.source] : [part.collector, part.emitter];
  const ways = part.kind === "jfet" ? [] : [[part.base, part.emitter] as const];
  const insulation = (): Part[] =>
    ([[from, to], ...ways] as const).map(([a, b], i) => ({
      id: `\u0000insulation${i}`,
      kind: "resistor",
      between: [a, b],
      ohm: open_ohm,
    }));
  return [
    fault(part, "open", 2, everywhere, () => ({ silent: [index], added: insulation() })),
    fault(part, "short", 2, everywhere, () => ({ ...beside(last, [from, to], short_ohm), severe: undefined })),
  ];
}
