import { describe, expect, test } from "vitest";
import { reworksBearingOn } from "./bearing.ts";
import type { ClaimSpec, Requirement, Subject } from "./evidence.ts";
import { judgeFigure } from "./figure.ts";
import { Ledger } from "./ledger.ts";
import { at, Book, smallModel } from "./testing/smallShop.ts";
import { clockSlack_ms } from "./when.ts";

const claimed = (name: string, more: Partial<ClaimSpec> = {}): ClaimSpec => ({
  ...smallModel.claims.find(({ claim }) => claim === name)!,
  ...more,
});

/** Judges one figure of the only unit there is, at noon of the fifth day. */
function judged(book: Book, wanted: Partial<Requirement>, claim = claimed("balance"), now_ms = Date.parse(at(100))) {
  const ledger = Ledger.of(book.entries);
  const fitted = ledger.fitted("0101");
  const reworks = reworksBearingOn(ledger, smallModel, "0101", claim);
  const requirement = { quantity: "balance_dB", of: "unit", ...wanted } as Requirement;
  return judgeFigure({ ledger, model: smallModel, unit: "0101", fitted, claim, reworks, now_ms }, requirement);
}

const reading = (book: Book, hour: number, subject: Subject, value = 1, doubt = 0.1) =>
  book.write(hour, { kind: "reading", subject, quantity: "level_V", value, doubt, instrument: "meter" });
const level = { quantity: "level_V", low: 0, high: 2 } as const;

describe("what is not on record", () => {
  test("of the unit itself names the unit, its limits and the check that would tell", () => {
    expect(judged(Book.opened(), { low: -0.5, high: 0.5 })).toEqual({
      subject: { unit: "0101" },
      quantity: "balance_dB",
      where: "unit 0101",
      low: -0.5,
      high: 0.5,
      state: "open",
      why: "no balance_dB on record",
      wouldDecide: "make the balance check (10 min)",
    });
    expect(judged(Book.opened(), { high: 0.5 })).not.toHaveProperty("low");
    expect(judged(Book.opened(), { low: 0.5 })).not.toHaveProperty("high");
  });

  test("at a place within the unit names that place", () => {
    const open = judged(Book.opened(), { position: "V1", section: "b", channel: "right", point: "k2" });
    expect(open.subject).toEqual({ unit: "0101", position: "V1", section: "b", channel: "right", point: "k2" });
    expect(open.where).toBe("V1 section b right channel k2");
    expect(judged(Book.opened(), { channel: "left" }).subject).toEqual({ unit: "0101", channel: "left" });
    expect(judged(Book.opened(), { position: "V9" }).why).toBe("no balance_dB on record");
  });

  test("of a valve names the valve that stands there, or that none does", () => {
    const drift = { quantity: "drift_pct", of: "valve", section: "a" } as const;
    const standing = judged(Book.opened(), { ...drift, position: "V2" });
    expect(standing.subject).toEqual({ valve: "T1", section: "a" });
    expect(standing.where).toBe("V2 section a (T1)");
    expect(standing.why).toBe("no drift_pct on record");
    expect(judged(Book.opened(), { ...drift, position: "V3" })).toMatchObject({
      subject: { unit: "0101", position: "V3", section: "a" },
      where: "V3 section a",
      why: "no valve stands at V3",
      wouldDecide: "fit a valve at V3 and record it",
    });
  });

  test("says how long the check takes with hands on it, and how long by itself", () => {
    const check = (wait_h: number) => ({ ...claimed("balance").check, how: "Soak it", hands_min: 2.5, wait_h });
    const told = (wait_h: number) =>
      judged(Book.opened(), {}, claimed("balance", { check: check(wait_h) })).wouldDecide;
    expect(told(0)).toBe("Soak it (2.5 min)");
    expect(told(12)).toBe("Soak it (2.5 min, then 12 h by itself)");
  });
});

