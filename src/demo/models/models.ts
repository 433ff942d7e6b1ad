import type { ModelBody } from "./common.ts";
import { ebb } from "./ebb.ts";
import { flood } from "./flood.ts";

const made = new Map<string, ModelBody>();

/** A model by its name, its windows worked out once. */
export function modelNamed(name: string): ModelBody {
  const known = made.get(name);
  if (known) return known;
  const model = name === "Ebb" ? ebb() : name === "Flood" ? flood() : undefined;
  if (!model) throw new RangeError(`the demo builds no ${name}`);
  made.set(name, model);
  return model;
}
