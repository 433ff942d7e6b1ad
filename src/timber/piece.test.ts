import { expect, test } from "vitest";
import reference from "../../reference/timber.json" with { type: "json" };
import { fedChamber_pct, humidityFor_pct } from "./overDry.ts";
import { type PieceQuestion, pieceOf } from "./piece.ts";

/** Masses of a piece that the model itself sends through these stages: only for what does not test the model. */
function weighed(question: PieceQuestion, dry_g: number, hours: readonly number[]) {
  const { means } = meansOf(question, hours);
  return hours.map((hour, i) => ({ hour, mass_g: Math.round(10 * dry_g * (1 + means[i]! / 100)) / 10 }));
}

function meansOf(question: PieceQuestion, hours: readonly number[]) {
  const { weighings: _, ...bare } = question;
  return { means: pieceOf({ ...bare, startDoubt_pct: 0, outputs_h: hours }).mean_pct };
}

const ash: PieceQuestion = {
  species: "white ash",
  thickness_mm: 22,
  start_pct: 12,
  stages: [
    { place: "shop air", hours: 24, temperature_C: 18, humidity_pct: 65 },
    { place: "warm chamber", hours: 96, temperature_C: 45, humidity_pct: 25 },
  ],
  target_pct: 7.5,
};
const hours = [24, 48, 72, 96];
const seen = { ...ash, weighings: weighed({ ...ash, diffusionFactor: 1.8 }, 500, hours) };

test("with an oven-dry mass the piece's own speed is found, its moisture and its hours to the target", () => {
  const answer = pieceOf({ ...seen, ovenDry_g: 500 });
  expect(answer.state).toBe("fitted");
  expect(answer.factorLow).toBeLessThan(1.8);
  expect(answer.factorHigh).toBeGreaterThan(1.8);
  const { means } = meansOf({ ...ash, diffusionFactor: 1.8 }, [96]);
  expect(Math.abs(answer.now.mean_pct - means[0]!)).toBeLessThan(0.15);
  expect(answer.now.lag_pct).toBeGreaterThan(1);
  expect(answer.notes.join()).toMatch(/wetter than the skin/);
  expect(answer.nextWeighing!.after).toBeLessThan(answer.nextWeighing!.before);
  expect(answer.stageEnds.map(({ place }) => place)).toEqual(["shop air", "warm chamber"]);
});

test("without one only the approach is known, and an offcut mends that", () => {
  const answer = pieceOf(seen);
  expect(answer.state).toBe("approach");
  expect(answer.reason).toMatch(/only the approach is known/);
  expect(answer).not.toHaveProperty("hoursToTarget");
  expect(answer).not.toHaveProperty("ovenDry_g");
  expect(answer.approach!.low_g).toBeLessThan(answer.approach!.rest_g);
  const mended = pieceOf({ ...seen, offcut: { hour: 24, wet_g: 55.6, dry_g: 50 } });
  expect(mended.state).toBe("fitted");
  expect(mended.doubt.now_pct).toBeLessThan(0.7 * answer.doubt.now_pct);
});

// source: reference/timber.json, steady_state_estimate: 506, 503, 501.5 g at even times run out at 500 g
test("late weighings without a dry mass tell the mass at rest as the textbook's three do", () => {
  const { m1_g, m2_g, m3_g, m_inf_g } = reference.moisture_content_and_weighing.steady_state_estimate.example;
  const { approach } = pieceOf({
    density_kg_m3: 650,
    thickness_mm: 12,
    stages: [{ place: "warm room", hours: 110, temperature_C: 30, emc_pct: 5 }],
    weighings: [m1_g, m2_g, m3_g].map((mass_g, i) => ({ hour: 40 + 30 * i, mass_g })),
    balance_g: 0.2,
  });
  expect(approach!.low_g).toBeLessThan(m_inf_g);
  expect(approach!.high_g).toBeGreaterThan(m_inf_g);
  expect(approach!.high_g - approach!.low_g).toBeLessThan(4);
});

test("weighings that cannot be are kept aside, each with its reason, and the others used", () => {
  const weighings = [
    ...seen.weighings.slice(0, 2),
    { hour: 30, mass_g: 540 },
    { hour: 60, mass_g: 420 },
    { hour: 66, mass_g: 0 },
    ...seen.weighings.slice(2),
  ];
  const answer = pieceOf({ ...seen, weighings, ovenDry_g: 500 });
  expect(answer.aside.map(({ weighing }) => weighing)).toEqual([2, 3, 4]);
  expect(answer.aside[0]!.why).toMatch(/out of order: hour 30 stands after hour 48/);
  expect(answer.aside[1]!.why).toMatch(/below the oven-dry mass/);
  expect(answer.now.mean_pct).toBeCloseTo(pieceOf({ ...seen, ovenDry_g: 500 }).now.mean_pct, 6);
});

test("a slip of the pen among good weighings is named and left out", () => {
  const slipped = seen.weighings.map((one, i) => (i === 2 ? { ...one, mass_g: one.mass_g + 9 } : one));
  const more = [...slipped, ...weighed({ ...ash, diffusionFactor: 1.8 }, 500, [108, 116])];
  const answer = pieceOf({ ...seen, weighings: more, ovenDry_g: 500 });
  expect(answer.aside).toMatchObject([{ weighing: 2 }]);
  expect(answer.aside[0]!.why).toMatch(/check it for a slip/);
});

