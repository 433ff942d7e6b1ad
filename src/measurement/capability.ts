import { BadInput, quote } from "../maths/badInput.ts";
import { chiSquaredQuantile, normalQuantile } from "../maths/statistics/index.ts";

export interface Made {
  readonly mean: number;
  readonly sd: number;
  readonly low?: number;
  readonly high?: number;
  /** Pieces that mean and spread were taken from, for the intervals. */
  readonly n?: number;
}

interface Held {
  readonly value: number;
  /** 95 % interval; left out without `n`. */
  readonly low?: number;
  readonly high?: number;
}

export interface Capability {
  /** Room between the limits in six standard deviations; needs both limits. */
  readonly cp?: Held;
  /** Room to the nearer limit in three standard deviations. */
  readonly cpk: Held;
  readonly cpLow?: number;
  readonly cpHigh?: number;
}

/**
 * How well what is made fits between its limits.
 *
 *     cp = (high − low)/6s,   cpk = min((high − mean)/3s, (mean − low)/3s)
 *     cp·√(χ²(0.025; n − 1)/(n − 1)) … cp·√(χ²(0.975; n − 1)/(n − 1))
 *     cpk·(1 ± 1.96·√(1/(9n·cpk²) + 1/(2(n − 1))))
 *
 * @throws BadInput  no spread, no limit, limits the wrong way round
 * @source  NIST/SEMATECH e-Handbook, section 6.1.6; intervals as printed by a general statistics package for the
 *   piston rings of Montgomery (figures read)
 */
export function capability({ mean, sd, low, high, n }: Made): Capability {
  if (!(sd > 0)) throw new BadInput("sd", quote(sd), "above 0", "give the spread of the pieces");
  if (low === undefined && high === undefined) {
    throw new BadInput("high", "neither low nor high", "at least one limit", "give low, high or both");
  }
  if (low !== undefined && high !== undefined && low >= high) {
    throw new BadInput("low", quote(low), `below high, ${quote(high)}`, "exchange the two limits");
  }
  if (n !== undefined && !(n >= 3)) throw new BadInput("n", quote(n), "3 or more", "leave it out");
  const cpLow = low === undefined ? undefined : (mean - low) / (3 * sd);
  const cpHigh = high === undefined ? undefined : (high - mean) / (3 * sd);
  const cpk = Math.min(cpLow ?? Number.POSITIVE_INFINITY, cpHigh ?? Number.POSITIVE_INFINITY);
  const reach = n === undefined ? 0 : normalQuantile(0.975) * Math.sqrt(1 / (9 * n) + cpk ** 2 / (2 * (n - 1)));
  const spread = (p: number) => Math.sqrt(chiSquaredQuantile(p, n! - 1) / (n! - 1));
  const cp = low === undefined || high === undefined ? undefined : (high - low) / (6 * sd);
  return {
    ...(cp === undefined
      ? {}
      : { cp: { value: cp, ...(n === undefined ? {} : { low: cp * spread(0.025), high: cp * spread(0.975) }) } }),
    cpk: { value: cpk, ...(n === undefined ? {} : { low: cpk - reach, high: cpk + reach }) },
    ...(cpLow === undefined ? {} : { cpLow }),
    ...(cpHigh === undefined ? {} : { cpHigh }),
  };
}
