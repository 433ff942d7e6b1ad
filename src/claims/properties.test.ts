import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { BadInput } from "../maths/badInput.ts";
import type { Evidence, EvidenceBody, Thing } from "./evidence.ts";
import { admit, claimStates, foldShop, Ledger, releaseEntry, Shop, type Submitted } from "./index.ts";
import { plainStates } from "./testing/plainJudge.ts";
import { at, Book, smallModel } from "./testing/smallShop.ts";

const units = ["0101", "0102"] as const;
const now = at(1000);
const things: readonly Thing[] = [
  { position: "V1" },
  { position: "V2" },
  { part: "R1" },
  { part: "R7" },
  { part: "C9" },
  { stage: "output" },
  { stage: "input", channel: "left" },
  { channel: "right" },
  { supply: "tap" },
  { supply: "ht" },
  { case: "closure" },
  { case: "finish" },
];

/** Something somebody does at the bench; `hour` may lie before what was written down earlier. */
type Act =
  | { readonly do: "prove all"; readonly unit: string }
  | {
      readonly do: "read";
      readonly unit: string;
      readonly claim: number;
      readonly index: number;
      readonly z: number;
      readonly exact: boolean;
      readonly instrument: string;
    }
  | {
      readonly do: "supersede";
      readonly unit: string;
      readonly claim: number;
      readonly index: number;
      readonly z: number;
    }
  | {
      readonly do: "find";
      readonly unit: string;
      readonly claim: number;
      readonly index: number;
      readonly back: number;
    }
  | { readonly do: "rework"; readonly unit: string; readonly touched: readonly Thing[]; readonly valve?: string }
  | { readonly do: "try"; readonly instrument: string; readonly off: number }
  | { readonly do: "concede"; readonly unit: string; readonly claim: number; readonly by: string }
  | { readonly do: "release"; readonly unit: string };

const unit = fc.constantFrom(...units);
const claim = fc.nat(smallModel.claims.length - 1);
const index = fc.nat(1);
/** Where a reading lies: under −1 inside its limits by more than its doubt, over 1 outside, else in doubt. */
const z = fc.constantFrom(-3, -3, -3, -1.5, -0.4, 0.4, 1.5);
const instrument = fc.constantFrom("meter", "meter", "recorder");
const act: fc.Arbitrary<Act> = fc.oneof(
  { weight: 3, arbitrary: fc.record({ do: fc.constant("prove all" as const), unit }) },
  {
    weight: 5,
    arbitrary: fc.record({
      do: fc.constant("read" as const),
      unit,
      claim,
      index,
      z,
      exact: fc.constantFrom(false, false, false, true),
      instrument,
    }),
  },
  { weight: 2, arbitrary: fc.record({ do: fc.constant("supersede" as const), unit, claim, index, z }) },
  { weight: 2, arbitrary: fc.record({ do: fc.constant("find" as const), unit, claim, index, back: fc.nat(30) }) },
  {
    weight: 3,
    arbitrary: fc.record(
      {
        do: fc.constant("rework" as const),
        unit,
        touched: fc.uniqueArray(fc.constantFrom(...things), { minLength: 1, maxLength: 2 }),
        valve: fc.constantFrom("T3", "T4"),
      },
      { requiredKeys: ["do", "unit", "touched"] },
    ),
  },
  {
    weight: 2,
    arbitrary: fc.record({ do: fc.constant("try" as const), instrument, off: fc.constantFrom(0, 0, 0, 0.095, 0.5) }),
  },
  {
    weight: 3,
    arbitrary: fc.record({
      do: fc.constant("concede" as const),
      unit,
      claim,
      by: fc.constantFrom("owner", "owner", "bench"),
    }),
  },
  { weight: 4, arbitrary: fc.record({ do: fc.constant("release" as const), unit }) },
);
/** Most things are written down as they happen, some late. */
const late = fc.constantFrom(0, 0, 0, 0, 1.5, 4.5);
const day = fc.array(fc.tuple(act, late), { minLength: 1, maxLength: 24 });

/** The shop's evidence as the store would have let it in: what is refused is left out. */
class Bench {
  readonly entries: Evidence[] = [];
  readonly shop = new Shop();
  readonly refused: BadInput[] = [];

  constructor() {
    for (const entry of Book.opened(units).entries) this.keep(entry);
  }

  write(hour: number, body: EvidenceBody, by = "bench"): boolean {
    const submitted = { at: at(hour), by, ...body } as Submitted;
    try {
      admit(submitted, this.shop, { now });
    } catch (fault) {
      if (!(fault instanceof BadInput)) throw fault;
      this.refused.push(fault);
      return false;
    }
    const seq = this.entries.length + 1;
    this.keep({ id: `e${seq}`, seq, at: at(hour), recordedAt: at(2000 + seq), by, body });
    return true;
  }

