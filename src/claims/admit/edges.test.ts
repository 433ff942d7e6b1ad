import { describe, expect, test } from "vitest";
import { BadInput } from "../../maths/badInput.ts";
import type { Model } from "../evidence.ts";
import { admit, foldShop, type Submitted } from "../index.ts";
import { at, Book, furtherOrder, smallModel } from "../testing/smallShop.ts";
import { stagesOf } from "./books.ts";
import { requireDistinct, requireKnown } from "./refuse.ts";

/** What is said to an entry at hour 40, as `path: message`; empty when it is let in. */
function said(entry: object, before: (book: Book) => void = () => {}): string {
  const book = Book.opened(["0101", "0102"]);
  before(book);
  return told(() => admit({ at: at(40), by: "bench", ...entry } as Submitted, foldShop(book.entries), { now: at(50) }));
}

function told(refuse: () => void): string {
  try {
    refuse();
    return "";
  } catch (fault) {
    if (!(fault instanceof BadInput)) throw fault;
    return `${fault.path}: ${fault.message}`;
  }
}

const secondRevision = (book: Book) => {
  book.write(1, { ...smallModel, revision: "2" });
  book.write(1, { ...smallModel, model: "Ebb", revision: "A" } as Model);
};
const shopBook =
  (currency: string, people: readonly object[] = []) =>
  (book: Book) => {
    book.write(1, {
      kind: "shop",
      timeZone: "UTC",
      calendars: { day: { week: { mon: ["08:00-16:00"] } } },
      people: people as never,
      places: [],
      building_Hz: 50,
      currency,
    });
  };

const order = (more: object = {}) => ({ ...furtherOrder, ...more });

const ordered = (book: Book) => {
  book.write(1, order() as never);
};

type Case = readonly [what: string, entry: object, said: RegExp | "", before?: (book: Book) => void];
const everyCase = (rows: readonly Case[]) =>
  test.each(rows.map(([what, entry, expected, before]) => ({ what, entry, expected, before })))(
    "$what",
    ({ entry, expected, before }) => {
      if (expected === "") expect(said(entry, before)).toBe("");
      else expect(said(entry, before)).toMatch(expected);
    },
  );

describe("faults, in the order of stages", () => {
  const fault = (more: object) => ({
    kind: "fault",
    unit: "0101",
    fault: "hum",
    what: "",
    possible: "balance",
    found: "ht",
    repair_h: 1,
    cost_cents: 0,
    ...more,
  });
  test("are build steps, then claims, then the customer", () => {
    expect(stagesOf(smallModel)).toEqual(["wiring", ...smallModel.claims.map(({ claim }) => claim), "customer"]);
  });
  everyCase([
    ["found later than it could be", fault({}), ""],
    ["found where it could be", fault({ possible: "ht" }), ""],
    [
      "found earlier than it could be",
      fault({ possible: "case-gap" }),
      /^possible: "case-gap"; a stage up to ht, where/,
    ],
    ["arose before it could be found", fault({ arose: "wiring" }), ""],
    ["arose where it could be found", fault({ arose: "balance" }), ""],
    [
      "arose later than it could be found",
      fault({ arose: "ht" }),
      /^arose: "ht"; a stage up to balance; it can't show/,
    ],
    ["of an unknown stage", fault({ found: "attic" }), /^found: "attic"; no stage of unit 0101/],
    ["arisen at an unknown stage", fault({ arose: "attic" }), /^arose: "attic"/],
    ["of a unit that is only ordered", fault({ unit: "0201" }), "", ordered],
    ["of no unit", fault({ unit: "0999" }), /^unit: "0999"/],
  ]);
});

