import { describe, expect, test } from "vitest";
import type { z } from "zod";
import { claimStates } from "./claimStates.ts";
import type { Drawer } from "./drawers.ts";
import type { body } from "./evidence.ts";
import { releaseEntry } from "./release.ts";
import { foldShop, modelKey, Shop } from "./shop.ts";
import { at, Book, smallModel } from "./testing/smallShop.ts";

type Body = z.input<typeof body>;
const hash = "0".repeat(64);
const destination = { place: "inland", nominal_V: 120, frequency_Hz: 60 };
const order = (name: string, units: string[]): Body => ({
  kind: "order",
  order: name,
  customer: "c2",
  model: "Skerry",
  revision: "1",
  units,
  destination,
});
const unit = (name: string, of: string, fitted: Record<string, string> = {}): Body => ({
  kind: "unit",
  unit: name,
  order: of,
  model: "Skerry",
  revision: "1",
  fitted,
  tap: "120",
});
const delivery = (of: string): Body => ({ kind: "delivery", order: of });
const back = (name: string): Body => ({ kind: "return", unit: name, says: "It hums now." });
const touch = (name: string): Body => ({ kind: "rework", unit: name, touched: [{ position: "V1" }], why: "noisy" });
const stepOf = (name: string): Body => ({ kind: "step", unit: name, step: "wiring" });
const tray = (name: string, valve: string): Body => ({
  kind: "batch",
  batch: name,
  type: "6AS7G",
  seller: "a seller",
  valves: [valve],
  sections: ["a"],
});
const packed = (name: string, more = {}): Body => ({
  kind: "packed",
  unit: name,
  label: { nominal_V: 120, frequency_Hz: 60 },
  ...more,
});

/** The drawers that a question opens: an answer is kept until one of them grows. */
function opened(shop: Shop, ask: () => unknown): Drawer[] {
  const drawers: Drawer[] = [];
  shop.ledger.cabinet.watch((drawer) => drawers.push(drawer));
  ask();
  return [...drawers];
}

/** Releases a unit of which everything is proven. */
function release(book: Book, hour: number, name = "0101"): string {
  const states = claimStates(smallModel, book.entries, name, at(1000));
  return book.write(hour, releaseEntry(name, states, "1", hash), { by: "owner" });
}

