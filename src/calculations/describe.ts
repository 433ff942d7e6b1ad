import { z } from "zod";
import type { Calculation } from "./calculation.ts";

/** A field of a calculation's input or answer, put in words. */
export interface DescribedField {
  readonly name: string;
  readonly isOptional: boolean;
  readonly what: string;
}

export const inputFields = ({ input }: Calculation): DescribedField[] =>
  fields(z.toJSONSchema(input, { io: "input", unrepresentable: "any" }));

export const answerFields = ({ output }: Calculation): DescribedField[] =>
  fields(z.toJSONSchema(output, { io: "output", unrepresentable: "any" }));

/** What the answer's doubts are, wherever in it they stand and something is said about them: path and words. */
export function doubtFields({ output }: Calculation): readonly { readonly path: string; readonly what: string }[] {
  const found: { path: string; what: string }[] = [];
  const walk = (schema: Schema, path: string, isDoubt: boolean): void => {
    if (isDoubt && schema.description !== undefined) found.push({ path, what: schema.description });
    for (const [name, field] of Object.entries(schema.properties ?? {})) {
      walk(field, path === "" ? name : `${path}.${name}`, isDoubt || /^doubt(_|$)|Doubt_/.test(name));
    }
    if (schema.items) walk(schema.items, `${path}[]`, isDoubt);
    for (const form of schema.oneOf ?? []) walk(form, path, isDoubt);
  };
  walk(z.toJSONSchema(output, { io: "output", unrepresentable: "any" }) as Schema, "", false);
  return found.filter(({ path }, i) => found.findIndex((other) => other.path === path) === i);
}

interface Schema {
  readonly type?: unknown;
  readonly properties?: Readonly<Record<string, Schema>>;
  readonly required?: readonly string[];
  readonly items?: Schema;
  readonly description?: string;
  readonly enum?: readonly unknown[];
  /** Forms of an answer that may be undecided; the first is the usual one. */
  readonly oneOf?: readonly Schema[];
}

function fields(schema: unknown): DescribedField[] {
  const { oneOf } = schema as Schema;
  const { properties = {}, required = [] } = oneOf?.[0] ?? (schema as Schema);
  return Object.entries(properties).map(([name, field]) => ({
    name,
    isOptional: !required.includes(name),
    what: describe(field),
  }));
}

function describe(field: Schema): string {
  if (field.description) return field.description;
  if (field.enum) return `one of ${field.enum.join(", ")}`;
  const inner = field.items?.properties ?? field.properties;
  const names = inner
    ? ` of ${Object.keys(inner)
        .map((name) => `\`${name}\``)
        .join(", ")}`
    : "";
  if (field.type === "array") return `list${names}`;
  if (field.type === "object") return inner ? `object${names}` : "object by name";
  return String(field.type ?? "one of several forms");
}