describe("bills, accounts and rates", () => {
  const part = (name: string) => ({ part: name, count: 1, cost_cents: 10, scrap: 0 });
  const bill = (more: object = {}) => ({
    kind: "bill",
    model: "Skerry",
    revision: "1",
    currency: "EUR",
    parts: [part("R1"), part("R2")],
    price_cents: 1,
    ...more,
  });
  const account = (more: object = {}) => ({
    kind: "account",
    unit: "0101",
    currency: "EUR",
    hours: { audio: 2, timber: 3 },
    rework_h: 5,
    parts_cents: 0,
    ...more,
  });
  everyCase([
    ["a bill", bill(), ""],
    ["of an unknown model", bill({ model: "Neap" }), /^model: "Neap"; .*known: Skerry/],
    [
      "of an unknown revision",
      bill({ revision: "9" }),
      /^revision: "9"; no revision of Skerry .*known: 1, 2; /,
      secondRevision,
    ],
    ["a part twice", bill({ parts: [part("R1"), part("R1")] }), /^parts\[1\]: "R1"; each part once/],
    ["in the shop's currency", bill(), "", shopBook("EUR")],
    ["in another currency", bill(), /^currency: "EUR"; this shop keeps its books in SEK/, shopBook("SEK")],
    ["rates in another currency", { kind: "rates", currency: "EUR", hour_cents: {} }, /^currency: /, shopBook("SEK")],
    ["an account, all of it rework", account(), ""],
    ["no more rework than hours but for the rounding", account({ hours: {}, rework_h: 1e-9 }), ""],
    ["an account of a unit that is only ordered", account({ unit: "0201" }), "", ordered],
    ["more rework than hours", account({ rework_h: 5.01 }), /^rework_h: 5.01; at most the 5 h in all/],
    ["an account of no unit", account({ unit: "0999" }), /^unit: "0999"/],
    ["an account in another currency", account(), /^currency: /, shopBook("SEK")],
  ]);
});

describe("safety limits", () => {
  const limit = (more: object = {}) => ({ quantity: "bond_ohm", high: 0.1, source: "s", seen: "own", ...more });
  const adopted = (limits: readonly object[], more: object = {}) => ({
    kind: "safety-limits",
    market: "m",
    places: ["p"],
    edition: "e",
    limits,
    ...more,
  });
  const people = [
    { id: "bench", skills: ["audio"], calendar: "day" },
    { id: "owner", skills: ["safety"], calendar: "day" },
    { id: "guest", skills: ["safety"], calendar: "day" },
  ];
  everyCase([
    ["adopted", adopted([limit()]), ""],
    ["with both ends, at one value too", adopted([limit({ low: 0.1 })]), ""],
    ["with a low end alone", adopted([limit({ high: undefined, low: 0.1 })]), ""],
    ["without an end", adopted([limit({ high: undefined })]), /^limits\[0\]\.high: neither low nor high/],
    ["the wrong way round", adopted([limit({ low: 0.2 })]), /^limits\[0\]\.low: 0.2; at or below high, 0.1/],
    [
      "of what no safety claim requires",
      adopted([limit({ quantity: "balance_dB" })]),
      /^limits\[0\]\.quantity: "balance_dB"/,
    ],
    [
      "of what one safety claim requires, no routine test",
      adopted([limit({ quantity: "odd_V" })]),
      "",
      (book) => {
        const [like] = smallModel.claims.filter(({ safety }) => safety);
        const odd = { ...like!, claim: "odd", requires: [{ quantity: "odd_V", of: "unit" as const, high: 1 }] };
        book.write(1, { ...smallModel, claims: [...smallModel.claims, odd] });
      },
    ],
    ["one quantity at two points", adopted([limit(), limit({ point: "lid" })]), ""],
    ["one quantity twice", adopted([limit(), limit()]), /^limits\[1\]: "bond_ohm"; each limit once/],
    ["one point twice", adopted([limit({ point: "lid" }), limit({ point: "lid" })]), /^limits\[1\]: "bond_ohm lid"/],
    ["by who has the skill", adopted([limit()], { by: "owner" }), "", shopBook("EUR", people)],
    [
      "by who has not",
      adopted([limit()]),
      /^by: "bench"; .* the skill safety: owner, guest; /,
      shopBook("EUR", people),
    ],
    ["by a stranger", adopted([limit()], { by: "x" }), /^by: "x"/, shopBook("EUR", people)],
    ["where nobody has it", adopted([limit()]), /the skill safety: nobody yet/, shopBook("EUR", people.slice(0, 1))],
    [
      "by who is marked to answer for them",
      adopted([limit()], { by: "licensed" }),
      "",
      (book) => {
        shopBook("EUR", people)(book);
        const marked = { kind: "person", answersForSafety: true } as const;
        book.write(2, { ...marked, person: "owner", may: "owner" });
        book.write(3, { ...marked, person: "licensed", may: "measure" });
      },
    ],
  ]);
});

