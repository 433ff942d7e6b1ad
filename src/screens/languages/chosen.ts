/// <reference types="vite/client" />
import { tellIn } from "./sentences/told.ts";
import { type Said, speak } from "./spoken.ts";

/** Every language but English has its file here, named by its tag and fetched only where it is spoken. */
const files = import.meta.glob<{ readonly said: Said }>("./*-language.ts");

const key = "stillglow.language";
const tagOf = (path: string) => /\/([\w-]+)-language\.ts$/.exec(path)?.[1] ?? "";

/** Tags of the languages there are, English first. */
export const languages: readonly string[] = ["en", ...Object.keys(files).map(tagOf).sort()];

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
  const load = files[`./${tag}-language.ts`];
  if (load) {
    tellIn(tag);
    speak(tag, (await load()).said);
  }
  document.documentElement.lang = tag;
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
