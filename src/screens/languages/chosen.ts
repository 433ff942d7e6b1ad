/// <reference types="vite/client" />
import type { TableName } from "./catalogue.ts";
import { tellIn } from "./sentences/told.ts";
import { languageInUse, type Said, say, speak } from "./spoken.ts";

/** Every language but English has its folder here, named by its tag, with a file for each table of messages. */
const files = import.meta.glob<{ readonly said: Said }>(["./*/*.ts", "!./sentences/*.ts"]);

const key = "stillglow.language";
const tagOf = (path: string) => path.split("/")[1] ?? "";

/** Tags of the languages there are, English first. */
export const languages: readonly string[] = ["en", ...[...new Set(Object.keys(files).map(tagOf))].sort()];

/** What stands around every screen, and the screen that is shown first. */
const first: readonly TableName[] = ["common", "shell", "door", "morning"];

/** A language's name in itself: `Deutsch`. */
export function nameOf(tag: string): string {
  const name = new Intl.DisplayNames([tag], { type: "language" }).of(tag) ?? tag;
  return name.charAt(0).toLocaleUpperCase(tag) + name.slice(1);
}

/** The language chosen on this machine, else the first of the browser's that is here. */
export function languageWanted(kept: string | null, wished: readonly string[]): string {
  const here = (tag: string) => languages.find((one) => one === tag.split("-")[0]);
  return [...(kept ? [kept] : []), ...wished].flatMap((tag) => here(tag) ?? [])[0] ?? "en";
}

/** Takes the language wanted into use, before any screen is loaded. */
export async function speakAsWanted(): Promise<void> {
  const tag = languageWanted(remembered(), navigator.languages);
  speak(tag);
  if (tag !== "en") tellIn(tag);
  document.documentElement.lang = tag;
  await bringWords(first);
}

/** Every table there is, for a page that shows all screens at once. */
export const bringEveryWord = (): Promise<void> =>
  bringWords(Object.keys(files).map((path) => path.replace(/^.*\/|\.ts$/g, "") as TableName));

const brought = new Map<string, Promise<void>>();

/** Resolves when these tables are here in the language in use; each is fetched once. */
export async function bringWords(tables: readonly TableName[]): Promise<void> {
  await Promise.all(
    tables.map((table) => {
      const path = `./${languageInUse()}/${table}.ts`;
      const load = files[path];
      if (!load) return undefined;
      const before = brought.get(path);
      if (before) return before;
      const now = load().then(({ said }) => say(table, said));
      brought.set(path, now);
      now.catch(() => brought.delete(path));
      return now;
    }),
  );
}

/** Keeps the choice on this machine and loads the page anew in it; what was typed is kept as through any reload. */
export function chooseLanguage(tag: string): void {
  try {
    localStorage.setItem(key, tag);
  } catch {
    // A browser that keeps nothing asks again next time.
  }
  window.location.reload();
}

function remembered(): string | null {
  try {
    return localStorage.getItem(key);
  } catch {
    return null;
  }
}