describe("recordings", () => {
  const recording = (more: object = {}) => ({
    kind: "recording",
    unit: "0101",
    recording: "r1",
    file_sha256: "0".repeat(64),
    fullScale_Vpk: 1,
    channels: ["left", "right"],
    supply: { source: "building", frequency_Hz: 50 },
    building_Hz: 50,
    valves: {},
    input: "shorted",
    instrument: "recorder",
    purpose: "hum",
    ...more,
  });
  const supply = (instrument: string) => ({ supply: { source: "regenerated", frequency_Hz: 57, instrument } });
  const channels = (...names: string[]) => recording({ channels: names });
  const known = (book: Book) => {
    book.write(5, recording() as never, { id: "first" });
  };
  everyCase([
    ["of channels of the model and of the recorder's own", channels("left", "mains", "supply", "1", "12"), ""],
    [
      "of a channel that only begins with a digit",
      channels("2nd"),
      /^channels\[0\]: "2nd"; .*known: left, right, mains/,
    ],
    ["of a channel that only ends with one", channels("x2"), /^channels\[0\]: "x2"/],
    ["of a channel twice", channels("left", "left"), /^channels\[1\]: "left"/],
    ["fed by an instrument on record", recording(supply("meter")), ""],
    ["fed by one that is not", recording(supply("dynamo")), /^supply\.instrument: "dynamo"/],
    ["a name that the unit has already", recording(), /^recording: "r1"; the unit has a recording of that name/, known],
    ["another name", recording({ recording: "r2" }), "", known],
    ["another unit's name", recording({ unit: "0102" }), "", known],
    ["that name, putting right the one that has it", recording({ supersedes: "first" }), "", known],
    [
      "that name once it was given up",
      recording(),
      "",
      (book) => {
        known(book);
        book.write(6, recording({ recording: "r9", supersedes: "first" }) as never);
      },
    ],
    ["a valve at no position", recording({ valves: { V9: "T1" } }), /^valves\.V9: "V9"; no position/],
  ]);
});

describe("subjects and findings", () => {
  const reading = (subject: object) => ({
    kind: "reading",
    subject,
    quantity: "q_V",
    value: 1,
    doubt: 1,
    instrument: "meter",
    conditions: {},
  });
  const finding = (subject: object, from: readonly string[]) => ({
    kind: "finding",
    subject,
    quantity: "q",
    value: 1,
    doubt: 1,
    calculation: "c",
    version: "1",
    from,
  });
  const read = (book: Book) => {
    book.write(5, reading({ unit: "0102" }) as never, { id: "of0102" });
    book.write(5, reading({ valve: "T1" }) as never, { id: "ofT1" });
    book.write(5, { kind: "step", unit: "0102", step: "wiring" }, { id: "step0102" });
    book.write(5, finding({ unit: "0102" }, ["of0102"]) as never, { id: "found0102" });
  };
  everyCase([
    ["a section of the position's valve", reading({ unit: "0101", position: "V1", section: "a" }), ""],
    [
      "no section of it",
      reading({ unit: "0101", position: "V1", section: "z" }),
      /^subject\.section: "z"; .*known: a, b/,
    ],
    ["a section of nothing in particular", reading({ unit: "0101", section: "z" }), ""],
    ["no position", reading({ unit: "0101", position: "V9" }), /^subject\.position: "V9"; .*known: V1, V2/],
    [
      "a valve of the tester without a section of that name",
      {
        kind: "valve-reading",
        valve: "T1",
        section: "z",
        phase: "cold",
        time_h: 1,
        plate_V: 1,
        grid_V: -1,
        plate_mA: 1,
        instrument: "meter",
      },
      /^section: "z"/,
    ],
    [
      "a valve of the tester that is not on record",
      {
        kind: "valve-reading",
        valve: "T99",
        section: "a",
        phase: "cold",
        time_h: 1,
        plate_V: 1,
        grid_V: -1,
        plate_mA: 1,
        instrument: "meter",
      },
      /^valve: "T99"/,
    ],
    ["a finding of its own unit", finding({ unit: "0102" }, ["of0102"]), "", read],
    [
      "a finding from another unit's reading",
      finding({ unit: "0101" }, ["of0102"]),
      /^from\[0\]: "of0102"; it is about unit 0102; name evidence of 0101/,
      read,
    ],
    ["from another unit's finding", finding({ unit: "0101" }, ["found0102"]), /^from\[0\]: .*about unit 0102/, read],
    [
      "from another unit's step",
      finding({ unit: "0101" }, ["ofT1", "step0102"]),
      /^from\[1\]: .*about unit 0102/,
      read,
    ],
    ["from what is about no unit", finding({ unit: "0101" }, ["ofT1", "e1"]), "", read],
    ["about a valve, from a unit's", finding({ valve: "T1" }, ["of0102"]), "", read],
    ["a reading that leaves open what it supersedes", { ...reading({ unit: "0101" }), supersedes: undefined }, ""],
  ]);
});

