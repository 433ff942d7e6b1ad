import { expect, test } from "vitest";
import { randomStream } from "../../maths/random.ts";
import { struck } from "../testing/struck.ts";
import { findTaps } from "./findTaps.ts";

// source: made with these instants; 0.4 ms is what the analysis leaves out after a tap as contact
test("a sample that chance lifts out of the noise before a tap is not its onset", () => {
  const rate_Hz = 16_000;
  const ring = { frequency_Hz: 400, decay_s: 0.03, peaks: [0.1] };
  for (let draw = 0; draw < 60; draw++) {
    const random = randomStream(`onset ${draw}`);
    const tap_s = 0.3 + 0.05 * random.uniform();
    const found = findTaps(struck(random, rate_Hz, 0.8, [tap_s], [ring], 1.2e-5), rate_Hz);
    expect(found).toHaveLength(1);
    const late_s = found[0]! / rate_Hz - tap_s;
    expect(late_s).toBeGreaterThan(-0.0004);
    expect(late_s).toBeLessThan(0.001);
  }
});
