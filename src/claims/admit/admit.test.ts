import { describe, expect, test } from "vitest";
import { BadInput } from "../../maths/badInput.ts";
import type { Model } from "../evidence.ts";
import { admit, foldShop, type Submitted } from "../index.ts";
import { at, Book, furtherOrder, smallModel } from "../testing/smallShop.ts";

const now = at(50);
/** What is wrong with an entry, as `path: message`; empty when it is let in. */
function refusal(entry: object, book = Book.opened(["0101", "0102"]), head?: string): string {
  try {
    admit({ at: at(40), by: "bench", ...entry } as Submitted, foldShop(book.entries), { now, ...(head && { head }) });
    return "";
  } catch (fault) {
    if (!(fault instanceof BadInput)) throw fault;
    return `${fault.path}: ${fault.message}`;
  }
}

const reading = {
  kind: "reading",
  subject: { unit: "0101" },
  quantity: "balance_dB",
  value: 0,
  doubt: 0.1,
  instrument: "meter",
  conditions: {},
};
const rework = { kind: "rework", unit: "0101", touched: [{ position: "V2" }], why: "hum" };
const batch = { kind: "batch", batch: "B9", type: "6AS7G", seller: "s", valves: ["X1"], sections: ["a", "b"] };
const recording = {
  kind: "recording",
  unit: "0101",
  recording: "r1",
  file_sha256: "0".repeat(64),
  fullScale_Vpk: 1,
  channels: ["left", "mains"],
  supply: { source: "building", frequency_Hz: 50 },
  building_Hz: 50,
  valves: { V2: "T1" },
  input: "shorted",
  instrument: "recorder",
  purpose: "hum",
};
const concession = { kind: "concession", unit: "0101", claim: "balance", reason: "as agreed", by: "owner" };

test.each([reading, rework, batch, recording, furtherOrder, concession])("a sound $kind is let in", (entry) => {
  expect(refusal(entry)).toBe("");
});