describe("orders, units and reworks", () => {
  const standing = { order: "O1", customer: "c1" };
  const opens = (more: object = {}) => ({
    kind: "unit",
    unit: "0201",
    order: "O2",
    model: "Skerry",
    revision: "1",
    fitted: {},
    tap: "120",
    built: [],
    ...more,
  });
  const ordered = (book: Book) => {
    secondRevision(book);
    book.write(1, order() as never);
    book.write(1, {
      kind: "batch",
      batch: "B9",
      type: "6AS7G",
      seller: "s",
      valves: ["X1"],
      sections: ["a"],
    });
  };
  const shelved = (book: Book) => {
    book.write(1, { ...smallModel, revision: "3", shelf: { step: "resting", hours: 24 } });
    book.write(1, order({ revision: "3" }) as never);
    book.write(2, opens({ revision: "3" }) as never);
  };
  const rework = (fitted: object, more: object = {}) => ({
    kind: "rework",
    unit: "0101",
    touched: [{ position: "V2" }],
    why: "hum",
    fitted,
    ...more,
  });
  everyCase([
    ["an order changed, its units kept", order({ ...standing, units: ["0101", "0102", "0103"] }), ""],
    [
      "an order by another customer under its number",
      order({ order: "O1", units: ["0101", "0102"] }),
      /^order: "O1"; another customer's/,
    ],
    [
      "a unit under hands left out",
      order({ ...standing, units: ["0101"] }),
      /^units: .*unit 0102 is being built for this order/,
    ],
    [
      "the revision of units under hands",
      order({ ...standing, revision: "2", units: ["0101", "0102"] }),
      /^revision: "Skerry 2"; unit 0101 is being built as Skerry 1/,
      secondRevision,
    ],
    [
      "the model of units under hands",
      order({ ...standing, model: "Ebb", units: ["0101", "0102"] }),
      /^revision: "Ebb 1"; unit 0101 is being built as Skerry 1/,
      (book) => {
        book.write(1, { ...smallModel, model: "Ebb" });
      },
    ],
    ["the revision of units not begun", order({ revision: "2" }), "", ordered],
    [
      "an unknown revision, and those there are",
      order({ revision: "9" }),
      /^revision: "9"; no revision of Skerry .*known: 1, 2; /,
      secondRevision,
    ],
    ["a unit opened", opens({ built: ["wiring"] }), "", ordered],
    ["a unit not of that order", opens({ unit: "0202" }), /^unit: "0202"; no unit of order O2/, ordered],
    ["another revision than its order's", opens({ revision: "2" }), /^revision: "2"; order O2 says 1/, ordered],
    ["another model than its order's", opens({ model: "Ebb" }), /^model: "Ebb"; order O2 says Skerry/, ordered],
    ["a step built that there is not", opens({ built: ["gilding"] }), /^built\[0\]: "gilding"/, ordered],
    ["a valve that lacks a section", rework({ V2: "X1" }), /^fitted\.V2: "X1"; V2 needs section b/, ordered],
    ["a valve that stands at another position of it", rework({ V1: "N1", V2: "T1" }), ""],
    [
      "a valve that is left where it stood too",
      opens({ fitted: { V1: "N3", V2: "N3" } }),
      /^fitted\.V1: "N3"; it stands at V2 too; say what stands at V2 now/,
      ordered,
    ],
    ["its own valve again", rework({ V2: "T1" }), ""],
    ["another unit's valve", rework({ V2: "T2" }), /^fitted\.V2: "T2"; it is fitted in unit 0102 at V2/],
    ["the step on the shelf, of a model that has one", { kind: "step", unit: "0201", step: "resting" }, "", shelved],
    [
      "no step of a model with a shelf",
      { kind: "step", unit: "0201", step: "gilding" },
      /^step: "gilding"; .*known: wiring, resting; /,
      shelved,
    ],
    ["at the moment it was opened", rework({}, { at: at(0) }), ""],
    ["before it was opened", rework({}, { at: at(-0.01) }), /^at: /],
    ["of an instrument on record", rework({}, { touched: [{ instrument: "meter" }] }), ""],
    ["of one that is not", rework({}, { touched: [{ instrument: "gauge" }] }), /^touched\[0\]\.instrument: "gauge"/],
  ]);
});

