import type { ComplexVector } from "../../maths/linear/complexLu.ts";
import { factorSparseReal, solveSparseRealTransposed } from "../../maths/linear/sparseReal.ts";
import { addInverse, solveBack } from "./gainSlopes.ts";
import type { GainProbe } from "./probes.ts";
import { pullsInto, signalPulls } from "./signalPulls.ts";
import { type Complex, eachGain, type Heard } from "./signals.ts";
import type { Pattern } from "./specimen.ts";
import { slopesInto, steadyPulls } from "./steadyPulls.ts";

/**
 * Power gain that good parts' spread alone gives at a point: Σ sd²·|∂h/∂ln value|², of h = v_out/v_source itself and
 * not of its logarithm.
 *
 * Where a gain is the small difference of large ones (the common cathodes of a balanced pair, a rail that both halves
 * pull at), h is as good as normal among good units and passes through nothing; its dB then are neither straight in
 * the values nor bounded, and mean little under this floor.
 *
 * @returns one a probe, times its source's unit squared; 0 where the frequency leaves an unknown undetermined
 * @throws BadInput at `input` for an input that is no source
 */
export function gainFloors({ circuit, rest, values }: Pattern, probes: readonly GainProbe[]): Float64Array {
  const floors = new Float64Array(probes.length);
  const { steady } = circuit.solvers;
  if (probes.length === 0 || factorSparseReal(steady, rest.matrix) >= 0) return floors;
  const pulls = steadyPulls(circuit, rest.x, values);
  const bySignal = signalPulls(circuit, rest.x, values);
  const own = new Float64Array(values.length);
  const shifted = new Float64Array(values.length);
  const carried = new Float64Array(circuit.size);
  eachGain(circuit, rest.x, probes, (index, heard) => {
    if (heard === undefined) return;
    const reach = reachOf(heard);
    for (const w of [reach, quarterTurned(reach)]) {
      const lean = new Float64Array(circuit.size);
      pullsInto(bySignal, heard.omega, heard.answer, w, own, lean);
      solveSparseRealTransposed(steady, lean, carried);
      slopesInto(pulls, carried, 1, shifted);
      values.forEach(({ sd }, i) => {
        floors[index]! += (sd * (own[i]! + shifted[i]!)) ** 2;
      });
    }
  });
  return floors;
}

/** The adjoint w of h itself: Aᵀ·w = e_out/v_source − e_source·v_out/v_source². */
function reachOf(heard: Heard): ComplexVector {
  const { point, sender, out, sent } = heard;
  return solveBack(heard, (drive) => {
    addInverse(drive, point, -1, sent, 1);
    if (sender !== undefined && Math.hypot(...out) > 0)
      addInverse(drive, sender.plus, sender.minus, over(times(sent, sent), out), -1);
  });
}

/** −j·w, whose real part of a product is the imaginary one by w. */
function quarterTurned({ re, im }: ComplexVector): ComplexVector {
  return { re: im, im: re.map((value) => -value) };
}

function times([a, b]: Complex, [c, d]: Complex): Complex {
  return [a * c - b * d, a * d + b * c];
}

function over([a, b]: Complex, [c, d]: Complex): Complex {
  const size2 = c * c + d * d;
  return [(a * c + b * d) / size2, (b * c - a * d) / size2];
}
