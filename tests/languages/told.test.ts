/// <reference types="vite/client" />
import { join } from "node:path";
import { beforeAll, describe, expect, test } from "vitest";
import { holesLost } from "../../src/screens/languages/sentences/pattern.ts";
import { buildServer } from "../../src/server/server.ts";
import { openWorkshop } from "../../src/workshop/workshop.ts";
import { keptFolder } from "../helpers.ts";
import { madeDemo, madeWithin_ms } from "../madeDemo.ts";
import { houseOfRefusals, refusalsInSource } from "./refusals.ts";
import spoken from "./spoken.json" with { type: "json" };
import { type Language, languagesHere, type Spoken, spokenIn, untold } from "./untold.ts";

/**
 * Whatever the machine composes and a screen shows is said in every language. What is missing is printed as patterns to
 * fill in, in `src/screens/languages/xx/sentences/`; `scripts/untold.ts` lists those of a whole workshop.
 */
const languages = await languagesHere();

/** What a shop named itself: its steps and places stay as they were written; test points are told by their field. */
const theirOwn = new Set([
  ...["lid", "wood over the valves", "wiring", "chassis", "case", "coats", "plate", "sanding", "soak", "oiling"],
  // A check's short name, where the models give it different titles.
  "test points input",
]);

/** Zones, times of a day and fields of an input are written alike everywhere. */
const writtenAlike = /"mon"|"\w+": ?[{[]|"heater_V"|America\/Regina|Europe\/Paris|\[low,|high\]/;
const holdsWords = (passed: string) => /\p{L}{2}/u.test(passed.replace(/A-7[a-z]?/g, "")) && !writtenAlike.test(passed);

const left = (language: Language, spoken: readonly Spoken[]) =>
  untold(
    language,
    spoken.filter(({ sentence, where }) => !theirOwn.has(sentence) && !/(?:figures|charts)\.where$/.test(where)),
  );

/** One sentence of each form that the demo's whole shop showed when `scripts/untold.ts --record` last walked it. */
const recorded: readonly Spoken[] = (spoken as [string, string][]).map(([where, sentence]) => ({ where, sentence }));

const workshop = join(keptFolder(), "told");
/** What is soon answered and quick to change. */
const quick = [
  ...["workshop", "morning", "trays", "instruments", "safety-limits", "promises/kept", "timber", "units/0417"],
  ...["units/0417/safety", "units/0417/probe"],
];
let answers: readonly Spoken[];
beforeAll(async () => {
  madeDemo(workshop);
  const opened = await openWorkshop(workshop, { write: false });
  const app = await buildServer({ workshop: opened });
  const asked = quick.map(async (path) => spokenIn((await app.inject({ url: `/api/${path}` })).json(), path));
  answers = (await Promise.all(asked)).flat();
  await app.close();
  await opened.close();
}, 2 * madeWithin_ms);

const examples = import.meta.glob<Readonly<Record<string, unknown>>>("../../src/screens/*/*xamples.ts", {
  eager: true,
});

describe.each(languages)("$tag", (language) => {
  test("every sentence that the demo's shop showed is said", () => {
    expect(recorded.length).toBeGreaterThan(300);
    expect(left(language, recorded)).toEqual([]);
  });

  test("every sentence that its first pages show now is said", () => {
    expect(answers.length).toBeGreaterThan(200);
    expect(left(language, answers)).toEqual([]);
  });

  test("most sentences of the screens' examples are said: a few are longer or older than any machine composes", () => {
    const shown = Object.entries(examples).flatMap(([path, views]) =>
      spokenIn(views, path.replace(/^.*screens\//, "")),
    );
    expect(shown.length).toBeGreaterThan(300);
    expect(left(language, shown).length).toBeLessThan(0.1 * shown.length);
  });

  test("every refusal of the house is said", () => {
    const refused = refusalsInSource(houseOfRefusals);
    expect(refused.length).toBeGreaterThan(900);
    expect(left(language, refused)).toEqual([]);
    // Samples stand in the gaps; English words in their place were let pass by too wide a hole.
    const swallowed = refused.flatMap(({ sentence, where }) =>
      language.book.passed(sentence).some(holdsWords) ? [`${where}: ${sentence}`] : [],
    );
    expect([...new Set(swallowed)]).toEqual([]);
  });

  test("each sentence keeps what stands in its holes, and none stands twice", () => {
    const lost = Object.entries(language.sentences).flatMap(([english, own]) => {
      const holes = holesLost(english, own).filter((hole) => !/^(?:number|other|none)$/.test(hole));
      return holes.length > 0 ? [`${english}: ${holes.join(", ")}`] : [];
    });
    expect(lost).toEqual([]);
    expect(language.twice).toEqual([]);
  });
});

test("all languages know the same sentences", () => {
  const [first, ...others] = languages.map(({ sentences }) => Object.keys(sentences).sort());
  for (const other of others) expect(other).toEqual(first);
});
