import type { Random } from "../../../maths/random.ts";
import { catalogueEntry, type ValveModel, valveCurrents } from "../../model.ts";
import { FORM_COUNT, formSurface } from "../form.ts";
import { SCREEN_FORM, UNKNOWN } from "../odds.ts";
import { offsetSpread_V, TESTED, toModel, toParameters, typeBelief, typeScale } from "../parameters.ts";
import type { CurvePoint } from "../point.ts";

/** A valve whose true currents are known, drawn about a type of the catalogue. */
export interface DrawnValve {
  readonly type: string;
  readonly kind: ValveModel["kind"];
  /** Its curves, where it follows the law that is fitted. */
  readonly model?: ValveModel;
  currents_mA(plate_V: number, grid_V: number, screen_V: number): { plate_mA: number; screen_mA: number };
}

/** How much a valve may differ from its law before it is drawn again: a surface meant for shares of a current. */
const MOST_FORM = 0.5;

/**
 * A valve of the law that is fitted: parameters normal about the type with the spread the fit believes in, and a smooth
 * surface of the size and kind the fit believes in by which the valve misses the law.
 */
export function ofOurLaw(type: string, random: Random): DrawnValve {
  const entry = catalogueEntry(type)!;
  const scale = typeScale(entry);
  const { each, together } = typeBelief(entry);
  const centre = toParameters(entry.model, scale);
  for (;;) {
    const shift = each.map((b) => (b.high > b.low ? b.sd * random.normal() : 0));
    const p = shift.map((d, k) => centre[k]! + d);
    const squares = together.reduce((sum, row) => sum + row.reduce((s, r, k) => s + r * shift[k]!, 0) ** 2, 0);
    if (random.uniform() > Math.exp(-squares / 2)) continue;
    if (each.some((b, k) => b.high > b.low && (p[k]! < b.low || p[k]! > b.high))) continue;
    const model = toModel(entry.kind, p, scale);
    const surface = formSurface(model, scale);
    const form = Math.exp(random.normal(UNKNOWN[2].centre, UNKNOWN[2].sd));
    const weights = (size: number) => Float64Array.from({ length: FORM_COUNT }, () => size * random.normal());
    const [ofPlate, ofScreen] = [weights(form), weights(SCREEN_FORM * form)];
    const more = (by: Float64Array, value: Float64Array) =>
      Math.min(Math.max(1 + by.reduce((sum, w, k) => sum + w * value[k]!, 0), 1 - MOST_FORM), 1 + MOST_FORM);
    return {
      type,
      kind: entry.kind,
      model,
      currents_mA(plate_V, grid_V, screen_V) {
        const { plate_A, screen_A } = valveCurrents(model, plate_V, grid_V, screen_V);
        const { value } = surface(plate_V, grid_V, screen_V);
        return { plate_mA: plate_A * 1e3 * more(ofPlate, value), screen_mA: screen_A * 1e3 * more(ofScreen, value) };
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

/**
 * A valve of a type whose usual valve follows another law: the law's mu and a contact potential added to the grid's
 * voltage are found so that its current, gm and mu (of a pentode: mu of the screen) at the type's published point are the
 * usual ones; the shape stays its author's. About that, new valves spread in mu, contact potential and current as the
 * published limits let them, and makers pass only what comes near the published current and gm.
 */
export function ofAnotherLaw([type, law]: (typeof OTHER_LAWS)[number], random: Random): DrawnValve {
  const { kind, published, model } = catalogueEntry(type)!;
  const { plate_V, grid_V, screen_V = 0 } = published;
  const usual = valveCurrents(model, plate_V, grid_V, screen_V);
  const pull = kind === "triode" ? 0 : 2;
  const currentsOf = (mu: number, offset_V: number, plateMu: number): DrawnValve["currents_mA"] => {
    const ofAuthor = law(mu, plateMu);
    return (va, vg, vs) => ofAuthor(va, vg + offset_V, vs);
  };
  const figures = (of: DrawnValve["currents_mA"]) => {
    const now = (plate: number, grid: number, screen: number) =>
      Math.log(of(plate_V + plate, grid_V + grid, screen_V + screen).plate_mA);
    const pulled = (by: number) => (pull === 0 ? now(by, 0, 0) : now(0, 0, by));
    const perGrid = (now(0, 1e-3, 0) - now(0, -1e-3, 0)) / 2e-3;
    return { plate_mA: Math.exp(now(0, 0, 0)), perGrid, mu: (perGrid * 0.02) / (pulled(0.01) - pulled(-0.01)) };
  };
  const plateMu = model.kind === "pentode" ? model.plateMu : Infinity;
  const usualMu = usual.dPlate[1] / usual.dPlate[pull];
  let [mu, offset_V] = [usualMu, 0];
  for (let turn = 0; turn < 60; turn++) {
    // More drive leaves a volt at the grid less of the current.
    let [low, high] = [-Math.abs(grid_V) - 2, Math.abs(grid_V) + 3];
    for (let step = 0; step < 50; step++) {
      offset_V = (low + high) / 2;
      if (figures(currentsOf(mu, offset_V, plateMu)).perGrid > usual.dPlate[1] / usual.plate_A) low = offset_V;
      else high = offset_V;
    }
    mu *= usualMu / figures(currentsOf(mu, offset_V, plateMu)).mu;
  }
  const standard = figures(currentsOf(mu, offset_V, plateMu));
  for (;;) {
    const current = 0.14 * random.normal();
    const bare = currentsOf(
      mu * Math.exp(0.07 * random.normal()),
      offset_V + offsetSpread_V(model.mu) * random.normal(),
      plateMu * Math.exp(0.3 * random.normal()),
    );
    const now = figures(bare);
    const offCurrent = current + Math.log(now.plate_mA / standard.plate_mA);
    const offGm = offCurrent + Math.log(now.perGrid / standard.perGrid);
    const squares = (offCurrent / TESTED.current) ** 2 + (offGm / TESTED.gm) ** 2;
    if (!(random.uniform() < Math.exp(-squares / 2))) continue;
    const factor = (usual.plate_A * 1e3 * Math.exp(current)) / standard.plate_mA;
    return {
      type,
      kind,
      currents_mA(va, vg, vs) {
        const c = bare(va, vg, vs);
        return { plate_mA: c.plate_mA * factor, screen_mA: c.screen_mA * factor };
      },
    };
  }
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