test.each<[string, object, RegExp]>([
  ["an id given twice", { ...reading, id: "e1" }, /^id: "e1"; an id is given once/],
  ["a moment after now", { ...reading, at: at(50.1) }, /^at: .*not after now/],
  ["an unknown unit", { ...reading, subject: { unit: "0999" } }, /^subject\.unit: "0999"; no unit .*0101, 0102/],
  ["a reading of nothing", { ...reading, subject: { point: "k2" } }, /^subject\.unit: /],
  ["an unknown valve", { ...reading, subject: { valve: "T99" } }, /^subject\.valve: /],
  ["an unknown section", { ...reading, subject: { valve: "T1", section: "c" } }, /^subject\.section: "c".*known: a, b/],
  ["an unknown channel", { ...reading, subject: { unit: "0101", channel: "centre" } }, /^subject\.channel: /],
  ["an unknown position", { ...reading, subject: { unit: "0101", position: "V9" } }, /^subject\.position: /],
  ["an unknown instrument", { ...reading, instrument: "gauge" }, /^instrument: "gauge"/],
  ["superseding nothing", { ...reading, supersedes: "none" }, /^supersedes: "none"/],
  ["superseding another kind", { ...reading, supersedes: "e1" }, /^supersedes: "e1"; it is a model/],
  ["a rework of an unknown part", { ...rework, touched: [{ part: "R99" }] }, /^touched\[0\]\.part: "R99"/],
  [
    "a rework of an unknown position",
    { ...rework, touched: [{ position: "V9" }] },
    /^touched\[0\]\.position: "V9"; .*known: V1, V2; /,
  ],
  [
    "a rework of an unknown stage",
    { ...rework, touched: [{ position: "V2" }, { stage: "phono" }] },
    /^touched\[1\]\.stage/,
  ],
  [
    "a rework of an unknown side of the case",
    { ...rework, touched: [{ case: "closures" }] },
    /^touched\[0\]\.case: .*known: closure, finish/,
  ],
  ["a rework of an unknown supply", { ...rework, touched: [{ supply: "taps" }] }, /^touched\[0\]\.supply/],
  [
    "things that no part is together",
    { ...rework, touched: [{ part: "R1", stage: "output" }] },
    /^touched\[0\]: part R1, stage output/,
  ],
  ["a rework before the unit was opened", { ...rework, at: at(-5) }, /^at: /],
  [
    "a valve that stands in another unit",
    { ...rework, fitted: { V2: "T2" } },
    /^fitted\.V2: "T2"; it is fitted in unit 0102 at V2/,
  ],
  ["a valve of another type", { ...rework, fitted: { V2: "N3" } }, /^fitted\.V2: N3, a 6SN7GT; V2 takes a 6AS7G/],
  ["a valve not on record", { ...rework, fitted: { V2: "T77" } }, /^fitted\.V2: "T77"/],
  ["a position not on record", { ...rework, fitted: { V7: "T3" } }, /^fitted\.V7: /],
  ["a batch with a valve of another", { ...batch, valves: ["X1", "T1"] }, /^valves\[1\]: "T1"; batch B2 has it/],
  ["a batch with a valve twice", { ...batch, valves: ["X1", "X1"] }, /^valves\[1\]: /],
  ["a recording of an unknown channel", { ...recording, channels: ["lfet"] }, /^channels\[0\]: "lfet"/],
  ["a recording with an unknown valve", { ...recording, valves: { V2: "T99" } }, /^valves\.V2: "T99"/],
  [
    "a unit opened twice",
    { kind: "unit", unit: "0101", order: "O1", model: "Skerry", revision: "1", fitted: {}, tap: "120", built: [] },
    /^unit: "0101"; a unit is opened once/,
  ],
  [
    "a unit of no order",
    { kind: "unit", unit: "0555", order: "O7", model: "Skerry", revision: "1", fitted: {}, tap: "120", built: [] },
    /^order: "O7"/,
  ],
  ["an order of an unknown model", { ...furtherOrder, model: "Skarry" }, /^model: "Skarry"; .*known: Skerry/],
  ["an order of an unknown revision", { ...furtherOrder, revision: "2" }, /^revision: "2"/],
  [
    "an order naming another's unit",
    { ...furtherOrder, units: ["0101"] },
    /^units\[0\]: "0101"; it belongs to order O1/,
  ],
  ["another customer's order number", { ...furtherOrder, order: "O1" }, /^order: "O1"/],
  [
    "a promise of an unknown order",
    { kind: "promise", order: "O9", date: now, share_pct: 80, assumptions: "" },
    /^order: "O9"/,
  ],
  ["an unknown step", { kind: "step", unit: "0101", step: "gilding" }, /^step: "gilding"; .*known: wiring; /],
  [
    "a trial of an unknown instrument",
    { kind: "trial", instrument: "gauge", value: 1, doubt: 1 },
    /^instrument: "gauge"/,
  ],
  [
    "a concession on a safety claim",
    { ...concession, claim: "earth-bond" },
    /^claim: "earth-bond"; a safety claim can't be conceded/,
  ],
  ["a concession by somebody else", { ...concession, by: "bench" }, /^by: "bench"; only the owner concedes/],
  ["a concession on an unknown claim", { ...concession, claim: "beauty" }, /^claim: "beauty"/],
  [
    "a finding from nothing on record",
    {
      kind: "finding",
      subject: { unit: "0101" },
      quantity: "q",
      value: 1,
      doubt: 1,
      calculation: "c",
      version: "1",
      from: ["none"],
    },
    /^from\[0\]: "none"/,
  ],
  [
    "a shop in no time zone",
    {
      kind: "shop",
      timeZone: "Sea/Quarrin",
      calendars: {},
      people: [],
      places: [],
      building_Hz: 50,
      cleanSupply_Hz: [],
      currency: "EUR",
    },
    /^timeZone: /,
  ],
])("%s is refused with its field and mend", (_, entry, expected) => {
  expect(refusal(entry)).toMatch(expected);
  expect(refusal(entry).split("; ").length).toBeGreaterThanOrEqual(3);
});

