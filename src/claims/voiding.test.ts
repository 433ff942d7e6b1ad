import { describe, expect, test } from "vitest";
import type { Thing } from "./evidence.ts";
import { claimStates, previewRework, retests } from "./index.ts";
import { at, Book, smallModel } from "./testing/smallShop.ts";

const now = at(100);
const stateOf = (book: Book, claim: string, unit = "0101") =>
  claimStates(smallModel, book.entries, unit, now).find((state) => state.claim === claim)!;
const inState = (book: Book, state: string, unit = "0101") =>
  claimStates(smallModel, book.entries, unit, now)
    .filter((claim) => claim.state === state)
    .map(({ claim }) => claim)
    .toSorted();

function proven(): Book {
  const book = Book.opened();
  book.proveAll(1);
  book.read(1, "valves", { valve: "T2", index: 0 });
  book.read(1, "valves", { valve: "T2", index: 1 });
  return book;
}

describe("what a rework voids", () => {
  test("nothing, while nothing was touched", () => {
    expect(inState(proven(), "proven")).toHaveLength(smallModel.claims.length);
  });

  // source: the design's own rule, "Proofs void proofs", its four examples
  test.each<[string, Thing[], string[]]>([
    ["a valve swapped", [{ position: "V2" }], ["balance", "dc-at-jack", "hum", "test-points-output"]],
    [
      "a transformer tap changed",
      [{ supply: "tap" }],
      ["earth-bond", "flux", "fuse", "heaters", "ht", "insulation", "label", "touch-current"],
    ],
    ["a case opened", [{ case: "closure" }], ["case-soak", "earth-bond"]],
    ["a new coat", [{ case: "finish" }], ["case-gap"]],
  ])("%s", (_, touched, expected) => {
    const book = proven();
    const fitted = touched[0]!.position ? { V2: "T2" } : undefined;
    book.write(2, { kind: "rework", unit: "0101", touched, why: "tried", ...(fitted && { fitted }) });
    expect(inState(book, "void")).toEqual(expected);
    expect(inState(book, "proven")).toHaveLength(smallModel.claims.length - expected.length);
  });

  test("a part soldered voids what rests on its stage, and an exchanged valve is touched without saying so", () => {
    const book = proven();
    book.write(2, { kind: "rework", unit: "0101", touched: [{ part: "R1" }], why: "dry joint" });
    expect(inState(book, "void")).toEqual(["test-points-input"]);
    book.write(3, { kind: "rework", unit: "0101", touched: [{ part: "R1" }], fitted: { V2: "T2" }, why: "hum" });
    expect(inState(book, "void")).toContain("hum");
  });

  test("a part that names no channel serves them all", () => {
    const book = proven();
    book.write(2, { kind: "rework", unit: "0101", touched: [{ part: "C9" }], why: "new reservoir" });
    expect(inState(book, "void")).toEqual(["ht", "hum"]);
  });

  test("evidence taken after the rework proves again, and the reason names the rework before", () => {
    const book = proven();
    book.write(2, { kind: "rework", unit: "0101", touched: [{ case: "finish" }], why: "new coat" }, { id: "coat" });
    expect(stateOf(book, "case-gap").because).toContain("coat");
    book.read(3, "case-gap");
    expect(stateOf(book, "case-gap").state).toBe("proven");
  });

  test("a reading entered late, taken before the rework, stays void", () => {
    const book = Book.opened();
    book.write(2, { kind: "rework", unit: "0101", touched: [{ case: "finish" }], why: "new coat" });
    book.read(1, "case-gap");
    expect(stateOf(book, "case-gap").state).toBe("void");
  });

  test("a rework entered late spares a sound reading taken after it, but no safety test", () => {
    const book = proven();
    book.write(0.8, { kind: "rework", unit: "0101", touched: [{ case: "closure" }], why: "opened yesterday" });
    expect(stateOf(book, "case-soak").state).toBe("proven");
    expect(stateOf(book, "earth-bond").state).toBe("void");
  });

  test("evidence of a valve follows whichever valve stands at the position", () => {
    const book = proven();
    book.write(2, { kind: "rework", unit: "0101", touched: [{ position: "V2" }], fitted: { V2: "T3" }, why: "hum" });
    expect(stateOf(book, "valves").state).toBe("open");
    book.read(3, "valves", { valve: "T3", index: 0, value: 9 });
    expect(stateOf(book, "valves").state).toBe("refuted");
    book.write(4, { kind: "rework", unit: "0101", touched: [{ position: "V2" }], fitted: { V2: "T2" }, why: "drift" });
    expect(stateOf(book, "valves").state).toBe("proven");
  });

  test("the preview tells beforehand what the rework then does", () => {
    const book = proven();
    const rework = { touched: [{ position: "V2" }], fitted: { V2: "T2" } };
    const preview = previewRework(smallModel, book.entries, "0101", rework, now);
    book.write(2, { kind: "rework", unit: "0101", why: "as previewed", ...rework });
    expect(preview.voids.map(({ claim }) => claim).toSorted()).toEqual(inState(book, "void"));
    expect(preview.voids).toHaveLength(4);
  });
});

