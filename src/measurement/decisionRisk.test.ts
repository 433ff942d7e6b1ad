import fc from "fast-check";
import { expect, test } from "vitest";
import reference from "../../reference/measurement.json" with { type: "json" };
import { recordAccuracy } from "../../tests/accuracy.ts";
import { normalCdf } from "../maths/statistics/index.ts";
import { decisionRisk, guard, guardFor } from "./index.ts";

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

// source: D. Deaver, How to maintain your confidence, pages 7 and 10, as quoted in a public library's tests
// (reference/measurement.json)
test("risks of symmetric limits are the printed ones", () => {
  const { cases, source } = reference.risk_deaver;
  let worst = 0;
  for (const { sd, u, limit, guard, falseAccept, falseReject, tolerance } of cases) {
    const at = decisionRisk({ mean: 0, sd, doubt: 1.96 * u, low: -limit, high: limit, guard });
    const off = Math.max(
      Math.abs(at.falseAccept - falseAccept),
      falseReject === undefined ? 0 : Math.abs(at.falseReject - falseReject),
    );
    expect(off, `limit ${limit}, u ${u}`).toBeLessThan(tolerance);
    worst = Math.max(worst, off);
  }
  recordAccuracy({
    area: "measurement",
    what: "false accepts and rejects between symmetric limits, with and without guard band",
    source,
    reached: worst.toFixed(4),
    limit: "half a unit of the last printed figure, 0.0001 to 0.001",
  });
});

// source: JCGM 106:2012, example 9.5.4 with a gamma spread, as a public library's notebook works it (read there)
test("the ball bearings of the guide come out: outside, falsely accepted, and the guard band for one in a thousand", () => {
  const { mean, sd, u, limit, source, ...printed } = reference.risk_bearings;
  const pieces = { mean, sd, shape: "gamma", doubt: 1.96 * u, high: limit } as const;
  const found = decisionRisk({ ...pieces, guard: 0 });
  const guard = guardFor(pieces, printed.wanted_falseAccept)!;
  expect(found.outside).toBeCloseTo(printed.outside, 8);
  expect(Math.abs(found.falseAccept - printed.falseAccept)).toBeLessThan(2e-5);
  expect(Math.abs(guard - printed.guard)).toBeLessThan(2e-3);
  recordAccuracy({
    area: "measurement",
    what: "ball bearings: share outside, falsely accepted, guard band for 1 in 1000",
    source,
    reached: `${found.outside.toFixed(5)}, ${found.falseAccept.toFixed(5)}, ${guard.toFixed(4)}`,
    limit: "0.04238, 0.00802, 0.3282 as worked there",
  });
});

// source: JCGM 106:2012, table 1, from memory; the same numbers are quantiles of the normal distribution
test("one reading's chance of being inside goes with its distance from the limit as tabled", () => {
  for (const [share, z] of reference.conformance_z.rows) {
    const { riskFalseAccept } = guard({ value: -z!, doubt: 1.96, high: 0 });
    expect(Math.abs(1 - riskFalseAccept - share!)).toBeLessThan(0.003);
    expect(normalCdf(z!)).toBeCloseTo(1 - riskFalseAccept, 9);
  }
});

// source: second method, numpy/scipy 1.10 (Debian), integrate.quad piece by piece: pieces of mean 1 that spread as a gamma of
// an exponent, read with a scatter in their spreads, and a limit so many spreads over the mean: what is taken of those beyond
// it, and of those within
test.each([
  [1.05, 0.003, 0.5, 0.00026955582945111553, 0.7746486282424396],
  [1.05, 0.003, 2, 5.997652405503578e-5, 0.9503098457398635],
  [1.05, 0.3, 0.5, 0.022658183234128965, 0.7419875948872333],
  [1.05, 0.3, 2, 0.005029691951367246, 0.943010775725345],
  [9, 0.003, 0.5, 0.0003618017158525393, 0.7202241774379651],
  [9, 0.003, 2, 6.96309761095906e-5, 0.9624835080461892],
  [9, 0.3, 0.5, 0.031387343769012005, 0.6798939596723381],
  [9, 0.3, 2, 0.005449726804224955, 0.9533572449623392],
  [10000, 0.003, 0.5, 0.00041903442340080014, 0.691922605989844],
  [10000, 0.003, 2, 6.479638175912279e-5, 0.9766473996093427],
  [10000, 0.3, 0.5, 0.0372838410658752, 0.6475195169763277],
  [10000, 0.3, 2, 0.00460054043977232, 0.9671993789120646],
])(
  "of a gamma of exponent %d read with %d of its spread, %d over the mean, shares agree with quadrature",
  (exponent, scatter, over, taken, within) => {
    const sd = 1 / Math.sqrt(exponent);
    const pieces = { mean: 1, sd, shape: "gamma", doubt: 1.96 * scatter * sd, high: 1 + over * sd, guard: 0 } as const;
    const found = decisionRisk(pieces);
    expect(Math.abs(found.falseAccept - taken)).toBeLessThan(1e-9);
    expect(Math.abs(found.accepted - taken - within)).toBeLessThan(1e-9);
  },
);

// source: by hand; a share has no unit
test("of a gamma told in another unit the shares are the same", () => {
  const of = (unit: number) =>
    decisionRisk({ mean: unit, sd: unit / 1.025, shape: "gamma", doubt: 0.006 * unit, high: 1.5 * unit, guard: 0 });
  for (const unit of [1e-3, 250]) {
    expect(Math.abs(of(unit).falseAccept / of(1).falseAccept - 1)).toBeLessThan(1e-9);
    expect(Math.abs(of(unit).falseReject / of(1).falseReject - 1)).toBeLessThan(1e-9);
  }
});

// source: by hand; where no limit is near, all pieces are within and taken
test("limits that no piece comes near turn none away", () => {
  const found = decisionRisk({ mean: 5, sd: 2, shape: "normal", doubt: 0.4, low: -100, high: 100, guard: 0 });
  expect(Math.abs(found.accepted - 1)).toBeLessThan(1e-12);
  expect(found.falseReject).toBeLessThan(1e-12);
});

test("a gamma that is nearly normal has the risks of the normal", () => {
  const pieces = { mean: 400, sd: 4, doubt: 3, low: 392, high: 409, guard: 1 } as const;
  const [normal, gamma] = [decisionRisk(pieces), decisionRisk({ ...pieces, shape: "gamma" })];
  expect(Math.abs(gamma.falseAccept - normal.falseAccept)).toBeLessThan(3e-4);
  expect(gamma.outside + gamma.accepted + gamma.falseReject - gamma.falseAccept).toBeCloseTo(1, 6);
  expect(() => decisionRisk({ ...pieces, mean: -1, low: -10, shape: "gamma" })).toThrow(
    expect.objectContaining({ path: "mean" }),
  );
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