describe("what is defined", () => {
  const trial = { reference: "r", quantity: "level_V", true: 10, limit: 0.1 };
  const days = { fast: 1, usual: 2, slow: 3 };
  const limits = { plate_V: 250, grid_V: -8, referenceTrue_mA: 9, reading_doubt_pct: 1 };
  /** Kind, where it is looked up and under what, and two of it that differ. */
  const kinds: [string, (shop: Shop) => ReadonlyMap<string, unknown>, string, (n: number) => Body][] = [
    [
      "instrument",
      (shop) => shop.instruments,
      "i",
      (n) => ({ kind: "instrument", instrument: "i", title: `t${n}`, trial }),
    ],
    ["order", (shop) => shop.orders, "o", (n) => order("o", [`u${n}`])],
    [
      "valve-limits",
      (shop) => shop.valveLimits,
      "6SN7GT",
      (n) => ({ kind: "valve-limits", type: "6SN7GT", ...limits, limits: { drift_pct: n, sectionSpread_pct: 5 } }),
    ],
    [
      "promise",
      (shop) => shop.promises,
      "o",
      (n) => ({ kind: "promise", order: "o", date: at(500 + n), share_pct: 80, assumptions: "By the thumb" }),
    ],
    [
      "part",
      (shop) => shop.parts,
      "p",
      (n) => ({ kind: "part", part: "p", model: "Skerry", step: `s${n}`, lead_days: days }),
    ],
    [
      "headphone",
      (shop) => shop.headphones,
      "h",
      (n) => ({ kind: "headphone", headphone: "h", impedance_ohm: n, sensitivity_dB_per_V: 100 }),
    ],
    [
      "link",
      (shop) => shop.links,
      "i",
      (n) => ({ kind: "link", instrument: "i", description: null, ...(n > 1 && {}) }),
    ],
    [
      "supply-limits",
      (shop) => shop.supplyLimits,
      "i",
      (n) => ({ kind: "supply-limits", instrument: "i", limits: {}, why: `w${n}` }),
    ],
    [
      "recorder-calibration",
      (shop) => shop.recorderCalibrations,
      "i",
      (n) => ({
        kind: "recorder-calibration",
        instrument: "i",
        rate_Hz: 48_000 * n,
        grain_bits: 24,
        channels: {},
        files_sha256: [hash],
      }),
    ],
    [
      "bill",
      (shop) => shop.bills,
      modelKey("Skerry", "1"),
      (n) => ({
        kind: "bill",
        model: "Skerry",
        revision: "1",
        currency: "EUR",
        parts: [{ part: "R1", count: n, cost_cents: 10 }],
        price_cents: 1000,
      }),
    ],
    [
      "safety-limits",
      (shop) => shop.safetyLimits,
      "m",
      (n) => ({
        kind: "safety-limits",
        market: "m",
        places: ["elsewhere"],
        edition: `e${n}`,
        limits: [{ quantity: "bond_ohm", high: 0.1, source: "s", seen: "own" }],
      }),
    ],
    [
      "log-end",
      (shop) => shop.logEnds,
      "l",
      (n) => ({ kind: "log-end", log: "l", because: `b${n}`, logged: n, missed: [] }),
    ],
    ["model", (shop) => shop.models, modelKey("Skerry", "1"), (n) => ({ ...smallModel, title: `t${n}` }) as Body],
    [
      "version",
      (shop) => shop.versions,
      modelKey("Skerry", "a"),
      (n) => ({ kind: "version", model: "Skerry", version: "a", netlist: {}, channels: [], why: `w${n}` }),
    ],
  ];

  test.each(kinds)("of a %s the one that was taken last, in whatever order they come", (_, get, name, make) => {
    const book = new Book();
    book.write(1, make(1));
    book.write(3, make(3));
    book.write(2, make(2));
    // Of the same moment the chain decides.
    book.write(3, make(4));
    const [first, newest, , last] = book.entries;
    const shop = new Shop();
    expect(get(shop).size).toBe(0);
    shop.add(first!);
    expect(get(shop).get(name)).toBe(first);
    for (const entries of [book.entries.slice(0, 3), book.entries.slice(0, 3).toReversed()])
      expect([...get(foldShop(entries)).entries()]).toEqual([[name, newest]]);
    for (const entries of [book.entries, book.entries.toReversed()])
      expect(get(foldShop(entries)).get(name)).toBe(last);
  });

  test.each(kinds)("of a %s, asked for again once another is defined", (_, get, name, make) => {
    const book = new Book();
    book.write(1, make(1));
    const shop = new Shop();
    const drawers = opened(shop, () => expect(get(shop).get(name)).toBeUndefined());
    shop.add(book.entries[0]!);
    expect(drawers.map(({ grownAt }) => grownAt)).toContain(1);
  });

  test("revisions whose names run together alike are two", () => {
    const book = new Book();
    book.write(1, { ...smallModel, model: "Skerry Wide", revision: "b" });
    book.write(2, { ...smallModel, model: "Skerry", revision: "Wide b" });
    const { models } = foldShop(book.entries);
    expect([...models.values()].map(({ id }) => id)).toEqual(book.entries.map(({ id }) => id));
    expect(models.get(modelKey("Skerry Wide", "b"))).toBe(book.entries[0]);
  });

  test("rates and the shop itself, of which there is one", () => {
    const rates = (n: number): Body => ({ kind: "rates", currency: "EUR", hour_cents: { audio: n } });
    const shop = (n: number): Body => ({
      kind: "shop",
      timeZone: "UTC",
      calendars: {},
      people: [],
      places: [],
      building_Hz: n,
      currency: "EUR",
    });
    const book = new Book();
    const folded = () => foldShop(book.entries);
    expect([folded().rates, folded().shop]).toEqual([undefined, undefined]);
    book.write(1, rates(1));
    book.write(1, shop(50));
    book.write(2, rates(2));
    book.write(2, shop(60));
    expect(folded().rates).toMatchObject({ hour_cents: { audio: 2 } });
    expect(folded().shop).toMatchObject({ building_Hz: 60 });
  });

  test("logs by their entry, parts that came by their name; faults, returns and studies but those put right", () => {
    const book = new Book();
    const fault = (more = {}): Body => ({
      kind: "fault",
      unit: "0101",
      fault: "hum",
      possible: "wiring",
      found: "balance",
      repair_h: 1,
      ...more,
    });
    const study = (more = {}): Body => ({
      kind: "gauge-study",
      instrument: "i",
      quantity: "level_V",
      readings: [{ part: "p", operator: "o", value: 1 }],
      ...more,
    });
    const log = book.write(1, {
      kind: "log",
      instrument: "i",
      quantity: "level_V",
      about: { unit: "0101" },
      every_s: 1,
      for_s: 60,
    });
    book.write(1, { kind: "arrival", part: "p" });
    const [slip, wrong] = [book.write(1, fault()), book.write(1, study())];
    const [right, true_] = [book.write(2, fault({ supersedes: slip })), book.write(2, study({ supersedes: wrong }))];
    const [other, more] = [book.write(2, fault()), book.write(2, study())];
    const returns = [book.write(3, back("0101")), book.write(4, back("0101"))];
    const shop = foldShop(book.entries);
    expect([...shop.logs.keys()]).toEqual([log]);
    expect(shop.arrivals.get("p")?.body).toEqual({ kind: "arrival", part: "p" });
    expect(shop.faults.map(({ id }) => id)).toEqual([right, other]);
    expect(shop.gaugeStudies.map(({ id }) => id)).toEqual([true_, more]);
    expect(shop.returns.map(({ id }) => id)).toEqual(returns);
    const empty = new Shop();
    expect([empty.faults, empty.returns, empty.gaugeStudies, empty.openUnits]).toEqual([[], [], [], []]);
  });
});

