import { BadInput, quote } from "../maths/badInput.ts";

export interface SupplyReading {
  readonly tap: string;
  readonly supply_V: number;
  readonly frequency_Hz: number;
  readonly heater_V: number;
  readonly ht_V: number;
}

export interface DestinationQuestion {
  readonly readings: readonly SupplyReading[];
  readonly taps: readonly { readonly name: string; readonly nominal_V: number }[];
  readonly destination: { readonly nominal_V: number; readonly tolerance_pct: number; readonly frequency_Hz: number };
  /** Turns of the first tap. */
  readonly core?: { readonly turns: number; readonly area_cm2: number; readonly limit_T: number };
  readonly limits: {
    readonly heater_V: number;
    readonly heater_pct: number;
    /** Takes the place of `heater_pct` at the supply's lowest and highest. */
    readonly heaterExtreme_pct?: number;
    readonly ht_max_V: number;
  };
  /** 95 % half-width of the meter, common to all its readings. */
  readonly reading_doubt_pct?: number;
}

export interface DestinationCase {
  readonly supply_V: number;
  readonly heater_V: number;
  readonly ht_V: number;
  readonly flux_T?: number;
  readonly doubt: { readonly heater_V: number; readonly ht_V: number };
}

export interface DestinationAnswer {
  readonly tap: string;
  /** At the lowest, nominal and highest supply. */
  readonly cases: readonly DestinationCase[];
  readonly state: "proven" | "refuted" | "undecided";
  readonly reasons: readonly string[];
  /** Farthest that the supply is carried beyond the readings, as a share of the nearest reading. */
  readonly reach: number;
}

/** Scatter of one reading beyond its meter's common error, 95 % half-width. */
const scatter_pct = 0.1;
export const usualReadingDoubt_pct = 0.5;

/**
 * What a unit will meet at its destination's supply, from readings at home, and on which tap.
 *
 *     x = supply/nominal of the tap            (volts a turn; turns go as `nominal_V`)
 *     heater, HT = a + b·x                     least squares over all readings; a = 0 where all stand at one x
 *     B = √2·V/(2π·f·turns·area)               peak flux density
 *
 * @returns the tap whose heaters come nearest at nominal, three cases, and the verdict over all limits by their doubt
 * @throws BadInput  a reading on an unknown tap, repeated taps, numbers out of range
 * @remarks Doubt: the meter's error common to all readings, and a scatter of 0.1 % of each (or what the line leaves,
 *   if more) carried through the line. Loads are taken as at home. Frequency moves only the flux.
 * @source  transformer e.m.f. equation, V = √2·π·f·N·A·B; the line is common practice
 */
export function atDestination(question: DestinationQuestion): DestinationAnswer {
  requireAnswerable(question);
  const { readings, taps, destination, limits, core } = question;
  const meter = (question.reading_doubt_pct ?? usualReadingDoubt_pct) / 100;
  const nominalOf = new Map(taps.map((tap) => [tap.name, tap.nominal_V]));
  const at = readings.map(({ tap, supply_V }) => supply_V / nominalOf.get(tap)!);
  const heater = lineThrough(
    at,
    readings.map(({ heater_V }) => heater_V),
    meter,
  );
  const ht = lineThrough(
    at,
    readings.map(({ ht_V }) => ht_V),
    meter,
  );

  const tap = taps.reduce((best, one) => {
    const miss = ({ nominal_V }: { nominal_V: number }) =>
      Math.abs(heater(destination.nominal_V / nominal_V).value - limits.heater_V);
    return miss(one) < miss(best) * (1 - 1e-12) ? one : best;
  });
  const turns = core ? (core.turns * tap.nominal_V) / taps[0]!.nominal_V : 0;
  const swing = destination.tolerance_pct / 100;
  const cases = [1 - swing, 1, 1 + swing].map((share): DestinationCase => {
    const supply_V = destination.nominal_V * share;
    const [heaters, high] = [heater(supply_V / tap.nominal_V), ht(supply_V / tap.nominal_V)];
    return {
      supply_V,
      heater_V: heaters.value,
      ht_V: high.value,
      ...(core ? { flux_T: fluxOf(supply_V, destination.frequency_Hz, turns, core.area_cm2) } : {}),
      doubt: { heater_V: heaters.doubt, ht_V: high.doubt },
    };
  });
  const asked = cases.map(({ supply_V }) => supply_V / tap.nominal_V);
  const reach = Math.max(...asked.map((x) => Math.min(...at.map((known) => Math.abs(x / known - 1)))));
  return { tap: tap.name, cases, reach, ...judge(cases, question) };
}

function fluxOf(supply_V: number, frequency_Hz: number, turns: number, area_cm2: number): number {
  return (Math.SQRT2 * supply_V) / (2 * Math.PI * frequency_Hz * turns * area_cm2 * 1e-4);
}

interface Estimate {
  readonly value: number;
  readonly doubt: number;
}

