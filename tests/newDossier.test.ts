import { mkdirSync } from "node:fs";
import { join } from "node:path";
import { Readable } from "node:stream";
import { beforeAll, describe, expect, test } from "vitest";
import { sentSweep } from "../src/bench/testing/sentSweep.ts";
import type { Layout } from "../src/dossier/block.ts";
import { at, by, opening, trayRead } from "../src/workshop/testing/ownShop.ts";
import { openWorkshop, type Workshop } from "../src/workshop/workshop.ts";
import { keptFolder } from "./helpers.ts";
import { madeDemo, madeWithin_ms } from "./madeDemo.ts";
import { channel, type Line, wavFile } from "./synthesis.ts";

/** What a record holds: its parts, what stands under each, and its pictures; a claim's own title stands for the claim. */
function partsOf({ front, record }: Layout, titles: ReadonlySet<string>): ReadonlySet<string> {
  const all = [{ title: "front", blocks: front }, ...record];
  return new Set(
    all.flatMap(({ title, blocks }) =>
      blocks.flatMap((block) => {
        if (block.kind === "heading" && titles.has(block.text)) return [`${title}: a claim`];
        if (block.kind === "heading") return [`${title}: ${block.text.replace(/^V\d+: .*/, "a valve")}`];
        if (block.kind === "drawing")
          return [`${title}: picture ${block.drawing.id.replaceAll(/-?(left|right|\d+)/g, "")}`];
        return [`${title}: ${block.kind}`];
      }),
    ),
  );
}

const check = (hands_min: number, more: object = {}) => ({ how: "read it", skill: "bench", hands_min, ...more });
const claims = [
  {
    claim: "steady",
    title: "The valve is steady through its heat run",
    sheet: "valves",
    requires: ["a", "b"].map((section) => ({
      quantity: "drift_pct",
      of: "valve",
      position: "V1",
      section,
      low: -5,
      high: 5,
    })),
    restsOn: [{ position: "V1" }],
    check: check(30),
  },
  {
    claim: "left-plate",
    title: "Left plate inside its window",
    sheet: "voltages",
    requires: [{ quantity: "level_V", point: "left plate", low: 120, high: 200 }],
    restsOn: [{ stage: "gain" }],
    check: check(5, { danger: "high-voltage", after: ["earth"] }),
  },
  {
    claim: "gain",
    title: "Gain at 1 kHz",
    sheet: "sound",
    requires: [{ quantity: "gain_dB", low: 20, high: 24 }],
    restsOn: [{ stage: "gain" }],
    check: check(5),
  },
  {
    claim: "hum",
    title: "Hum inaudible",
    sheet: "hum",
    requires: ["left", "right"].map((side) => ({ quantity: "hum_margin_dB", channel: side, high: 0 })),
    restsOn: [{ position: "V1" }],
    check: check(20),
  },
  {
    claim: "whole",
    title: "The case came through its soak",
    sheet: "timber",
    requires: [{ quantity: "cracks", high: 0, counted: true }],
    restsOn: [{ case: "case" }],
    check: check(5, { wait_h: 24 }),
  },
  {
    claim: "fuse",
    title: "Fuse and mains at the destination",
    sheet: "supply",
    requires: [{ quantity: "fuse_A", low: 0.4, high: 1 }],
    restsOn: [{ supply: "tap" }],
    check: check(5),
  },
  {
    claim: "earth",
    title: "Earth bond",
    sheet: "safety",
    safety: true,
    requires: [{ quantity: "bond_ohm", high: 0.1 }],
    restsOn: [{ supply: "tap" }, { case: "lid" }],
    check: check(5, { danger: "mains" }),
  },
];

const rate_Hz = 44_100;
const house: readonly Line[] = [
  { frequency_Hz: 60.02, level_Vrms: 2e-6 },
  { frequency_Hz: 5 * 60.02, level_Vrms: 9e-5 },
];
const own: readonly Line[] = [{ frequency_Hz: 132.04, level_Vrms: 4e-7 }];

