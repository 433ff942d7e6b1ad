import { BadInput, quote } from "../../maths/badInput.ts";

export interface Featured {
  readonly features: Readonly<Record<string, number>>;
}

/**
 * The weighted features of each valve: the sides of the box that a set spans then add up to its cost.
 *
 * @throws BadInput  a valve lacks a weighted feature
 */
export function placesOf(
  valves: readonly Featured[],
  weights: Readonly<Record<string, number>>,
  path: string,
): number[][] {
  const features = Object.keys(weights).filter((name) => weights[name] !== 0);
  return valves.map((valve, i) =>
    features.map((name) => {
      const value = Object.hasOwn(valve.features, name) ? valve.features[name] : undefined;
      if (value === undefined) {
        throw new BadInput(
          `${path}[${i}].features.${name}`,
          quote(value),
          "a number, since the feature has a weight",
          "measure it, leave the valve out, or set the weight to 0",
        );
      }
      return value * weights[name]!;
    }),
  );
}
