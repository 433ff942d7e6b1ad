import { afterEach, expect, test, vi } from "vitest";
import { species } from "../../timber/species.ts";

async function wordsIn(tag: "en" | "de" | "pl") {
  vi.resetModules();
  const { say, speak } = await import("../languages/spoken.ts");
  speak(tag);
  if (tag !== "en") {
    for (const table of ["common", "trade"]) say(table, (await import(`../languages/${tag}/${table}.ts`)).said);
  }
  return { ...(await import("./tradeMessages.ts")), ...(await import("../languages/sentences/forms.ts")) };
}

afterEach(() => vi.resetModules());

test("every species of the catalogue has its name in each language, and no two have the same", async () => {
  for (const tag of ["de", "pl"] as const) {
    const { woodName, woodTyped, woods } = await wordsIn(tag);
    const names = species.map(({ name }) => woodName(name).toLowerCase());
    expect(new Set(names).size).toBe(species.length);
    const known = Object.keys(woods).map((name) => name.toLowerCase());
    expect(species.filter(({ name }) => !known.includes(name.toLowerCase()))).toEqual([]);
    for (const { name } of species) expect(woodTyped(woodName(name)).toLowerCase()).toBe(name.toLowerCase());
  }
});

test("a timber is typed as it is read, or in English; one that nobody listed stays as it was typed", async () => {
  const { woodName, woodTyped } = await wordsIn("de");
  expect(woodName("white ash")).toBe("Weißesche");
  expect(woodTyped("weißesche ")).toBe("white ash");
  expect(woodTyped("White ash")).toBe("White ash");
  expect(woodTyped("Zwetschge")).toBe("Zwetschge");
});

test("in English words stay as the shop wrote them", async () => {
  const { woodName, woodTyped, tradeWord } = await wordsIn("en");
  expect([woodName("White ash"), woodTyped("White ash"), tradeWord("Hot plate")]).toEqual([
    ...["White ash", "White ash", "Hot plate"],
  ]);
});

test("known words of panels and stages are told, a shop's own are not", async () => {
  const { tradeWord } = await wordsIn("pl");
  expect([tradeWord("left side"), tradeWord("plate"), tradeWord("drawer")]).toEqual([
    ...["lewy bok", "płyta grzewcza", "drawer"],
  ]);
});

test("after its day May stands in the genitive", async () => {
  const { inGenitive } = await wordsIn("pl");
  expect(["6 maj", "czw., 6 maj 2027", "6 mar", "maj"].map(inGenitive)).toEqual([
    ...["6 maja", "czw., 6 maja 2027", "6 mar", "maj"],
  ]);
});
