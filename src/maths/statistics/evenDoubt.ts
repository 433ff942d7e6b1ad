import { normalCdf } from "./normal.ts";

const z975 = 1.959963984540054;

/**
 * One 95 % half-width about a positive value whose interval reaches farther to one side than to the other, where one
 * number must do: the farther end would hold more than it says.
 *
 *     Φ(z·ln(1 − d/v)/ln(v/low)) + 1 − Φ(z·ln(1 + d/v)/ln(high/v)) = 0.05,   z = 1.96
 *
 * @param value  above 0
 * @param low  the lower 95 % end, from 0 to the value
 * @param high  the upper one, from the value on
 * @returns d, in the value's unit; infinite where the upper end is
 * @source the halves of a normal in the logarithm, each with its own spread (common practice, no source)
 * @example evenDoubt(10, 8, 16) // 4.836, between 10 − 8 and 16 − 10
 */
export function evenDoubt(value: number, low: number, high: number): number {
  if (high === Number.POSITIVE_INFINITY) return high;
  const [below, above] = [Math.log(value / low), Math.log(high / value)];
  const beyond = (d: number) =>
    (d >= value || below === 0 ? 0 : normalCdf((z975 * Math.log1p(-d / value)) / below)) +
    (above === 0 ? 0 : 1 - normalCdf((z975 * Math.log1p(d / value)) / above));
  let [least, most] = [0, Math.max(high - value, value - low)];
  for (let i = 0; i < 60; i++) {
    const middle = (least + most) / 2;
    if (beyond(middle) > 0.05) least = middle;
    else most = middle;
  }
  return most;
}
