import { BadInput, quote } from "../maths/badInput.ts";
import { normalQuantile, summary, tQuantile } from "../maths/statistics/index.ts";

/** How a bound of `halfWidth` is meant: all values inside alike, mostly the middle, mostly the ends, or 95 % inside. */
export type Shape = "rectangular" | "triangular" | "arcsine" | "doubt";

/** One thing that makes the result uncertain: as standard deviation, as a bound of some shape, or as readings. */
export interface Component {
  readonly name: string;
  /** Standard deviation, in the component's own unit. */
  readonly standard?: number;
  readonly halfWidth?: number;
  readonly shape?: Shape;
  /** Repeated readings; their mean enters. */
  readonly readings?: readonly number[];
  /** Change of the result per change of this, ∂f/∂x; 1 if left out. */
  readonly sensitivity?: number;
  /** Degrees of freedom of `standard` or the bound; without, known well. */
  readonly freedom?: number;
}

export interface Correlation {
  readonly between: readonly [string, string];
  readonly r: number;
}

export interface BudgetLine {
  readonly name: string;
  readonly standard: number;
  /** What it brings into the result: |sensitivity|·standard. */
  readonly contribution: number;
  /** Share of the result's variance; with correlations the shares need not make 100. */
  readonly share_pct: number;
}

export interface Budget {
  /** Combined standard uncertainty of the result. */
  readonly standard: number;
  /** Effective degrees of freedom; left out where every component is known well. */
  readonly freedom?: number;
  /** What the standard uncertainty is multiplied by. */
  readonly factor: number;
  /** Half-width that holds the share asked for. */
  readonly doubt: number;
  /** Largest first. */
  readonly lines: readonly BudgetLine[];
}

const most = 200;
const divisors: Readonly<Record<Shape, number>> = {
  rectangular: Math.sqrt(3),
  triangular: Math.sqrt(6),
  arcsine: Math.SQRT2,
  doubt: 1.96,
};

/**
 * A doubt budget: what each component brings into a result, and the half-width of the result that follows.
 *
 *     u²   = Σᵢ (cᵢuᵢ)² + 2·Σᵢ<ⱼ cᵢcⱼ·rᵢⱼ·uᵢuⱼ                              law of propagation
 *     ν    = u⁴/Σ (cᵢuᵢ)⁴/νᵢ                                                Welch and Satterthwaite
 *     doubt = t(ν cut to a whole number)·u
 *
 * @param confidence_pct  share of true values that the half-width holds, 95 if left out
 * @throws BadInput  a component told in two ways or in none, a negative spread, an unknown name in a correlation
 * @remarks First order: where the result bends within the doubt, the true spread is larger. Correlated components have
 *   no such ν; the least of theirs is taken, if lower.
 * @source  JCGM 100:2008, clauses 4.3, 5.1.2, 5.2.2, G.4.1 (from memory; its examples H.1 and H.2 read in the tests of
 *   two uncertainty libraries)
 * @example budget([{ name: "scale", halfWidth: 0.5, shape: "rectangular" }]).doubt // 0.566
 */
export function budget(
  components: readonly Component[],
  correlations: readonly Correlation[] = [],
  confidence_pct = 95,
): Budget {
  if (components.length === 0 || components.length > most) {
    throw new BadInput("components", `${components.length} components`, `1 to ${most}`, "name what makes it uncertain");
  }
  if (!(confidence_pct >= 50 && confidence_pct <= 99.9)) {
    throw new BadInput("confidence_pct", quote(confidence_pct), "50 to 99.9", "95 is the house's doubt");
  }
  const parts = components.map(read);
  const placeOf = new Map<string, number>();
  parts.forEach(({ name }, i) => {
    if (placeOf.has(name)) {
      throw new BadInput(`components[${i}].name`, quote(name), "each name once", "give it another name");
    }
    placeOf.set(name, i);
  });
  const pairs = correlations.map(({ between, r }, i) => readPair(between, r, i, placeOf));

  const own = parts.reduce((sum, { signed }) => sum + signed ** 2, 0);
  const shared = pairs.reduce((sum, [a, b, r]) => sum + 2 * r * parts[a]!.signed * parts[b]!.signed, 0);
  if (own + shared < -1e-12 * own) {
    throw new BadInput(
      "correlations",
      "together they leave less than no spread",
      "correlations that can hold at once",
      "take them from the same readings",
    );
  }
  const standard = Math.sqrt(Math.max(0, own + shared));
  const freedom = effectiveFreedom(parts, pairs);
  const p = (1 + confidence_pct / 100) / 2;
  const factor = Number.isFinite(freedom) ? tQuantile(p, Math.max(1, Math.floor(freedom + 1e-9))) : normalQuantile(p);
  return {
    standard,
    ...(Number.isFinite(freedom) ? { freedom } : {}),
    factor,
    doubt: factor * standard,
    lines: parts
      .map(({ name, standard: of, signed }) => ({
        name,
        standard: of,
        contribution: Math.abs(signed),
        share_pct: standard === 0 ? 0 : (100 * signed ** 2) / standard ** 2,
      }))
      .sort((a, b) => b.contribution - a.contribution),
  };
}

