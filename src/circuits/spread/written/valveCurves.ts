import type { ValveModel } from "../../../valves/model.ts";
import {
  absolute,
  add,
  anyTrue,
  both,
  type Code,
  choose,
  div,
  isMore,
  type Lines,
  mul,
  negative,
  number,
  pickGreater,
  root,
  sub,
} from "./code.ts";
import type { CurveWriter, WrittenCurve } from "./curveWriter.ts";
import { exponential, logarithm, logarithmOfOneAnd } from "./elementary.ts";

const one = number(1);
const zero = number(0);

/** What a model's numbers are called in its written curve. */
function curveNumbers(model: ValveModel): Readonly<Record<string, number>> {
  const { mu, bend, gridCurrent } = model;
  const law = {
    current_A: model.current_A,
    perMu: 1 / mu,
    perR: mu / 100,
    bow_V: (bend * 100) / mu,
    bend,
    offset_V: model.offset_V,
    softness_V: model.softness_V,
    softness: model.softness,
    exponent: model.exponent,
    low2: model.lowPlate_V ** 2,
    knee2: model.kind === "triode" ? model.knee_V ** 2 : 0,
    ...(gridCurrent && {
      grid_A: gridCurrent.current_A * gridCurrent.softness_V ** gridCurrent.exponent,
      onset_V: gridCurrent.onset_V,
      perGridSoftness: 1 / gridCurrent.softness_V,
      gridExponent: gridCurrent.exponent,
      // Under 10⁻¹⁷ of the scale it is nothing.
      gridStart: -40 / gridCurrent.exponent,
    }),
  };
  if (model.kind === "triode") return law;
  const { far, knee_V, kneePerDrive, power, tail } = model.screen;
  return {
    ...law,
    perPlateMu: 1 / model.plateMu,
    far,
    knee_V,
    kneePerDrive,
    power,
    tail,
    perTail: tail > 0 ? 1 / tail : 0,
  };
}

/**
 * @param models  all that a lane's valve may have
 * @param ofLane  the one it has
 * @returns undefined where a model has a shape that is not written out, or the models are of several shapes
 */
export function valveWriter(
  models: readonly ValveModel[],
  ofLane: readonly (ValveModel | undefined)[],
): CurveWriter | undefined {
  const shapes = new Set(models.map(shapeOf));
  const [shape] = shapes;
  if (shapes.size !== 1 || shape === undefined) return undefined;
  const write = models[0]!.kind === "triode" ? writeTriode : writePentode;
  const known = new Map(models.map((model) => [model, curveNumbers(model)]));
  return {
    names: Object.keys(curveNumbers(models[0]!)),
    numbers: (lane) => known.get(ofLane[lane]!)!,
    isDrawn: models.length > 1,
    write: (lines, p, u) => write(shape, lines, p, u),
  };
}

function shapeOf(model: ValveModel): string | undefined {
  if (!(model.softness_V > 0 && model.softness >= 0)) return undefined;
  if (model.gridCurrent && !(model.gridCurrent.softness_V > 0)) return undefined;
  const words: string[] = [model.kind];
  if (model.lowPlate_V > 0) words.push("low");
  if (model.gridCurrent) words.push("grid");
  if (model.kind === "triode" && model.knee_V > 0) words.push("knee");
  if (model.kind === "pentode") words.push(model.screen.tail < 1e-9 ? "sharp" : "tail");
  return words.join(" ");
}

type Numbers = (name: string) => Code;

/** ln(1 + e^x), and its slope 1/(1 + e^−x). */
function softened(lines: Lines, x: Code): { readonly value: Code; readonly slope: Code } {
  const small = exponential(lines, negative(absolute(x)));
  const inverse = lines.keep(div(one, add(one, small)));
  const value = lines.keep(add(pickGreater(x, zero), logarithmOfOneAnd(lines, small)));
  return { value, slope: lines.keep(choose(isMore(x, zero), inverse, mul(small, inverse))) };
}

/** `plateLaw.ts` in written lines: Ve is the electrode that draws the current. */
function writeLaw(shape: string, lines: Lines, p: Numbers, electrode_V: Code, grid_V: Code, pull_V: Code | undefined) {
  const isLow = shape.includes("low");
  const forward_V = lines.keep(pickGreater(electrode_V, zero));
  const ve = isLow ? forward_V : electrode_V;
  const perRoot = isLow ? lines.keep(div(one, root(add(p("low2"), mul(ve, ve))))) : one;
  const h = isLow ? lines.keep(mul(ve, perRoot)) : one;
  const tilt = lines.keep(mul(grid_V, p("perR")));
  const bow = lines.keep(root(add(one, mul(tilt, tilt))));
  const effective_V = lines.keep(add(add(grid_V, mul(p("bow_V"), sub(bow, one))), p("offset_V")));
  const base_V = add(mul(ve, p("perMu")), mul(h, effective_V));
  const drive_V = pull_V === undefined ? base_V : add(base_V, pull_V);
  const soft_V = lines.keep(add(p("softness_V"), mul(p("softness"), forward_V)));
  const x = lines.keep(div(drive_V, soft_V));
  const { value, slope: perDrive } = softened(lines, x);
  const drive = lines.keep(mul(soft_V, value));
  const perSoft = sub(value, mul(x, perDrive));
  const power = lines.keep(
    mul(p("current_A"), exponential(lines, mul(sub(p("exponent"), one), logarithm(lines, drive)))),
  );
  const isForward = isMore(electrode_V, zero);
  const hSlope = isLow ? mul(p("low2"), mul(perRoot, mul(perRoot, perRoot))) : zero;
  const perElectrodeLaw = add(p("perMu"), isLow ? mul(hSlope, effective_V) : zero);
  const perElectrode = lines.keep(
    add(
      mul(perDrive, isLow ? both(isForward, perElectrodeLaw) : perElectrodeLaw),
      both(isForward, mul(perSoft, p("softness"))),
    ),
  );
  const perGrid = lines.keep(mul(perDrive, mul(h, add(one, div(mul(p("bend"), tilt), bow)))));
  return { drive, perDrive, perElectrode, perGrid, power, current_A: lines.keep(mul(power, drive)) };
}