describe("pieces of timber", () => {
  everyCase([
    [
      "where none ever came in",
      { kind: "flaw", piece: "A-1", flaw: "crack", length_mm: 40, found: "plate" },
      /^piece: "A-1"; no piece of timber of that number is on record; receive it first$/,
    ],
  ]);
});

describe("names on record", () => {
  const many = Array.from({ length: 10 }, (_, i) => `n${i}`);
  test.each<[string, Iterable<string> | ReadonlyMap<string, unknown>]>([
    ["a list", many],
    ["a set", new Set(many)],
    ["a map", new Map(many.map((name) => [name, 0]))],
  ])("are found in %s, and told as far as they fit", (_, known) => {
    expect(told(() => requireKnown("p", "n9", known, "name"))).toBe("");
    expect(told(() => requireKnown("p", "x", known, "name"))).toBe(
      'p: "x"; no name of that name is on record; known: n0, n1, n2, n3, n4, n5, n6, n7, and 2 more; check the spelling or enter the name first',
    );
  });
  test("none yet, or just as many as fit", () => {
    expect(told(() => requireKnown("p", "x", [], "name"))).toMatch(/on record; enter the name first$/);
    expect(told(() => requireKnown("p", "x", many.slice(0, 8), "name"))).toMatch(/known: n0, .*, n7; check/);
  });
  test("twice is the second's fault", () => {
    expect(told(() => requireDistinct("p", ["a", "b", "c"], "name"))).toBe("");
    expect(told(() => requireDistinct("p", ["a", "b", "b", "a"], "name"))).toMatch(/^p\[2\]: "b"; each name once/);
    expect(told(() => requireDistinct("p", ["a", "a"], "name"))).toMatch(/^p\[1\]/);
  });
});

describe("models, by what protects whoever tests", () => {
  const live = (
    claim: string,
    quantity: string,
    more: Partial<Model["claims"][number]["check"]> = {},
    safety = true,
  ) => {
    const like = smallModel.claims.find((one) => one.claim === "earth-bond")!;
    return {
      ...like,
      claim,
      safety,
      requires: [{ quantity, of: "unit" as const, high: 1 }],
      check: { ...like.check, danger: "mains" as const, after: [], ...more },
    };
  };
  const also = (claim: Model["claims"][number], quantity: string) => ({
    ...claim,
    requires: [...claim.requires, { quantity, of: "unit" as const, high: 1 }],
  });
  const model = (...claims: Model["claims"]) => ({ ...smallModel, claims });
  const [bond, insulation] = [live("bond", "bond_ohm"), live("insulation", "resistance_Mohm", { after: ["bond"] })];
  everyCase([
    ["a leakage test after both", model(bond, insulation, live("touch", "touch_mA", { after: ["insulation"] })), ""],
    [
      "a leakage test before the bond",
      model(bond, live("touch", "touch_mA")),
      /^claims\[1\]\.check\.after: \[\] of touch; it protects whoever tests that bond is proven before; add bond/,
    ],
    [
      "a leakage test before insulation",
      model(bond, insulation, live("touch", "touch_mA", { after: ["bond"] })),
      /^claims\[2\]\.check\.after: .* of touch; .* that insulation is proven before/,
    ],
    [
      "insulation before the bond",
      model(bond, live("insulation", "resistance_Mohm")),
      /^claims\[1\]\.check\.after: .*add bond/,
    ],
    [
      "a leakage test before the bond, each read with something else",
      model(also(bond, "odd_V"), also(live("touch", "touch_mA"), "odd_V")),
      /^claims\[1\]\.check\.after: .* of touch; .* that bond is proven before/,
    ],
    [
      "a test before one that comes first and protects nobody",
      model(live("touch", "touch_mA"), live("jack", "jack_mV")),
      "",
    ],
    ["one that is no danger", model(bond, live("touch", "touch_mA", { danger: "none" })), ""],
    ["one that is no safety claim", model(bond, live("touch", "touch_mA", {}, false)), ""],
    ["a quantity that is no routine test", model(bond, live("odd", "odd_V")), ""],
    ["without one that protects", model(live("touch", "touch_mA")), ""],
  ]);
});

