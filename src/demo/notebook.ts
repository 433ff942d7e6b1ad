import type { BodyOf } from "../claims/evidence.ts";
import { on } from "./days.ts";
import { type DemoEntry, entry } from "./entry.ts";
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
];

/** Versions of two models as the workshop tried them. */
export function notebookBook(): readonly DemoEntry[] {
  return [
    ...ebbPages.map((page) => leaf("Ebb", ebbWiring, headphoneLoads, page)),
    ...neapPages.map((page) => leaf("Neap", neapWiring, lineLoads, page)),
  ];
}

function leaf(model: string, wiring: Wiring, loads: BodyOf<"version">["loads"], page: Page): DemoEntry {
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
    },
    channels: wiring.channels.map((channel) => ({
      channel,
      input: wiring.input[channel]!,
      output: wiring.output[channel]!,
    })),
    loads: [...loads],
    limits: { balance_dB: 0.5 },
    ...(from !== undefined && { from }),
    why,
  });
}
