import { expect, test } from "vitest";
import type { Evidence } from "../claims/evidence.ts";
import { admit, foldShop, type Submitted } from "../claims/index.ts";
import { randomStream } from "../maths/random.ts";
import { chainStart } from "./chain.ts";
import { bodyOf, filedUnder, parseSubmissions } from "./submissions.ts";
import { noon } from "./testing/entries.ts";
import { WrittenRecord } from "./writtenRecord.ts";

const names = ["meter-A", "meter-B", "balance"];
const ids = ["one", "two", "three", "four", "e000003"];

/** Instruments, their trials and headphones; some lean on another entry of the same batch, some on none that is there. */
function batch(chance: ReturnType<typeof randomStream>): readonly Submitted[] {
  const one = () => names[chance.integer(names.length)]!;
  const id = () => ids[chance.integer(ids.length)]!;
  const made = Array.from({ length: 1 + chance.integer(4) }, (): object => {
    const named = chance.uniform() < 0.3 ? { id: id() } : {};
    const instrument = one();
    switch (chance.integer(5)) {
      case 0:
        return { kind: "headphone", headphone: instrument, impedance_ohm: 32, sensitivity_dB_per_V: 110, ...named };
      case 1: {
        const trial = { reference: "cell", quantity: "level_V", true: 10, limit: 0.1 };
        return { kind: "instrument", instrument, title: instrument, trial, ...named };
      }
      case 2:
        return { kind: "trial", instrument, value: 10, doubt: 0.01, supersedes: id(), ...named };
      default:
        return { kind: "trial", instrument, value: 10, doubt: 0.01, ...named };
    }
  });
  return parseSubmissions(made.map((entry) => ({ at: noon, by: "owner", ...entry })));
}

/** The same the slow way: a shop folded anew for each batch, with one entry after the other in it. */
function plainly(before: readonly Evidence[], given: readonly Submitted[]): readonly Evidence[] | string {
  const shop = foldShop(before);
  const admitted: Evidence[] = [];
  try {
    for (const [i, entry] of given.entries()) {
      filedUnder(`entries[${i}]`, () => admit(entry, shop, { now: noon }));
      const seq = before.length + admitted.length + 1;
      const { at, by } = entry;
      const id = entry.id ?? `e${String(seq).padStart(6, "0")}`;
      const known = shop.ledger.get(id) !== undefined;
      const made: Evidence = { id: known ? `${id} again` : id, seq, at, recordedAt: noon, by, body: bodyOf(entry) };
      admitted.push(made);
      shop.add(made);
    }
    return admitted;
  } catch (fault) {
    return (fault as Error).message;
  }
}

const without = (of: readonly Evidence[] | string) =>
  typeof of === "string" ? of : of.map(({ id, ...said }) => ({ ...said, id: id.split(/ again|:/)[0] }));

// source: second method, a shop folded from nothing for every batch
test("drafts admit and refuse what a shop folded anew would, whatever was refused, given up or prepared before", () => {
  let refused = 0;
  for (let seed = 1; seed <= 60; seed++) {
    const chance = randomStream(`drafts ${seed}`);
    const record = new WrittenRecord();
    for (let round = 0; round < 12; round++) {
      if (chance.uniform() < 0.5) record.prepare(1 + chance.integer(5));
      const draft = record.draft();
      for (let i = 0; i <= chance.integer(3); i++) {
        const given = batch(chance);
        const before = [...record.evidence, ...draft.admitted.map(({ entry }) => entry)];
        const expected = plainly(before, given);
        let found: readonly Evidence[] | string;
        try {
          found = draft
            .admit(
              given,
              () => noon,
              () => undefined,
            )
            .map(({ entry }) => entry);
        } catch (fault) {
          found = (fault as Error).message;
          refused += 1;
        }
        expect(without(found), `seed ${seed}, round ${round}`).toEqual(without(expected));
      }
      const last = draft.admitted.at(-1);
      // One in five is lost on its way to the disk.
      if (last === undefined || chance.uniform() < 0.2) continue;
      record.take(
        draft.admitted.map(({ entry }) => entry),
        last.row.sha256,
      );
      expect(record.head).not.toBe(chainStart);
    }
    const anew = foldShop(record.evidence);
    expect([...record.shop.instruments.values()]).toEqual([...anew.instruments.values()]);
    expect(record.shop.ledger.size).toBe(record.size);
  }
  expect(refused).toBeGreaterThan(100);
});