describe("which evidence answers", () => {
  const place = { position: "V1", section: "a", channel: "left", point: "a1" };
  test.each(["position", "section", "channel", "point"] as const)(
    "none of another %s, and none of all of them",
    (of) => {
      const book = Book.opened();
      const { [of]: _, ...without } = place;
      reading(book, 1, { unit: "0101", ...place, [of]: "other" });
      reading(book, 1, { unit: "0101", ...without });
      expect(judged(book, { ...level, ...place }).state).toBe("open");
      const right = reading(book, 1, { unit: "0101", ...place });
      reading(book, 2, { unit: "0101", ...without });
      expect(judged(book, { ...level, ...place })).toMatchObject({ state: "proven", evidence: right });
    },
  );

  test("of a valve, read by itself or in this unit and not in another", () => {
    const ofValve = { ...level, of: "valve", position: "V2" } as const;
    const book = Book.opened(["0101", "0102"]);
    reading(book, 1, { valve: "T1", unit: "0102" });
    expect(judged(book, ofValve).state).toBe("open");
    const own = reading(book, 2, { valve: "T1", unit: "0101" });
    reading(book, 3, { valve: "T1", unit: "0102" });
    expect(judged(book, ofValve).evidence).toBe(own);
    const alone = reading(book, 4, { valve: "T1" });
    expect(judged(book, ofValve).evidence).toBe(alone);
    // A reading of the valve that names its socket still answers for the valve.
    const named = reading(book, 5, { valve: "T1", position: "V2" });
    expect(judged(book, ofValve).evidence).toBe(named);
  });

  test("none where no valve stands, though a valve bear the number of the unit", () => {
    const book = Book.opened();
    reading(book, 1, { valve: "0101" });
    expect(judged(book, { ...level, of: "valve", position: "V3" })).toMatchObject({
      state: "open",
      why: "no valve stands at V3",
    });
  });

  test("of the unit with a valve named, as long as that valve stands in it", () => {
    const book = Book.opened();
    const own = reading(book, 1, { unit: "0101", valve: "N1" });
    reading(book, 2, { unit: "0101", valve: "N3" });
    expect(judged(book, level).evidence).toBe(own);
  });

  test("none that was superseded, and none of a later hour than a bench's clock may run ahead", () => {
    const book = Book.opened();
    const wrong = reading(book, 1, { unit: "0101" });
    book.write(1, {
      kind: "reading",
      subject: { unit: "0101", point: "elsewhere" },
      quantity: "level_V",
      value: 1,
      doubt: 0.1,
      instrument: "meter",
      supersedes: wrong,
    });
    expect(judged(book, level).state).toBe("open");
    reading(book, 2, { unit: "0101" });
    const read_ms = Date.parse(at(2));
    const stateAt = (now_ms: number) => judged(book, level, claimed("balance"), now_ms).state;
    expect(stateAt(read_ms - clockSlack_ms)).toBe("proven");
    expect(stateAt(read_ms - clockSlack_ms - 1)).toBe("open");
  });
});

describe("what is said of a figure", () => {
  const said = (value: number, doubt: number, wanted: Partial<Requirement>, claim = claimed("balance")) => {
    const book = Book.opened();
    reading(book, 1, { unit: "0101" }, value, doubt);
    return judged(book, { quantity: "level_V", ...wanted }, claim);
  };

  test("inside by its doubt, of limits on both sides or on one", () => {
    expect(said(200.04, 1, { low: 190, high: 210 })).toEqual({
      subject: { unit: "0101" },
      quantity: "level_V",
      where: "unit 0101",
      low: 190,
      high: 210,
      value: 200.04,
      doubt: 1,
      evidence: "e10",
      instrument: "meter",
      at: at(1),
      state: "proven",
      why: "reads level_V 200 ± 1, inside 190 to 210 by its doubt",
    });
    expect(said(10, 1, { high: 50 }).why).toBe("reads level_V 10 ± 1, inside at most 50 by its doubt");
    expect(said(10, 1, { low: 4 }).why).toBe("reads level_V 10 ± 1, inside at least 4 by its doubt");
  });

  test("outside by its doubt: repair, or a concession that no safety claim has", () => {
    const outside = said(60, 1, { high: 50 });
    expect(outside).toMatchObject({ state: "refuted", why: "reads level_V 60 ± 1, outside at most 50 by its doubt" });
    const again = "repair, record the rework, then make the balance check (10 min)";
    expect(outside.wouldDecide).toBe(`${again}, or ask the owner for a written concession`);
    expect(said(60, 1, { high: 50 }, claimed("balance", { safety: true })).wouldDecide).toBe(again);
  });

  test("nearer than its doubt: the doubt that would decide, of the nearer limit; none decides at the limit itself", () => {
    expect(said(49, 2, { low: -100, high: 50 })).toMatchObject({
      state: "undecided",
      why: "reads level_V 49 ± 2, nearer to -100 to 50 than its doubt",
      wouldDecide: "measure level_V again with a doubt of at most 1",
    });
    expect(said(51, 2, { high: 50 }).wouldDecide).toBe("measure level_V again with a doubt of at most 1");
    expect(said(-98, 4, { low: -100, high: 50 }).wouldDecide).toBe("measure level_V again with a doubt of at most 2");
    expect(said(50, 2, { high: 50 }).wouldDecide).toBe("measure level_V again: it reads the limit itself");
  });

  test("without doubt it proves nothing unless it was counted, and refutes all the same", () => {
    const bare = said(10, 0, { high: 50 });
    expect(bare.state).toBe("undecided");
    expect(bare.why).toContain("reads level_V 10 with no doubt stated");
    expect(bare.wouldDecide).toMatch(/^state the doubt .* or make the balance check \(10 min\)$/);
    expect(said(10, 0, { high: 50, counted: true })).toMatchObject({ state: "proven" });
    expect(said(60, 0, { high: 50 })).toMatchObject({ state: "refuted" });
    expect(said(10, 1, { high: 50, counted: true })).toMatchObject({ state: "proven" });
  });

  test.each([
    ["Measure it warm", "measure it warm"],
    ["AC across the Bond", "AC across the Bond"],
    ["500 V for a Minute", "500 V for a Minute"],
  ])("a check that is called %j goes on within a sentence as %j", (how, expected) => {
    const check = { ...claimed("balance").check, how };
    const told = said(60, 1, { high: 50 }, claimed("balance", { check, safety: true })).wouldDecide;
    expect(told).toBe(`repair, record the rework, then ${expected} (10 min)`);
  });
});

