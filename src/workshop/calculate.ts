import { answer } from "../calculations/answer.ts";
import type { Surroundings } from "../calculations/calculation.ts";
import { BadInput } from "../maths/badInput.ts";

/**
 * Asks one of the published calculations, as anyone outside could.
 *
 * Every figure that the workshop shows goes through here, so that a person who doubts it can put the same question
 * to the command line and get the same answer.
 */
export type Calculate = <T>(name: string, input: unknown) => Promise<T>;

export function calculator(surroundings: Surroundings): Calculate {
  return async <T>(name: string, input: unknown) => {
    const given = await answer(name, input, surroundings);
    if (given.ok) return given.output as T;
    const fault = new BadInput(given.error.path, "", "", "");
    fault.message = `${name}: ${given.error.message}`;
    throw fault;
  };
}