describe("findings", () => {
  const finding = (book: Book, hour: number, from: string[], value = 10) =>
    book.write(hour, {
      kind: "finding",
      subject: { unit: "0101", channel: "left" },
      quantity: "hum_uVrms",
      value,
      doubt: 1,
      calculation: "hum.trace",
      version: "1",
      from,
    });
  const recording = (book: Book, hour: number, valves: Record<string, string>, supersedes?: string) =>
    book.write(hour, {
      kind: "recording",
      unit: "0101",
      recording: `r${hour}`,
      file_sha256: "0".repeat(64),
      fullScale_Vpk: 1,
      channels: ["left", "right"],
      supply: { source: "regenerated", frequency_Hz: 57 },
      building_Hz: 50,
      valves,
      input: "shorted",
      instrument: "recorder",
      ...(supersedes && { supersedes }),
    });
  const fitted = { V1: "N1", V2: "T1" };
  const left = (book: Book) => stateOf(book, "hum").figures[0]!;

  test("a finding drawn after a rework from a recording made before it is void", () => {
    const book = Book.opened();
    const before = recording(book, 1, fitted);
    book.write(2, { kind: "rework", unit: "0101", touched: [{ supply: "ht" }], why: "new choke" });
    finding(book, 3, [before]);
    expect(left(book).state).toBe("void");
    finding(book, 4, [recording(book, 3.5, fitted)]);
    expect(left(book).state).toBe("proven");
  });

  test("a finding falls with a recording that was superseded, however far below", () => {
    const book = Book.opened();
    const recorded = recording(book, 1, fitted);
    const below = finding(book, 2, [recorded]);
    finding(book, 3, [below]);
    expect(left(book).state).toBe("proven");
    recording(book, 1.5, fitted, recorded);
    expect(left(book)).toMatchObject({ state: "void" });
    expect(left(book).why).toContain("superseded");
  });

  test("a finding inherits the instrument of its recording", () => {
    const book = Book.opened();
    finding(book, 2, [recording(book, 1, fitted)]);
    expect(left(book).instrument).toBe("recorder");
    book.trial(3, 11, "recorder");
    expect(left(book)).toMatchObject({ state: "void" });
    expect(left(book).why).toContain("recorder failed its trial");
  });

  test("a recording made with a borrowed valve proves nothing of the unit as it stands", () => {
    const book = Book.opened();
    finding(book, 2, [recording(book, 1, { ...fitted, V2: "T2" })]);
    expect(left(book).state).toBe("void");
    expect(left(book).why).toContain("T1 stands");
  });

  test("a finding from something not on record is void", () => {
    const book = Book.opened();
    finding(book, 2, ["nowhere"]);
    expect(left(book).state).toBe("void");
  });
});

describe("retests", () => {
  test("safety tests that protect the tester come first, each after what must come before it", () => {
    const order = retests(smallModel, ["touch-current", "hum", "insulation", "case-soak", "earth-bond", "balance"]);
    expect(order.map(({ claim }) => claim)).toEqual([
      "earth-bond",
      "insulation",
      "touch-current",
      "balance",
      "hum",
      "case-soak",
    ]);
  });
});

test("a hum figure falls with the regenerator it was recorded on, as with its recorder", () => {
  const book = proven();
  book.write(2, {
    kind: "instrument",
    instrument: "regenerator",
    title: "Regenerated supply",
    trial: { reference: "bench load", quantity: "crestFactor", true: Math.SQRT2, limit: 0.03 },
  });
  book.trial(2, 1.412, "regenerator", 0.004);
  const taken = book.write(3, {
    kind: "recording",
    unit: "0101",
    recording: "clean",
    file_sha256: "a".repeat(64),
    fullScale_Vpk: 1,
    channels: ["left", "right"],
    supply: { source: "regenerated", frequency_Hz: 57, instrument: "regenerator" },
    building_Hz: 50,
    valves: { V1: "N1", V2: "T1" },
    input: "shorted",
    instrument: "recorder",
  });
  for (const channel of ["left", "right"]) {
    book.write(3, {
      kind: "finding",
      subject: { unit: "0101", channel },
      quantity: "hum_uVrms",
      value: 10,
      doubt: 1,
      calculation: "hum.audible",
      version: "1",
      from: [taken],
    });
  }
  expect(stateOf(book, "hum").state).toBe("proven");
  book.trial(6, 1.29, "regenerator", 0.004);
  expect(stateOf(book, "hum").state).toBe("void");
  expect(stateOf(book, "hum").because).toMatch(/regenerator failed its trial/);
});