describe("linked instruments", () => {
  const description = (more: object = {}) => ({
    wire: { kind: "tcp", host: "10.0.0.9", port: 5025 },
    quantities: [
      {
        quantity: "level_V",
        send: "READ?",
        answer: "^(?<value>.+)$",
        range: { low: -10, high: 10 },
        doubt: { fixed: 0.01 },
      },
      { quantity: "mass_g", send: "W", answer: "^(?<value>.+)$", range: { low: 0, high: 900 }, doubt: { fixed: 0.1 } },
    ],
    settings: [
      { setting: "output_Vrms", send: "V {value}", ask: "V?", answer: "^(?<value>.+)$", agrees: 0.1 },
      { setting: "frequency_Hz", send: "F {value}", ask: "F?", answer: "^(?<value>.+)$", agrees: 0.1 },
    ],
    ...more,
  });
  const linked = (book: Book) => {
    book.write(1, { kind: "link", instrument: "meter", description: description() } as never);
    book.write(2, {
      kind: "blank",
      piece: "A-1",
      species: "white ash",
      ...{ length_mm: 500, width_mm: 100, thickness_mm: 20, ringAngle_deg: 30 },
      seller: "a sawmill",
      place: "shed",
    });
  };
  const unlinked = (book: Book) => {
    linked(book);
    book.write(3, { kind: "link", instrument: "meter", description: null });
  };
  const logging = (book: Book) => {
    linked(book);
    book.write(4, log() as never, { id: "running" });
    book.write(4, log() as never, { id: "over" });
    book.write(5, { kind: "log-end", log: "over", because: "done", logged: 3, missed: [] });
  };
  const log = (more: object = {}) => ({
    kind: "log",
    instrument: "meter",
    quantity: "level_V",
    about: { unit: "0101" },
    every_s: 1,
    for_s: 60,
    conditions: {},
    ...more,
  });
  const limits = (of: object, more: object = {}) => ({
    kind: "supply-limits",
    instrument: "meter",
    limits: of,
    why: "",
    by: "owner",
    ...more,
  });
  const set = (more: object = {}) => ({ kind: "supply-set", instrument: "meter", set: {}, readBack: {}, ...more });
  const end = (of: string) => ({ kind: "log-end", log: of, because: "done", logged: 0, missed: [] });
  const link = (more: object = {}) => ({ kind: "link", instrument: "meter", description: null, by: "owner", ...more });
  everyCase([
    ["a description by the owner", link(), ""],
    [
      "a description by another",
      link({ by: "bench" }),
      /^by: "bench"; only the owner says how an instrument is spoken to/,
    ],
    ["of no instrument", link({ instrument: "gauge" }), /^instrument: "gauge"/],
    [
      "limits of what it sets, at one value too",
      limits({ output_Vrms: { low: 0, high: 120 }, frequency_Hz: { low: 57, high: 57 } }),
      "",
      linked,
    ],
    [
      "limits by another",
      limits({}, { by: "bench" }),
      /^by: "bench"; only the owner says what a supply may be set to/,
      linked,
    ],
    [
      "limits of what it does not set",
      limits({ output_V: { low: 0, high: 1 } }),
      /^limits\.output_V: "output_V"; no setting of meter .*known: output_Vrms, frequency_Hz/,
      linked,
    ],
    [
      "limits the wrong way round",
      limits({ output_Vrms: { low: 2, high: 1 } }),
      /^limits\.output_Vrms\.low: 2; at or below high, 1/,
      linked,
    ],
    ["limits of what is not linked", limits({}), /^instrument: "meter"; an instrument that is linked/],
    ["limits of what is linked no more", limits({}), /^instrument: "meter"; an instrument that is linked/, unlinked],
    ["limits of no instrument", limits({}, { instrument: "gauge" }), /^instrument: "gauge"; no instrument/, linked],
    ["a supply set", set(), "", linked],
    ["a supply set for a unit", set({ unit: "0101" }), "", linked],
    ["a supply set for no unit", set({ unit: "0999" }), /^unit: "0999"/, linked],
    ["a supply set that is not linked", set(), /^instrument: "meter"; an instrument that is linked/],
    ["a log", log(), "", linked],
    ["a log of what is not linked", log(), /^instrument: "meter"; an instrument that is linked/],
    [
      "a log of what it does not read",
      log({ quantity: "hum_V" }),
      /^quantity: "hum_V"; no quantity of meter .*known: level_V, mass_g/,
      linked,
    ],
    ["a log under another name of the unit", log({ as: "ripple_mV" }), "", linked],
    [
      "a log under a name of another unit",
      log({ as: "ripple_mA" }),
      /^as: "ripple_mA"; a quantity of the unit of level_V/,
      linked,
    ],
    ["a log of no unit", log({ about: { unit: "0999" } }), /^about\.unit: "0999"/, linked],
    ["a log of a piece's mass", log({ quantity: "mass_g", about: { piece: "A-1" } }), "", linked],
    [
      "a log of a piece's voltage",
      log({ about: { piece: "A-1" } }),
      /^quantity: "level_V"; of a piece of timber, mass_g alone/,
      linked,
    ],
    [
      "a log of no piece",
      log({ quantity: "mass_g", about: { piece: "A-9" } }),
      /^about\.piece: "A-9"; .*known: A-1/,
      linked,
    ],
    [
      "a log of a piece and a unit",
      log({ quantity: "mass_g", about: { piece: "A-1", unit: "0101" } }),
      /^about: .*a piece of timber or a unit, not both/,
      linked,
    ],
    [
      "a log of a piece, what is not named left open",
      log({ quantity: "mass_g", about: { piece: "A-1", unit: undefined } }),
      "",
      linked,
    ],
    ["a log of as many readings as one takes", log({ every_s: 2, for_s: 40_000 }), "", linked],
    [
      "a log of more",
      log({ every_s: 2, for_s: 40_001 }),
      /^every_s: 2; at most 20000 readings in one log, and this makes 20001/,
      linked,
    ],
    ["the end of a log that runs", end("running"), "", logging],
    [
      "the end of a log that has ended",
      end("over"),
      /^log: "over"; a log that is still running; it has ended already/,
      logging,
    ],
    ["the end of no log", end("nothing"), /^log: "nothing"; the id of a log on record/, logging],
  ]);
});