  perform(acts: readonly (readonly [Act, number])[], after: (hour: number) => void = () => undefined): this {
    acts.forEach(([deed, lateness], i) => {
      this.act(deed, 2 * (i + 1) - lateness);
      after(i);
    });
    return this;
  }

  private act(deed: Act, hour: number): void {
    switch (deed.do) {
      case "prove all":
        smallModel.claims.forEach(({ requires }, c) => {
          for (const i of requires.keys()) this.write(hour, this.reading(deed.unit, c, i, -3, "meter"));
        });
        break;
      case "read":
        this.write(hour, this.reading(deed.unit, deed.claim, deed.index, deed.z, deed.instrument, deed.exact));
        break;
      case "supersede": {
        const fresh = this.reading(deed.unit, deed.claim, deed.index, deed.z, "meter");
        const older = this.entries.findLast(
          ({ body }) => body.kind === "reading" && body.quantity === (fresh as { quantity: string }).quantity,
        );
        if (older) this.write(hour, { ...fresh, supersedes: older.id } as EvidenceBody);
        break;
      }
      case "find": {
        const { subject, quantity, value, doubt } = this.reading(
          deed.unit,
          deed.claim,
          deed.index,
          -3,
          "meter",
        ) as Evidence<"reading">["body"];
        const source = this.entries
          .filter(({ body }) => body.kind === "reading" || body.kind === "finding")
          .at(-1 - deed.back);
        if (source)
          this.write(hour, {
            kind: "finding",
            subject,
            quantity,
            value,
            doubt,
            calculation: "c",
            version: "1",
            from: [source.id],
          });
        break;
      }
      case "rework":
        this.write(hour, {
          kind: "rework",
          unit: deed.unit,
          touched: [...deed.touched],
          ...(deed.valve !== undefined && { fitted: { V2: deed.valve } }),
          why: "tried",
        });
        break;
      case "try":
        this.write(hour, { kind: "trial", instrument: deed.instrument, value: 10 + deed.off, doubt: 0.01 });
        break;
      case "concede":
        this.write(
          hour,
          { kind: "concession", unit: deed.unit, claim: smallModel.claims[deed.claim]!.claim, reason: "as agreed" },
          deed.by,
        );
        break;
      case "release":
        this.write(hour, releaseEntry(deed.unit, this.states(deed.unit), "1", "0".repeat(64)));
        break;
    }
  }

  states(of: string) {
    return claimStates(smallModel, this.shop.ledger, of, now);
  }

  private reading(of: string, c: number, i: number, offset: number, by: string, exact = false): EvidenceBody {
    const { requires } = smallModel.claims[c]!;
    const need = requires[i % requires.length]!;
    const doubt = need.counted || exact ? 0 : 0.01 * (need.high ?? need.low!);
    const value = need.counted
      ? offset < 0
        ? 0
        : 1
      : need.high !== undefined
        ? need.high + offset * doubt
        : need.low! - offset * doubt;
    const subject = need.of === "valve" ? { valve: this.shop.units.get(of)!.fitted[need.position!]! } : { unit: of };
    return {
      kind: "reading",
      subject: {
        ...subject,
        ...(need.section && { section: need.section }),
        ...(need.channel && { channel: need.channel }),
        ...(need.point && { point: need.point }),
      },
      quantity: need.quantity,
      value,
      doubt,
      instrument: by,
      conditions: {},
    };
  }

  private keep(entry: Evidence): void {
    this.entries.push(entry);
    this.shop.add(entry);
  }
}

const safety = new Set(smallModel.claims.filter((spec) => spec.safety).map((spec) => spec.claim));
const brief = (bench: { states(of: string): readonly { claim: string; state: string }[] }) =>
  units.map((of) => bench.states(of).map((state) => `${state.claim} ${state.state}`));

