import { expect, test } from "vitest";
import { answer } from "../../calculations/answer.ts";
import { foldShop } from "../../claims/index.ts";
import { at, Book } from "../../claims/testing/smallShop.ts";
import { BadInput } from "../../maths/badInput.ts";
import { notebookDesk } from "./desk.ts";

/** A divider by two, by ten, or by four: gains of −6.02, −20 and −12.04 dB. */
const divider = (ohm: number) => ({
  ground: "0",
  parts: [
    { id: "IN", kind: "voltage", between: ["in", "0"], ac_V: 1, channel: "left" },
    { id: "R1", kind: "resistor", between: ["in", "out"], ohm: 9000, tolerance: 0.01, channel: "left" },
    { id: "R2", kind: "resistor", between: ["out", "0"], ohm, tolerance: 0.01, channel: "left" },
  ],
});
const version = (name: string, ohm: number, from?: string) => ({
  kind: "version" as const,
  model: "Skerry",
  version: name,
  netlist: divider(ohm),
  channels: [{ channel: "left", input: "IN", output: "out" }],
  loads: [],
  limits: {},
  why: "a divider",
  ...(from !== undefined && { from }),
});
const heard = (listener: string, asked: object, versions = ["1", "2"]) => ({
  kind: "listening" as const,
  model: "Skerry",
  versions,
  listener,
  asked,
});

const calculate = async <T>(name: string, input: unknown): Promise<T> => {
  const given = await answer(name, input, {} as never);
  if (!given.ok) throw new BadInput(given.error.path, "a question", given.error.message, "ask otherwise");
  return given.output as T;
};

function desk(...entries: readonly object[]) {
  const book = Book.opened();
  entries.forEach((entry, i) => {
    book.write(30 + i, entry as never, { id: `n${i}` });
  });
  return notebookDesk({ shop: foldShop(book.entries), now: at(60), calculate });
}

// source: by hand, 20·lg(9000/18000) = −6.021 dB and 20·lg(1000/10000) = −20 dB
test("versions stand side by side, each told against the one it came from", async () => {
  const view = await desk(version("1", 9000), version("2", 1000, "1"), version("3", 3000, "1")).model("Skerry");
  const gain = view.groups.flatMap(({ rows }) => rows).find(({ quantity }) => quantity === "gain_dB")!;
  expect(gain.cells.map((cell) => Number(cell!.value.toFixed(2)))).toEqual([-6.02, -20, -12.04]);
  expect(gain.cells.map((cell) => cell!.difference?.toFixed(2))).toEqual([undefined, "-13.98", "-6.02"]);
  expect(view.columns.map(({ against }) => against)).toEqual([undefined, "1", "1"]);
  expect(view.columns[1]!.changes).toEqual([{ kind: "changed", part: "R2", field: "ohm", before: 9000, after: 1000 }]);
});

// source: binomial tail by hand, 10 of 10 by guessing 2⁻¹⁰ = 0.000977; 5 of 10 is 638/1024 = 0.623
test("what was heard blind is told by listener and together, superseded trials left out", async () => {
  const all = { kind: "difference", trials: 10 };
  const { blind } = await desk(
    version("1", 9000),
    version("2", 1000),
    heard("listener 1", { ...all, right: 5 }),
    heard("listener 2", { ...all, right: 3 }),
    { ...heard("listener 2", { ...all, right: 10 }, ["2", "1"]), supersedes: "n3" },
    heard("listener 1", { kind: "preference", trials: 10, second: 8 }),
  ).model("Skerry");
  const [pair] = blind.told;
  expect(blind.told).toHaveLength(1);
  expect(pair!.listeners.map(({ listener }) => listener)).toEqual(["listener 2", "listener 1"]);
  expect(pair!.listeners[0]!.p).toBeCloseTo(1 / 1024, 9);
  expect(pair!.listeners[0]!.amongAll).toBeCloseTo(2 / 1024, 9);
  expect(pair!.listeners[1]!.p).toBeCloseTo(638 / 1024, 9);
  expect(pair!.together).toMatchObject({ trials: 20, right: 15, needed: 15 });
  expect(blind.preferred!.ranking.map(({ item }) => item)).toEqual(["2", "1"]);
  expect(blind.preferred!.ranking[0]!.strength).toBeCloseTo(0.8, 6);
});

test("an empty notebook and an unknown model are told apart from one another, with the mend", async () => {
  await expect(desk().model("Skerry")).rejects.toThrow(/this notebook is empty/);
  await expect(desk(version("1", 9000)).model("Holm")).rejects.toThrow(/models in the notebook are Skerry/);
});
