import { expect, test } from "vitest";
import { evenlyScaled, grainBits } from "./grain.ts";

/** A sine in 16-bit steps. */
const steps = Int16Array.from({ length: 4000 }, (_, n) => Math.round(9000 * Math.sin(0.11 * n)));
const evenly = Float64Array.from(steps, (step) => step / 32_768);

// source: a scaling seen in a browser's audio thread: step/32767 above zero, step/32768 below, as 32-bit floats
test("samples that a browser scaled unevenly come back as the sound card made them", () => {
  const handedOver = Float64Array.from(steps, (step) => Math.fround(step > 0 ? step / 32_767 : step / 32_768));
  expect(grainBits([handedOver])).toBe(25);
  const [back] = evenlyScaled([handedOver]);
  expect(back).toEqual(evenly);
  expect(grainBits([back!])).toBe(16);
});

test("other samples stay as they are", () => {
  expect(evenlyScaled([evenly])[0]).toBe(evenly);
  const fine = Float64Array.from(steps, (step, n) => Math.fround(step / 32_768 + 1e-6 * Math.sin(n)));
  expect(evenlyScaled([fine])[0]).toBe(fine);
  const silence = new Float64Array(4000);
  expect(evenlyScaled([silence])[0]).toBe(silence);
});
