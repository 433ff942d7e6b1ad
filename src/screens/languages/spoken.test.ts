import { afterEach, expect, test } from "vitest";
import { localeInUse, say, speak, spoken } from "./spoken.ts";

const english = { title: "Units", found: (count: number) => `${count} found`, kinds: { dc: "volts", gain: "gain" } };

afterEach(() => speak("en"));

test("without another language the messages are those written beside the screen", () => {
  expect(spoken("units", "words", english)).toEqual(english);
  expect(localeInUse()).toBe("en-GB");
});

test("a language says what it has and leaves the rest in English", () => {
  speak("de");
  say("units", { words: { found: (count: number) => `${count} gefunden`, kinds: { gain: "Verstärkung" } } });
  const words = spoken("units", "words", english);
  expect(words.found(3)).toBe("3 gefunden");
  expect(words.title).toBe("Units");
  expect(words.kinds).toEqual({ dc: "volts", gain: "Verstärkung" });
  expect(spoken("valves", "words", { title: "Valves" }).title).toBe("Valves");
  expect(localeInUse()).toBe("de");
});
