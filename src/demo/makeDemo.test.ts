import { createHash } from "node:crypto";
import { beforeAll, describe, expect, test } from "vitest";
import { type Evidence, submission } from "../claims/evidence.ts";
import { admit, claimStates, previewRework, reached, retests, Shop } from "../claims/index.ts";
import { reachesOneOf } from "../claims/things.ts";
import { type Demo, retestReadings } from "./index.ts";
import { onHeatRun } from "./shelf.ts";
import { sharedDemo } from "./testing/sharedDemo.ts";

let demo: Demo;
let shop: Shop;
const evidence: Evidence[] = [];

beforeAll(() => {
  demo = sharedDemo();
  shop = new Shop();
  demo.entries.forEach(({ recordedAt, ...handedIn }, seq) => {
    const parsed = submission.parse(handedIn);
    admit(parsed, shop, { now: recordedAt });
    const { id = `e${seq}`, at, by, ...body } = parsed;
    const entry: Evidence = { id, seq, at, by, recordedAt, body: body as Evidence["body"] };
    shop.add(entry);
    evidence.push(entry);
  });
});

describe("the demo workshop as a whole", () => {
  test("is admitted entry by entry, each at its own date, none after the date the demo keeps", () => {
    expect(evidence).toHaveLength(demo.entries.length);
    let before = 0;
    for (const { at, recordedAt } of demo.entries) {
      expect(Date.parse(recordedAt)).toBeGreaterThanOrEqual(before);
      expect(Date.parse(at)).toBeLessThanOrEqual(Date.parse(recordedAt));
      before = Date.parse(recordedAt);
    }
    expect(before).toBeLessThanOrEqual(Date.parse(demo.now));
  });

  test("names every recording by its content, and holds no other file", () => {
    const named = demo.entries.flatMap((e) => (e.kind === "recording" ? [e.file_sha256] : []));
    expect(new Set(named)).toEqual(new Set(demo.recordings.keys()));
    for (const [sha256, wav] of demo.recordings) expect(createHash("sha256").update(wav).digest("hex")).toBe(sha256);
  });

  test("has a line in every book for every order, and a customer for each", () => {
    const known = new Set(demo.customers.map(({ id }) => id));
    const orders = demo.entries.filter((e) => e.kind === "order");
    expect(orders.length).toBeGreaterThanOrEqual(9);
    for (const order of orders) expect(known).toContain(order.customer);
    expect(shop.promises.get("Q-231")?.body.date).toBe("2027-03-05T17:00:00Z");
  });
});

describe("what the evidence must not give away", () => {
  test("no words of the truth stand in any entry", () => {
    const written = JSON.stringify(demo.entries);
    for (const { story } of demo.truth.hum) expect(written).not.toContain(story);
    for (const word of ["offCentre", "coldOverHot", "atTester", "decoy", "story", "truth", "culprit"]) {
      expect(written).not.toContain(word);
    }
  });

  test("no entry chose its own id, and valves of a batch are read in the order of their numbers", () => {
    expect(demo.entries.filter(({ id }) => id !== undefined)).toEqual([]);
    for (const phase of ["cold", "hot"]) {
      const read = demo.entries.flatMap((e) => (e.kind === "valve-reading" && e.phase === phase ? [e] : []));
      for (const batch of demo.entries.filter((e) => e.kind === "batch")) {
        const inTurn = [...new Set(read.map(({ valve }) => valve).filter((valve) => batch.valves.includes(valve)))];
        // A batch on its heat run has no hot readings yet, for none of its valves.
        expect(inTurn).toEqual(phase === "hot" && onHeatRun.has(batch.batch) ? [] : batch.valves);
      }
    }
  });

  test("every valve of a type and stage is read alike: as often, at the same points, with the same fields", () => {
    const habits = new Map<string, Set<string>>();
    for (const { valve, type: of, batch } of demo.truth.physics.valves) {
      const type = onHeatRun.has(batch) ? `${of} on its heat run` : of;
      const habit = demo.entries
        .flatMap((e) => (e.kind === "valve-reading" && e.valve === valve ? [e] : []))
        .map((e) => `${e.section} ${e.phase} ${e.plate_V} ${e.grid_V} ${Object.keys(e).sort().join()}`)
        .join("\n");
      habits.set(type, (habits.get(type) ?? new Set()).add(habit));
    }
    for (const [type, kinds] of habits) expect(`${type}: ${kinds.size}`).toBe(`${type}: 1`);
  });
});