test("two valves may change places in one rework, but one may not stand in two", () => {
  const book = Book.opened(["0101", "0102"]);
  expect(refusal({ ...rework, fitted: { V2: "T3" } }, book)).toBe("");
  book.write(2, { kind: "rework", unit: "0102", touched: [{ position: "V2" }], fitted: { V2: "T3" }, why: "swap" });
  expect(refusal({ ...rework, fitted: { V2: "T2" } }, book)).toBe("");
});

test("a superseded entry is superseded once, and no finding is drawn from it", () => {
  const book = Book.opened(["0101", "0102"]);
  const first = book.read(1, "balance");
  const second = book.read(1, "balance", { supersedes: first });
  expect(refusal({ ...reading, supersedes: first }, book)).toMatch(new RegExp(`^supersedes: .*supersede ${second}`));
  const finding = {
    kind: "finding",
    subject: { unit: "0101" },
    quantity: "q",
    value: 1,
    doubt: 1,
    calculation: "c",
    version: "1",
  };
  expect(refusal({ ...finding, from: [first] }, book)).toMatch(/^from\[0\]: .*superseded/);
  expect(refusal({ ...finding, subject: { unit: "0102" }, from: [second] }, book)).toMatch(
    /^from\[0\]: .*about unit 0101/,
  );
});

test("a release is refused until granted, and must say what is so", () => {
  const book = Book.opened(["0101", "0102"]);
  const claims = smallModel.claims.map(({ claim }) => ({ claim, state: "proven", figures: [] }));
  const release = { kind: "release", unit: "0101", version: "1", resting_sha256: "a".repeat(64), claims };
  expect(refusal(release, book)).toMatch(/^unit: "0101"; refused while 16 of 16 claims.*close valves \(open\)/);
  book.proveAll(1);
  expect(refusal(release, book, "b".repeat(64))).toMatch(/^resting_sha256: /);
  expect(refusal({ ...release, claims: claims.slice(1) }, book)).toMatch(/^claims: nothing on valves/);
  expect(refusal({ ...release, claims: [{ ...claims[0], state: "conceded" }, ...claims.slice(1)] }, book)).toMatch(
    /^claims\[0\]\.state: conceded; valves is proven; ask for the release again$/,
  );
  expect(refusal({ ...release, claims: [...claims, { claim: "beauty", state: "proven", figures: [] }] }, book)).toMatch(
    /^claims\[16\]\.claim: "beauty"; no claim of Skerry of that name/,
  );
  expect(refusal(release, book, "a".repeat(64))).toBe("");
  book.write(30, release as never);
  expect(refusal(release, book)).toMatch(/^unit: "0101"; it stands released/);
});