/** A newcomer's unit 77, from the model to the release, by the same door as every page and command. */
async function build(workshop: Workshop): Promise<void> {
  const enter = (minute: number, bodies: readonly object[]) =>
    workshop.enter(bodies.map((body) => ({ at: at(minute), by, ...body })));
  const keep = async (channels: readonly Float64Array[], fullScale_Vpk: number) =>
    (await workshop.keepRecording(Readable.from([wavFile(channels, rate_Hz, fullScale_Vpk)]))).file_sha256;

  await workshop.enter(
    opening.map((entry) => ("netlist" in entry && entry.kind === "model" ? { ...entry, claims } : entry)),
  );
  await enter(20, [
    {
      kind: "shop",
      timeZone: "America/Denver",
      calendars: { all: { week: { mon: ["09:00-17:00"] } } },
      people: [{ id: by, skills: ["bench"], calendar: "all" }],
      places: [],
      building_Hz: 60,
      cleanSupply_Hz: [66],
      currency: "USD",
    },
    { kind: "headphone", headphone: "closed", impedance_ohm: 250, sensitivity_dB_per_V: 98 },
    ...["recorder", "balance"].map((instrument) => ({
      kind: "instrument",
      instrument,
      title: instrument,
      trial: { reference: "known thing", quantity: "value", true: 1, limit: 0.05 },
    })),
    ...["recorder", "balance"].map((instrument) => ({ kind: "trial", instrument, value: 1.001, doubt: 0.002 })),
    { kind: "trial", instrument: "tester", value: 9, doubt: 0.1 },
    { kind: "timber-place", place: "shelf", what: "room", faces: "both" },
    {
      kind: "air",
      place: "shelf",
      instrument: "balance",
      readings: [{ at: at(19), temperature_C: 20, humidity_pct: 50 }],
    },
    ...["P-1", "P-2"].map((piece) => ({
      kind: "blank",
      piece,
      species: "white ash",
      ...{ length_mm: 300, width_mm: 120, thickness_mm: 12, ringAngle_deg: 80 },
      seller: "sawmill",
      place: "shelf",
    })),
  ]);
  await workshop.enter([...trayRead(["cold", "hot"])]);
  const later = 60 * 80;
  await enter(later, [
    { kind: "rework", unit: "77", touched: [{ position: "V1" }], fitted: { V1: "N-1" }, why: "the tray was read" },
    { kind: "step", unit: "77", step: "wire" },
    { kind: "weighing", piece: "P-1", mass_g: 290, instrument: "balance" },
    {
      kind: "climate",
      place: "next town",
      basis: "the customer's hygrometer",
      months: Array.from({ length: 12 }, (_, i) => ({
        month: i + 1,
        temperature_C: 20,
        humidity_pct: 40 + 8 * Math.cos((i / 6) * Math.PI),
      })),
    },
    {
      kind: "case",
      case: "K-1",
      panels: ["P-1", "P-2"].map((piece, i) => ({ panel: ["top", "front"][i], piece, fixed: "centre", gap_mm: 2 })),
    },
    { kind: "case-given", case: "K-1", unit: "77", wall_C: 38 },
    { kind: "coat", pieces: ["P-1", "P-2"], unit: "77", finish: "oil", hardens_h: 72 },
  ]);
  const recording = async (name: string, channels: readonly Float64Array[], minute: number, more: object) => {
    const file_sha256 = await keep(channels, 2);
    await enter(later + minute, [
      {
        kind: "recording",
        unit: "77",
        recording: name,
        file_sha256,
        fullScale_Vpk: 2,
        channels: ["left", "right"],
        building_Hz: 60,
        valves: { V1: "N-1" },
        input: "shorted",
        instrument: "recorder",
        supply: { source: "building", frequency_Hz: 60 },
        ...more,
      },
    ]);
  };
  const pair = (lines: readonly Line[], seed: number) => [
    channel(lines, 2e-8, 8, rate_Hz, seed),
    channel(lines, 2e-8, 8, rate_Hz, seed + 1),
  ];
  await recording("on the house", pair([...house, { frequency_Hz: 120.04, level_Vrms: 4e-7 }], 1), 10, {});
  await recording("clean", pair(own, 3), 20, { supply: { source: "regenerated", frequency_Hz: 66 } });
  const sweep = { start_Hz: 20, stop_Hz: 20_000, duration_s: 2 };
  const sent = sentSweep(rate_Hz, 3, sweep, 0.3);
  await recording("sweep", [sent, sent.map((sample) => 0.99 * sample)], 30, {
    purpose: "sweep",
    input: "driven",
    stimulus: { kind: "sweep", ...sweep, level_Vpk: 1 },
  });
  for (const [i, volume] of ["9 o'clock", "12 o'clock", "3 o'clock"].entries()) {
    const tone = (level_Vrms: number) => channel([{ frequency_Hz: 1000, level_Vrms }], 2e-7, 2, rate_Hz, 40 + i);
    await recording(`tone at ${volume}`, [tone(0.3), tone(0.3 * (1 + 0.01 * i))], 40 + i, {
      purpose: "tone",
      input: "driven",
      volume,
      stimulus: { kind: "tone", frequency_Hz: 1000, level_Vpk: 0.1 },
    });
  }
  const reading = (quantity: string, value: number, doubt: number, more: object = {}) => ({
    kind: "reading",
    subject: { unit: "77" },
    quantity,
    value,
    doubt,
    instrument: "meter",
    ...more,
  });
  await enter(later + 60, [
    reading("bond_ohm", 0.04, 0.01),
    reading("level_V", 160, 0.4, { subject: { unit: "77", point: "left plate" }, conditions: { meter_Mohm: 10 } }),
    reading("gain_dB", 22.1, 0.1),
    reading("fuse_A", 0.63, 0.01, { conditions: { mains_W: 34, fuseKind: "T" } }),
    reading("cracks", 0, 0),
  ]);
  await workshop.settled();
}

describe("a unit that a newcomer built in an empty workshop", () => {
  const folder = join(keptFolder(), "new");
  const demo = join(keptFolder(), "demo");
  let record: Layout;
  let known: ReadonlySet<string>;
  let ofDemo: Layout;
  let demoKnown: ReadonlySet<string>;

  beforeAll(async () => {
    madeDemo(demo);
    mkdirSync(folder, { recursive: true });
    const workshop = await openWorkshop(folder, { write: true });
    await build(workshop);
    const granted = await workshop.release("77", "owner");
    expect(granted.missing).toEqual([]);
    record = await workshop.dossier("77", "en");
    known = new Set((await workshop.unit("77")).claims.map(({ title }) => title));
    await workshop.close();
    const shown = await openWorkshop(demo, { write: false });
    ofDemo = await shown.dossier("0401", "en");
    demoKnown = new Set((await shown.unit("0401")).claims.map(({ title }) => title));
    await shown.close();
  }, madeWithin_ms);

  test("has every section that the demo's has", () => {
    const here = partsOf(record, known);
    const missing = [...partsOf(ofDemo, demoKnown)].filter((part) => !here.has(part));
    expect(missing).toEqual([]);
  });
});
