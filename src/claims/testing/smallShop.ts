import type { z } from "zod";
import type { BodyOf, Evidence, EvidenceBody } from "../evidence.ts";
import { type claimSpec, body as evidenceBody } from "../evidence.ts";

/** An amplifier of a few parts, invented for tests, whose claims are those that the design's examples speak of. */
type SpecInput = z.input<typeof claimSpec>;

const tap = { supply: "tap" };
const check = (how: string, more: Partial<SpecInput["check"]> = {}): SpecInput["check"] => ({
  how,
  skill: "audio",
  hands_min: 10,
  ...more,
});

function claim(
  name: string,
  sheet: SpecInput["sheet"],
  requires: SpecInput["requires"],
  restsOn: SpecInput["restsOn"],
  more: Partial<SpecInput> = {},
): SpecInput {
  return { claim: name, title: name, sheet, requires, restsOn, check: check(`make the ${name} check`), ...more };
}

const part = (id: string, stage: string, channel?: string) => ({
  id,
  kind: "resistor",
  between: ["a", "b"],
  ohm: 1000,
  stage,
  ...(channel === undefined ? {} : { channel }),
});

export const claims: readonly SpecInput[] = [
  claim(
    "valves",
    "valves",
    ["a", "b"].map((section) => ({
      quantity: "drift_pct",
      of: "valve" as const,
      position: "V2",
      section,
      low: -5,
      high: 5,
    })),
    [{ position: "V2" }],
  ),
  claim(
    "test-points-input",
    "voltages",
    [{ quantity: "level_V", point: "a1", low: 90, high: 110 }],
    [{ stage: "input" }],
  ),
  claim(
    "test-points-output",
    "voltages",
    [{ quantity: "level_V", point: "k2", low: 70, high: 80 }],
    [{ stage: "output" }],
  ),
  claim("dc-at-jack", "sound", [{ quantity: "jack_mV", channel: "left", low: -15, high: 15 }], [{ position: "V2" }]),
  claim(
    "balance",
    "sound",
    [{ quantity: "balance_dB", low: -0.5, high: 0.5 }],
    [{ position: "V1" }, { position: "V2" }],
  ),
  claim(
    "hum",
    "hum",
    ["left", "right"].map((channel) => ({ quantity: "hum_uVrms", channel, high: 50 })),
    [{ position: "V1" }, { position: "V2" }, { supply: "ht" }],
  ),
  claim("heaters", "supply", [{ quantity: "heater_Vrms", low: 6, high: 6.6 }], [tap]),
  claim("ht", "supply", [{ quantity: "ht_V", low: 190, high: 210 }], [tap, { supply: "ht" }]),
  claim("flux", "supply", [{ quantity: "flux_T", high: 1.4 }], [tap]),
  claim("fuse", "supply", [{ quantity: "fuseOverCurrent", low: 1.3, high: 2 }], [tap]),
  claim("label", "supply", [{ quantity: "labelDifference_V", low: 0, high: 0, counted: true }], [tap]),
  claim("earth-bond", "safety", [{ quantity: "bond_ohm", high: 0.1 }], [tap, { case: "closure" }], {
    safety: true,
    check: check("10 A from the earth pin", { danger: "mains", hands_min: 5 }),
  }),
  claim("insulation", "safety", [{ quantity: "resistance_Mohm", low: 4 }], [tap], {
    safety: true,
    check: check("500 V for a minute", { danger: "high-voltage", hands_min: 6, after: ["earth-bond"] }),
  }),
  claim("touch-current", "safety", [{ quantity: "touch_mA", high: 0.5 }], [tap], {
    safety: true,
    check: check("both ways round", { danger: "mains", hands_min: 8, after: ["earth-bond", "insulation"] }),
  }),
  claim("case-soak", "timber", [{ quantity: "cracks", low: 0, high: 0, counted: true }], [{ case: "closure" }], {
    check: check("a night in the rack", { danger: "hot", wait_h: 12, after: ["earth-bond"] }),
  }),
  claim("case-gap", "timber", [{ quantity: "gap_mm", point: "lid", low: 1 }], [{ case: "finish" }]),
];

export const smallModel = parsed<"model">({
  kind: "model",
  model: "Skerry",
  revision: "1",
  title: "A small amplifier",
  netlist: {
    ground: "0",
    parts: [
      part("R1", "input", "left"),
      part("R7", "output", "right"),
      part("V1a", "input", "left"),
      part("V1b", "input", "right"),
      part("V2a", "output", "left"),
      part("V2b", "output", "right"),
      { ...part("C9", "reservoir"), supply: "ht" },
    ],
  },
  positions: [
    { position: "V1", type: "6SN7GT", sections: { a: "V1a", b: "V1b" } },
    { position: "V2", type: "6AS7G", sections: { a: "V2a", b: "V2b" } },
  ],
  channels: ["left", "right"],
  input: { left: "inL", right: "inR" },
  output: { left: "outL", right: "outR" },
  outputImpedance_ohm: 30,
  balanceLimit_dB: 0.5,
  claims: [...claims],
  build: [{ step: "wiring", hours: { fast: 4, usual: 6, slow: 9 } }],
});

