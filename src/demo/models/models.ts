import { bore } from "./bore.ts";
import type { ModelBody } from "./common.ts";
import { ebb } from "./ebb.ts";
import { flood } from "./flood.ts";
import { neap } from "./neap.ts";

const drawn = { Ebb: ebb, Neap: neap, Flood: flood, Bore: bore } as const satisfies Record<string, () => ModelBody>;
export type ModelName = keyof typeof drawn;
export const modelNames = Object.keys(drawn) as readonly ModelName[];

const made = new Map<string, ModelBody>();

/** A model by its name, its windows worked out once. */
export function modelNamed(name: string): ModelBody {
  const known = made.get(name);
  if (known) return known;
  const draw = drawn[name as ModelName];
  if (!draw) throw new RangeError(`the demo builds no ${name}`);
  const model = draw();
  made.set(name, model);
  return model;
}
