import fc from "fast-check";
import { expect, test } from "vitest";
import type { HumLineView } from "../../workshop/views.ts";
import { type Cause, hearingOf, namedCauses, segmentsOf, shownLines } from "./causes.ts";

const cause = (share: number, low: number): Cause => ({ cause: "amplifier", share, low, high: 1 });

// source: worked by hand; 0.7 of which 0.6 is sure leaves 0.1 at the joint, 0.3 of which 0.2 is sure likewise
test("what is unsure lies where two causes meet", () => {
  const [a, b] = segmentsOf([cause(0.7, 0.6), cause(0.3, 0.2)]);
  expect(a?.sureFrom).toBe(0);
  expect(a?.sureTo).toBeCloseTo(0.6, 12);
  expect(b?.sureFrom).toBeCloseTo(0.8, 12);
  expect(b?.sureTo).toBeCloseTo(1, 12);
});

// property: the segments fill the bar whatever the shares, and the sure part lies inside its segment
test("segments fill the bar", () => {
  const shares = fc.array(
    fc.tuple(fc.double({ min: 0.001, max: 1, noNaN: true }), fc.double({ min: 0, max: 1, noNaN: true })),
    {
      minLength: 1,
      maxLength: 5,
    },
  );
  fc.assert(
    fc.property(shares, (drawn) => {
      const segments = segmentsOf(drawn.map(([share, part]) => cause(share, share * part)));
      expect(segments.at(-1)?.to).toBeCloseTo(1, 9);
      for (const s of segments) {
        expect(s.sureFrom).toBeGreaterThanOrEqual(s.from - 1e-12);
        expect(s.sureTo).toBeLessThanOrEqual(s.to + 1e-12);
        expect(s.sureTo).toBeGreaterThanOrEqual(s.sureFrom - 1e-12);
      }
    }),
  );
});

test("causes without any part in a line are not named, and one that may have much is", () => {
  const shares = [
    [0.004, 0, 0.009],
    [0.9, 0.8, 1],
    [0.005, 0, 0.4],
  ] as const;
  const causes = shares.map(([share, low, high]): Cause => ({ cause: "amplifier", share, low, high }));
  expect(namedCauses(causes).map((one) => one.share)).toEqual([0.9, 0.005]);
});

const line = (frequency_Hz: number, level_Vrms: number, audible: "yes" | "no" | "doubtful"): HumLineView => ({
  channel: "left",
  recording: "r1",
  frequency_Hz,
  order: 1,
  of: "supply",
  level_Vrms,
  doubt_Vrms: 0,
  causes: [],
  heardOn: [{ headphone: "h", margin_dB: 0, audible }],
});

test("no line that may be heard is ever folded away", () => {
  const lines = Array.from({ length: 30 }, (_, i) =>
    line(50 * (i + 1), 1e-6 / (i + 1), i % 3 === 0 ? "yes" : i % 3 === 1 ? "doubtful" : "no"),
  );
  const { shown, folded } = shownLines(lines);
  expect(folded.every((one) => hearingOf(one) === "no")).toBe(true);
  expect(shown.length + folded.length).toBe(30);
  expect(shown.slice(0, 10).every((one) => hearingOf(one) === "yes")).toBe(true);
});

test("without headphones on file the strongest lines stand open", () => {
  const lines = Array.from({ length: 9 }, (_, i) => ({ ...line(50 * (i + 1), 1e-6 * (i + 1), "no"), heardOn: [] }));
  expect(shownLines(lines).shown.map((one) => one.frequency_Hz)).toEqual([450, 400, 350, 300, 250, 200]);
});
