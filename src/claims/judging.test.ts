import { describe, expect, test } from "vitest";
import {
  claimStates,
  instrumentStanding,
  isReleased,
  Ledger,
  nextChecks,
  releaseDecision,
  releaseEntry,
} from "./index.ts";
import { at, Book, smallModel } from "./testing/smallShop.ts";

const now = at(100);
const states = (book: Book) => claimStates(smallModel, book.entries, "0101", now);
const stateOf = (book: Book, claim: string) => states(book).find((state) => state.claim === claim)!;

describe("a figure against its limits", () => {
  // source: guard band of one doubt, worked by hand on the limit of 0.5 dB
  test.each([
    [0.3, 0.1, "proven"],
    [0.4, 0.1, "proven"],
    [0.45, 0.1, "undecided"],
    [0.55, 0.1, "undecided"],
    [0.6, 0.1, "refuted"],
    [-0.7, 0.1, "refuted"],
  ])("balance of %f dB with a doubt of %f is %s", (value, doubt, expected) => {
    const book = Book.opened();
    book.read(1, "balance", { value, doubt });
    expect(stateOf(book, "balance").state).toBe(expected);
  });

  test("undecided says which doubt would decide", () => {
    const book = Book.opened();
    book.read(1, "balance", { value: 0.45, doubt: 0.1 });
    expect(stateOf(book, "balance").wouldDecide).toContain("a doubt of at most 0.05");
  });

  test("a measured figure without doubt proves nothing, a counted one does", () => {
    const book = Book.opened();
    book.read(1, "balance", { value: 0.1, doubt: 0 });
    book.read(1, "case-soak", { value: 0, doubt: 0 });
    expect(stateOf(book, "balance")).toMatchObject({ state: "undecided" });
    expect(stateOf(book, "balance").because).toContain("no doubt stated");
    expect(stateOf(book, "case-soak").state).toBe("proven");
  });

  test("one channel says nothing about the other", () => {
    const book = Book.opened();
    book.read(1, "hum", { index: 0 });
    const hum = stateOf(book, "hum");
    expect(hum.state).toBe("open");
    expect(hum.figures.map(({ state }) => state)).toEqual(["proven", "open"]);
  });

  test("a superseded reading does not count, and the newest word does", () => {
    const book = Book.opened();
    const wrong = book.read(1, "balance", { value: 2 });
    book.read(1, "balance", { value: 0.1, supersedes: wrong });
    expect(stateOf(book, "balance").state).toBe("proven");
    book.read(2, "balance", { value: 1 });
    expect(stateOf(book, "balance").state).toBe("refuted");
    book.read(3, "balance", { value: 0.1 });
    expect(stateOf(book, "balance").state).toBe("proven");
  });

  test("a failed safety test is not outvoted by repeating it", () => {
    const book = Book.opened();
    const failed = book.read(1, "earth-bond", { value: 0.3 });
    book.read(2, "earth-bond");
    expect(stateOf(book, "earth-bond").state).toBe("refuted");
    const repaired = new Book();
    repaired.entries.push(...book.entries);
    repaired.write(3, { kind: "rework", unit: "0101", touched: [{ case: "closure" }], why: "earth screw tightened" });
    expect(stateOf(repaired, "earth-bond").state).toBe("void");
    repaired.read(4, "earth-bond");
    expect(stateOf(repaired, "earth-bond").state).toBe("proven");
    book.read(5, "earth-bond", { supersedes: failed });
    expect(stateOf(book, "earth-bond").state).toBe("proven");
  });

  test("a reading dated after now proves nothing yet", () => {
    const book = Book.opened();
    book.read(101, "balance");
    expect(stateOf(book, "balance").state).toBe("open");
  });
});

describe("instruments on trial", () => {
  test("a failed trial takes back what was read since the last good one, and only that", () => {
    const book = Book.opened();
    book.read(1, "balance");
    book.trial(2, 10);
    book.read(3, "ht");
    book.trial(4, 10.5);
    expect(stateOf(book, "balance").state).toBe("proven");
    expect(stateOf(book, "ht")).toMatchObject({ state: "void" });
    expect(stateOf(book, "ht").because).toContain("meter failed its trial");
  });

  test("readings after a failed trial do not count until one is passed", () => {
    const book = Book.opened();
    book.trial(1, 10.5);
    book.read(2, "balance");
    expect(stateOf(book, "balance").state).toBe("void");
    book.trial(3, 10);
    expect(stateOf(book, "balance").state).toBe("void");
    book.read(4, "balance");
    expect(stateOf(book, "balance").state).toBe("proven");
  });

  test("an instrument never tried leaves it undecided, and its trial decides", () => {
    const book = Book.opened();
    book.write(0, {
      kind: "instrument",
      instrument: "old meter",
      title: "Old meter",
      trial: { reference: "cell", quantity: "level_V", true: 1.5, limit: 0.01 },
    });
    book.read(1, "balance", { instrument: "old meter" });
    expect(stateOf(book, "balance").state).toBe("undecided");
    expect(stateOf(book, "balance").wouldDecide).toContain("try old meter on cell");
    expect(instrumentStanding(Ledger.of(book.entries), "old meter").state).toBe("untried");
    book.trial(2, 1.5, "old meter", 0.001);
    expect(stateOf(book, "balance").state).toBe("proven");
    expect(instrumentStanding(Ledger.of(book.entries), "old meter").state).toBe("good");
  });

  test("a trial nearer to its limit than its doubt decides nothing", () => {
    const book = Book.opened();
    book.trial(1, 10.095);
    book.read(2, "balance");
    expect(stateOf(book, "balance").state).toBe("undecided");
    expect(instrumentStanding(Ledger.of(book.entries), "meter").state).toBe("undecided");
  });

  test("a trial written down wrongly can be put right", () => {
    const book = Book.opened();
    book.read(1, "balance");
    const slip = book.trial(2, 100);
    expect(stateOf(book, "balance").state).toBe("void");
    book.write(2, { kind: "trial", instrument: "meter", value: 10, doubt: 0.01, supersedes: slip });
    expect(stateOf(book, "balance").state).toBe("proven");
  });
});