interface Part {
  readonly name: string;
  readonly standard: number;
  readonly signed: number;
  readonly freedom: number;
}

function read(component: Component, i: number): Part {
  const { name, standard, halfWidth, shape, readings, sensitivity = 1, freedom } = component;
  const at = `components[${i}]`;
  const told = [standard, halfWidth, readings].filter((one) => one !== undefined).length;
  if (told !== 1) {
    throw new BadInput(at, quote(name), "one of standard, halfWidth, readings", "say its spread in one way");
  }
  if (!Number.isFinite(sensitivity)) {
    throw new BadInput(`${at}.sensitivity`, quote(sensitivity), "a finite number", "give ∂f/∂x at the values read");
  }
  if (freedom !== undefined && !(freedom >= 1)) {
    throw new BadInput(`${at}.freedom`, quote(freedom), "1 or more", "leave it out where the spread is known well");
  }
  if (readings !== undefined) {
    if (readings.length < 2 || readings.some((value) => !Number.isFinite(value))) {
      throw new BadInput(`${at}.readings`, `${readings.length} readings`, "at least 2 finite ones", "read it again");
    }
    const of = summary(readings).sd / Math.sqrt(readings.length);
    return { name, standard: of, signed: sensitivity * of, freedom: freedom ?? readings.length - 1 };
  }
  const bound = standard ?? halfWidth!;
  const field = standard === undefined ? "halfWidth" : "standard";
  if (!(bound >= 0 && bound < Number.POSITIVE_INFINITY)) {
    throw new BadInput(`${at}.${field}`, quote(bound), "0 or more", "leave the sign off");
  }
  if (halfWidth !== undefined && shape === undefined) {
    throw new BadInput(
      `${at}.shape`,
      "nothing",
      Object.keys(divisors).join(", "),
      "rectangular where only the bound is known, doubt for a 95 % half-width",
    );
  }
  const of = standard ?? halfWidth! / divisors[shape!];
  return { name, standard: of, signed: sensitivity * of, freedom: freedom ?? Number.POSITIVE_INFINITY };
}

function readPair(
  between: Correlation["between"],
  r: number,
  i: number,
  placeOf: ReadonlyMap<string, number>,
): [number, number, number] {
  const at = `correlations[${i}]`;
  const [a, b] = between.map((name, k) => {
    const place = placeOf.get(name);
    if (place === undefined) {
      throw new BadInput(`${at}.between[${k}]`, quote(name), "the name of a component", "correct it");
    }
    return place;
  }) as [number, number];
  if (a === b) throw new BadInput(`${at}.between`, quote(between[0]), "two components", "name another");
  if (!(r >= -1 && r <= 1)) throw new BadInput(`${at}.r`, quote(r), "−1 to 1", "give the correlation coefficient");
  return [a, b, r];
}

/** Of the components as if they stood apart: what correlation takes off the spread is no better known for it. */
function effectiveFreedom(parts: readonly Part[], pairs: readonly (readonly number[])[]): number {
  const own = parts.reduce((sum, { signed }) => sum + signed ** 2, 0);
  const fourth = parts.reduce((sum, { signed, freedom }) => sum + signed ** 4 / freedom, 0);
  const welch = fourth === 0 ? Number.POSITIVE_INFINITY : own ** 2 / fourth;
  return Math.min(welch, ...pairs.flatMap(([a, b]) => [parts[a!]!.freedom, parts[b!]!.freedom]));
}