function writeGrid(shape: string, lines: Lines, p: Numbers, grid_V: Code): { current: Code; slope: Code } {
  if (!shape.includes("grid")) return { current: zero, slope: zero };
  const x = lines.keep(mul(add(grid_V, p("onset_V")), p("perGridSoftness")));
  const [current, slope] = [lines.variable(zero), lines.variable(zero)];
  const flows = lines.keep(isMore(x, p("gridStart")));
  // Most valves stand far from grid current.
  lines.add([anyTrue(flows), 0x04, 0x40]);
  const { value, slope: perX } = softened(lines, x);
  const raw_A = lines.keep(mul(p("grid_A"), exponential(lines, mul(p("gridExponent"), logarithm(lines, value)))));
  current.set(both(flows, raw_A));
  slope.set(mul(mul(current.get, div(p("gridExponent"), value)), mul(perX, p("perGridSoftness"))));
  lines.add([0x0b]);
  return { current: current.get, slope: slope.get };
}

/** `triode.ts` in written lines. */
function writeTriode(shape: string, lines: Lines, p: Numbers, [plate_V, grid_V]: readonly Code[]): WrittenCurve {
  const va = plate_V!;
  const law = writeLaw(shape, lines, p, va, grid_V!, undefined);
  const slope = mul(p("exponent"), law.power);
  const grid = writeGrid(shape, lines, p, grid_V!);
  if (!shape.includes("knee")) {
    const gm = lines.keep(slope);
    return {
      current: [law.current_A, grid.current],
      slope: [mul(gm, law.perElectrode), mul(gm, law.perGrid), undefined, zero, grid.slope],
    };
  }
  const isForward = lines.keep(isMore(va, zero));
  const perSum = lines.keep(div(one, add(mul(va, va), p("knee2"))));
  const share = lines.keep(both(isForward, mul(mul(va, va), perSum)));
  const perPlate = both(isForward, mul(mul(mul(number(2), va), p("knee2")), mul(perSum, perSum)));
  const open = lines.keep(mul(share, slope));
  return {
    current: [mul(share, law.current_A), grid.current],
    slope: [
      add(mul(open, law.perElectrode), mul(perPlate, law.current_A)),
      mul(open, law.perGrid),
      undefined,
      zero,
      grid.slope,
    ],
  };
}

/** `pentode.ts` in written lines. */
function writePentode(shape: string, lines: Lines, p: Numbers, u: readonly Code[]): WrittenCurve {
  const [plate_V, grid_V, screen_V] = u as [Code, Code, Code];
  const va = lines.keep(pickGreater(plate_V, zero));
  const isForward = lines.keep(isMore(plate_V, zero));
  const law = writeLaw(shape, lines, p, screen_V, grid_V, lines.keep(mul(va, p("perPlateMu"))));
  const grid = writeGrid(shape, lines, p, grid_V);
  const perKnee = lines.keep(div(one, add(p("knee_V"), mul(p("kneePerDrive"), law.drive))));
  const y = lines.keep(both(isForward, exponential(lines, mul(p("power"), logarithm(lines, mul(va, perKnee))))));
  const base = lines.keep(add(one, mul(p("tail"), y)));
  const q = exponential(lines, negative(shape.includes("sharp") ? y : mul(logarithm(lines, base), p("perTail"))));
  const qPerY = shape.includes("sharp") ? negative(q) : negative(div(q, base));
  const rest = sub(one, p("far"));
  const share = lines.keep(add(p("far"), mul(rest, q)));
  const perLogKnee = lines.keep(mul(mul(mul(rest, qPerY), p("power")), y));
  const sharePerPlate = both(isForward, div(perLogKnee, va));
  const sharePerDrive = lines.keep(negative(mul(perLogKnee, mul(p("kneePerDrive"), perKnee))));
  const perDrive_A = lines.keep(mul(p("exponent"), law.power));
  const drives = [both(isForward, mul(law.perDrive, p("perPlateMu"))), law.perGrid, law.perElectrode].map((d) =>
    lines.keep(d),
  );
  const cathode = drives.map((d) => lines.keep(mul(perDrive_A, d)));
  const screen = drives.map((d, i) => {
    const shares = i === 0 ? add(mul(sharePerDrive, d), sharePerPlate) : mul(sharePerDrive, d);
    return lines.keep(add(mul(share, cathode[i]!), mul(law.current_A, shares)));
  });
  const screen_A = lines.keep(mul(law.current_A, share));
  return {
    current: [sub(law.current_A, screen_A), grid.current, screen_A],
    slope: [...cathode.map((c, i) => sub(c, screen[i]!)), zero, grid.slope, zero, ...screen],
  };
}
