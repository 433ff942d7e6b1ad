/// <reference types="vite/client" />
import { describe, expect, test } from "vitest";
import type { Said } from "./spoken.ts";

/** Every table as it stands in English beside its screen: by the file, the name that other languages have it under. */
const beside = import.meta.glob<Readonly<Record<string, unknown>>>("../*/*essages.ts", { eager: true });
const named: Readonly<Record<string, string>> = {
  ...{ doorMessages: "door", formMessages: "timberForms", keptMessages: "kept", linkMessages: "links" },
  ...{ seriesMessages: "series", studyMessages: "studies", tradeMessages: "trade", whatIfMessages: "whatIf" },
};
const english = new Map(
  Object.entries(beside).map(([path, table]) => {
    const [, folder, file] = /^\.\.\/(\w+)\/(\w+)\.ts$/.exec(path)!;
    return [named[file!] ?? folder!, table];
  }),
);

const files = import.meta.glob<{ readonly said: Said }>(["./*/*.ts", "!./sentences/*.ts"], { eager: true });
const tags = [...new Set(Object.keys(files).map((path) => path.split("/")[1]!))];
const languages = tags.map((tag) => ({
  tag,
  said: (table: string): Said => files[`./${tag}/${table}.ts`]?.said ?? {},
}));

/** What reads the same in every language: the product's name, a command as it is typed, and what holds no word, as a unit. */
const sameEverywhere = ({ name, words }: Leaf) =>
  /^shell\.shell\.name$|^common\.firstSteps\.(command|example)/.test(name) ||
  (typeof words === "string" && !/\p{L}\p{Ll}/u.test(words));

type Leaf = { readonly name: string; readonly words: unknown };

/** Every message with its name, `hum.words.title`; functions beside the tables speak through them. */
function messagesOf(table: object, name: string): readonly Leaf[] {
  return Object.entries(table).flatMap(([key, words]): readonly Leaf[] =>
    typeof words === "object" && words !== null && !Array.isArray(words)
      ? messagesOf(words, `${name}.${key}`)
      : [{ name: `${name}.${key}`, words }],
  );
}

const tablesOf = (screen: object) =>
  Object.fromEntries(Object.entries(screen).filter(([, words]) => typeof words === "object"));

const samples = [3, "A-7", "use", true, [120, 80], ["A-7", "B-2"], [{ ifLeft_pct: 8, hours: 24, survival: 0.9 }]];
const counts = [0, 1, 2, 5, 22];
const isSaid = (words: unknown) => typeof words === "string" && words !== "" && !/undefined|NaN|\[object/.test(words);

function call(words: (...gaps: unknown[]) => unknown, gaps: readonly unknown[]): unknown {
  try {
    return words(...gaps);
  } catch (error) {
    return error;
  }
}

/** Gaps that the English sentence can be filled with: the kinds are not known any more when a test runs. */
function gapsOf(words: (...gaps: unknown[]) => unknown): readonly unknown[] | undefined {
  const ways = Array.from({ length: samples.length ** words.length }, (_, way) =>
    Array.from({ length: words.length }, (_, gap) => samples[Math.floor(way / samples.length ** gap) % samples.length]),
  );
  return ways.find((gaps) => isSaid(call(words, gaps)));
}

describe.each(languages)("$tag", ({ said }) => {
  test.each([...english.keys()])("%s is said whole", (screen) => {
    const inEnglish = messagesOf(tablesOf(english.get(screen)!), screen);
    const names = new Set(messagesOf(said(screen), screen).map(({ name }) => name));
    const left = inEnglish.filter((leaf) => !names.has(leaf.name) && !sameEverywhere(leaf));
    expect(left.map(({ name }) => name)).toEqual([]);
    const known = new Set(inEnglish.map(({ name }) => name));
    expect([...names].filter((name) => !known.has(name))).toEqual([]);
  });

  test.each([...english.keys()])("the sentences of %s can be said", (screen) => {
    const inEnglish = new Map(
      messagesOf(tablesOf(english.get(screen)!), screen).map(({ name, words }) => [name, words]),
    );
    for (const { name, words } of messagesOf(said(screen), screen)) {
      if (typeof words !== "function") {
        expect(Array.isArray(words) ? words.every(isSaid) : isSaid(words), name).toBe(true);
        continue;
      }
      const gaps = gapsOf(inEnglish.get(name) as (...gaps: unknown[]) => unknown);
      expect(gaps, name).toBeDefined();
      for (const count of counts) {
        const filled = gaps!.map((gap) => (typeof gap === "number" ? count : gap));
        if (!isSaid(call(inEnglish.get(name) as (...gaps: unknown[]) => unknown, filled))) continue;
        expect(call(words as (...gaps: unknown[]) => unknown, filled), name).toSatisfy(isSaid);
      }
    }
  });
});

test("the name over a page is the heading on it", () => {
  const headings = {
    ...{ instruments: ["instruments", "words"], gauge: ["studies", "gauge"], unitCharts: ["studies", "unitCharts"] },
    ...{ budget: ["studies", "budget"], listening: ["series", "series"], soaks: ["soaks", "words"] },
    ...{
      whatIf: ["whatIf", "words"],
      kept: ["kept", "words"],
      lookBack: ["lookback", "words"],
      people: ["people", "words"],
    },
  };
  type Titled = Readonly<Record<string, { readonly title: string } | undefined>>;
  type Shell = { readonly shell: { readonly titles: Readonly<Record<string, unknown>> } };
  const inEnglish = { said: (table: string) => english.get(table)! };
  for (const { said } of [inEnglish, ...languages]) {
    const { titles } = (said("shell") as Shell).shell;
    for (const [name, [table, part]] of Object.entries(headings)) {
      expect(titles[name], name).toBe((said(table!) as Titled)[part!]?.title);
    }
  }
});
