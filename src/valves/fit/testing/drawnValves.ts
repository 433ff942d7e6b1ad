import type { Random } from "../../../maths/random.ts";
import { type CatalogueEntry, catalogueEntry, type ValveModel, valveCurrents } from "../../model.ts";
import { toModel, toParameters, typeBelief } from "../parameters.ts";
import type { CurvePoint } from "../point.ts";

/** A valve whose true currents are known, drawn about a type of the catalogue. */
export interface DrawnValve {
  readonly type: string;
  readonly kind: ValveModel["kind"];
  /** Its curves, where it follows the law that is fitted. */
  readonly model?: ValveModel;
  currents_mA(plate_V: number, grid_V: number, screen_V: number): { plate_mA: number; screen_mA: number };
}

const scaleOf = ({ model, published }: CatalogueEntry) => {
  const electrode_V = published.screen_V ?? published.plate_V;
  const drive_V = Math.max(electrode_V / model.mu + published.grid_V + model.offset_V, (0.05 * electrode_V) / model.mu);
  return { electrode_V, drive_V };
};

/** A valve of the law that is fitted: parameters normal about the type with the spread the fit believes in. */
export function ofOurLaw(type: string, random: Random): DrawnValve {
  const entry = catalogueEntry(type)!;
  const scale = scaleOf(entry);
  const { each, together } = typeBelief(entry, scale);
  const centre = toParameters(entry.model, scale);
  for (;;) {
    const shift = each.map((b) => (b.high > b.low ? b.sd * random.normal() : 0));
    const p = shift.map((d, k) => centre[k]! + d);
    const squares = together.reduce((sum, row) => sum + row.reduce((s, r, k) => s + r * shift[k]!, 0) ** 2, 0);
    if (random.uniform() > Math.exp(-squares / 2)) continue;
    if (each.some((b, k) => b.high > b.low && (p[k]! < b.low || p[k]! > b.high))) continue;
    const model = toModel(entry.kind, p, scale);
    return {
      type,
      kind: entry.kind,
      model,
      currents_mA(plate_V, grid_V, screen_V) {
        const { plate_A, screen_A } = valveCurrents(model, plate_V, grid_V, screen_V);
        return { plate_mA: plate_A * 1e3, screen_mA: screen_A * 1e3 };
      },
    };
  }
}

type Law = (mu: number, plateMu: number) => DrawnValve["currents_mA"];
const koren =
  (x: number, kp: number, kvb: number): Law =>
  (mu) =>
  (va, vg) => ({
    plate_mA: ((va / kp) * Math.log1p(Math.exp(kp * (1 / mu + vg / Math.sqrt(kvb + va * va))))) ** x,
    screen_mA: 0,
  });
const smooth =
  (exponent: number, sharpness: number): Law =>
  (mu) =>
  (va, vg) => ({ plate_mA: (Math.log1p(Math.exp(sharpness * (va / mu + vg))) / sharpness) ** exponent, screen_mA: 0 });
/** Arctangent knee over a cathode current that is conserved, the plate pulling a little on it. */
const arctangent =
  (drive: (pull: number, vs: number) => number, kvb: number, taken: number): Law =>
  (mu, plateMu) =>
  (va, vg, vs) => {
    const cathode_mA = drive(vs / mu + vg + va / plateMu, vs);
    const plate_mA = (1 - taken) * cathode_mA * (2 / Math.PI) * Math.atan(va / kvb);
    return { plate_mA, screen_mA: cathode_mA - plate_mA };
  };
const korenDrive = (x: number, kp: number) => (pull: number, vs: number) =>
  ((vs / kp) * Math.log1p(Math.exp((kp * pull) / vs))) ** x;
const smoothDrive = (exponent: number, sharpness: number) => (pull: number) =>
  (Math.log1p(Math.exp(sharpness * pull)) / sharpness) ** exponent;

/**
 * Published laws of other forms, with the figures their authors give for a type but for mu and the size of the currents.
 * The pentodes keep their authors' drive and arctangent knee; the current that the plate leaves goes to the screen, and
 * the plate pulls on the cathode's current as far as the printed rp needs it (as published, rp comes out far too high).
 *
 * @source N. Koren, Glass Audio 8(5), 1996 (triodes' figures read, pentodes' remembered); Dempwolf, Holters and Zölzer,
 *         AES 131st Convention, paper 8507, 2011 (figures of one measured 12AX7 read in public code)
 */
export const OTHER_LAWS: readonly (readonly [type: string, law: Law])[] = [
  ["12AX7", koren(1.4, 600, 300)],
  ["12AX7", smooth(1.26, 3.4)],
  ["12AU7", koren(1.3, 84, 300)],
  ["6DJ8", koren(1.3, 320, 300)],
  ["300B", koren(1.4, 65, 300)],
  ["EL34", arctangent(korenDrive(1.35, 60), 24, 0.08)],
  ["6L6GC", arctangent(korenDrive(1.35, 48), 12, 0.03)],
  ["KT88", arctangent(korenDrive(1.35, 32), 16, 0.03)],
  ["EL84", arctangent(smoothDrive(1.4, 2), 15, 0.06)],
  ["EF86", arctangent(smoothDrive(1.35, 4), 10, 0.13)],
];

