import { describe, expect, test } from "vitest";
import { withAdoptedLimits } from "./adopted.ts";
import { dangerRank, forerunners, isLive } from "./checkOrder.ts";
import { claimStates } from "./claimStates.ts";
import type { BodyOf, ClaimSpec, Evidence, Model, Thing } from "./evidence.ts";
import { Ledger } from "./ledger.ts";
import { previewRework } from "./preview.ts";
import { releaseDecision, releaseEntry, releaseStanding } from "./release.ts";
import { retests } from "./retests.ts";
import type { ClaimState } from "./state.ts";
import { at, Book, smallModel } from "./testing/smallShop.ts";
import { expand, isAll, netlistParts, reached, reachesOneOf, thingInWords, wiredParts } from "./things.ts";

const now = at(100);
const statesOf = (book: Book) => claimStates(smallModel, book.entries, "0101", now);
const stateOf = (book: Book, claim: string) => statesOf(book).find((state) => state.claim === claim)!;
const withParts = (parts: unknown, more: Partial<Model> = {}): Model => ({
  ...smallModel,
  netlist: { parts },
  ...more,
});

describe("things of the net list", () => {
  test("a part stands in its channel and its position, one without a channel in all, or in those its position feeds", () => {
    const parts = [
      { id: "R1", channel: "left", stage: "input" },
      { id: "R2", channel: ["left", "right"] },
      { id: "R3", channel: [] },
      { id: "R4", channel: ["left", 2] },
      { id: "R5", channel: ["right"] },
      { id: "R6", channel: [2] },
      { id: "V1a" },
      { id: "V2a", case: "top", supply: "ht", stage: 3 },
    ];
    expect(wiredParts(withParts(parts, { feeds: { V2: ["right"] } }))).toStrictEqual([
      { part: "R1", channel: "left", stage: "input" },
      { part: "R2", channel: "left" },
      { part: "R2", channel: "right" },
      { part: "R3", channel: "left" },
      { part: "R3", channel: "right" },
      { part: "R4", channel: "left" },
      { part: "R4", channel: "right" },
      { part: "R5", channel: "right" },
      { part: "R6", channel: "left" },
      { part: "R6", channel: "right" },
      { part: "V1a", channel: "left", position: "V1" },
      { part: "V1a", channel: "right", position: "V1" },
      { part: "V2a", channel: "right", position: "V2", case: "top", supply: "ht" },
    ]);
    const model = withParts(parts);
    expect(wiredParts(model)).toBe(wiredParts(model));
  });

  test("what carries no id is no part, and a net list may have none", () => {
    expect(netlistParts(withParts([null, "R1", 3, { kind: "resistor" }, { id: 4 }, { id: "R2" }]))).toEqual([
      { id: "R2" },
    ]);
    expect(netlistParts(withParts("none"))).toEqual([]);
    expect(netlistParts({ netlist: {} })).toEqual([]);
  });

  test("a thing is another where it has all that the other names, and names something", () => {
    const thing = { part: "R1", channel: "left", stage: "input" };
    expect(isAll(thing, { channel: "left", stage: "input" })).toBe(true);
    expect(isAll(thing, { channel: "left", stage: "output" })).toBe(false);
    expect(isAll(thing, { position: "V1" })).toBe(false);
    expect(isAll(thing, { channel: "left", position: undefined } as Thing)).toBe(true);
    expect(isAll(thing, {})).toBe(false);
    expect(isAll(thing, { position: undefined } as unknown as Thing)).toBe(false);
  });

  test("a touch reaches itself and each part that is all of it; an exchanged valve its position", () => {
    expect(expand(smallModel, { case: "closure" })).toEqual([{ case: "closure" }]);
    expect(expand(smallModel, { stage: "input", channel: "left" }).slice(1)).toEqual([
      { part: "R1", channel: "left", stage: "input" },
      { part: "V1a", channel: "left", position: "V1", stage: "input" },
    ]);
    const both = reached(smallModel, { touched: [{ case: "finish" }], fitted: { V1: "N2" } });
    expect(both.slice(0, 2)).toEqual([{ case: "finish" }, { position: "V1" }]);
    expect(both).toContainEqual({ part: "V1b", channel: "right", position: "V1", stage: "input" });
    expect(reachesOneOf(both, [{ stage: "output" }, { stage: "input" }])).toBe(true);
    expect(reachesOneOf(both, [{ stage: "output" }])).toBe(false);
    expect(thingInWords({ position: "V2", channel: "left" })).toBe("position V2, channel left");
  });
});

