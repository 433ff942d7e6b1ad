import { describe, expect, test } from "vitest";
import { admit, type Submitted } from "../admit/admit.ts";
import type { EvidenceBody } from "../evidence.ts";
import { foldShop, type Shop } from "../shop.ts";
import { at, Book } from "../testing/smallShop.ts";
import { isEnough, type Right } from "./right.ts";
import { isByOwner, neededFor, peopleOf, standingAt } from "./rights.ts";

const now = at(40);
const person = (who: string, may: Right, answersForSafety = false) =>
  ({ kind: "person", person: who, may, answersForSafety }) as const;

/** A small shop with an owner, a bench that measures, and one who only looks. */
function withPeople(): { shop: Shop; enter(by: string, body: EvidenceBody): void } {
  const shop = foldShop(Book.opened().entries);
  let seq = 1000;
  const enter = (by: string, body: EvidenceBody) => {
    const entry = { ...body, at: now, by } as Submitted;
    admit(entry, shop, { now });
    seq += 1;
    shop.add({ id: `p${seq}`, seq, at: now, recordedAt: now, by, body });
  };
  enter("holder", person("holder", "owner"));
  enter("holder", person("bench-2", "measure"));
  enter("holder", person("visitor", "look"));
  return { shop, enter };
}

const reading: EvidenceBody = {
  kind: "reading",
  subject: { unit: "0101" },
  quantity: "ht_V",
  value: 200,
  doubt: 1,
  instrument: "meter",
  conditions: {},
} as EvidenceBody;

describe("who may write", () => {
  test("is anybody, under any name, while nobody is entered", () => {
    const shop = foldShop(Book.opened().entries);
    expect(standingAt(shop.ledger, "bench")).toBeUndefined();
    expect(() => admit({ ...reading, at: now, by: "whoever" } as Submitted, shop, { now })).not.toThrow();
  });

  test("is, once somebody is entered, a person who has the right", () => {
    const { enter } = withPeople();
    expect(() => enter("bench-2", reading)).not.toThrow();
    expect(() => enter("visitor", reading)).toThrow(/visitor may look; it takes the right measure: holder, bench-2/);
    expect(() => enter("somebody", reading)).toThrow(/nobody of that name/);
    const concession: EvidenceBody = { kind: "concession", unit: "0101", claim: "balance", reason: "as agreed" };
    expect(() => enter("bench-2", concession)).toThrow(
      /it takes the right owner: holder; ask one of them, or let an owner give the right$/,
    );
    expect(() => enter("holder", concession)).not.toThrow();
  });

  test("findings are the program's, and nothing else is", () => {
    const { enter } = withPeople();
    const finding: EvidenceBody = {
      kind: "finding",
      subject: { unit: "0101" },
      quantity: "ht_V",
      value: 200,
      doubt: 1,
      calculation: "mean",
      version: "1",
      from: ["e1"],
    };
    expect(() => enter("stillglow", finding)).not.toThrow();
    expect(() => enter("somebody", finding)).toThrow(/nobody of that name/);
    expect(() => enter("stillglow", reading)).toThrow(/nobody of that name/);
    expect(() => enter("holder", person("stillglow", "measure"))).toThrow(/findings are drawn under this name/);
  });

  test("limits of safety tests are the licensed person's alone, whatever else one may", () => {
    const { enter, shop } = withPeople();
    const limits: EvidenceBody = {
      kind: "safety-limits",
      market: "inland",
      places: ["inland"],
      edition: "edition 3",
      limits: [{ quantity: "bond_ohm", high: 0.2, source: "clause 5", seen: "memory" }],
    };
    expect(() => enter("holder", limits)).toThrow(
      /the licensed person who answers for them: nobody yet; let that person enter them$/,
    );
    enter("holder", person("bench-2", "measure", true));
    expect(() => enter("bench-2", limits)).not.toThrow();
    expect(shop.safetyLimits.get("inland")?.by).toBe("bench-2");
    // Whoever has left answers for nothing new.
    enter("holder", person("bench-2", "nothing", true));
    expect(() => enter("bench-2", limits)).toThrow(/nobody of that name/);
  });
});

describe("people", () => {
  test("begin with an owner who enters themselves, and one owner always stays", () => {
    const { enter, shop } = withPeople();
    const empty = foldShop([]);
    const first = (by: string, body: EvidenceBody) => () =>
      admit({ ...body, at: now, by } as Submitted, empty, { now });
    expect(first("holder", person("holder", "release"))).toThrow(/the first person is the owner/);
    expect(first("holder", person("other", "owner"))).toThrow(/the first person is the owner/);
    expect(() => enter("holder", person("holder", "measure"))).toThrow(/holder is the only owner/);
    expect(() => enter("holder", person("holder", "owner", true))).not.toThrow();
    enter("holder", person("second", "owner"));
    enter("second", person("holder", "nothing"));
    expect(() => enter("holder", person("holder", "owner"))).toThrow(/nobody of that name/);
    expect([...peopleOf(shop.ledger)].map(([who, { may }]) => `${who} ${may}`)).toEqual([
      "holder nothing",
      "bench-2 measure",
      "visitor look",
      "second owner",
    ]);
  });

  test("may do what was written of them last, whatever its date, and before it what was written before", () => {
    const book = new Book();
    book.write(1, person("holder", "owner"));
    book.write(10, person("bench-2", "release", true));
    book.write(5, person("bench-2", "look"));
    const { ledger } = foldShop(book.entries);
    const may = (who: string, seq?: number) => standingAt(ledger, who, seq)?.may;
    expect([may("bench-2"), peopleOf(ledger).get("bench-2")?.may]).toEqual(["look", "look"]);
    // An entry is written by who might write it before it was there.
    expect([1, 2, 3, 4].map((seq) => may("bench-2", seq))).toEqual([undefined, "nothing", "release", "look"]);
    expect([1, 2, 3].map((seq) => may("holder", seq))).toEqual([undefined, "owner", "owner"]);
    expect(standingAt(ledger, "somebody")).toEqual({ may: "nothing", answersForSafety: false });
  });

  test("a concession keeps standing when its owner has left since, and an earlier word 'owner' keeps its weight", () => {
    const { enter, shop } = withPeople();
    const before = { by: "owner", seq: 3 };
    enter("holder", { kind: "concession", unit: "0101", claim: "balance", reason: "as agreed" });
    const given = shop.ledger.about("concession", "0101").at(-1)!;
    enter("holder", person("second", "owner"));
    enter("second", person("holder", "nothing"));
    expect(isByOwner(given, shop.ledger)).toBe(true);
    expect(isByOwner(before, shop.ledger)).toBe(true);
    expect(isByOwner({ by: "owner" }, shop.ledger)).toBe(false);
    expect(isByOwner({ by: "holder" }, shop.ledger)).toBe(false);
  });

  test("a right includes those before it, and only the mark answers for safety", () => {
    const standing = (may: Right, answersForSafety = false) => ({ may, answersForSafety });
    expect(isEnough(standing("release"), "measure")).toBe(true);
    expect(isEnough(standing("measure"), "release")).toBe(false);
    expect(isEnough(standing("nothing"), "look")).toBe(false);
    expect(isEnough(standing("owner"), "safety")).toBe(false);
    expect(isEnough(standing("look", true), "safety")).toBe(true);
    expect(
      ["reading", "release", "concession", "safety-limits", "model"].map((kind) => neededFor(kind as never)),
    ).toEqual(["measure", "release", "owner", "safety", "release"]);
  });
});
