import fc from "fast-check";
import { expect, test } from "vitest";
import { isSpoken, withTold } from "./fields.ts";
import { holesLost, readPattern } from "./pattern.ts";
import { phrasebook } from "./phrasebook.ts";

const polish = phrasebook(
  {
    "{valve} fell {#pct} % in the heat run": "{valve} spadła przy wygrzewaniu o {pct} %",
    "heat run of {#n} valves": "wygrzewanie {n} {n|lampy|lamp|lamp}",
    "{#n} valves": "{n} {n|lampa|lampy|lamp}",
    "reads {_q} {#v} ± {#d}, inside {~limits} by its doubt": "{q} {v} ± {d} {q.unit}, w granicy: {limits}",
    "{#a} to {#b}": "od {a} do {b}",
    "not yet checked": "jeszcze nie sprawdzono",
    "All is well": "Wszystko dobrze",
    drift: "dryf",
    "{#n} figure[s] [is|are] missing": "brakuje: {n}",
    "tried on {@at}": "próba {at}",
    "{&names} were never exchanged": "nie wymieniono: {names}",
    "valve {valve} at {position}": "lampa {valve} na {position}",
    "given; stays": "dane; zostaje",
  },
  "pl",
);

test("a sentence is said with what stood in its holes, numbers as the language writes them", () => {
  expect(polish.tell("T-118 fell 9.2 % in the heat run.")).toBe("T-118 spadła przy wygrzewaniu o 9,2 %.");
  expect(polish.tell("reads drift_pct -0.7139 ± 1.423, inside -5 to 5 by its doubt")).toBe(
    "dryf \u22120,7139 ± 1,423 %, w granicy: od \u22125 do 5",
  );
  expect(polish.misses("reads drift_pct -0.7139 ± 1.423, inside -5 to 5 by its doubt")).toEqual([]);
});

test("what people wrote passes untouched, whatever stands in it", () => {
  const name = fc.stringMatching(/^[A-Za-z0-9"';:,.±-]{1,12}( [A-Za-z0-9"';:,.±-]{1,12}){0,3}$/);
  fc.assert(
    fc.property(name, (valve) => {
      expect(polish.tell(`${valve} fell 2 % in the heat run`)).toBe(`${valve} spadła przy wygrzewaniu o 2 %`);
    }),
  );
});

// source: CLDR plural rules for Polish: one 1; few 2 to 4, 22 to 24; many 0, 5 to 21, 25
test("counted words take the form that goes with their number", () => {
  const said = [1, 2, 5, 12, 22, 25].map((count) => polish.tell(`${count} valves`));
  expect(said).toEqual(["1 lampa", "2 lampy", "5 lamp", "12 lamp", "22 lampy", "25 lamp"]);
  expect(polish.tell("heat run of 1 valves")).toBe("wygrzewanie 1 lampy");
});

test("sentences and clauses after one another are told each by itself, a known joint kept", () => {
  expect(polish.tell("All is well. T-1 fell 2 % in the heat run.")).toBe(
    "Wszystko dobrze. T-1 spadła przy wygrzewaniu o 2 %.",
  );
  expect(polish.tell("given; stays; not yet checked")).toBe("dane; zostaje; jeszcze nie sprawdzono");
});

test("a capital is kept where a sentence begins, and ways of the English fit as one", () => {
  expect(polish.tell("Not yet checked")).toBe("Jeszcze nie sprawdzono");
  expect(polish.tell("all is well")).toBe("wszystko dobrze");
  expect(["1 figure is missing", "3 figures are missing"].map(polish.tell)).toEqual(["brakuje: 1", "brakuje: 3"]);
});

test("dates stand in words, names in a row get the language's own and", () => {
  expect(polish.tell("tried on 2027-03-01 08:20")).toBe("próba pon. 1\u00a0mar, 08:20".replace(". 1", ".\u00a01"));
  expect(polish.tell("V1, V2 and V3 were never exchanged")).toBe("nie wymieniono: V1, V2 i V3");
  expect(polish.tell("valve T-1 at V1 and valve T-2 at V2 were never exchanged")).toBe(
    "nie wymieniono: lampa T-1 na V1 i lampa T-2 na V2",
  );
  expect(polish.tell("hot plate and chamber were never exchanged")).toBe("nie wymieniono: hot plate and chamber");
});

test("what isn't known stays as it came, and is named", () => {
  expect(polish.tell("The cat sat on the mat.")).toBe("The cat sat on the mat.");
  expect(polish.misses("All is well. The cat sat on the mat.")).toEqual(["The cat sat on the mat."]);
  expect(polish.misses("T-118 0.5 mA")).toEqual([]);
});

test("a pattern that names a hole the English has not is refused, and one that drops a hole is found", () => {
  expect(() => readPattern("{a} fell", "{b} spadła")).toThrow(/names b/);
  expect(holesLost("{a} fell {#n} %", "{a} spadła")).toEqual(["n"]);
});

test("of an answer only composed sentences are told", () => {
  const answer = {
    claims: [{ claim: "valves", title: "All is well", because: "not yet checked", state: "proven" }],
    instruments: [{ title: "All is well", words: "All is well." }],
    pages: [{ why: "All is well" }],
    entry: { claims: [{ title: "All is well" }] },
    person: "All is well",
  };
  expect(withTold(answer, polish.tell)).toEqual({
    ...answer,
    claims: [{ claim: "valves", title: "Wszystko dobrze", because: "jeszcze nie sprawdzono", state: "proven" }],
    instruments: [{ title: "All is well", words: "Wszystko dobrze." }],
  });
  const silent = { person: "All is well", list: ["All is well"] };
  expect(withTold(silent, polish.tell)).toBe(silent);
  expect([isSpoken("why", "claims"), isSpoken("why", "pages"), isSpoken("title", "instruments")]).toEqual([
    true,
    false,
    false,
  ]);
});

const german = phrasebook(
  {
    Hum: "Brumm",
    "Left and right are equal": "Links und rechts sind gleich",
    "all on the left": "alles links",
    "do without {~check}": "weglassen: {check}",
  },
  "de",
);

test("in German a noun stays large within a sentence, another word begins small", () => {
  expect(german.tell("do without hum")).toBe("weglassen: Brumm");
  expect(german.tell("do without left and right are equal")).toBe("weglassen: links und rechts sind gleich");
});
