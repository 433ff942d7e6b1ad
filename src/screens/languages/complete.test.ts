/// <reference types="vite/client" />
import { describe, expect, test } from "vitest";
import * as bench from "../bench/messages.ts";
import * as checks from "../checks/messages.ts";
import * as common from "../common/messages.ts";
import * as costs from "../costs/messages.ts";
import * as exchange from "../exchange/messages.ts";
import * as hum from "../hum/messages.ts";
import * as instrumentLinks from "../instruments/linkMessages.ts";
import * as instruments from "../instruments/messages.ts";
import * as instrumentStudies from "../instruments/studyMessages.ts";
import * as listening from "../listening/messages.ts";
import * as listeningSeries from "../listening/seriesMessages.ts";
import * as lookback from "../lookback/messages.ts";
import * as morning from "../morning/messages.ts";
import * as notebook from "../notebook/messages.ts";
import * as people from "../people/messages.ts";
import * as probe from "../probe/messages.ts";
import * as kept from "../promises/keptMessages.ts";
import * as promises from "../promises/messages.ts";
import * as whatIf from "../promises/whatIfMessages.ts";
import * as safety from "../safety/messages.ts";
import * as shell from "../shell/messages.ts";
import * as soaks from "../soaks/messages.ts";
import * as timberForms from "../timber/formMessages.ts";
import * as timber from "../timber/messages.ts";
import * as unit from "../unit/messages.ts";
import * as units from "../units/messages.ts";
import * as valves from "../valves/messages.ts";
import type { Catalogue } from "./catalogue.ts";

const english: Readonly<Record<keyof Catalogue, object>> = {
  ...{ bench, checks, common, costs, exchange, hum, kept, lookback, morning, notebook, probe, promises },
  instruments: { ...instruments, ...instrumentLinks, ...instrumentStudies },
  listening: { ...listening, ...listeningSeries },
  people,
  ...{ safety, shell, soaks, timber: { ...timber, ...timberForms }, unit, units, valves, whatIf },
};

const files = import.meta.glob<{ readonly said: Catalogue }>("./*-language.ts", { eager: true });
const languages = Object.entries(files).map(([path, { said }]) => ({ tag: /(\w+)-language/.exec(path)![1]!, said }));

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
  test.each(Object.keys(english) as (keyof Catalogue)[])("%s is said whole", (screen) => {
    const inEnglish = messagesOf(tablesOf(english[screen]), screen);
    const names = new Set(messagesOf(said[screen] ?? {}, screen).map(({ name }) => name));
    const left = inEnglish.filter((leaf) => !names.has(leaf.name) && !sameEverywhere(leaf));
    expect(left.map(({ name }) => name)).toEqual([]);
    const known = new Set(inEnglish.map(({ name }) => name));
    expect([...names].filter((name) => !known.has(name))).toEqual([]);
  });

  test.each(Object.keys(english) as (keyof Catalogue)[])("the sentences of %s can be said", (screen) => {
    const inEnglish = new Map(messagesOf(tablesOf(english[screen]), screen).map(({ name, words }) => [name, words]));
    for (const { name, words } of messagesOf(said[screen] ?? {}, screen)) {
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