describe("gauge studies", () => {
  const study = (operators: readonly string[], more: object = {}) => ({
    kind: "gauge-study",
    instrument: "meter",
    quantity: "level_V",
    readings: ["p1", "p2"].flatMap((part) =>
      operators.flatMap((operator) => [9.9, 10.1].map((value) => ({ part, operator, value }))),
    ),
    ...more,
  });
  everyCase([
    ["of two parts by two operators, twice each", study(["ann", "bo"]), ""],
    ["by one operator alone", study(["ann"]), /operators/],
    ["with no instrument on record", study(["ann", "bo"], { instrument: "gauge" }), /^instrument: "gauge"/],
  ]);
});

describe("parts on order", () => {
  const part = (more: object = {}) => ({
    kind: "part",
    part: "transformer",
    model: "Skerry",
    step: "wiring",
    lead_days: { fast: 1, usual: 2, slow: 3 },
    ...more,
  });
  const others = (book: Book) => {
    book.write(1, {
      ...smallModel,
      revision: "2",
      build: [{ step: "chassis", hours: { fast: 1, usual: 2, slow: 3 } }],
      shelf: { step: "from the shelf", hours: 1 },
    });
    book.write(1, { ...smallModel, model: "Ebb", build: [{ step: "gilding", hours: { fast: 1, usual: 2, slow: 3 } }] });
  };
  everyCase([
    ["for a step", part(), ""],
    ["for a step of another revision", part({ step: "chassis" }), "", others],
    ["for the step from the shelf", part({ step: "from the shelf" }), "", others],
    [
      "for a step that there is not",
      part({ step: "etching" }),
      /^step: "etching"; no step of Skerry .*; known: wiring; check the spelling/,
    ],
    [
      "for a step of another model",
      part({ step: "gilding" }),
      /^step: "gilding"; .*; known: wiring, chassis, from the shelf; check/,
      others,
    ],
  ]);
});

