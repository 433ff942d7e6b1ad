import type { BodyOf } from "../claims/evidence.ts";
import { randomStream } from "../maths/random.ts";
import { on } from "./days.ts";
import { type DemoEntry, entry } from "./entry.ts";
import { blindSeries, lettersOfTesters } from "./listeners.ts";
import { ebbWiring } from "./models/ebb.ts";
import { neapWiring } from "./models/neap.ts";
import type { Wiring } from "./physics/workingPoint.ts";
import { roles } from "./shop.ts";

interface Part {
  readonly id: string;
  readonly kind: string;
}

/** One page of the notebook: what it draws otherwise than the model as it is built now. */
interface Page {
  readonly version: string;
  readonly at: string;
  readonly from?: string;
  readonly why: string;
  /** Resistors by the mark they share left and right. */
  readonly ohm: Readonly<Record<string, number>>;
}

const headphoneLoads = [
  { name: "headphone of 300 ohm", ohm: 300, level_Vrms: 1 },
  { name: "headphone of 62 ohm", ohm: 62, level_Vrms: 0.5 },
];
const lineLoads = [
  { name: "power amplifier of 47 kohm", ohm: 47_000, level_Vrms: 1 },
  { name: "power amplifier of 10 kohm", ohm: 10_000, level_Vrms: 1 },
];

const ebbPages: readonly Page[] = [
  {
    version: "A",
    at: on("2026-12-03", "07:45"),
    why: "First pages, typed in from paper: a small current in V1, so that it lasts",
    ohm: { R3: 1500, R4: 68_000, R7: 2200 },
  },
  {
    version: "B",
    at: on("2026-12-03", "07:46"),
    from: "A",
    why: "More current in V2: the 62 ohm headphone ran out of it",
    ohm: { R3: 1500, R4: 68_000 },
  },
  {
    version: "C",
    at: on("2026-12-03", "07:47"),
    from: "B",
    why: "Half as much current again in V1: more gain, less hiss; built since as revision C",
    ohm: {},
  },
  {
    version: "D",
    at: on("2027-02-22", "16:20"),
    from: "C",
    why: "Would a smaller plate load and more current in V1 bring the hiss down further?",
    ohm: { R3: 680, R4: 39_000 },
  },
  {
    version: "E",
    at: on("2027-02-25", "10:30"),
    from: "C",
    why: "V2 a little cooler: the case stood at 52 °C after a day",
    ohm: { R7: 2000 },
  },
];

const neapPages: readonly Page[] = [
  {
    version: "A",
    at: on("2026-12-03", "07:48"),
    why: "As built",
    ohm: {},
  },
  {
    version: "B",
    at: on("2027-02-24", "15:05"),
    from: "A",
    why: "A cable of 20 m asks for a follower with more current",
    ohm: { R7: 10_000 },
  },
  {
    version: "C",
    at: on("2027-02-26", "09:40"),
    from: "B",
    why: "Less gain, for sources that are loud already",
    ohm: { R3: 1200, R7: 10_000 },
  },
  {
    version: "D",
    at: on("2027-02-26", "14:10"),
    from: "B",
    why: "Twice the plate load in V1: does the gain then depend less on the valve?",
    ohm: { R3: 1500, R4: 68_000, R7: 10_000 },
  },
];

/** What every unit of a model must keep, whatever valves and parts it gets. */
const kept = {
  Ebb: { limits: { balance_dB: 0.3, gain_dB: 0.5 }, reach: 0.12 },
  Neap: { limits: { balance_dB: 0.2, gain_dB: 0.3 }, reach: 0.12 },
} as const;

const listeners = Array.from({ length: 12 }, (_, i) => `listener ${i + 1}`);

/** One afternoon of listening: who is asked what of two versions of Ebb, and how often each is right or takes the second. */
interface Afternoon {
  readonly at: string;
  readonly versions: readonly [string, string];
  readonly asked: "difference" | "preference";
  readonly trials: number;
  /** Share right, or share that prefers the second, by listener. */
  readonly share: (listener: number) => number;
}

const afternoons: readonly Afternoon[] = [
  {
    at: on("2027-02-27", "14:00"),
    versions: ["A", "C"],
    asked: "difference",
    trials: 16,
    // The third and the eighth hear the hiss; the others hear now and then something, or nothing.
    share: (listener) => (listener === 3 || listener === 8 ? 0.92 : listener % 3 === 0 ? 0.6 : 0.5),
  },
  {
    at: on("2027-02-27", "16:00"),
    versions: ["C", "D"],
    asked: "difference",
    trials: 10,
    share: () => 0.5,
  },
  ...(
    [
      ["A", "C", 0.66],
      ["C", "E", 0.52],
      ["A", "E", 0.64],
    ] as const
  ).map(
    ([first, second, share], i): Afternoon => ({
      at: on("2027-02-28", `1${4 + i}:00`),
      versions: [first, second],
      asked: "preference",
      trials: 6,
      share: () => share,
    }),
  ),
];

/** Blind trials of versions of Ebb by twelve listeners, on the open headphone. */
function listening(): readonly DemoEntry[] {
  const chance = randomStream("Quarrin Ness, listeners");
  return afternoons.flatMap(({ at, versions, asked, trials, share }) =>
    listeners.map((listener, i) => {
      const lot = chance.fork(`${versions.join(" ")} ${asked} ${listener}`);
      const counted = Array.from({ length: trials }, () => lot.uniform() < share(i + 1)).filter(Boolean).length;
      return entry(at, roles.owner, {
        kind: "listening",
        model: "Ebb",
        versions: [...versions],
        listener,
        through: "Fulmar open",
        asked:
          asked === "difference"
            ? { kind: "difference", trials, right: counted }
            : { kind: "preference", trials, second: counted },
      });
    }),
  );
}

/** Versions of two models as the workshop tried them, and what was heard of them blind. */
export function notebookBook(): readonly DemoEntry[] {
  return [
    ...ebbPages.map((page) => leaf("Ebb", ebbWiring, headphoneLoads, page)),
    ...neapPages.map((page) => leaf("Neap", neapWiring, lineLoads, page)),
    ...listening(),
    ...lettersOfTesters(),
    ...blindSeries(),
  ];
}

function leaf(model: keyof typeof kept, wiring: Wiring, loads: BodyOf<"version">["loads"], page: Page): DemoEntry {
  const { version, at, from, why, ohm } = page;
  return entry(at, roles.owner, {
    kind: "version",
    model,
    version,
    netlist: {
      ...wiring.netlist,
      parts: (wiring.netlist.parts as readonly Part[]).map((part) => {
        const other = part.kind === "resistor" ? ohm[part.id.replace(/[LR]$/, "")] : undefined;
        return other === undefined ? part : { ...part, ohm: other };
      }),
      testPoints: (wiring.netlist.testPoints as readonly { readonly name: string }[]).map((point) =>
        /plate|cathode/.test(point.name) ? { ...point, tolerance: kept[model].reach } : point,
      ),
    },
    channels: wiring.channels.map((channel) => ({
      channel,
      input: wiring.input[channel]!,
      output: wiring.output[channel]!,
    })),
    loads: [...loads],
    limits: kept[model].limits,
    ...(from !== undefined && { from }),
    why,
  });
}