describe("a safety test that failed", () => {
  const bond = { quantity: "level_V", high: 1 } as const;
  const safe = claimed("earth-bond");

  test("stands, the newest of them, against a later one that passed; one that fails now speaks for itself", () => {
    const book = Book.opened();
    reading(book, 1, { unit: "0101" }, 3);
    const second = reading(book, 2, { unit: "0101" }, 2);
    expect(judged(book, bond, safe)).toMatchObject({
      evidence: second,
      why: "reads level_V 2 ± 0.1, outside at most 1 by its doubt",
    });
    const passed = reading(book, 3, { unit: "0101" }, 0.5);
    expect(judged(book, bond, safe)).toMatchObject({
      state: "refuted",
      evidence: second,
      value: 2,
      at: at(2),
      why: "reads level_V 2 ± 0.1, outside at most 1 by its doubt; a failed safety test stands until repair is recorded",
    });
    expect(judged(book, bond, claimed("earth-bond", { safety: false }))).toMatchObject({
      state: "proven",
      evidence: passed,
    });
  });

  test("does not stand where earlier ones passed as well", () => {
    const book = Book.opened();
    reading(book, 1, { unit: "0101" }, 0.4);
    const passed = reading(book, 2, { unit: "0101" }, 0.5);
    expect(judged(book, bond, safe)).toMatchObject({ state: "proven", evidence: passed });
  });
});

describe("what undoes a figure", () => {
  test("a rework is told with each thing it touched and each valve it fitted", () => {
    const book = Book.opened();
    reading(book, 1, { unit: "0101" });
    const id = book.write(2, {
      kind: "rework",
      unit: "0101",
      touched: [{ position: "V1" }, { supply: "ht" }],
      fitted: { V1: "N2" },
      why: "noisy",
    });
    expect(judged(book, level)).toMatchObject({
      state: "void",
      why: `the rework ${id} of 2026-03-01 02:00 touched what it rests on (position V1; supply ht; N2 fitted at V1)`,
      wouldDecide: "make the balance check (10 min)",
      instrument: "meter",
    });
  });

  const recording = (book: Book, hour: number, valves: Record<string, string>, unit = "0101") =>
    book.write(hour, {
      kind: "recording",
      unit,
      recording: `r${hour}`,
      file_sha256: "0".repeat(64),
      fullScale_Vpk: 1,
      channels: ["left", "right"],
      supply: { source: "regenerated", frequency_Hz: 57 },
      building_Hz: 50,
      valves,
      input: "shorted",
      instrument: "recorder",
    });
  const finding = (book: Book, hour: number, from: string[]) =>
    book.write(hour, {
      kind: "finding",
      subject: { unit: "0101" },
      quantity: "level_V",
      value: 1,
      doubt: 0.1,
      calculation: "bench.tone",
      version: "1",
      from,
    });

  test("borrowed valves, in every recording that it was drawn from", () => {
    const strange = { V1: "N1", V2: "T2" };
    const book = Book.opened(["0101", "0102"]);
    finding(book, 2, [recording(book, 1, strange)]);
    expect(judged(book, level)).toMatchObject({
      state: "void",
      why: "it was recorded with T2 at V2, where T1 stands",
      calculation: "bench.tone",
      instrument: "recorder",
    });
    finding(book, 4, [recording(book, 3, strange), recording(book, 3.5, { V1: "N1", V2: "T1" })]);
    expect(judged(book, level).state).toBe("proven");
    finding(book, 6, [recording(book, 5, { V1: "N1", V4: "T2" })]);
    expect(judged(book, level).why).toBe("it was recorded with T2 at V4, where no valve stands");
    // Valves of another unit stand where they stood there.
    finding(book, 8, [recording(book, 7, { V1: "N2", V2: "T2" }, "0102")]);
    expect(judged(book, level).state).toBe("proven");
  });

  test("nothing read with an instrument names none", () => {
    const book = Book.opened();
    finding(book, 2, ["e1"]);
    expect(judged(book, level)).not.toHaveProperty("instrument");
    expect(judged(book, level).calculation).toBe("bench.tone");
    reading(book, 3, { unit: "0101" });
    expect(judged(book, level)).not.toHaveProperty("calculation");
  });
});
