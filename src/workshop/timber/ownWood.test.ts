import { expect, test } from "vitest";
import { caseFinding } from "./caseFinding.ts";
import { type Body, hours, prairie, Yardbook } from "./testing/yardbook.ts";

const species = "hill plum";
/** 2.4 mm of 200 over 4 % is 0.3 % for each percent of moisture; 1.08 mm of 150 is 0.18. */
const measured = [
  { ringAngle_deg: 0, width_mm: 200, moisture_pct: 12, laterWidth_mm: 197.6, laterMoisture_pct: 8 },
  { ringAngle_deg: 90, width_mm: 150, moisture_pct: 12, laterWidth_mm: 148.92, laterMoisture_pct: 8 },
];
const size = { length_mm: 900, width_mm: 220, thickness_mm: 24 };
const dry_g = 2850;

/** A board of the shop's own wood from the saw mill to the plate, weighed on the way; 2850 g of it are wood. */
function walked(book: Yardbook): void {
  book.write(1, { kind: "blank", piece: "P-1", species: "Hill plum", ...size, ...came } as Body);
  book.weigh("P-1", 2, 1.12 * dry_g);
  book.write(40, { kind: "offcut", piece: "P-1", cut: hours(2), wet_g: 112, ovenDry_g: 100, instrument: "balance" });
  book.write(48, { kind: "stood", pieces: ["P-1"], place: "warm box" });
  for (const [hour, moisture] of [
    [72, 0.106],
    [96, 0.099],
    [144, 0.089],
  ] as const)
    book.weigh("P-1", hour, Math.round(dry_g * (1 + moisture)));
  book.write(145, { kind: "stood", pieces: ["P-1"], place: "plate" });
  book.weigh("P-1", 169, Math.round(dry_g * 1.065));
  book.write(170, { kind: "stood", pieces: ["P-1"], place: "shed" });
}
const came = { ringAngle_deg: 5, seller: "a farmer", place: "shed" };
const wanted = ["left", "right"].map((panel) => ({
  panel,
  species,
  length_mm: 380,
  width_mm: 180,
  thickness_mm: 18,
}));

test("a wood the list lacks goes from the blank to a case with a verdict, by the shop's own measuring", async () => {
  const book = new Yardbook();
  const wood = book.write(0, { kind: "wood", species, density_kg_m3: 700, measured });
  walked(book);
  book.write(171, prairie);
  book.write(172, { kind: "case-panels", unit: "77", panels: wanted });
  const { card } = await book.desk().piece("P-1");
  expect(card.moisture).toMatchObject({ basis: "fitted" });
  // source: by hand, the last mass over the dry wood's, 6.5 %
  expect(await book.desk().moistureAt("P-1", hours(169))).toMatchObject({ mean_pct: expect.closeTo(6.5, 0) as number });

  const { boards, unplaced, aside } = await book.desk().cuts();
  expect({ unplaced, aside }).toEqual({ unplaced: [], aside: [] });
  expect(boards[0]!.cuts.map(({ panel }) => panel).toSorted()).toEqual(["left", "right"]);

  const panel = { length_mm: 380, width_mm: 180, thickness_mm: 18, ringAngle_deg: 5 };
  book.write(173, { kind: "sawn", piece: "P-1", into: ["P-1.1", "P-1.2"].map((piece) => ({ piece, ...panel })) });
  const joined = (name: string, gap_mm: number) => ({ panel: name, piece: name, fixed: "free", gap_mm });
  book.write(174, { kind: "case", case: "K-1", panels: [joined("P-1.1", 6), joined("P-1.2", 0)] } as Body);
  book.write(175, { kind: "case-given", case: "K-1", unit: "77" });
  const view = await book.desk().caseOf("77");
  const [roomy, tight] = view.panels;
  expect(roomy).toMatchObject({ verdict: "proven" });
  // source: by hand, 180 mm · C·(wettest − at joining); both pieces agree with 0.3 % along the rings and 0.6 of it across
  // them, so that C at 5° is 0.003·(cos² + 0.6·sin²) = 0.00299088
  // The case is asked of moistures to a hundredth.
  const step_pct = tight!.wettest_pct! - Number(tight!.moisture_pct!.toFixed(2));
  expect(tight!.swell_mm! / (180 * 0.00299088 * step_pct)).toBeCloseTo(1, 3);

  expect(caseFinding(book.shop, view)!.from).toContain(wood);
  // Measured again, it moves hardly at all: the tight panel's swelling follows.
  book.write(200, { kind: "wood", species, density_kg_m3: 700, tangential_pct_per_pct: 0.1, supersedes: wood });
  const again = (await book.desk().caseOf("77")).panels[1]!;
  // source: by hand, 0.1 % along the rings in place of 0.3, and 0.6 of it across them as before
  expect(again.swell_mm! / tight!.swell_mm!).toBeCloseTo(1 / 3, 3);
});

test("before it is measured its density carries the drying, and the verdict says what is wanting", async () => {
  const book = new Yardbook();
  expect(() => walked(book)).toThrow(/one that the shop measured/);
  book.write(0, { kind: "wood", species, density_kg_m3: 700 });
  walked(book);
  expect(() => book.write(172, { kind: "case-panels", unit: "77", panels: wanted })).toThrow(/movement is known/);
  book.write(173, { kind: "case", case: "K-1", panels: [{ panel: "top", piece: "P-1", fixed: "free" }] } as Body);
  book.write(174, { kind: "case-given", case: "K-1", unit: "77" });
  book.write(175, prairie);
  const [panel] = (await book.desk().caseOf("77")).panels;
  expect(panel).toMatchObject({ verdict: "undecided", remedy: expect.stringMatching(/at two moistures/) as string });
  // The same wood measured later, in other letters, decides it.
  book.write(201, { kind: "wood", species: "Hill-Plum", density_kg_m3: 700, measured });
  expect((await book.desk().caseOf("77")).panels[0]!.swell_mm).toBeGreaterThan(0);
});

test("a wood of the catalogue keeps its name, and what a measured piece cannot have done is named", () => {
  const book = new Yardbook();
  const own = (more: object) => () => book.write(0, { kind: "wood", species, density_kg_m3: 700, ...more } as Body);
  expect(own({ species: "red oak" })).toThrow(/catalogue lacks/);
  expect(own({ measured: [{ ...measured[0], laterWidth_mm: 201 }] })).toThrow(
    expect.objectContaining({ path: "measured[0].laterWidth_mm" }),
  );
  expect(own({ tangential_pct_per_pct: 3 })).toThrow(/tangential_pct_per_pct/);
});
