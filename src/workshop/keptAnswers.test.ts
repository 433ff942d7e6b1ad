import fc from "fast-check";
import { expect, test } from "vitest";
import type { Evidence, EvidenceBody, Submission } from "../claims/evidence.ts";
import { claimStates, foldShop, modelKey, Shop } from "../claims/index.ts";
import { at, Book, smallModel } from "../claims/testing/smallShop.ts";
import { KeptAnswers, type Shelf } from "./keptAnswers.ts";
import { recordsOf } from "./production/records.ts";
import { crackRecord } from "./timber/crackRecord.ts";
import { platedPieces } from "./timber/pastPieces.ts";
import { airBetween } from "./timber/placeAir.ts";
import { ValveShelf } from "./valveShelf.ts";

const units = ["0101", "0102", "0103"] as const;
const valves = ["N1", "N2", "T1", "T2", "T3", "T4", "X1"] as const;
const pieces = ["P1", "P2", "P1a", "P1b"] as const;
const now = at(5000);

type Body = Submission extends infer S ? (S extends Submission ? Omit<S, "id" | "at" | "by"> : never) : never;
const one = <T>(...of: readonly T[]) => fc.constantFrom(...of);
const valueAbout = one(-3, 0, 3, 95, 250);
const reading: fc.Arbitrary<object> = fc
  .record({
    claim: fc.nat(smallModel.claims.length - 1),
    unit: one(...units),
    value: valueAbout,
    valve: one(...valves),
  })
  .map(({ claim, unit, value, valve }) => {
    const { quantity, of, section, channel, point } = smallModel.claims[claim]!.requires[0]!;
    const place = { ...(section && { section }), ...(channel && { channel }), ...(point && { point }) };
    const subject = of === "valve" ? { valve, ...place } : { unit, ...place };
    return { kind: "reading", subject, quantity, value, doubt: 0.01, instrument: "meter", conditions: {} };
  });
const valveReading: fc.Arbitrary<object> = fc
  .record({ valve: one(...valves), phase: one("cold", "hot", "curve"), section: one("a", "b"), time_h: fc.nat(40) })
  .map((some) => ({ kind: "valve-reading", ...some, instrument: "meter", plate_V: 90, grid_V: -2, plate_mA: 8 }));