describe("the order of checks", () => {
  const spec = (claim: string, check: Partial<ClaimSpec["check"]> = {}, safety = false): ClaimSpec => ({
    ...smallModel.claims[0]!,
    claim,
    safety,
    check: { ...smallModel.claims[0]!.check, danger: "none", hands_min: 10, ...check },
  });

  test("dangers rise to high voltage; those of mains and above can kill", () => {
    const dangers = ["none", "dust", "hot", "mains", "high-voltage"] as const;
    expect(dangers.map(dangerRank)).toEqual([0, 1, 2, 3, 4]);
    expect(dangers.filter(isLive)).toEqual(["mains", "high-voltage"]);
  });

  test("what must come before a check, directly or through others, a circle and a strange name included", () => {
    const claims = [
      spec("a"),
      spec("b", { after: ["a"] }),
      spec("c", { after: ["b", "gone"] }),
      spec("x", { after: ["y"] }),
      spec("y", { after: ["x"] }),
    ];
    const before = forerunners({ claims });
    expect([...before].map(([claim, of]) => [claim, [...of].toSorted()])).toEqual([
      ["a", []],
      ["b", ["a"]],
      ["c", ["a", "b", "gone"]],
      ["x", ["x", "y"]],
      ["y", ["x", "y"]],
    ]);
  });

  test("again are made: the safety tests, what such a test waits for, the least danger, the least hands", () => {
    const claims = [
      spec("slow", { hands_min: 20 }),
      spec("quick", { hands_min: 2 }),
      spec("hot", { danger: "hot", hands_min: 1 }),
      spec("waited for", { danger: "high-voltage", hands_min: 30 }),
      spec("bond", { danger: "mains", after: ["waited for"] }, true),
      spec("leakage", { danger: "high-voltage", hands_min: 1 }, true),
      spec("last", { after: ["bond"], hands_min: 0 }),
    ];
    const order = (of: Iterable<string>) => retests({ claims }, of).map(({ claim }) => claim);
    expect(order(claims.map(({ claim }) => claim).toReversed())).toEqual([
      "leakage",
      "waited for",
      "bond",
      "last",
      "quick",
      "slow",
      "hot",
    ]);
    expect(order(["last", "hot", "nothing of that name"])).toEqual(["last", "hot"]);
    // What waits in a circle appears all the same, once what waits for nothing is done.
    const circle = [
      spec("x", { after: ["y"], hands_min: 1 }),
      spec("y", { after: ["x"], hands_min: 2 }),
      spec("z", { hands_min: 9 }),
    ];
    expect(retests({ claims: circle }, ["x", "y", "z"]).map(({ claim }) => claim)).toEqual(["z", "x", "y"]);
  });
});

describe("a rework that is thought of", () => {
  test("comes after everything on record, and tells what would change", () => {
    const book = Book.opened();
    book.proveAll(1);
    book.read(150, "balance");
    book.read(1, "valves", { valve: "T2", index: 0, value: 50 });
    const preview = (rework: Pick<BodyOf<"rework">, "touched" | "fitted">, at_ = now) =>
      previewRework(smallModel, book.entries, "0101", rework, at_);
    const seen = (of: ReturnType<typeof preview>) =>
      of.changes.map(({ before, after }) => `${after.claim} ${before.state} ${after.state}`);
    const coat = preview({ touched: [{ case: "finish" }] });
    expect(seen(coat)).toEqual(["case-gap proven void"]);
    expect(coat.voids.map(({ claim }) => claim)).toEqual(["case-gap"]);
    expect(coat.states.map(({ claim }) => claim)).toEqual(smallModel.claims.map(({ claim }) => claim));
    const swap = preview({ touched: [], fitted: { V2: "T2" } });
    expect(seen(swap)).toEqual([
      "valves proven refuted",
      "test-points-output proven void",
      "dc-at-jack proven void",
      "balance proven void",
      "hum proven void",
    ]);
    expect(swap.voids.map(({ claim }) => claim)).not.toContain("valves");
    expect(seen(preview({ touched: [] }))).toEqual([]);
    // A reading dated ahead of the bench's clock falls as well.
    expect(seen(preview({ touched: [{ position: "V1" }] }, at(151)))).toContain("balance proven void");
    expect(seen(preview({ touched: [{ position: "V1" }] }, at(2)))).toContain("balance proven void");
    expect(seen(preview({ touched: [{ position: "V1" }] }, at(150)))).toContain("balance proven void");
    expect(seen(preview({ touched: [{ position: "V1" }] }, at(150 - 0.5 / 60)))).toContain("balance proven void");
  });
});