describe("concession and release", () => {
  const concede = (book: Book, hour: number, claim: string, by = "owner") =>
    book.write(hour, { kind: "concession", unit: "0101", claim, reason: "the customer accepts it" }, { by });

  test("the owner concedes a refuted claim; nobody else does, and never a safety claim", () => {
    const book = Book.opened();
    book.read(1, "balance", { value: 1 });
    book.read(1, "earth-bond", { value: 1 });
    concede(book, 2, "balance", "bench");
    expect(stateOf(book, "balance").state).toBe("refuted");
    concede(book, 3, "balance");
    concede(book, 3, "earth-bond");
    expect(stateOf(book, "balance").state).toBe("conceded");
    expect(stateOf(book, "earth-bond").state).toBe("refuted");
  });

  test("a concession stands for what was known: a touching rework ends it, and so does a worse reading", () => {
    const book = Book.opened();
    book.read(1, "balance", { value: 1 });
    concede(book, 2, "balance");
    book.read(3, "balance", { value: 3 });
    expect(stateOf(book, "balance").state).toBe("refuted");
    concede(book, 4, "balance");
    expect(stateOf(book, "balance").state).toBe("conceded");
    book.write(5, { kind: "rework", unit: "0101", touched: [{ position: "V1" }], why: "reseated" });
    expect(stateOf(book, "balance").state).toBe("void");
  });

  test("release is refused for each claim that is not closed, and granted when none is left", () => {
    const book = Book.opened();
    book.proveAll(1);
    expect(releaseDecision(states(book))).toEqual({ granted: true, missing: [] });
    book.read(2, "flux", { value: 1.39, doubt: 0.05 });
    book.write(2, { kind: "rework", unit: "0101", touched: [{ case: "finish" }], why: "coat" });
    const { granted, missing } = releaseDecision(states(book));
    expect(granted).toBe(false);
    expect(missing.map(({ claim, state }) => `${claim} ${state}`)).toEqual(["flux undecided", "case-gap void"]);
    expect(releaseDecision([])).toMatchObject({ granted: false });
  });

  test("a release stands until a rework touches a claim, even one written down late", () => {
    const book = Book.opened();
    book.proveAll(1);
    const before = [...book.entries];
    book.write(3, releaseEntry("0101", states(book), "1", "0".repeat(64)));
    expect(isReleased(smallModel, before, "0101")).toBe(false);
    expect(isReleased(smallModel, book.entries, "0101")).toBe(true);
    book.write(2, { kind: "rework", unit: "0101", touched: [{ case: "finish" }], why: "done before, told after" });
    expect(isReleased(smallModel, book.entries, "0101")).toBe(false);
  });

  test("a release keeps its figures, and a trial that fails later does not undo it", () => {
    const book = Book.opened();
    book.proveAll(1);
    const release = releaseEntry("0101", states(book), "1", "0".repeat(64));
    expect(release.claims).toHaveLength(smallModel.claims.length);
    expect(release.claims[0]!.figures[0]).toMatchObject({ quantity: "drift_pct", value: 0, state: "proven" });
    book.write(3, release);
    book.trial(4, 11);
    expect(isReleased(smallModel, book.entries, "0101")).toBe(true);
    expect(releaseDecision(states(book)).granted).toBe(false);
  });
});

describe("next checks", () => {
  // source: worked by hand: odds · (late − repair) / minutes = 0.05 · (8 − 1) / 10 = 0.035 h a minute
  test("rank by hours saved for a minute of hands", () => {
    const next = nextChecks(states(Book.opened()), smallModel);
    const balance = next.find(({ claim }) => claim === "balance")!;
    expect(balance.saves_h_per_min).toBeCloseTo(0.035, 12);
    // source: 0.05 · 7 / 5 min
    expect(next[0]).toMatchObject({ claim: "earth-bond" });
    expect(next[0]!.saves_h_per_min).toBeCloseTo(0.07, 12);
  });

  test("offer nothing whose forerunners are not proven, nothing refuted, and nothing past a limit", () => {
    const book = Book.opened();
    expect(nextChecks(states(book), smallModel).map(({ claim }) => claim)).not.toContain("insulation");
    book.read(1, "earth-bond");
    book.read(1, "balance", { value: 2 });
    const names = nextChecks(states(book), smallModel).map(({ claim }) => claim);
    expect(names).toContain("insulation");
    expect(names).toContain("case-soak");
    expect(names).not.toContain("balance");
    const quick = nextChecks(states(book), smallModel, { wait_h: 1, dangers: ["none"] }).map(({ claim }) => claim);
    expect(quick).not.toContain("case-soak");
    expect(quick).not.toContain("insulation");
  });
});