test("planing and oiling make a new dry mass, found from the weighings on both sides of it", () => {
  const stages = [
    ...ash.stages,
    { place: "planed", hours: 0, temperature_C: 18, humidity_pct: 55, machinedTo_mm: 18 },
    { place: "a week nobody planned", hours: 168, temperature_C: 18, humidity_pct: 55 },
  ];
  const life: PieceQuestion = { ...ash, stages, diffusionFactor: 1.8 };
  const { means } = meansOf(life, [24, 72, 120, 200, 280]);
  const dry = (i: number) => (i < 3 ? 500 : 402);
  const weighings = [24, 72, 120, 200, 280].map((hour, i) => ({
    hour,
    mass_g: Math.round(10 * dry(i) * (1 + means[i]! / 100)) / 10,
  }));
  const { diffusionFactor: _, ...asked } = life;
  const answer = pieceOf({ ...asked, weighings, ovenDry_g: 500 });
  expect(answer.thickness_mm).toBeCloseTo(18, 9);
  expect(Math.abs(answer.ovenDry_g! - 402)).toBeLessThan(3 * answer.doubt.ovenDry_g! + 0.5);
  expect(Math.abs(answer.now.mean_pct - means[4]!)).toBeLessThan(0.4);
});

test("a log of steady air is that air, and one that drifts is not", () => {
  const log = (humidity: (i: number) => number) =>
    Array.from({ length: 9 }, (_, i) => ({ hour: 12 * i, temperature_C: 45, humidity_pct: humidity(i) }));
  const at = (some: ReturnType<typeof log>) =>
    pieceOf({ ...ash, stages: [ash.stages[0]!, { place: "chamber", hours: 96, log: some }], outputs_h: [120] })
      .mean_pct[0]!;
  const steady = pieceOf({ ...ash, outputs_h: [120] }).mean_pct[0]!;
  expect(at(log(() => 25))).toBeCloseTo(steady, 6);
  expect(at(log((i) => 25 + 4 * i))).toBeGreaterThan(steady + 0.3);
});

// source: reference/timber.json, derived_chamber_facts: 20 °C and 50 % heated to 45, 60 and 90 °C: 2.59, 1.10, 0.18 %
test("a chamber fed with room air over-dries, and says so", () => {
  for (const { temperature_c, emc_percent } of reference.emc.derived_chamber_facts.rows) {
    expect(Math.abs(fedChamber_pct(20, 50, temperature_c) - emc_percent)).toBeLessThan(0.006);
  }
  expect(humidityFor_pct(fedChamber_pct(20, 50, 45), 45)).toBeCloseTo(12.19, 1);
  const long = pieceOf({
    ...ash,
    stages: [{ place: "chamber", hours: 900, temperature_C: 45, humidity_pct: 12.2 }],
    now_h: 900,
  });
  expect(long.overDry).toBe(true);
  expect(pieceOf({ ...ash, now_h: 60 }).overDry).toBe(false);
});

test("on a plate one face is shut and the thickness counts whole", () => {
  const on = (plate_C?: number) =>
    pieceOf({
      ...ash,
      stages: [
        {
          place: "plate",
          hours: 24,
          temperature_C: plate_C === undefined ? 70 : 20,
          humidity_pct: plate_C === undefined ? 3 : 50,
          ...(plate_C === undefined ? {} : { plate_C }),
        },
      ],
      outputs_h: [24],
    });
  const [plate, chamber] = [on(90), on()];
  expect(plate.mean_pct[0]).toBeGreaterThan(chamber.mean_pct[0]! + 0.5);
  expect(plate.core_pct[0]).toBeGreaterThan(plate.surface_pct[0]! + 3);
});

test("three coats of varnish slow a week of damp air, three of oil less", () => {
  const after = (coats?: { finish: "oil" | "varnish"; coats: number }[]) =>
    pieceOf({
      ...ash,
      start_pct: 7,
      stages: [{ place: "damp room", hours: 168, temperature_C: 26, humidity_pct: 85, ...(coats ? { coats } : {}) }],
      outputs_h: [168],
    }).mean_pct[0]! - 7;
  const [bare, varnish, oil] = [
    after(),
    after([{ finish: "varnish", coats: 3 }]),
    after([{ finish: "oil", coats: 3 }]),
  ];
  expect(varnish).toBeLessThan(0.5 * bare);
  expect(oil).toBeGreaterThan(0.7 * bare);
  expect(oil).toBeLessThan(bare);
});

test.each([
  ["thickness_mm", { thickness_mm: 0 }],
  ["species", { species: "unobtainium" }],
  [
    "stages[1].humidity_pct",
    { stages: [ash.stages[0]!, { place: "x", hours: 1, temperature_C: 20, humidity_pct: 105 }] },
  ],
  ["stages[0].temperature_C", { stages: [{ place: "x", hours: 1 }] }],
  [
    "stages[0].log[1].hour",
    {
      stages: [
        {
          place: "x",
          hours: 9,
          log: [
            { hour: 4, temperature_C: 20, humidity_pct: 50 },
            { hour: 2, temperature_C: 20, humidity_pct: 50 },
          ],
        },
      ],
    },
  ],
  ["stages[0].machinedTo_mm", { stages: [{ ...ash.stages[0]!, machinedTo_mm: 30 }] }],
  ["offcut.dry_g", { offcut: { hour: 0, wet_g: 40, dry_g: 50 } }],
])("refuses at %s", (path, change) => {
  expect(() => pieceOf({ ...seen, ...change } as PieceQuestion)).toThrow(expect.objectContaining({ path }));
});

test("an unknown wood is offered its density, and sugar maple is hard maple", () => {
  expect(() => pieceOf({ ...ash, species: "unobtainium" })).toThrow(/density_kg_m3/);
  const [a, b] = ["sugar maple", "hard maple"].map(
    (species) => pieceOf({ ...ash, species, outputs_h: [100] }).mean_pct,
  );
  expect(a).toEqual(b);
});