describe("what is said of a claim", () => {
  test("of one figure why, of several where or that all lie inside", () => {
    const book = Book.opened();
    expect(stateOf(book, "balance").because).toBe("No balance_dB on record.");
    expect(stateOf(book, "hum").because).toBe("Left channel: no hum_uVrms on record.");
    expect(stateOf(book, "hum").wouldDecide).toBe("make the hum check (10 min)");
    book.read(1, "hum", { index: 0 });
    expect(stateOf(book, "hum").because).toBe("Right channel: no hum_uVrms on record.");
    book.read(1, "hum", { index: 1 });
    book.read(1, "balance", { value: 0.1, doubt: 0.1 });
    expect(stateOf(book, "hum").because).toBe("All 2 figures lie inside their limits by their doubt.");
    expect(stateOf(book, "hum")).not.toHaveProperty("wouldDecide");
    expect(stateOf(book, "balance").because).toBe("Reads balance_dB 0.1 ± 0.1, inside -0.5 to 0.5 by its doubt.");
    // The most pressing first: outside, fallen, missing, undecided.
    book.read(2, "hum", { index: 0, value: 49, doubt: 5 });
    expect(stateOf(book, "hum")).toMatchObject({
      state: "undecided",
      because: expect.stringMatching(/^Left channel: reads/),
    });
    book.read(2, "hum", { index: 1, value: 100, doubt: 5 });
    expect(stateOf(book, "hum")).toMatchObject({
      state: "refuted",
      because: expect.stringMatching(/^Right channel: reads/),
    });
  });

  test("a concession is of its own claim, and falls with a figure that refutes it and was written since", () => {
    const book = Book.opened();
    book.read(1, "hum", { index: 0, value: 100 });
    book.read(1, "balance", { value: 3 });
    const concede = (claim: string) =>
      book.write(2, { kind: "concession", unit: "0101", claim, reason: "the customer accepts it" }, { by: "owner" });
    concede("balance");
    expect(stateOf(book, "hum").state).toBe("refuted");
    const id = concede("hum");
    // One channel is refuted, the other was never read.
    expect(stateOf(book, "hum")).toMatchObject({
      state: "conceded",
      concession: id,
      because: "The owner conceded it on 2026-03-01 02:00: the customer accepts it",
    });
    book.read(3, "hum", { index: 1 });
    expect(stateOf(book, "hum").state).toBe("conceded");
    book.read(3, "hum", { index: 1, value: 100 });
    expect(stateOf(book, "hum").state).toBe("refuted");
    expect(concede("hum")).not.toBe(id);
    expect(stateOf(book, "hum").state).toBe("conceded");
  });
});

test("a concession falls with a rework that was written down after it, though it was done before", () => {
  const book = Book.opened();
  book.read(1, "balance", { value: 3 });
  book.write(5, { kind: "concession", unit: "0101", claim: "balance", reason: "it is slight" }, { by: "owner" });
  expect(stateOf(book, "balance").state).toBe("conceded");
  book.write(0.8, { kind: "rework", unit: "0101", touched: [{ position: "V1" }], why: "noisy" });
  expect(stateOf(book, "balance").state).toBe("refuted");
});

describe("a release", () => {
  const some = (claim: string, more: Partial<ClaimState>) =>
    ({ claim, title: claim, because: "b", figures: [], ...more }) as unknown as ClaimState;

  test("says what is missing, with what would decide where that is known", () => {
    const states = [
      some("a", { state: "open", wouldDecide: "measure" }),
      some("b", { state: "proven", wouldDecide: "nothing" }),
      some("c", { state: "conceded" }),
      some("d", { state: "refuted" }),
    ];
    expect(releaseDecision(states)).toEqual({
      granted: false,
      missing: [
        { claim: "a", title: "a", state: "open", because: "b", wouldDecide: "measure" },
        { claim: "d", title: "d", state: "refuted", because: "b" },
      ],
    });
    expect(releaseDecision(states.slice(1, 3))).toEqual({ granted: true, missing: [] });
    expect(releaseEntry("0101", states.slice(1, 3), "1", "h").claims.map(({ claim, state }) => [claim, state])).toEqual(
      [
        ["b", "proven"],
        ["c", "conceded"],
      ],
    );
  });

  test("is the newest that was written down, until a rework of later takes it back", () => {
    const book = Book.opened();
    book.proveAll(1);
    const standing = () => releaseStanding(smallModel, book.entries, "0101");
    expect(standing()).toEqual({ released: false, because: "It was never released." });
    const release = (hour: number) =>
      book.write(hour, releaseEntry("0101", statesOf(book), "1", "0".repeat(64)), { by: "owner" });
    release(5);
    const touch = book.write(6, { kind: "rework", unit: "0101", touched: [{ case: "finish" }], why: "a coat" });
    expect(standing()).toEqual({
      released: false,
      because: `The release of 2026-03-01 05:00 fell with the rework ${touch} of 2026-03-01 06:00.`,
    });
    // Written down after it, though dated before the first: the chain says that it is the newest.
    const second = release(4);
    expect(standing()).toMatchObject({ released: false, because: expect.stringContaining("2026-03-01 04:00") });
    const third = release(7);
    expect(standing()).toMatchObject({ released: true, release: { id: third } });
    expect(second).not.toBe(third);
  });
});