function lineThrough(x: readonly number[], y: readonly number[], meter: number): (at: number) => Estimate {
  const n = x.length;
  const [meanX, meanY] = [mean(x), mean(y)];
  const spread = x.reduce((sum, one) => sum + (one - meanX) ** 2, 0);
  const isLine = spread > n * (0.005 * meanX) ** 2;
  const slope = isLine ? x.reduce((sum, one, i) => sum + (one - meanX) * (y[i]! - meanY), 0) / spread : meanY / meanX;
  const left = x.reduce((sum, one, i) => sum + (y[i]! - meanY - slope * (one - meanX)) ** 2, 0);
  const freedom = n - (isLine ? 2 : 1);
  const scatter = Math.max((scatter_pct / 100) * meanY, freedom > 0 ? 1.96 * Math.sqrt(left / freedom) : 0);
  return (at) => {
    const value = meanY + slope * (at - meanX);
    const carried = isLine ? Math.sqrt(1 / n + (at - meanX) ** 2 / spread) : at / meanX / Math.sqrt(n);
    return { value, doubt: Math.hypot(meter * value, scatter * carried) };
  };
}

const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;

function judge(cases: readonly DestinationCase[], { limits, core, destination }: DestinationQuestion) {
  const names = ["lowest", "nominal", "highest"];
  const refuted: string[] = [];
  const undecided: string[] = [];
  const weigh = (words: string, excess: number, doubt: number) => {
    if (excess > doubt) refuted.push(`${words}, beyond the limit.`);
    else if (excess > -doubt) undecided.push(`${words}, too near to the limit to tell.`);
  };
  cases.forEach(({ supply_V, heater_V, ht_V, flux_T, doubt }, i) => {
    const where = `At the ${names[i]} supply, ${round(supply_V)} V,`;
    const allowed_pct = i === 1 ? limits.heater_pct : (limits.heaterExtreme_pct ?? limits.heater_pct);
    const miss_V = heater_V - limits.heater_V;
    weigh(
      `${where} heaters get ${round(heater_V)} ± ${round(doubt.heater_V, 2)} V, ${round((100 * miss_V) / limits.heater_V, 3)} % from ${limits.heater_V} V (allowed ${allowed_pct} %)`,
      Math.abs(miss_V) - (allowed_pct / 100) * limits.heater_V,
      doubt.heater_V,
    );
    weigh(
      `${where} HT is ${round(ht_V)} ± ${round(doubt.ht_V, 2)} V of ${limits.ht_max_V} V allowed`,
      ht_V - limits.ht_max_V,
      doubt.ht_V,
    );
    if (core && flux_T !== undefined) {
      weigh(
        `${where} ${destination.frequency_Hz} Hz, flux is ${round(flux_T)} T of ${core.limit_T} T allowed`,
        flux_T - core.limit_T,
        0,
      );
    }
  });
  const state = refuted.length > 0 ? "refuted" : undecided.length > 0 ? "undecided" : "proven";
  const reasons = [...refuted, ...undecided];
  return {
    state: state as DestinationAnswer["state"],
    reasons:
      reasons.length > 0
        ? reasons
        : [
            "Heaters, HT and flux as far as given keep their limits at the lowest, nominal and highest supply, doubt included.",
          ],
  };
}

function round(value: number, digits = 4): number {
  return Number(value.toPrecision(digits));
}

function requireAnswerable({ readings, taps, destination, core, limits }: DestinationQuestion): void {
  if (taps.length === 0) throw new BadInput("taps", "no taps", "at least one", "give the transformer's taps");
  if (readings.length === 0)
    throw new BadInput("readings", "no readings", "at least one", "read the unit at two supplies");
  const names = new Set<string>();
  taps.forEach(({ name, nominal_V }, i) => {
    if (names.has(name)) throw new BadInput(`taps[${i}].name`, quote(name), "each tap once", "rename or remove it");
    names.add(name);
    requireAbove0(`taps[${i}].nominal_V`, nominal_V);
  });
  readings.forEach((reading, i) => {
    if (!names.has(reading.tap)) {
      throw new BadInput(
        `readings[${i}].tap`,
        quote(reading.tap),
        "the name of a tap in taps",
        "correct it or add the tap",
      );
    }
    for (const name of ["supply_V", "frequency_Hz", "heater_V", "ht_V"] as const) {
      requireAbove0(`readings[${i}].${name}`, reading[name]);
    }
  });
  requireAbove0("destination.nominal_V", destination.nominal_V);
  requireAbove0("destination.frequency_Hz", destination.frequency_Hz);
  if (!(destination.tolerance_pct >= 0 && destination.tolerance_pct < 100)) {
    throw new BadInput(
      "destination.tolerance_pct",
      quote(destination.tolerance_pct),
      "0 to under 100",
      "give 10 for ±10 %",
    );
  }
  requireAbove0("limits.heater_V", limits.heater_V);
  for (const [name, value] of Object.entries(core ?? {})) requireAbove0(`core.${name}`, value);
}

function requireAbove0(path: string, value: number): void {
  if (value > 0 && value < Number.POSITIVE_INFINITY) return;
  throw new BadInput(path, quote(value), "above 0", "give it as a positive number");
}