const body: fc.Arbitrary<object> = fc.oneof(
  { weight: 9, arbitrary: reading },
  { weight: 4, arbitrary: valveReading },
  ...[
    fc
      .record({ value: one(10, 10, 10.5) })
      .map(({ value }) => ({ kind: "trial", instrument: "meter", value, doubt: 0.01 })),
    fc.record({ unit: one(...units), valve: one(...valves), part: fc.boolean() }).map(({ unit, valve, part }) => ({
      kind: "rework",
      unit,
      touched: [part ? { part: "R1" } : { position: "V2" }],
      ...(!part && { fitted: { V2: valve } }),
      why: "tried",
    })),
    fc.record({ unit: one(...units), step: one("wire", "drill") }).map((some) => ({ kind: "step", ...some })),
    one(...units).map((unit) => ({ kind: "release", unit, version: "1", resting_sha256: "0".repeat(64), claims: [] })),
    one(...units).map((unit) => ({
      kind: "fault",
      unit,
      fault: "dry joint",
      what: "open",
      possible: "wire",
      found: "voltages",
      repair_h: 1,
      cost_cents: 100,
    })),
    fc
      .record({ type: one("6SN7GT", "6AS7G"), time_h: fc.nat(40) })
      .map((some) => ({ kind: "reference-reading", valve: "R1", ...some, instrument: "meter", plate_mA: 8 })),
    one("B9", "B10").map((batch) => ({
      kind: "batch",
      batch,
      type: "6AS7G",
      seller: "a seller",
      valves: [`${batch}-1`, "X1"],
      sections: ["a", "b"],
    })),
    fc.record({ piece: one("P1", "P2"), place: one("shed", "plate") }).map((some) => ({
      kind: "blank",
      seller: "a seller",
      species: "white ash",
      ...board,
      ringAngle_deg: 0,
      rough: true,
      ...some,
    })),
    fc
      .record({ pieces: fc.uniqueArray(one(...pieces), { minLength: 1 }), place: one("shed", "plate") })
      .map((some) => ({ kind: "stood", ...some })),
    one("P1", "P2").map((piece) => ({
      kind: "sawn",
      piece,
      into: ["P1a", "P1b"].map((part) => ({ piece: part, ...board, ringAngle_deg: 0 })),
    })),
    one(...pieces).map((piece) => ({ kind: "flaw", piece, flaw: "crack", length_mm: 8, found: "planing" })),
    one(...pieces).map((piece) => ({ kind: "weighing", piece, mass_g: 500, instrument: "meter" })),
    one(...pieces).map((piece) => ({
      kind: "case",
      case: "C1",
      panels: [{ panel: "top", piece, fixed: "free", gap_mm: 1, warm: false }],
    })),
    one(...units).map((unit) => ({ kind: "case-given", case: "C1", unit })),
    fc
      .record({ place: one("shed", "plate"), what: one("room", "plate") })
      .map((some) => ({ kind: "timber-place", ...some, faces: "both" })),
    one("shed", "plate").map((place) => ({
      kind: "air",
      place,
      readings: [{ at: at(3), temperature_C: 20, humidity_pct: 50 }],
      instrument: "meter",
    })),
    fc
      .record({ run: one("r1", "r2"), units: fc.subarray([...units]), step: one("wire", "drill") })
      .map((some) => ({ kind: "begun", ...some, valves: [], pieces: [], place: "rack", hours: 5 })),
    one("r1", "r2").map((run) => ({ kind: "ended", run, outcome: "good" })),
    one(...units).map((unit) => ({ kind: "coat", unit, pieces: [], finish: "oil", hardens_h: 24 })),
    one("inland", "abroad").map((place) => ({
      kind: "order",
      order: "O1",
      customer: "c1",
      model: "Skerry",
      revision: "1",
      units,
      destination: { place, nominal_V: 120, frequency_Hz: 60 },
    })),
    one("O1", "O2").map((order) => ({ kind: "delivery", order })),
    one("gone").map((person) => ({ kind: "person", person, may: "owner", answersForSafety: false })),
    fc.nat(smallModel.claims.length - 1).map((i) => ({
      kind: "concession",
      unit: units[i % 3],
      claim: smallModel.claims[i]!.claim,
      reason: "as agreed",
    })),
  ].map((arbitrary) => ({ weight: 1, arbitrary })),
);
const board = { length_mm: 500, width_mm: 120, thickness_mm: 20 };
const deed = fc.record({ body, back: fc.integer({ min: -40, max: 40 }), rights: fc.nat(9) });

/** What a shop is asked; each answer is kept by its name. */
const questions: Readonly<Record<string, (shop: Shop) => unknown>> = {
  ...Object.fromEntries(
    units.flatMap((unit) => [
      [`states ${unit}`, (shop: Shop) => claimStates(shop.modelOf(unit)!, shop.ledger, unit, now)],
      [`left ${unit}`, (shop: Shop) => [shop.isReleased(unit), shop.orderedAs(unit)?.model]],
      [`unit ${unit}`, (shop: Shop) => shop.unit(unit)],
      [`folder ${unit}`, (shop: Shop) => shop.ledger.ofUnit(unit).map(({ id }) => id)],
      [`case ${unit}`, (shop: Shop) => shop.timber.caseOfUnit(unit)],
    ]),
  ),
  open: (shop) => shop.openUnits,
  delivered: (shop) => [shop.isDelivered("O1"), shop.deliveredAt("O1")],
  fitted: (shop) => [...shop.fittedIn],
  cold: (shop) => [...shop.awaitingHot.keys()].sort(),
  trays: (shop) =>
    new ValveShelf(shop).batches.map(({ body: { batch, type, valves: all } }) => {
      const { byValve, reference } = new ValveShelf(shop).readingsOfValves(type, all) ?? { byValve: [], reference: [] };
      return [batch, [...byValve], reference];
    }),
  "trays by name": (shop) => ["B9", "B10"].map((batch) => shop.batch(batch)?.id),
  "valves of two trays": (shop) => ["X1", "B10-1"].map((valve) => shop.valve(valve)),
  pieces: (shop) => shop.timber.pieces.map((piece) => shop.timber.state(piece)),
  standing: (shop) => [...shop.timber.standing],
  ...Object.fromEntries(
    pieces.map((piece) => [`piece ${piece}`, (shop: Shop) => [shop.timber.state(piece), shop.timber.entriesOf(piece)]]),
  ),
  cracks: (shop) => [crackRecord(shop.timber), platedPieces(shop.timber)],
  air: (shop) => ["shed", "plate"].map((place) => airBetween(shop.timber, place, 0, Date.parse(now))),
  runs: (shop) => [...shop.runs.all.values()],
  going: (shop) => units.map((unit) => shop.runs.of(unit)?.body.run),
  records: (shop) => {
    const records = recordsOf(shop);
    const model = shop.models.get(modelKey("Skerry", "1"))!.body;
    return [records.units, model.claims.map((claim) => records.suspected(model, claim))];
  },
  whole: (shop) => {
    shop.ledger.cabinet.openAll();
    return shop.ledger.size;
  },
};