describe("the shop, runs and releases", () => {
  const shop = (more: object = {}) => ({
    kind: "shop",
    timeZone: "America/Regina",
    calendars: { day: { week: { mon: ["08:00-16:00"] } } },
    people: [{ id: "bench", skills: [], calendar: "day" }],
    places: [{ id: "rack", kind: "batch" }],
    building_Hz: 50,
    cleanSupply_Hz: [],
    currency: "EUR",
    ...more,
  });
  const person = (id: string, calendar = "day") => ({ id, skills: [], calendar });
  const begun = (more: object = {}) => ({
    kind: "begun",
    run: "heat",
    units: [],
    valves: ["N1", "N2"],
    pieces: [],
    place: "anywhere",
    hours: 24,
    ...more,
  });
  everyCase([
    ["a shop in a zone there is", shop(), ""],
    ["two people of one id", shop({ people: [person("a"), person("a")] }), /^people\[1\]: "a"; each person once/],
    [
      "two places of one name",
      shop({
        places: [
          { id: "p", kind: "single" },
          { id: "p", kind: "batch" },
        ],
      }),
      /^places\[1\]: "p"; each place once/,
    ],
    [
      "somebody of no calendar",
      shop({ people: [person("a"), person("b", "night")] }),
      /^people\[1\]\.calendar: "night"; .*known: day/,
    ],
    ["valves set going where no place was written down", begun(), ""],
    ["valves, the second of which nobody received", begun({ valves: ["N1", "Z9"] }), /^valves\[1\]: "Z9"; no valve/],
    ["a valve twice", begun({ valves: ["N1", "N1"] }), /each thing once/],
    ["an id of its own", begun({ id: "mine" }), ""],
    [
      "a moment just as far ahead as a clock may run",
      begun({ at: new Date(Date.parse(at(50)) + 60_000).toISOString() }),
      "",
    ],
    ["a moment beyond that", begun({ at: new Date(Date.parse(at(50)) + 60_001).toISOString() }), /^at: /],
    [
      "a unit that has left",
      begun({ units: ["0101"], valves: [], claim: "case-soak" }),
      /^units\[0\]: "0101"; it has left/,
      (book) => {
        book.proveAll(1);
        const claims = smallModel.claims.map(({ claim }) => ({ claim, state: "proven" as const, figures: [] }));
        book.write(
          2,
          { kind: "release", unit: "0101", version: "1", resting_sha256: "a".repeat(64), claims },
          { by: "owner" },
        );
      },
    ],
    [
      "a release while seven claims are open",
      { kind: "release", unit: "0101", version: "1", resting_sha256: "a".repeat(64), claims: [] },
      /^unit: "0101"; refused while 7 of 16 claims .*; close (?:[\w-]+ \(open\), ){5}[\w-]+ \(open\) and 1 more$/,
      (book) => {
        for (const { claim, requires } of smallModel.claims.slice(7))
          for (const index of requires.keys()) book.read(1, claim, { index });
      },
    ],
    [
      "a release while six are",
      { kind: "release", unit: "0101", version: "1", resting_sha256: "a".repeat(64), claims: [] },
      /^unit: "0101"; refused while 6 of 16 claims .*; close (?:[\w-]+ \(open\), ){5}[\w-]+ \(open\)$/,
      (book) => {
        for (const { claim, requires } of smallModel.claims.slice(6))
          for (const index of requires.keys()) book.read(1, claim, { index });
      },
    ],
  ]);
});