describe("whatever is written down, in whatever order", () => {
  test("a unit stands released only where a second, plain reckoning finds every claim closed when it was granted", () => {
    let releases = 0;
    const check = (acts: readonly (readonly [Act, number])[]) => {
      const bench = new Bench();
      bench.perform(acts);
      for (const of of units) {
        if (!bench.shop.isReleased(of)) continue;
        releases += 1;
        const release = bench.shop.ledger.about("release", of).reduce((a, b) => (a.seq > b.seq ? a : b));
        const known = bench.entries.slice(0, release.seq - 1);
        const open = plainStates(smallModel, known, of).filter(({ closed }) => !closed);
        expect(open).toEqual([]);
        const since = bench.entries.filter(
          ({ seq, at: when, body }) =>
            body.kind === "rework" && body.unit === of && (seq > release.seq || when > release.at),
        );
        expect(since).toEqual([]);
      }
    };
    fc.assert(fc.property(day, check), { numRuns: 400 });
    expect(releases).toBeGreaterThan(20);
  });

  test("the state of every claim is that of the plain reckoning", () => {
    fc.assert(
      fc.property(day, (acts) => {
        const bench = new Bench().perform(acts);
        for (const of of units) {
          const ours = bench
            .states(of)
            .map(({ claim: name, state }) => ({ claim: name, closed: state === "proven" || state === "conceded" }));
          expect(ours).toEqual(plainStates(smallModel, bench.entries, of));
        }
      }),
      { numRuns: 300 },
    );
  });

  test("a safety claim is never conceded, though the entry be forged past admission", () => {
    fc.assert(
      fc.property(day, claim, unit, (acts, c, of) => {
        const bench = new Bench().perform(acts);
        const forged: Evidence = {
          id: "forged",
          seq: bench.entries.length + 1,
          at: at(900),
          recordedAt: now,
          by: "owner",
          body: { kind: "concession", unit: of, claim: smallModel.claims[c]!.claim, reason: "never mind" },
        };
        const states = claimStates(smallModel, [...bench.entries, forged], of, now);
        for (const { claim: name, state } of states) if (safety.has(name)) expect(state).not.toBe("conceded");
        expect(bench.entries.some(({ body }) => body.kind === "concession" && safety.has(body.claim))).toBe(false);
      }),
      { numRuns: 150 },
    );
  });

  test("states kept up entry by entry are those made from scratch, whatever order the entries are read in", () => {
    fc.assert(
      fc.property(day, fc.infiniteStream(fc.nat()), (acts, draws) => {
        const bench = new Bench().perform(acts);
        const shuffled = bench.entries
          .map((entry) => ({ entry, draw: draws.next().value as number }))
          .toSorted((a, b) => a.draw - b.draw)
          .map(({ entry }) => entry);
        const again = foldShop(shuffled);
        for (const of of units) {
          expect(claimStates(smallModel, Ledger.of(shuffled), of, now)).toEqual(bench.states(of));
          expect(again.isReleased(of)).toBe(bench.shop.isReleased(of));
          expect(again.units.get(of)).toEqual(bench.shop.units.get(of));
        }
        expect(new Map(again.fittedIn)).toEqual(new Map(bench.shop.fittedIn));
      }),
      { numRuns: 150 },
    );
  });

  test("one more rework never proves anything, whenever it was done, and voids what it touches", () => {
    fc.assert(
      fc.property(
        day,
        unit,
        fc.constantFrom(...things),
        fc.double({ min: 0, max: 60, noNaN: true }),
        (acts, of, touched, hour) => {
          const bench = new Bench().perform(acts);
          const before = bench.states(of);
          const body: EvidenceBody = { kind: "rework", unit: of, touched: [touched], why: "tried" };
          const seq = bench.entries.length + 1;
          const rework: Evidence = { id: "more", seq, at: at(hour), recordedAt: now, by: "bench", body };
          const after = claimStates(smallModel, [...bench.entries, rework], of, now);
          after.forEach(({ state }, i) => {
            if (before[i]!.state !== "proven") expect(state).not.toBe("proven");
          });
        },
      ),
      { numRuns: 150 },
    );
  });

  test("how the entries of two units lie between each other changes nothing", () => {
    fc.assert(
      fc.property(day, fc.infiniteStream(fc.boolean()), (acts, coin) => {
        const bench = new Bench().perform(acts);
        const owner = ({ body }: Evidence) => units.findIndex((of) => concerns(body, of));
        const lanes = [-1, 0, 1].map((lane) => bench.entries.filter((entry) => owner(entry) === lane));
        const mixed = [...lanes[0]!];
        const [first, second] = [[...lanes[1]!], [...lanes[2]!]];
        while (first.length + second.length > 0) {
          const from = second.length === 0 || (first.length > 0 && coin.next().value) ? first : second;
          mixed.push(from.shift()!);
        }
        const entries = mixed.map((entry, i) => ({ ...entry, seq: i + 1 }));
        expect(brief({ states: (of) => claimStates(smallModel, entries, of, now) })).toEqual(brief(bench));
      }),
      { numRuns: 150 },
    );
  });
});

/** Valves T1 and T2 stay with their units here or leave them for good, so their readings count as the unit's. */
function concerns(body: EvidenceBody, of: string): boolean {
  if (body.kind === "reading" || body.kind === "finding") {
    return body.subject.unit === of;
  }
  return "unit" in body && body.unit === of;
}
