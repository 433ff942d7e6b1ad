import { thermal_V } from "../../junction.ts";
import type { Part } from "../../netlist.ts";
import { scaledPart } from "../../scaled.ts";
import { add, both, type Code, isMore, type Lines, mul, number, pickGreater, pickLess, root, sub } from "./code.ts";
import type { CurveWriter } from "./curveWriter.ts";
import { exponential } from "./elementary.ts";

const one = number(1);
const zero = number(0);
type PartOf<Kind extends Part["kind"]> = Extract<Part, { kind: Kind }>;

/** e^x − 1 and its slope, as `junction.ts` has them. */
function junction(lines: Lines, x: Code): { readonly value: Code; readonly slope: Code } {
  const held = lines.keep(pickLess(x, number(200)));
  const slope = exponential(lines, held);
  return { value: lines.keep(sub(mul(slope, add(one, sub(x, held))), one)), slope };
}

/** `diodeCurve` in written lines. */
export function diodeWriter(law: NonNullable<PartOf<"diode">["law"]>): CurveWriter {
  const numbers = { saturation_A: law.saturation_A, perScale: 1 / (law.emission * thermal_V(law.temperature_C)) };
  return {
    names: Object.keys(numbers),
    numbers: () => numbers,
    isDrawn: false,
    write(lines, p, [v]) {
      const { value, slope } = junction(lines, lines.keep(mul(v!, p("perScale"))));
      return {
        current: [mul(p("saturation_A"), value)],
        slope: [mul(mul(p("saturation_A"), slope), p("perScale"))],
      };
    },
  };
}

/** `rectifierCurve`, or a triode's bare law with its plate's share of the drive. */
export function threeHalvesWriter(law: { perveance_mA_per_V1p5: number; mu?: number }): CurveWriter {
  const numbers = { perveance: law.perveance_mA_per_V1p5 / 1e3, perMu: 1 / (law.mu ?? 1) };
  const isTriode = law.mu !== undefined;
  return {
    names: Object.keys(numbers),
    numbers: () => numbers,
    isDrawn: false,
    write(lines, p, [plate_V, grid_V]) {
      const drive_V = isTriode ? add(grid_V!, mul(plate_V!, p("perMu"))) : plate_V!;
      const rooted = lines.keep(root(pickGreater(drive_V, zero)));
      const current = mul(p("perveance"), mul(rooted, mul(rooted, rooted)));
      const slope = lines.keep(mul(mul(number(1.5), p("perveance")), rooted));
      if (!isTriode) return { current: [current], slope: [slope] };
      return { current: [current, zero], slope: [mul(slope, p("perMu")), slope, undefined, zero, zero] };
    },
  };
}

/**
 * `bipolarCurve` in written lines.
 *
 * @param drawnGain  factor on its gain, by lane; undefined where it is not drawn
 */
export function bipolarWriter(part: PartOf<"bipolar">, drawnGain: ((lane: number) => number) | undefined): CurveWriter {
  const law = part.law!;
  const numbers = {
    sign: part.polarity === "n" ? 1 : -1,
    saturation_A: law.saturation_A,
    perThermal: 1 / thermal_V(law.temperature_C),
    perEarly: law.early_V === undefined ? 0 : 1 / law.early_V,
    perGain: 1 / law.gain,
  };
  return {
    names: Object.keys(numbers),
    numbers(lane) {
      if (drawnGain === undefined) return numbers;
      const drawn = scaledPart(part, drawnGain(lane));
      return { ...numbers, perGain: 1 / (drawn.kind === "bipolar" ? drawn.law!.gain : law.gain) };
    },
    isDrawn: drawnGain !== undefined,
    write(lines, p, u) {
      const [is, perThermal, sign] = [p("saturation_A"), p("perThermal"), p("sign")];
      const vbe = lines.keep(mul(sign, u[1]!));
      const vbc = lines.keep(sub(vbe, mul(sign, u[0]!)));
      const forward = junction(lines, lines.keep(mul(vbe, perThermal)));
      const backward = junction(lines, lines.keep(mul(vbc, perThermal)));
      const plain = lines.keep(sub(one, mul(vbc, p("perEarly"))));
      const early = lines.keep(pickGreater(plain, number(1e-3)));
      const earlySlope = both(isMore(plain, number(1e-3)), sub(zero, p("perEarly")));
      const perVolt = lines.keep(mul(is, perThermal));
      const difference = lines.keep(sub(forward.value, backward.value));
      const perBe = mul(mul(perVolt, forward.slope), early);
      const perBc = lines.keep(
        sub(mul(mul(is, difference), earlySlope), mul(mul(perVolt, backward.slope), add(early, one))),
      );
      const baseBe = mul(mul(perVolt, forward.slope), p("perGain"));
      const baseBc = lines.keep(mul(perVolt, backward.slope));
      return {
        current: [
          mul(mul(sign, is), sub(mul(difference, early), backward.value)),
          mul(mul(sign, is), add(mul(forward.value, p("perGain")), backward.value)),
        ],
        // Vbc = Vbe − Vce
        slope: [sub(zero, perBc), add(perBe, perBc), undefined, sub(zero, baseBc), add(baseBe, baseBc)],
      };
    },
  };
}
