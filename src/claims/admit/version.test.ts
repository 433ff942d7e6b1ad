import { expect, test } from "vitest";
import { BadInput } from "../../maths/badInput.ts";
import { admit, foldShop, type Submitted } from "../index.ts";
import { at, Book, smallModel } from "../testing/smallShop.ts";

const netlist = {
  ground: "0",
  parts: [
    { id: "IN", kind: "voltage", between: ["g", "0"], ac_V: 1 },
    { id: "R1", kind: "resistor", between: ["g", "0"], ohm: 1000, cost_cents: 12 },
  ],
};
const version = {
  kind: "version" as const,
  model: "Skerry",
  version: "1",
  netlist,
  channels: [{ channel: "left", input: "IN", output: "g" }],
  loads: [],
  limits: {},
  why: "a first drawing",
};

function refusal(entry: object, book = Book.opened()): string {
  try {
    admit({ at: at(40), by: "owner", ...entry } as Submitted, foldShop(book.entries), { now: at(50) });
    return "";
  } catch (fault) {
    if (!(fault instanceof BadInput)) throw fault;
    return `${fault.path}: ${fault.message}`;
  }
}

test("a version of a model that is not yet one is let in, and the next from it", () => {
  expect(refusal(version)).toBe("");
  const book = Book.opened();
  book.write(30, version, { id: "v1" });
  expect(refusal({ ...version, version: "2", from: "1" }, book)).toBe("");
  expect(refusal({ ...version, version: "2", from: "0" }, book)).toMatch(/^from: "0"; no version of Skerry/);
  expect(refusal({ ...version, model: "Holm", version: "2", from: "1" }, book)).toMatch(
    /^from: "1"; no version of Holm/,
  );
});

test("a name is taken once, and put right only by superseding its own entry", () => {
  const book = Book.opened();
  book.write(30, version, { id: "v1" });
  expect(refusal(version, book)).toMatch(/^version: "1"; Skerry has a version of that name/);
  expect(refusal({ ...version, supersedes: "v1" }, book)).toBe("");
  expect(refusal({ ...version, model: "Holm" }, book)).toBe("");
});

test("a net list without parts, with two of a name, or a channel that enters nowhere is refused by its field", () => {
  expect(refusal({ ...version, netlist: { ground: "0", parts: [] } })).toMatch(/^netlist\.parts: /);
  expect(refusal({ ...version, netlist: { ...netlist, parts: [...netlist.parts, netlist.parts[0]] } })).toMatch(
    /^netlist\.parts\[2\]: "IN"; each part once/,
  );
  expect(refusal({ ...version, channels: [{ channel: "left", input: "INL", output: "g" }] })).toMatch(
    /^channels\[0\]\.input: "INL"; no part of that name/,
  );
});

test.each<[what: string, parts: readonly unknown[], said: RegExp]>([
  ["the first", [{ kind: "resistor" }], /^netlist\.parts\[0\]\.id: .*resistor.*; a part with an id; name the part/],
  ["a later one", [...netlist.parts, { id: 7 }], /^netlist\.parts\[2\]\.id: \{"id":7\}/],
  ["nothing at all", [...netlist.parts, null, "R2"], /^netlist\.parts\[2\]\.id: null/],
])("a part without a name is refused by its place: %s", (_, parts, said) => {
  expect(refusal({ ...version, netlist: { ...netlist, parts } })).toMatch(said);
});

test("each channel and each load stands once in a version", () => {
  const channel = (name: string) => ({ channel: name, input: "IN", output: "g" });
  const load = (name: string) => ({ name, ohm: 32 });
  const of = (channels: readonly string[], loads: readonly string[] = []) =>
    refusal({ ...version, channels: channels.map(channel), loads: loads.map(load) });
  expect(of(["left", "right"], ["32 ohm", "300 ohm"])).toBe("");
  expect(of(["left", "right", "left"])).toMatch(/^channels\[2\]: "left"; each channel once/);
  expect(of(["left"], ["32 ohm", "32 ohm"])).toMatch(/^loads\[1\]: "32 ohm"; each load once/);
});

test("a revision names a version that the notebook has, or none", () => {
  const book = Book.opened();
  book.write(30, version, { id: "v1" });
  expect(refusal({ ...smallModel, revision: "2", fromVersion: "1" }, book)).toBe("");
  expect(refusal({ ...smallModel, revision: "2", fromVersion: "7" }, book)).toMatch(/^fromVersion: "7"/);
});

test("blind trials are let in between versions on record, with no more answers than trials", () => {
  const book = Book.opened();
  book.write(30, version, { id: "v1" });
  book.write(31, { ...version, version: "2" }, { id: "v2" });
  const listening = {
    kind: "listening",
    model: "Skerry",
    versions: ["1", "2"],
    listener: "listener 1",
    asked: { kind: "difference", trials: 10, right: 8 },
  };
  expect(refusal(listening, book)).toBe("");
  expect(refusal({ ...listening, versions: ["1", "3"] }, book)).toMatch(/^versions\[1\]: "3"; no version of Skerry/);
  expect(refusal({ ...listening, versions: ["1", "1"] }, book)).toMatch(/^versions\[1\]: "1"; each version once/);
  expect(refusal({ ...listening, asked: { kind: "preference", trials: 4, second: 5 } }, book)).toMatch(
    /^asked.second: 5; at most 4/,
  );
  const asked = (of: object) => refusal({ ...listening, asked: of }, book);
  expect(asked({ kind: "preference", trials: 4, second: 4 })).toBe("");
  expect(asked({ kind: "difference", trials: 10, right: 10 })).toBe("");
  expect(asked({ kind: "difference", trials: 10, right: 11 })).toMatch(/^asked.right: 11; at most 10/);
});