describe("valves", () => {
  const read = (valve: string, phase: "cold" | "hot" | "curve"): Body => ({
    kind: "valve-reading",
    valve,
    section: "a",
    phase,
    time_h: 1,
    plate_V: 250,
    grid_V: -8,
    plate_mA: 9,
    instrument: "tester",
  });

  test("wait for their second reading between the cold and the hot one", () => {
    const book = Book.opened();
    const cold = () => [...foldShop(book.entries).awaitingHot];
    const hot = () => foldShop(book.entries).wasReadHot("N1");
    expect([cold(), hot()]).toEqual([[], false]);
    book.write(1, read("N1", "curve"));
    expect([cold(), hot()]).toEqual([[], false]);
    book.write(2, read("N1", "cold"));
    expect([cold(), hot()]).toEqual([[["N1", at(2)]], false]);
    book.write(3, read("N1", "hot"));
    expect([cold(), hot()]).toEqual([[], true]);
    book.write(4, read("N1", "cold"));
    expect([cold(), hot()]).toEqual([[], true]);
  });

  test("the newest at the tester by its hour, the reference among them", () => {
    const book = new Book();
    const reference: Body = {
      kind: "reference-reading",
      valve: "REF",
      type: "6SN7GT",
      time_h: 1,
      plate_mA: 9,
      instrument: "tester",
    };
    const newest = () => foldShop(book.entries).newestAtTester?.id;
    expect(newest()).toBeUndefined();
    const first = book.write(5, read("N1", "cold"));
    book.write(2, read("N1", "cold"));
    expect(newest()).toBe(first);
    const second = book.write(5, reference);
    expect(newest()).toBe(second);
    book.write(3, reference);
    expect(newest()).toBe(second);
  });

  test("by their tray, and where they stand as each rework left them", () => {
    const book = Book.opened(["0101", "0102"]);
    const shop = () => foldShop(book.entries);
    expect(shop().valve("N1")).toEqual({
      valve: "N1",
      type: "6SN7GT",
      batch: "B1",
      seller: "a seller",
      sections: ["a", "b"],
    });
    expect(shop().valve("nowhere")).toBeUndefined();
    expect([...shop().valves.keys()]).toEqual(["N1", "N2", "N3", "N4", "T1", "T2", "T3", "T4"]);
    expect([...shop().batches.keys()]).toEqual(["B1", "B2"]);
    expect(shop().batch("B2")?.body.type).toBe("6AS7G");
    const places = () => Object.fromEntries(shop().fittedIn);
    const [a, b] = [
      { N1: { unit: "0101", position: "V1" }, T1: { unit: "0101", position: "V2" } },
      { N2: { unit: "0102", position: "V1" }, T2: { unit: "0102", position: "V2" } },
    ];
    expect(places()).toEqual({ ...a, ...b });
    // Into the other unit first, and out of its own by that unit's next rework.
    book.write(1, { ...touch("0102"), fitted: { V1: "N1" } } as Body);
    expect(places()).toEqual({ T1: a.T1, T2: b.T2, N1: { unit: "0102", position: "V1" } });
    book.write(2, { ...touch("0101"), fitted: { V1: "N3" } } as Body);
    expect(places()).toEqual({
      T1: a.T1,
      T2: b.T2,
      N1: { unit: "0102", position: "V1" },
      N3: { unit: "0101", position: "V1" },
    });
    expect(shop().unit("0101")?.fitted).toEqual({ V1: "N3", V2: "T1" });
    // A rework of a unit that nobody opened fits nothing.
    book.write(3, { ...touch("9999"), fitted: { V1: "N4" } } as Body);
    expect(places()).not.toHaveProperty("N4");
    expect(shop().unit("9999")).toBeUndefined();
  });
});

