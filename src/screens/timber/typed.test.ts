import { afterEach, expect, test, vi } from "vitest";

/** The desk's readers as a machine has them that speaks another language. */
async function readersIn(tag: "de" | "pl") {
  vi.resetModules();
  const { say, speak } = await import("../languages/spoken.ts");
  speak(tag);
  for (const table of ["timber", "timberForms"]) say(table, (await import(`../languages/${tag}/${table}.ts`)).said);
  return { ...(await import("./marks.ts")), ...(await import("./stages.ts")) };
}

afterEach(() => vi.resetModules());

const knot = [{ what: "knot", along: { from_mm: 480, to_mm: 520 }, across: { from_mm: 30, to_mm: 60 } }] as const;

test.each([
  { tag: "de", typed: "Ast 480-520 30-60", words: "Ast 480 bis 520\u00a0mm vom Ende, 30 bis 60\u00a0mm von der Kante" },
  {
    tag: "pl",
    typed: "sęk 480-520 30-60",
    words: "sęk od 480 do 520\u00a0mm od końca, od 30 do 60\u00a0mm od krawędzi",
  },
] as const)(
  "in $tag a knot is typed and told in its word, and still read in English",
  async ({ tag, typed, words }) => {
    const { defectWords, marksIn, marksTyped } = await readersIn(tag);
    expect(marksIn(typed)).toEqual(knot);
    expect(marksIn("knot 480-520 30-60")).toEqual(knot);
    expect(marksTyped(knot)).toBe(typed);
    expect(defectWords(knot)).toBe(words);
    expect(marksIn("Blume 480-520")).toBe("Blume 480-520");
  },
);

test("a stage is planed to its thickness in each language", async () => {
  const { stagesIn } = await readersIn("de");
  const planed = [{ place: "case shop", hours: 24, machinedTo_mm: 18 }];
  for (const words of ["planed to", "to", "gehobelt auf", "auf", "strugana na", "na"])
    expect(stagesIn(`case shop 24 ${words} 18`)).toEqual(planed);
  expect(stagesIn("Kammer 48,5 h; Halle 12")).toEqual([
    { place: "Kammer", hours: 48.5 },
    { place: "Halle", hours: 12 },
  ]);
  expect(stagesIn("Kammer bald")).toBe("Kammer bald");
});
