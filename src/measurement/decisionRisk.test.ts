import fc from "fast-check";
import { expect, test } from "vitest";
import { recordAccuracy } from "../../tests/accuracy.ts";
import { decisionRisk, guardFor } from "./index.ts";

// source: second method, numpy/scipy 1.10 (Debian), integrate.quad of the same integrals: pieces of spread 0.12 about
// the middle of ±0.2, read with a standard uncertainty of 0.04, without guard band and with acceptance at ±0.15 and ±0.12
const byQuadrature = [
  { guard: 0, falseAccept: 0.018942206717029137, falseReject: 0.03720780017805778 },
  { guard: 0.05, falseAccept: 0.0026774091229364054, falseReject: 0.1427766180063446 },
  { guard: 0.08, falseAccept: 0.00046863359887035477, falseReject: 0.2476696402011524 },
];
const inspection = { mean: 0, sd: 0.12, doubt: 1.96 * 0.04, low: -0.2, high: 0.2 };

test("risks over many pieces agree with quadrature", () => {
  let worst = 0;
  for (const { guard, falseAccept, falseReject } of byQuadrature) {
    const found = decisionRisk({ ...inspection, guard });
    worst = Math.max(worst, Math.abs(found.falseAccept - falseAccept), Math.abs(found.falseReject - falseReject));
  }
  expect(worst).toBeLessThan(1e-9);
  recordAccuracy({
    area: "measurement",
    what: "customer's and workshop's risk over many pieces",
    source: "JCGM 106:2012, clause 9.5 (formula from memory), by numerical Python's quadrature",
    reached: worst.toExponential(1),
    limit: "1e-9",
  });
});

// source: closed form. Limits far away from one side: P(true > h, read ≤ h) of a bivariate normal with correlation ρ
// about its mean is ½ − ¼ − asin(ρ)/2π, from the quadrant formula
test("at the middle of the spread the risk is the quadrant's", () => {
  const [sd, u] = [1, 0.75];
  const rho = sd / Math.hypot(sd, u);
  const quadrant = 1 / 4 - Math.asin(rho) / (2 * Math.PI);
  const found = decisionRisk({ mean: 0, sd, doubt: 1.96 * u, high: 0, guard: 0 });
  expect(found.falseAccept).toBeCloseTo(quadrant, 9);
  expect(found.falseReject).toBeCloseTo(quadrant, 9);
  expect(found.outside).toBeCloseTo(0.5, 12);
});

test("the guard band asked for keeps the risk, and no smaller one does", () => {
  const guard = guardFor(inspection, 0.0026774091229364054);
  expect(guard).toBeCloseTo(0.05, 8);
  expect(guardFor(inspection, 0.5)).toBe(0);
});

test("shares are shares and hang together, whatever is inspected", () => {
  const positive = fc.double({ min: 1e-3, max: 1e3, noNaN: true });
  fc.assert(
    fc.property(fc.double({ min: -5, max: 5, noNaN: true }), positive, positive, (mean, sd, doubt) => {
      const { outside, falseAccept, falseReject, accepted } = decisionRisk({
        mean,
        sd,
        doubt,
        low: -1,
        high: 1,
        guard: 0,
      });
      for (const share of [outside, falseAccept, falseReject, accepted]) {
        expect(share).toBeGreaterThanOrEqual(0);
        expect(share).toBeLessThanOrEqual(1);
      }
      expect(accepted).toBeCloseTo(1 - outside - falseReject + falseAccept, 6);
      expect(falseAccept).toBeLessThanOrEqual(outside + 1e-9);
    }),
    { numRuns: 60 },
  );
});

test.each([
  [{ ...inspection, guard: 0, sd: 0 }, "sd"],
  [{ ...inspection, guard: 0, doubt: -1 }, "doubt"],
  [{ ...inspection, guard: 0, low: 1 }, "low"],
  [{ ...inspection, guard: Number.NaN }, "guard"],
])("refuses %j at %s", (given, path) => {
  expect(() => decisionRisk(given)).toThrow(expect.objectContaining({ path }));
});
