import { z } from "zod";
import { body, type EvidenceKind } from "../claims/evidence.ts";
import { BadInput, quote } from "../maths/badInput.ts";

/** What the cells of a column hold: a list stands as words between semicolons, anything deeper as JSON. */
export type Leaf = "text" | "instant" | "number" | "boolean" | "list" | "json";

export interface Column {
  /** Name in the head of a table: the field's own, a field inside another after a point. */
  readonly name: string;
  readonly leaf: Leaf;
  readonly isNeeded: boolean;
}

/** The part of a JSON Schema that decides about columns. */
interface Shape {
  readonly type?: string;
  readonly format?: string;
  readonly enum?: readonly unknown[];
  readonly const?: unknown;
  readonly properties?: Readonly<Record<string, Shape>>;
  readonly required?: readonly string[];
  readonly items?: Shape;
}

const options = new Map(body.options.map((option) => [option.shape.kind.value, option]));
const shapes = new Map<EvidenceKind, Shape>();

function shapeOf(kind: EvidenceKind): Shape {
  const known = shapes.get(kind);
  if (known) return known;
  const shape = z.toJSONSchema(options.get(kind)!, { io: "input", unrepresentable: "any" }) as Shape;
  shapes.set(kind, shape);
  return shape;
}

/** Every kind of evidence that there is a table for. */
export const kinds: readonly EvidenceKind[] = [...options.keys()];

/** @throws BadInput  when there is no such kind */
export function kindNamed(given: string): EvidenceKind {
  const known = kinds.find((kind) => kind === given);
  if (known) return known;
  throw new BadInput("kind", quote(given), `a kind of evidence: ${kinds.join(", ")}`, "choose one of these");
}

/** Who and when; every table of evidence begins with these. */
const common: readonly Column[] = [
  { name: "id", leaf: "text", isNeeded: false },
  { name: "at", leaf: "instant", isNeeded: true },
  { name: "by", leaf: "text", isNeeded: true },
];

/**
 * The columns of a table of one kind of evidence, from its schema: a row is an entry, a column a field.
 * A field of fields has a column for each; one whose keys are free (conditions, prices) is one column of JSON.
 */
export function columnsOf(kind: EvidenceKind): readonly Column[] {
  return [...common, ...inside(shapeOf(kind), "", true).filter(({ name }) => name !== "kind")];
}

function inside(shape: Shape, path: string, isNeeded: boolean): Column[] {
  return Object.entries(shape.properties ?? {}).flatMap(([field, of]) => {
    const name = path === "" ? field : `${path}.${field}`;
    const needed = isNeeded && (shape.required ?? []).includes(field);
    if (of.type === "object" && of.properties) return inside(of, name, needed);
    return [{ name, leaf: leafOf(of), isNeeded: needed }];
  });
}

function leafOf({ type, format, items, enum: choices }: Shape): Leaf {
  if (type === "string") return format === "date-time" ? "instant" : "text";
  if (type === "number" || type === "integer") return "number";
  if (type === "boolean") return "boolean";
  if (type === "array" && items?.type === "string") return "list";
  if (choices?.every((choice) => typeof choice === "string")) return "text";
  return "json";
}