describe("proofs void proofs", () => {
  const reachedClaims = (touched: Parameters<typeof reached>[1]["touched"], unit = "0417") => {
    const model = shop.modelOf(unit)!;
    return model.claims.filter(({ restsOn }) => reachesOneOf(reached(model, { touched }), restsOn)).map((c) => c.claim);
  };

  // source: design.md, "Proofs void proofs"
  test("a valve exchanged at V2 of an Ebb voids four: balance, hum, its stage's test points, DC at the jack", () => {
    expect(new Set(reachedClaims([{ position: "V2" }]))).toEqual(
      new Set(["balance", "hum", "test-points-output", "dc-at-jack"]),
    );
  });

  test("another tap voids heaters, HT, flux, fuse, label and every safety test, on both models", () => {
    for (const unit of ["0417", "0588"]) {
      const safety = shop.modelOf(unit)!.claims.filter((c) => c.safety);
      expect(safety.map((c) => c.claim)).toContain("earth-bond");
      expect(new Set(reachedClaims([{ supply: "tap" }], unit))).toEqual(
        new Set(["heaters", "ht", "flux", "fuse", "label", ...safety.map((c) => c.claim)]),
      );
    }
  });

  test("an opened case voids earth bond and case soak, a new coat the gap check", () => {
    expect(new Set(reachedClaims([{ case: "closure" }]))).toEqual(new Set(["earth-bond", "case-soak"]));
    expect(reachedClaims([{ case: "finish" }])).toEqual(["case-gap"]);
  });
});

describe("unit 0417", () => {
  const swap = { touched: [{ position: "V2" }], fitted: { V2: "T-118" } };
  const fitted = { V1: "T-104", V2: "T-118" };

  test("has every proof but those drawn from readings and recordings: its valves, its hum, its case over the year", () => {
    const states = claimStates(shop.modelOf("0417")!, evidence, "0417", demo.now);
    expect(states.filter(({ state }) => state !== "proven").map(({ claim }) => claim)).toEqual([
      "valves",
      "hum",
      "case-whole",
    ]);
  });

  test("can prove again what the exchange voids, with readings the bench would get", () => {
    const model = shop.modelOf("0417")!;
    const { voids } = previewRework(model, evidence, "0417", swap, demo.now);
    const claims = retests(
      model,
      voids.map(({ claim }) => claim),
    ).map(({ claim }) => claim);
    expect(new Set(claims)).toEqual(new Set(["test-points-output", "dc-at-jack", "balance"]));

    const done = "2027-03-03T10:00:00Z";
    const later: Evidence[] = [
      {
        id: "swap",
        seq: 90_000,
        at: done,
        recordedAt: done,
        by: "wiring",
        body: { kind: "rework", unit: "0417", ...swap, why: "hum" },
      },
      ...retestReadings(demo.truth, { unit: "0417", fitted, claims, seed: 3 }).map(
        (body, i): Evidence => ({
          id: `r${i}`,
          seq: 90_001 + i,
          at: "2027-03-04T09:00:00Z",
          recordedAt: "2027-03-04T09:00:00Z",
          by: "bench technician",
          body,
        }),
      ),
    ];
    const states = claimStates(model, [...evidence, ...later], "0417", "2027-03-04T17:00:00Z");
    for (const claim of claims) expect(states.find((s) => s.claim === claim)).toMatchObject({ claim, state: "proven" });
  });
});