describe("units", () => {
  test("stand as they were opened, with the steps that were done, before and since", () => {
    const book = Book.opened(["0101"]);
    book.write(5, order("O2", ["0201"]));
    book.write(6, { ...unit("0201", "O2", { V1: "N2" }), built: ["chassis"] } as Body);
    const step = book.write(7, { kind: "step", unit: "0201", step: "wiring" });
    const shop = foldShop(book.entries);
    expect(shop.unit("0201")).toEqual({
      unit: "0201",
      order: "O2",
      model: "Skerry",
      revision: "1",
      tap: "120",
      openedAt: at(6),
      fitted: { V1: "N2" },
      done: new Set(["chassis", "wiring"]),
    });
    expect([...shop.unit("0101")!.done]).toEqual([]);
    expect(shop.stepsDone("0201").map(({ id }) => id)).toEqual([step]);
    expect([...shop.units.keys()]).toEqual(["0101", "0201"]);
    expect(shop.orderNaming("0201")).toBe("O2");
    expect(shop.orderNaming("9999")).toBeUndefined();
    expect(shop.order("O2")?.body.units).toEqual(["0201"]);
    expect(shop.order("O9")).toBeUndefined();
  });

  test("are of their model, opened or only ordered, with the limits of where they go", () => {
    const book = Book.opened(["0101"]);
    book.write(1, order("O2", ["0201"]));
    book.write(1, { ...order("O3", ["0301"]), model: "Nothing" } as Body);
    book.write(1, unit("0401", "O9"));
    book.write(1, { ...order("O5", ["0501"]), destination: { ...destination, place: "coast" } } as Body);
    book.write(1, unit("0501", "O5"));
    const shop = foldShop(book.entries);
    const model = shop.models.get(modelKey("Skerry", "1"))!.body;
    expect(shop.modelOf("0101")).toBe(model);
    expect(shop.modelOf("0201")).toBeUndefined();
    expect(shop.orderedAs("0101")).toBe(model);
    expect(shop.orderedAs("0201")).toBe(model);
    expect(shop.orderedAs("0301")).toBeUndefined();
    expect(shop.orderedAs("9999")).toBeUndefined();
    expect(shop.modelOf("0401")).toBe(model);
    const bondOf = (name: string) =>
      shop.modelOf(name)!.claims.find(({ claim }) => claim === "earth-bond")!.requires[0]!.high;
    expect(bondOf("0101")).toBe(0.1);
    const adopt = (hour: number, high: number, place: string) => {
      book.write(hour, {
        kind: "safety-limits",
        market: place,
        places: [place],
        edition: "1",
        limits: [{ quantity: "bond_ohm", high, source: "s", seen: "own" }],
      });
      shop.add(book.entries.at(-1)!);
    };
    adopt(2, 0.2, "elsewhere");
    expect(bondOf("0101")).toBe(0.1);
    adopt(3, 0.05, "inland");
    expect(bondOf("0101")).toBe(0.05);
    expect(shop.modelOf("0101")).toBe(shop.modelOf("0101"));
    adopt(4, 0.07, "inland");
    expect([bondOf("0101"), bondOf("0501")]).toEqual([0.07, 0.1]);
    book.write(5, { ...smallModel, title: "Anew" } as Body);
    shop.add(book.entries.at(-1)!);
    expect(shop.modelOf("0101")!.title).toBe("Anew");
    expect(bondOf("0101")).toBe(0.07);
    expect(shop.orderedAs("0101")).toBe(shop.modelOf("0101"));
    // However often it was asked before, the answer falls with the next limits.
    for (const place of ["inland", "elsewhere"]) {
      const drawers = opened(shop, () => shop.modelOf("0101"));
      adopt(6, 0.08, place);
      expect(drawers.map(({ grownAt }) => grownAt)).toContain(shop.ledger.cabinet.grown);
    }
  });

  test.each<[string, (shop: Shop) => unknown, Body, Body]>([
    ["an order", (shop) => shop.order("O2"), order("O2", ["0201"]), order("O3", ["0301"])],
    ["the order of a unit", (shop) => shop.orderNaming("0201"), order("O2", ["0201"]), order("O2", ["0202"])],
    ["a unit", (shop) => shop.unit("0201"), unit("0201", "O1"), unit("0202", "O1")],
    ["its steps", (shop) => shop.stepsDone("0201"), stepOf("0201"), stepOf("0202")],
    ["a tray", (shop) => shop.batch("B9"), tray("B9", "X1"), tray("B8", "X1")],
    ["a valve", (shop) => shop.valve("X1"), tray("B9", "X1"), tray("B9", "X2")],
  ])("%s is asked for again once something was written of it, and not for another's sake", (_, ask, own, other) => {
    const book = Book.opened();
    const shop = foldShop(book.entries);
    const drawers = opened(shop, () => ask(shop));
    const begun = shop.ledger.cabinet.grown;
    const hasGrown = (by: Body) => {
      book.write(9, by);
      shop.add(book.entries.at(-1)!);
      return drawers.some(({ grownAt }) => grownAt > begun);
    };
    expect([hasGrown(other), hasGrown(own)]).toEqual([false, true]);
  });

  test("are told one by one, again only after something was written of one, or of a model", () => {
    const book = Book.opened(["0101", "0102"]);
    const shop = foldShop(book.entries);
    const told: string[] = [];
    const tell = (of: Shop, { unit: name }: { readonly unit: string }) => {
      told.push(name);
      return `${name} ${of.ledger.figures("unit", name, "balance_dB").length}`;
    };
    const ask = () => [shop.eachUnit(tell), told.splice(0)] as const;
    const write = (body: () => unknown) => {
      body();
      shop.add(book.entries.at(-1)!);
    };
    expect(ask()).toEqual([
      ["0101 0", "0102 0"],
      ["0101", "0102"],
    ]);
    expect(ask()).toEqual([["0101 0", "0102 0"], []]);
    write(() => book.read(1, "balance", { unit: "0102" }));
    expect(ask()).toEqual([["0101 0", "0102 1"], ["0102"]]);
    write(() => book.trial(2, 10));
    expect(ask()).toEqual([["0101 0", "0102 1"], []]);
    write(() => book.write(3, smallModel));
    expect(ask()).toEqual([
      ["0101 0", "0102 1"],
      ["0101", "0102"],
    ]);
    write(() => book.write(3, unit("0103", "O1")));
    expect(ask()).toEqual([["0101 0", "0102 1", "0103 0"], ["0103"]]);
    // Another question is kept by itself.
    expect(shop.eachUnit((_, { unit: name }) => name)).toEqual(["0101", "0102", "0103"]);
    expect(told).toEqual([]);
  });
});

