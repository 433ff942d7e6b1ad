import { writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { openStore } from "../src/store/index.ts";
import type { HumHearingView, MorningView, PromiseView, UnitView } from "../src/workshop/views.ts";
import { keptFolder, serve, stillglow } from "./helpers.ts";
import { channel, type Line, wavFile } from "./synthesis.ts";

/**
 * An empty workshop of somebody else: 60 Hz mains, another model, another serial, a quarter of a minute of recording.
 * Nothing of the demo is touched.
 */
const by = "technician";
const at = (minute: number) => new Date(Date.parse("2026-03-02T14:00:00Z") + minute * 60_000).toISOString();
const triode = (id: string, plate: string, grid: string, cathode: string, stage: string, side: string) => ({
  id,
  kind: "triode",
  type: "6SN7GT",
  plate,
  grid,
  cathode,
  stage,
  channel: side,
});
const resistor = (id: string, ohm: number, a: string, b: string, side: string) => ({
  id,
  kind: "resistor",
  ohm,
  tolerance: 0.01,
  between: [a, b],
  stage: "gain",
  channel: side,
});

const netlist = {
  ground: "0",
  testPoints: ["aL", "aR"],
  parts: [
    { id: "HT", kind: "voltage", between: ["ht", "0"], dc_V: 250, stage: "supply", channel: "both" },
    ...["L", "R"].flatMap((side) => {
      const name = side === "L" ? "left" : "right";
      return [
        {
          id: `IN${side}`,
          kind: "voltage",
          between: [`g${side}`, "0"],
          dc_V: 0,
          ac_V: 1,
          stage: "gain",
          channel: name,
        },
        resistor(`RL${side}`, 47_000, "ht", `a${side}`, name),
        resistor(`RK${side}`, 1_000, `k${side}`, "0", name),
        triode(side === "L" ? "V1a" : "V1b", `a${side}`, `g${side}`, `k${side}`, "gain", name),
      ];
    }),
  ],
};

const check = (hands_min: number, more: object = {}) => ({ how: "read it", skill: "bench", hands_min, ...more });
const model = {
  kind: "model",
  model: "Lighthouse",
  revision: "A",
  title: "Line preamplifier",
  netlist,
  positions: [{ position: "V1", type: "6SN7GT", sections: { a: "V1a", b: "V1b" } }],
  channels: ["left", "right"],
  input: { left: "INL", right: "INR" },
  output: { left: "aL", right: "aR" },
  outputImpedance_ohm: 0,
  balanceLimit_dB: 0.5,
  claims: [
    {
      claim: "hum",
      title: "Hum inaudible",
      sheet: "hum",
      requires: [
        { quantity: "hum_margin_dB", channel: "left", high: 0 },
        { quantity: "hum_margin_dB", channel: "right", high: 0 },
      ],
      restsOn: [{ position: "V1" }],
      check: check(20),
    },
    {
      claim: "ht",
      title: "High tension",
      sheet: "voltages",
      requires: [{ quantity: "ht_V", low: 240, high: 260 }],
      restsOn: [{ supply: "tap" }],
      check: check(5, { danger: "high-voltage", after: ["earth"] }),
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
  ],
  build: [{ step: "wire", skill: "bench", hours: { fast: 4, usual: 5, slow: 8 } }],
};

const week = Object.fromEntries(["mon", "tue", "wed", "thu", "fri"].map((day) => [day, ["09:00-17:00"]]));
const opening = [
  {
    kind: "shop",
    timeZone: "America/Denver",
    calendars: { all: { week } },
    people: [{ id: by, skills: ["bench"], calendar: "all" }],
    places: [],
    building_Hz: 60,
    cleanSupply_Hz: [66],
    currency: "USD",
  },
  { kind: "headphone", headphone: "in-ear", impedance_ohm: 16, sensitivity_dB_per_V: 122 },
  { kind: "headphone", headphone: "closed", impedance_ohm: 250, sensitivity_dB_per_V: 98 },
  ...["recorder", "meter", "bond tester"].map((instrument) => ({
    kind: "instrument",
    instrument,
    title: instrument,
    trial: { reference: "known resistor", quantity: "value", true: 1, limit: 0.05 },
  })),
  ...["recorder", "meter", "bond tester"].map((instrument) => ({
    kind: "trial",
    instrument,
    value: 1.004,
    doubt: 0.01,
  })),
  model,
  {
    kind: "batch",
    batch: "B1",
    type: "6SN7GT",
    seller: "a market stall",
    valves: ["N-1", "N-2"],
    sections: ["a", "b"],
  },
  {
    kind: "order",
    order: "W-1",
    customer: "k-1",
    model: "Lighthouse",
    revision: "A",
    units: ["77"],
    destination: { place: "next town", nominal_V: 120, frequency_Hz: 60 },
  },
  {
    kind: "unit",
    unit: "77",
    order: "W-1",
    model: "Lighthouse",
    revision: "A",
    fitted: { V1: "N-1" },
    tap: "120",
    built: ["wire"],
  },
].map((body, index) => ({ at: at(index), by, ...body }));

const house: readonly Line[] = [
  { frequency_Hz: 60.02, level_Vrms: 2e-6 },
  { frequency_Hz: 5 * 60.02, level_Vrms: 9e-5 },
  { frequency_Hz: 7 * 60.02, level_Vrms: 6e-5, phase_deg: 70 },
];
const own: readonly Line[] = [{ frequency_Hz: 132.04, level_Vrms: 4e-7 }];

describe("a workshop that has nothing to do with the demo", () => {
  const folder = join(keptFolder(), "shop");
  const data = ["--data", folder];
  const enter = (entries: readonly object[]) =>
    stillglow(["enter", ...data], entries.map((entry) => JSON.stringify(entry)).join("\n"));
  const written = async () => {
    const store = await openStore(folder, { write: false });
    try {
      return store.evidence();
    } finally {
      await store.close();
    }
  };
  const get = async <T>(address: string, path: string) => (await (await fetch(new URL(path, address))).json()) as T;

  test("opens empty, and says what it has: nothing", async () => {
    const { address, stop } = await serve(["serve", ...data]);
    expect(await get(address, "/api/workshop")).toMatchObject({ units: [], demo: false });
    expect(await get<PromiseView[]>(address, "/api/promises")).toEqual([]);
    expect(await get<MorningView>(address, "/api/morning")).toMatchObject({ ripens: [], hands: [], instruments: [] });
    expect(await get(address, "/api/units/77")).toMatchObject({ error: { path: "unit" } });
    await stop();
  });

  test("takes its own evidence, and answers from it", () => {
    expect(enter(opening)).toMatchObject({ status: 0, stderr: "" });
    const view: UnitView = JSON.parse(stillglow(["unit", "77", "--json", ...data]).stdout);
    expect(view.claims.map(({ state }) => state)).toEqual(["open", "open", "open"]);
    expect(view.nextChecks[0]?.claim).toBe("earth");
  });

  test("a reading with a letter in it is refused, and nothing of its company is written", async () => {
    const before = await written();
    const good = {
      at: at(60),
      by,
      kind: "reading",
      subject: { unit: "77" },
      quantity: "ht_V",
      value: 250.4,
      doubt: 0.5,
      instrument: "meter",
    };
    const ran = enter([good, { ...good, value: "25o.4" }]);
    expect(ran.status).toBe(2);
    expect(ran.stderr).toMatch(/entries\[1\]\.value.*25o\.4/);
    expect(ran.stderr).not.toMatch(/\n\s+at /);
    expect(before.length).toBeGreaterThan(0);
    expect(await written()).toEqual(before);
  });

  test("its hum is found to be the house's, from two recordings of its own length and frequencies", () => {
    const seconds = 13;
    const rate_Hz = 44_100;
    const record = (name: string, supply: string, lines: readonly Line[], minute: number) => {
      const file = join(folder, "..", `${name}.wav`);
      writeFileSync(
        file,
        wavFile(
          [channel(lines, 2e-8, seconds, rate_Hz, minute), channel(lines, 2e-8, seconds, rate_Hz, minute + 7)],
          rate_Hz,
          0.01,
        ),
      );
      return stillglow([
        "record",
        file,
        "--unit",
        "77",
        "--full-scale",
        "0.01",
        "--supply",
        supply,
        "--instrument",
        "recorder",
        "--at",
        at(minute),
        ...data,
      ]);
    };
    expect(record("first", "building", [...house, { frequency_Hz: 120.04, level_Vrms: 4e-7 }], 70)).toMatchObject({
      status: 0,
      stderr: "",
    });
    expect(record("second", "regenerated:66", own, 80)).toMatchObject({ status: 0, stderr: "" });
    const { hum, ...unit }: UnitView & { hum: HumHearingView } = JSON.parse(
      stillglow(["unit", "77", "--json", ...data]).stdout,
    );
    expect(hum.verdict.left).toMatchObject({ state: "decided", cause: "mains" });
    expect(hum.verdict.right).toMatchObject({ state: "decided", cause: "mains" });
    expect(hum.recordings.map(({ duration_s }) => duration_s)).toEqual([seconds, seconds]);
    expect(unit.claims.find(({ claim }) => claim === "hum")).toMatchObject({ state: "proven" });
    expect(unit.proposal).toBeUndefined();
  });

  test("is not released until the rest is proven, then is", () => {
    expect(stillglow(["release", "77", ...data])).toMatchObject({ status: 1 });
    const reading = (quantity: string, value: number, doubt: number, instrument: string, minute: number) => ({
      at: at(minute),
      by,
      kind: "reading",
      subject: { unit: "77" },
      quantity,
      value,
      doubt,
      instrument,
    });
    expect(
      enter([reading("bond_ohm", 0.04, 0.01, "bond tester", 90), reading("ht_V", 250.4, 0.5, "meter", 91)]),
    ).toMatchObject({ status: 0 });
    expect(stillglow(["release", "77", ...data])).toMatchObject({ status: 0 });
  });

  test("a second server on the same folder is refused in words, and the first one takes what commands write", async () => {
    const { address } = await serve(["serve", ...data]);
    const second = stillglow(["serve", ...data, "--port", "0"]);
    expect(second.status).toBe(2);
    expect(second.stderr).toMatch(/another Stillglow .* has this data folder open/);
    expect(enter([{ at: at(100), by, kind: "trial", instrument: "meter", value: 1.002, doubt: 0.01 }])).toMatchObject({
      status: 0,
    });
    const morning = await get<MorningView>(address, "/api/morning");
    expect(morning.instruments.find(({ instrument }) => instrument === "meter")).toMatchObject({
      state: "good",
      at: at(100),
    });
  });
});
