import { z } from "zod";
import { linkFile } from "../../claims/links/description.ts";

interface Schema {
  readonly type?: string;
  readonly const?: unknown;
  readonly enum?: readonly unknown[];
  readonly description?: string;
  readonly default?: unknown;
  readonly properties?: Readonly<Record<string, Schema>>;
  readonly required?: readonly string[];
  readonly items?: Schema;
  readonly anyOf?: readonly Schema[];
  readonly oneOf?: readonly Schema[];
}

/** Every field of an instrument's file as a table, made from the schema that the files are checked by. */
export function fieldTable(): string {
  const schema = z.toJSONSchema(linkFile, { io: "input", unrepresentable: "any" }) as unknown as Schema;
  const rows = rowsOf(schema, "");
  return ["| field | | what it says |", "| --- | --- | --- |", ...rows].join("\n");
}

function rowsOf({ properties = {}, required = [] }: Schema, path: string): readonly string[] {
  return Object.entries(properties).flatMap(([name, field]) => {
    const here = `${path}${name}`;
    const inner = field.items ?? field;
    const inside = `${here}${field.items ? "[]" : ""}.`;
    const kinds = inner.oneOf ?? inner.anyOf;
    const below = kinds?.every(({ properties: fields }) => fields)
      ? kinds.flatMap((kind) => rowsOf(kind, `${inside.slice(0, -1)} ${String(kind.properties?.kind?.const)}.`))
      : rowsOf(inner, inside);
    if (field.description === undefined && below.length === 0) return [];
    const needed = required.includes(name)
      ? "needed"
      : field.default === undefined
        ? ""
        : `${JSON.stringify(field.default)} if left out`;
    return [`| \`${here}\` | ${needed} | ${(field.description ?? "").replaceAll("|", "\\|")} |`, ...below];
  });
}