describe("what has left", () => {
  const questions = (shop: Shop) => ({
    released: ["0101", "0102", "0201", "0202"].filter((name) => shop.isReleased(name)),
    delivered: ["O1", "O2", "O9"].filter((name) => shop.isDelivered(name)),
    deliveredAt: ["O1", "O2", "O9"].map((name) => shop.deliveredAt(name)),
    open: shop.openUnits.map(({ unit: name }) => name),
    back: ["0101", "0102", "0201"].map((name) => shop.cameBackAfter(name)?.id),
    packed: ["0101", "0102", "0201"].map((name) => shop.packed(name)?.id),
  });
  type Answers = Partial<ReturnType<typeof questions>>;

  test("is told alike by a shop that was asked after each entry and by one folded anew", () => {
    const book = Book.opened(["0101", "0102"]);
    const shop = foldShop(book.entries);
    const once = (write: () => unknown, expected: Answers) => {
      const before = book.entries.length;
      questions(shop);
      const written = write();
      for (const entry of book.entries.slice(before)) shop.add(entry);
      expect(questions(shop), `after ${written}`).toEqual(questions(foldShop(book.entries)));
      expect(questions(shop), `after ${written}`).toMatchObject(expected);
      return written as string;
    };
    const none = [undefined, undefined, undefined];
    once(() => book.proveAll(1, "0101"), { released: [], delivered: [], open: ["0101", "0102"], deliveredAt: none });
    once(() => book.proveAll(1, "0102", "T2"), { released: [] });
    once(() => release(book, 5, "0101"), { released: ["0101"], delivered: [], open: ["0102"] });
    once(() => release(book, 4, "0102"), {
      released: ["0101", "0102"],
      delivered: ["O1"],
      deliveredAt: [at(5), undefined, undefined],
      open: [],
      packed: none,
    });
    const parcel = once(() => book.write(6, packed("0101")), {});
    expect(questions(shop).packed).toEqual([parcel, undefined, undefined]);
    const parcelAnew = once(() => book.write(6, packed("0101", { supersedes: parcel })), {});
    expect(questions(shop).packed).toEqual([parcelAnew, undefined, undefined]);
    const returned = once(() => book.write(7, back("0101")), { released: ["0101", "0102"], packed: none });
    expect(questions(shop).back).toEqual([returned, undefined, undefined]);
    once(() => book.write(8, touch("0101")), { released: ["0102"], delivered: [], open: ["0101"], packed: none });
    once(() => book.proveAll(9, "0101"), { released: ["0102"] });
    // Packed before it left again, it is not packed.
    once(() => book.write(9.5, packed("0101")), { packed: none });
    once(() => release(book, 10, "0101"), {
      released: ["0101", "0102"],
      back: none,
      packed: none,
      deliveredAt: [at(10), undefined, undefined],
    });
    const again = once(() => book.write(11, packed("0101")), {});
    expect(questions(shop).packed).toEqual([again, undefined, undefined]);
    // A coat on its case takes the release back as any rework would.
    once(() => book.write(12, { kind: "coat", unit: "0102", finish: "oil", hardens_h: 10 }), { released: ["0101"] });
  });

  test("of before, with its order; a unit of two orders is of the newer", () => {
    const book = Book.opened(["0101"]);
    const shop = foldShop(book.entries);
    const once = (body: Body, expected: Answers) => {
      questions(shop);
      book.write(book.entries.length, body);
      shop.add(book.entries.at(-1)!);
      expect(questions(shop)).toEqual(questions(foldShop(book.entries)));
      expect(questions(shop)).toMatchObject(expected);
    };
    once(order("O2", ["0201", "0202"]), { released: [], delivered: [] });
    once(delivery("O2"), {
      released: ["0201", "0202"],
      delivered: ["O2"],
    });
    expect(shop.deliveredAt("O2")).toBe(book.entries.at(-1)!.at);
    once(order("O3", ["0202"]), { released: ["0201"], delivered: ["O2"] });
    once(delivery("O1"), { released: ["0201"], delivered: ["O1", "O2"] });
    // Opened here, it leaves by its own release alone.
    once(unit("0201", "O2"), { released: [], open: ["0101", "0201"] });
  });

  test("comes back to be told until it leaves again, released here or not", () => {
    const book = Book.opened(["0101"]);
    const first = book.write(1, back("0101"));
    expect(foldShop(book.entries).cameBackAfter("0101")?.id).toBe(first);
    book.proveAll(2);
    release(book, 3);
    expect(foldShop(book.entries).cameBackAfter("0101")).toBeUndefined();
    const second = book.write(4, back("0101"));
    expect(foldShop(book.entries).cameBackAfter("0101")?.id).toBe(second);
    expect(foldShop(book.entries).packed("0101")).toBeUndefined();
  });

  test("is asked for again after what lets leave or calls back, and not after a reading", () => {
    const book = Book.opened(["0101"]);
    const shop = foldShop(book.entries);
    const hasGrown = (write: () => unknown) => {
      const drawers = opened(shop, () => shop.isReleased("0101"));
      const begun = shop.ledger.cabinet.grown;
      write();
      shop.add(book.entries.at(-1)!);
      return drawers.some(({ grownAt }) => grownAt > begun);
    };
    expect(hasGrown(() => book.read(1, "ht"))).toBe(false);
    expect(hasGrown(() => book.trial(1, 10))).toBe(false);
    expect(hasGrown(() => book.write(1, stepOf("0101")))).toBe(false);
    expect(hasGrown(() => book.write(1, { kind: "coat", pieces: ["A-1"], finish: "oil", hardens_h: 10 }))).toBe(false);
    expect(hasGrown(() => book.write(1, touch("0101")))).toBe(true);
    expect(hasGrown(() => book.write(1, order("O2", ["0201"])))).toBe(true);
    expect(hasGrown(() => book.write(1, delivery("O2")))).toBe(true);
    expect(hasGrown(() => book.write(1, smallModel))).toBe(true);
    book.proveAll(2);
    expect(hasGrown(() => release(book, 3))).toBe(true);
  });

  test("stays released under a model whose claims rest no longer on what a rework touched", () => {
    const book = Book.opened();
    book.proveAll(1);
    release(book, 5);
    book.write(6, { kind: "rework", unit: "0101", touched: [{ case: "finish" }], why: "a coat" });
    const shop = foldShop(book.entries);
    expect(shop.isReleased("0101")).toBe(false);
    book.write(7, { ...smallModel, claims: smallModel.claims.filter(({ claim }) => claim !== "case-gap") });
    shop.add(book.entries.at(-1)!);
    expect(shop.isReleased("0101")).toBe(true);
  });

  test("with its last unit, at that unit's newest release; under another order's number at no time that is known", () => {
    const book = Book.opened(["0101", "0102"]);
    book.proveAll(1, "0101");
    book.proveAll(1, "0102", "T2");
    for (const [hour, name] of [
      [3, "0101"],
      [4, "0102"],
      [6, "0102"],
    ] as const)
      release(book, hour, name);
    expect(foldShop(book.entries).deliveredAt("O1")).toBe(at(6));
    for (const body of [order("O2", ["0201"]), order("O3", ["0201"]), delivery("O3")]) book.write(7, body);
    const shop = foldShop(book.entries);
    expect([shop.isDelivered("O2"), shop.deliveredAt("O2"), shop.deliveredAt("O3")]).toEqual([true, undefined, at(7)]);
  });

  test("is packed when it was released and its parcel was written of it", () => {
    const book = Book.opened(["0101", "0102"]);
    const parcelOf = (name: string) => foldShop(book.entries).packed(name)?.id;
    // Neither one that never left, nor one of before, of whose release nothing is on record.
    book.write(1, packed("0101"));
    for (const body of [order("O2", ["0201"]), delivery("O2"), packed("0201")]) book.write(1, body);
    expect([parcelOf("0101"), parcelOf("0201")]).toEqual([undefined, undefined]);
    book.proveAll(1, "0101");
    book.proveAll(1, "0102", "T2");
    for (const name of ["0101", "0102"]) release(book, 3, name);
    expect(parcelOf("0101")).toBeUndefined();
    const slip = book.write(4, packed("0101"));
    expect(parcelOf("0101")).toBe(slip);
    const right = book.write(4, packed("0102", { supersedes: slip }));
    expect([parcelOf("0101"), parcelOf("0102")]).toEqual([undefined, right]);
    // A rework takes the release back, and the parcel with it.
    book.write(5, touch("0102"));
    expect(parcelOf("0102")).toBeUndefined();
  });
});