/** Gives a body its defaults, as the store does before it is written down. */
export function parsed<K extends EvidenceBody["kind"]>(body: z.input<typeof evidenceBody> & { kind: K }): BodyOf<K> {
  return evidenceBody.parse(body) as BodyOf<K>;
}

/** Day 1 is 2026-03-01; hours may run past 24. */
export function at(hour: number, day = 1): string {
  return new Date(Date.UTC(2026, 2, day) + hour * 3_600_000).toISOString();
}

/** A chain written by hand: entries get their place, and an id unless one is given. */
export class Book {
  readonly entries: Evidence[] = [];

  write(
    hour: number,
    body: z.input<typeof evidenceBody>,
    { id, by = "bench" }: { id?: string; by?: string } = {},
  ): string {
    const seq = this.entries.length + 1;
    const entry: Evidence = {
      id: id ?? `e${seq}`,
      seq,
      at: at(hour),
      recordedAt: at(1000 + seq),
      by,
      body: evidenceBody.parse(body),
    };
    this.entries.push(entry);
    return entry.id;
  }

  /** The shop's definitions, an order and its units, the meter tried and found good. */
  static opened(units: readonly string[] = ["0101"]): Book {
    const book = new Book();
    book.write(0, smallModel);
    for (const instrument of ["meter", "recorder"]) {
      book.write(0, {
        kind: "instrument",
        instrument,
        title: instrument,
        trial: { reference: "reference", quantity: "level_V", true: 10, limit: 0.1 },
      });
    }
    book.write(0, {
      kind: "batch",
      batch: "B1",
      type: "6SN7GT",
      seller: "a seller",
      valves: names("N", units.length + 2),
      sections: ["a", "b"],
    });
    book.write(0, {
      kind: "batch",
      batch: "B2",
      type: "6AS7G",
      seller: "a seller",
      valves: names("T", units.length + 2),
      sections: ["a", "b"],
    });
    book.write(0, {
      kind: "order",
      order: "O1",
      customer: "c1",
      model: "Skerry",
      revision: "1",
      units: [...units],
      destination: { place: "inland", nominal_V: 120, frequency_Hz: 60 },
    });
    for (const [i, unit] of units.entries()) {
      const fitted = { V1: `N${i + 1}`, V2: `T${i + 1}` };
      book.write(0, { kind: "unit", unit, order: "O1", model: "Skerry", revision: "1", fitted, tap: "120" });
    }
    for (const instrument of ["meter", "recorder"]) book.trial(0.5, 10, instrument);
    return book;
  }

  trial(hour: number, value: number, instrument = "meter", doubt = 0.01): string {
    return this.write(hour, { kind: "trial", instrument, value, doubt });
  }

  /** A reading for a claim: well inside its limits, unless a value is given. */
  read(
    hour: number,
    claimName: string,
    { unit = "0101", value, doubt, index = 0, instrument = "meter", supersedes, valve }: ReadingOptions = {},
  ): string {
    const spec = smallModel.claims.find((c) => c.claim === claimName)!;
    const need = spec.requires[index]!;
    const middle = insideOf(need);
    const where = need.of === "valve" ? { valve: valve ?? "T1" } : { unit };
    return this.write(hour, {
      kind: "reading",
      subject: {
        ...where,
        ...(need.section && { section: need.section }),
        ...(need.channel && { channel: need.channel }),
        ...(need.point && { point: need.point }),
      },
      quantity: need.quantity,
      value: value ?? middle,
      doubt: doubt ?? (need.counted ? 0 : Math.max(0.001, Math.abs(middle) * 0.01)),
      instrument,
      ...(supersedes !== undefined && { supersedes }),
    });
  }

  /** Every claim proven by readings of that hour. */
  proveAll(hour: number, unit = "0101", valve = "T1"): void {
    for (const spec of smallModel.claims) {
      for (const index of spec.requires.keys()) this.read(hour, spec.claim, { unit, index, valve });
    }
  }
}

interface ReadingOptions {
  readonly unit?: string;
  readonly value?: number;
  readonly doubt?: number;
  readonly index?: number;
  readonly instrument?: string;
  readonly supersedes?: string;
  readonly valve?: string;
}

function insideOf({ low, high }: { low?: number | undefined; high?: number | undefined }): number {
  if (low !== undefined && high !== undefined) return (low + high) / 2;
  return low === undefined ? high! / 2 : low * 2;
}

function names(prefix: string, count: number): string[] {
  return Array.from({ length: count }, (_, i) => `${prefix}${i + 1}`);
}

/** An order for a unit that is not opened yet. */
export const furtherOrder = {
  kind: "order" as const,
  order: "O2",
  customer: "c2",
  model: "Skerry",
  revision: "1",
  units: ["0201"],
  destination: { place: "p", nominal_V: 230, frequency_Hz: 50 },
};
