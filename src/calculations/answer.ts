import { BadInput, quote } from "../maths/badInput.ts";
import type { Calculation, Surroundings } from "./calculation.ts";
import { calculationNamed, calculations } from "./list.ts";
import { refusal } from "./refusal.ts";

export type Answer =
  | { readonly ok: true; readonly output: Readonly<Record<string, unknown>> }
  | { readonly ok: false; readonly error: { readonly path: string; readonly message: string } };

/**
 * Answers one question by name: checks the input, computes, checks that every number in the answer is finite.
 * Bad input comes back as an error that names the field; it never throws for it.
 */
export async function answer(name: string, input: unknown, surroundings: Surroundings): Promise<Answer> {
  const found = await calculationNamed(name);
  if (!found) return refused(unknownName(name));
  return answerWith(found, input, surroundings);
}

export async function answerWith(paper: Calculation, input: unknown, surroundings: Surroundings): Promise<Answer> {
  try {
    const parsed = paper.input.safeParse(input);
    if (!parsed.success) return refused(refusal(parsed.error, input));
    const output = (await paper.compute(parsed.data, surroundings)) as Record<string, unknown>;
    const odd = firstNotFinite(output);
    if (odd !== undefined) {
      return refused(
        new BadInput(
          "",
          `values whose result is not a finite number at ${odd}`,
          "values of an ordinary size",
          "check for a value far too large or too small",
        ),
      );
    }
    return { ok: true, output };
  } catch (error) {
    if (error instanceof BadInput) return refused(error);
    throw error;
  }
}

export function unknownName(name: string): BadInput {
  const near = Object.keys(calculations).filter((known) => known.startsWith(name.split(".")[0] ?? ""));
  const offer = near.length > 0 ? near : Object.keys(calculations);
  return new BadInput(
    "name",
    quote(name),
    `there is ${offer.join(", ")}`,
    "take a name from the list of 'stillglow calc'",
  );
}

function refused(error: BadInput): Answer {
  const most = 1900;
  const message = error.message.length <= most ? error.message : `${error.message.slice(0, most - 1)}…`;
  return { ok: false, error: { path: error.path, message } };
}

/** Where in an answer a number is not finite, written as a field path; nothing when all are. */
export function firstNotFinite(value: unknown, path = ""): string | undefined {
  if (typeof value === "number") return Number.isFinite(value) ? undefined : path || "the answer";
  if (ArrayBuffer.isView(value)) return undefined;
  if (value === null || typeof value !== "object") return undefined;
  for (const [key, inner] of Object.entries(value)) {
    const here = Array.isArray(value) ? `${path}[${key}]` : path === "" ? key : `${path}.${key}`;
    const odd = firstNotFinite(inner, here);
    if (odd !== undefined) return odd;
  }
  return undefined;
}