describe("limits adopted for a place", () => {
  const claim = (safety: boolean, requires: ClaimSpec["requires"]) => ({ ...smallModel.claims[0]!, safety, requires });
  const need = (quantity: string, more: object = {}) => ({ quantity, of: "unit" as const, high: 9, ...more });
  const adopted = (limits: readonly object[], places = ["inland"]) =>
    [
      {
        id: "l",
        seq: 1,
        at: now,
        recordedAt: now,
        by: "owner",
        body: { kind: "safety-limits", market: "m", places, edition: "e", limits },
      },
    ] as unknown as Evidence<"safety-limits">[];
  const judged = (model: Model, limits: readonly object[]) =>
    withAdoptedLimits(model, adopted(limits), "inland").claims.map(({ requires }) => requires);

  test("take the place of both ends, by quantity and by point, in safety claims and routine tests alone", () => {
    const model = {
      ...smallModel,
      claims: [
        claim(true, [
          need("bond_ohm", { low: 1 }),
          need("bond_ohm", { point: "lid" }),
          need("bond_ohm", { point: "foot" }),
          need("flux_T"),
        ]),
        claim(false, [need("bond_ohm"), need("balance_dB")]),
      ],
    };
    const limits = [
      { quantity: "bond_ohm", point: "lid", high: 3 },
      { quantity: "bond_ohm", high: 2 },
      { quantity: "balance_dB", high: 1 },
      { quantity: "flux_T", low: 0.5 },
    ];
    expect(judged(model, limits)).toEqual([
      [
        { quantity: "bond_ohm", of: "unit", high: 2 },
        { quantity: "bond_ohm", of: "unit", point: "lid", high: 3 },
        { quantity: "bond_ohm", of: "unit", point: "foot", high: 2 },
        { quantity: "flux_T", of: "unit", low: 0.5 },
      ],
      [{ quantity: "bond_ohm", of: "unit", high: 2 }, need("balance_dB")],
    ]);
    // A limit of a point alone says nothing of the others.
    expect(judged(model, limits.slice(0, 1))[0]![0]).toEqual(need("bond_ohm", { low: 1 }));
  });

  test("of another place leave the model as it is, itself", () => {
    expect(withAdoptedLimits(smallModel, adopted([{ quantity: "bond_ohm", high: 1 }], ["coast"]), "inland")).toBe(
      smallModel,
    );
  });
});

describe("what a figure stands on", () => {
  test("is followed once, however often it is named, and to what is not on record", () => {
    const book = Book.opened();
    const reading = book.read(1, "flux");
    const find = (hour: number, from: string[], named: { id?: string } = {}) =>
      book.write(
        hour,
        {
          kind: "finding",
          subject: { unit: "0101" },
          quantity: "flux_T",
          value: 1,
          doubt: 0.1,
          calculation: "c",
          version: "1",
          from,
        },
        named,
      );
    find(2, [reading, find(1.5, [reading])]);
    expect(stateOf(book, "flux")).toMatchObject({ state: "proven", figures: [{ instrument: "meter" }] });
    find(3, ["nowhere"]);
    expect(stateOf(book, "flux").because).toBe("It was drawn from nowhere, which is not on record.");
    // One that names itself is followed no farther.
    find(4, ["round"], { id: "round" });
    expect(Ledger.of(book.entries).get("round")).toBeDefined();
    expect(stateOf(book, "flux").state).toBe("proven");
  });
});
