import { afterEach, expect, test } from "vitest";
import { localeInUse, say, speak, spoken, unbroken } from "./spoken.ts";

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

test("a date's own stop ends the sentence, and a figure keeps its unit beside it", () => {
  speak("de");
  say("units", { words: { late: (date: string) => `Erst bis ${date}.`, in: (h: string) => `in ${h} h fertig` } });
  const words = spoken("units", "words", { late: (date: string) => `By ${date}.`, in: (h: string) => `in ${h} h` });
  expect(words.late("Mi. 14. Apr.")).toBe("Erst bis Mi. 14. Apr.");
  expect(words.late("Fr. 5. März")).toBe("Erst bis Fr. 5. März.");
  expect(words.in("12")).toBe("in 12\u00a0h fertig");
  expect(unbroken("2,17 µA, 9 mehr, 3 halbe, 5 % der 4 Volt")).toBe(
    "2,17\u00a0µA, 9 mehr, 3 halbe, 5\u00a0% der 4 Volt",
  );
});
