import { appendFileSync, mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import fc from "fast-check";
import { afterAll, expect, onTestFinished, test, vi } from "vitest";
import type { Figure } from "./answer.ts";
import { InstrumentFault } from "./fault.ts";
import { Journal } from "./journal.ts";
import { type LogKeeper, type LogPlan, LogRun } from "./logRun.ts";

const folder = mkdtempSync(join(tmpdir(), "stillglow-logs-"));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const plan = (id: string, more: Partial<LogPlan> = {}): LogPlan => ({
  id,
  by: "bench",
  kind: "log",
  instrument: "meter-lan",
  quantity: "level_V",
  about: { unit: "0101", point: "HT" },
  every_s: 1,
  for_s: 6,
  conditions: { load: "none" },
  ...more,
});

const figure = (value: number): Figure => ({ ok: true, value, doubt: 0.1, raw: String(value) });

/** A ledger that refuses an id given twice, as the store does. */
class Chain {
  readonly entries = new Map<string, Record<string, unknown>>();
  /** How often writing fails from now on, before and after the entries are down. */
  failures: ("before" | "after")[] = [];
  write(entries: readonly object[]): void {
    const failure = this.failures.shift();
    if (failure === "before") throw new Error("the disk is full");
    for (const entry of entries as Record<string, unknown>[]) {
      if (this.entries.has(entry.id as string)) throw new Error(`${entry.id} is given twice`);
    }
    for (const entry of entries as Record<string, unknown>[]) this.entries.set(entry.id as string, entry);
    if (failure === "after") throw new Error("the answer was lost");
  }
  keeper(read: () => Promise<Figure>, more: Partial<LogKeeper> = {}): LogKeeper {
    return {
      now: () => new Date().toISOString(),
      read,
      standing: () => ({ words: "read 10 ± 0.01", trial: "t1" }),
      has: (id) => this.entries.has(id),
      write: (entries) => this.write(entries),
      changed: () => undefined,
      ...more,
    };
  }
}

function ticking() {
  vi.useFakeTimers({ now: Date.parse("2026-03-01T09:00:00Z"), toFake: ["Date", "setTimeout", "clearTimeout"] });
  onTestFinished(() => void vi.useRealTimers());
}

test("a log reads at even steps, names what it missed, and ends by itself", async () => {
  ticking();
  const chain = new Chain();
  let n = 0;
  const run = new LogRun(
    plan("l1"),
    folder,
    chain.keeper(async () => {
      n += 1;
      if (n === 3) throw new InstrumentFault("meter-lan", "silent", "no answer within 2 s");
      return figure(200 + n);
    }),
  );
  run.begin();
  await vi.advanceTimersByTimeAsync(10_000);
  const readings = [...chain.entries.values()].filter(({ kind }) => kind === "reading");
  expect(readings.map(({ id, value }) => [id, value])).toEqual([
    ["l1.0", 201],
    ["l1.1", 202],
    ["l1.3", 204],
    ["l1.4", 205],
    ["l1.5", 206],
  ]);
  expect(readings[0]).toMatchObject({
    at: "2026-03-01T09:00:00.000Z",
    subject: { unit: "0101", point: "HT" },
    instrument: "meter-lan",
    conditions: { load: "none", log: "l1", step: 0, standing: "read 10 ± 0.01", trial: "t1" },
  });
  expect(chain.entries.get("l1.end")).toMatchObject({
    because: "its time was up",
    logged: 5,
    missed: [{ count: 1, why: "silent" }],
  });
  expect(Journal.exists(folder, "l1")).toBe(false);
});

test("a log stopped with its server goes on at the next even step, and says what it did not see", async () => {
  ticking();
  const chain = new Chain();
  const first = new LogRun(
    plan("l2"),
    folder,
    chain.keeper(async () => figure(1)),
  );
  first.begin();
  await vi.advanceTimersByTimeAsync(1500);
  await first.pause();
  await vi.advanceTimersByTimeAsync(2200);
  const second = new LogRun(
    plan("l2"),
    folder,
    chain.keeper(async () => figure(2)),
  );
  second.begin();
  await vi.advanceTimersByTimeAsync(10_000);
  const steps = [...chain.entries.values()].flatMap(({ id, kind, value }) => (kind === "reading" ? [[id, value]] : []));
  expect(steps).toEqual([
    ["l2.0", 1],
    ["l2.1", 1],
    ["l2.4", 2],
    ["l2.5", 2],
  ]);
  expect(chain.entries.get("l2.end")).toMatchObject({ logged: 4, missed: [{ count: 2 }] });
});

test("a weighing that the ledger refuses is named, and the others stand", async () => {
  ticking();
  const chain = new Chain();
  const refusing = chain.keeper(async () => figure(512), {
    write: (entries) => {
      if (entries.some((entry) => (entry as { id: string }).id === "l3.1")) {
        throw Object.assign(new Error("no wood is that heavy"), { name: "BadInput" });
      }
      chain.write(entries);
    },
  });
  const about = { piece: "A-121" };
  const run = new LogRun(plan("l3", { quantity: "mass_g", about, for_s: 3 }), folder, refusing);
  run.begin();
  await vi.advanceTimersByTimeAsync(6000);
  expect([...chain.entries.keys()]).toEqual(["l3.0", "l3.2", "l3.end"]);
  expect(chain.entries.get("l3.0")).toMatchObject({ kind: "weighing", piece: "A-121", mass_g: 512, doubt_g: 0.1 });
  expect(chain.entries.get("l3.end")).toMatchObject({
    logged: 2,
    missed: [{ count: 1, why: "refused by the ledger: no wood is that heavy" }],
  });
});

test("half a line that a power cut left is cut off, and its step may be read again", () => {
  const journal = Journal.open(folder, "half", 0);
  journal.keep({ step: 0, at: "x", value: 1, doubt: 0.1, standing: "" });
  journal.close();
  appendFileSync(join(folder, "half.jsonl"), '{"step":1,"at":"x","val');
  const again = Journal.open(folder, "half", 99);
  expect(again.started_ms).toBe(0);
  expect(again.steps).toHaveLength(1);
  expect(again.keep({ step: 1, at: "x", value: 2, doubt: 0.1, standing: "" })).toBe(true);
  expect(again.keep({ step: 1, at: "x", value: 3, doubt: 0.1, standing: "" })).toBe(false);
  again.close();
  expect(readFileSync(join(folder, "half.jsonl"), "utf8").trim().split("\n")).toHaveLength(3);
});

// property: every acknowledged reading stands in the ledger exactly once and as it was read, whatever fails and when
test("each reading that was acknowledged is present once, through faults, kills and lost answers", async () => {
  ticking();
  const event = fc.oneof(
    { weight: 6, arbitrary: fc.record({ do: fc.constant("step" as const), reads: fc.boolean() }) },
    { weight: 2, arbitrary: fc.constant({ do: "hand" as const }) },
    { weight: 2, arbitrary: fc.constant({ do: "hand, failing before" as const }) },
    { weight: 2, arbitrary: fc.constant({ do: "hand, answer lost" as const }) },
    { weight: 2, arbitrary: fc.constant({ do: "kill" as const }) },
    { weight: 1, arbitrary: fc.constant({ do: "kill in a write" as const }) },
  );
  let trial = 0;
  await fc.assert(
    fc.asyncProperty(fc.array(event, { minLength: 4, maxLength: 40 }), async (events) => {
      trial += 1;
      const id = `p${trial}`;
      const long = plan(id, { for_s: 100 });
      const chain = new Chain();
      const acknowledged = new Map<string, number>();
      let reads = true;
      let value = 0;
      const begin = () => {
        const run: LogRun = new LogRun(
          long,
          folder,
          chain.keeper(
            async () => {
              value += 1;
              if (!reads) throw new InstrumentFault("meter-lan", "garbled", "51#.3");
              return figure(value);
            },
            {
              changed: () => {
                for (const step of run.steps) {
                  const known = acknowledged.get(`${id}.${step.step}`);
                  if (!("value" in step)) continue;
                  expect(known ?? step.value).toBe(step.value);
                  acknowledged.set(`${id}.${step.step}`, step.value);
                }
              },
            },
          ),
        );
        run.begin();
        return run;
      };
      let run = begin();
      for (const happens of events) {
        if (happens.do === "step") {
          reads = happens.reads;
          await vi.advanceTimersByTimeAsync(1000);
        } else if (happens.do.startsWith("hand")) {
          chain.failures = happens.do === "hand" ? [] : [happens.do === "hand, answer lost" ? "after" : "before"];
          await run.hand().catch(() => undefined);
          chain.failures = [];
        } else {
          // A kill asks nothing: the old run never hears of anything again.
          vi.clearAllTimers();
          if (happens.do === "kill in a write") appendFileSync(join(folder, `${id}.jsonl`), '{"step":99,"value":');
          run = begin();
        }
      }
      reads = true;
      await vi.advanceTimersByTimeAsync(1000);
      await run.stop("bench");
      const readings = [...chain.entries.values()].filter(({ kind }) => kind === "reading");
      expect(new Map(readings.map((entry) => [entry.id as string, entry.value as number]))).toEqual(acknowledged);
      expect(chain.entries.get(`${id}.end`)).toMatchObject({ logged: acknowledged.size });
      vi.clearAllTimers();
    }),
    { numRuns: 60 },
  );
});