describe("a model hangs together", () => {
  const step = (name: string) => ({ ...smallModel.build[0]!, step: name });
  const claim = smallModel.claims[3]!;
  const withClaim = (more: object): Model => ({
    ...smallModel,
    claims: [{ ...claim, ...more } as Model["claims"][number]],
  });
  test.each<[string, Model, RegExp]>([
    ["as it is", smallModel, /^$/],
    [
      "a claim resting on a stage no part has",
      withClaim({ restsOn: [{ stage: "phono" }] }),
      /^claims\[0\]\.restsOn\[0\]\.stage/,
    ],
    ["a claim resting on nothing", withClaim({ restsOn: [{}] }), /^claims\[0\]\.restsOn\[0\]/],
    [
      "a claim after an unknown one",
      withClaim({ check: { ...claim.check, after: ["x"] } }),
      /^claims\[0\]\.check\.after\[0\]/,
    ],
    [
      "a claim after itself",
      withClaim({ check: { ...claim.check, after: [claim.claim] } }),
      /^claims\[0\]\.check\.after: .*circle/,
    ],
    [
      "a figure without limits",
      withClaim({ requires: [{ quantity: "q_V", of: "unit" }] }),
      /^claims\[0\]\.requires\[0\]\.high/,
    ],
    [
      "limits the wrong way round",
      withClaim({ requires: [{ quantity: "q_V", of: "unit", low: 2, high: 1 }] }),
      /^claims\[0\]\.requires\[0\]\.low/,
    ],
    [
      "a figure of an unknown channel",
      withClaim({ requires: [{ quantity: "q_V", of: "unit", channel: "mid", high: 1 }] }),
      /^claims\[0\]\.requires\[0\]\.channel/,
    ],
    [
      "a figure of a valve at no position",
      withClaim({ requires: [{ quantity: "q_V", of: "valve", high: 1 }] }),
      /^claims\[0\]\.requires\[0\]\.position/,
    ],
    [
      "a figure of an unknown section",
      withClaim({ requires: [{ quantity: "q_V", of: "valve", position: "V2", section: "c", high: 1 }] }),
      /^claims\[0\]\.requires\[0\]\.section/,
    ],
    [
      "a figure of a section of no position",
      withClaim({ requires: [{ quantity: "q_V", of: "unit", section: "a", high: 1 }] }),
      /^claims\[0\]\.requires\[0\]\.position: nothing/,
    ],
    [
      "a figure of a whole valve",
      withClaim({ requires: [{ quantity: "q_V", of: "valve", position: "V2", high: 1 }] }),
      /^$/,
    ],
    [
      "a figure of a section that its position alone has",
      {
        ...withClaim({ requires: [{ quantity: "q_V", of: "valve", position: "V2", section: "lower", high: 1 }] }),
        positions: [
          smallModel.positions[0]!,
          { position: "V2", type: "6AS7G", sections: { upper: "V2a", lower: "V2b" } },
        ],
      },
      /^$/,
    ],
    ["two claims of one name", { ...smallModel, claims: [claim, claim] }, /^claims\[1\]/],
    [
      "a section that is no part",
      { ...smallModel, positions: [{ position: "V1", type: "t", sections: { a: "V8a" } }] },
      /^positions\[0\]\.sections\.a/,
    ],
    [
      "a part in two positions",
      { ...smallModel, positions: [...smallModel.positions, { position: "V3", type: "t", sections: { a: "V1a" } }] },
      /^positions\[2\]\.sections\.a/,
    ],
    [
      "a position without sections",
      { ...smallModel, positions: [...smallModel.positions, { position: "V3", type: "t", sections: {} }] },
      /^positions\[2\]\.sections: \{\}; at least one section/,
    ],
    ["no net list", { ...smallModel, netlist: {} }, /^netlist\.parts/],
    [
      "a part without a name",
      { ...smallModel, netlist: { parts: [{ kind: "resistor" }] } },
      /^netlist\.parts\[0\]\.id/,
    ],
    ["a part that is nothing", { ...smallModel, netlist: { parts: [null] } }, /^netlist\.parts\[0\]\.id: null/],
    [
      "an input of an unknown channel",
      { ...smallModel, input: { ...smallModel.input, mid: "inM" } },
      /^input\.mid: "mid"; no channel/,
    ],
    ["two steps", { ...smallModel, build: [step("wiring"), step("lacing")] }, /^$/],
    [
      "a step twice",
      { ...smallModel, build: [step("wiring"), step("wiring")] },
      /^build\[1\]: "wiring"; each step once/,
    ],
    ["a channel without an output", { ...smallModel, output: { left: "outL" } }, /^output\.right/],
    ["feeding an unknown channel", { ...smallModel, feeds: { V1: ["mid"] } }, /^feeds\.V1\[0\]/],
  ])("%s", (_, model, expected) => {
    expect(refusal(model, new Book())).toMatch(expected);
  });
});