/** A valve of another law, its current and gm at the type's published point drawn with the published spread. */
export function ofAnotherLaw([type, law]: (typeof OTHER_LAWS)[number], random: Random): DrawnValve {
  const { kind, published, model } = catalogueEntry(type)!;
  const { plate_V, grid_V, screen_V = 0, plate_mA, gm_mS } = published;
  const current = random.normal(0, 0.13);
  const wanted_mA = plate_mA * Math.exp(current);
  const gmOverCurrent = (gm_mS! / plate_mA) * Math.exp(-current / 2 + random.normal(0, 0.06));
  const plateMu = model.kind === "pentode" ? model.plateMu * Math.exp(random.normal(0, 0.3)) : Infinity;
  const ratio = (mu: number) => {
    const at = (by: number) => Math.log(law(mu, plateMu)(plate_V, grid_V + by, screen_V).plate_mA);
    return (at(1e-3) - at(-1e-3)) / 2e-3;
  };
  let [low, high] = [model.mu / 3, model.mu * 3];
  for (let step = 0; step < 50; step++) {
    const middle = Math.sqrt(low * high);
    // A higher mu leaves less drive, so that the same volt at the grid moves more.
    if (ratio(middle) < gmOverCurrent) low = middle;
    else high = middle;
  }
  const bare = law(low, plateMu);
  const factor = wanted_mA / bare(plate_V, grid_V, screen_V).plate_mA;
  return {
    type,
    kind,
    currents_mA(va, vg, vs) {
      const c = bare(va, vg, vs);
      return { plate_mA: c.plate_mA * factor, screen_mA: c.screen_mA * factor };
    },
  };
}

/** Where a valve may be read: about its published point, from 4 % to 220 % of the published current. */
export function drawPlace(valve: DrawnValve, screens: readonly number[], random: Random) {
  const { plate_V, grid_V, plate_mA } = catalogueEntry(valve.type)!.published;
  for (;;) {
    const at = {
      plate_V: plate_V * (0.2 + 1.1 * random.uniform()),
      grid_V: grid_V * 2.2 * random.uniform(),
      screen_V: screens[random.integer(screens.length)]!,
    };
    const now = valve.currents_mA(at.plate_V, at.grid_V, at.screen_V).plate_mA;
    if (now > 0.04 * plate_mA && now < 2.2 * plate_mA) return at;
  }
}

/**
 * Reads a valve at places drawn. Scatter is 1 % within a factor of 1.65, and stops falling with the reading somewhere
 * between 1 % and half of the highest. A pentode's screen stands at one voltage or at three, and its current is read or
 * not.
 */
export function readValve(valve: DrawnValve, count: number, random: Random) {
  const { screen_V = 0 } = catalogueEntry(valve.type)!.published;
  const screens = random.uniform() < 0.5 ? [screen_V] : [0.7 * screen_V, 0.85 * screen_V, screen_V];
  const readsScreen = random.uniform() < 0.6;
  const places = Array.from({ length: count }, () => drawPlace(valve, screens, random));
  const true_mA = places.map((p) => valve.currents_mA(p.plate_V, p.grid_V, p.screen_V));
  const scatter = 0.01 * Math.exp(random.normal(0, 0.5));
  const floor = 0.01 * 50 ** random.uniform();
  const top = {
    plate_mA: Math.max(...true_mA.map((c) => c.plate_mA)),
    screen_mA: Math.max(...true_mA.map((c) => c.screen_mA)),
  };
  const read = (value: number, highest: number) =>
    Math.max(0, value + scatter * Math.hypot(value, floor * highest) * random.normal());
  const points = places.map((p, i): CurvePoint => {
    const plate_mA = read(true_mA[i]!.plate_mA, top.plate_mA);
    const { plate_V, grid_V } = p;
    if (valve.kind === "triode") return { plate_V, grid_V, plate_mA };
    return { ...p, plate_mA, ...(readsScreen ? { screen_mA: read(true_mA[i]!.screen_mA, top.screen_mA) } : {}) };
  });
  return { points, screens };
}

/** A drawn valve's own figures. */
export function trueFigures(valve: DrawnValve, at: { plate_V: number; grid_V: number; screen_V: number }) {
  const now = (plate: number, grid: number) =>
    valve.currents_mA(at.plate_V + plate, at.grid_V + grid, at.screen_V).plate_mA;
  const [byPlate, byGrid] = [1e-4 * at.plate_V, 1e-4 * Math.abs(at.grid_V) + 1e-4];
  const gm_mS = (now(0, byGrid) - now(0, -byGrid)) / (2 * byGrid);
  const gp_mS = (now(byPlate, 0) - now(-byPlate, 0)) / (2 * byPlate);
  const { plate_mA, screen_mA } = valve.currents_mA(at.plate_V, at.grid_V, at.screen_V);
  return { plate_mA, screen_mA, gm_mS, rp_ohm: 1e3 / gp_mS, mu: gm_mS / gp_mS };
}