/** Asks some questions through one that is kept itself, after having waited. */
async function throughAnother(shelf: Shelf, shop: Shop): Promise<unknown> {
  return shelf.keep("all of them", async () => {
    await Promise.resolve();
    const first = shelf.keep("states 0101", () => questions["states 0101"]!(shop));
    await new Promise((done) => setImmediate(done));
    return [first, shelf.keep("standing", () => questions.standing!(shop)), questions.open!(shop)];
  });
}

test("a kept answer is the one that a shop folded anew gives, after every entry, whatever is written in what order", async () => {
  let held = 0;
  await fc.assert(
    fc.asyncProperty(fc.array(deed, { minLength: 1, maxLength: 14 }), async (deeds) => {
      const book = Book.opened(units);
      book.write(0, { kind: "rates", currency: "EUR", hour_cents: { audio: 100 }, waiting_cents_per_h: 10 });
      book.write(0, {
        kind: "valve-limits",
        type: "6AS7G",
        plate_V: 90,
        grid_V: -2,
        referenceTrue_mA: 8,
        reading_doubt_pct: 1,
        limits: { drift_pct: 5, sectionSpread_pct: 10 },
      });
      const shop = foldShop(book.entries);
      const kept = new KeptAnswers(shop.ledger.cabinet).shelf(100);
      for (const [hour, { body: written, back, rights }] of deeds.entries()) {
        const older = book.entries.filter((entry) => entry.body.kind === (written as Body).kind);
        const supersedes = rights < 5 && older.length > 0 && takesRights.has((written as Body).kind);
        book.write(60 + 10 * hour + back, {
          ...written,
          ...(supersedes && { supersedes: older[rights % older.length]!.id }),
        } as EvidenceBody);
        shop.add(book.entries.at(-1) as Evidence);
        const anew = foldShop(book.entries);
        for (const [name, ask] of Object.entries(questions)) {
          let isDrawn = false;
          const answer = kept.keep(name, () => {
            isDrawn = true;
            return ask(shop);
          });
          if (!isDrawn) held += 1;
          expect([name, answer]).toEqual([name, ask(anew)]);
        }
        const fresh = new KeptAnswers(anew.ledger.cabinet).shelf(100);
        expect(await throughAnother(kept, shop)).toEqual(await throughAnother(fresh, anew));
      }
    }),
    { numRuns: 25 },
  );
  expect(held).toBeGreaterThan(1000);
});

/** Kinds of the above that may put an older one right. */
const takesRights = new Set([
  "reading",
  "valve-reading",
  "reference-reading",
  "stood",
  "blank",
  "sawn",
  "flaw",
  "case",
]);

test("an answer that failed is asked again, and of many the ones not asked for go first", async () => {
  const { keep } = new KeptAnswers(new Shop().ledger.cabinet).shelf(2);
  await expect(keep("a", () => Promise.reject(new Error("no")))).rejects.toThrow("no");
  expect(await keep("a", async () => 1)).toBe(1);
  keep("b", () => 2);
  expect(await keep("a", async () => 3)).toBe(1);
  keep("c", () => 4);
  expect(keep("b", () => 5)).toBe(5);
});
