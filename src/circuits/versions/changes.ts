/** What one version of a net list has otherwise than another, part by part. */
export type PartChange =
  | { readonly kind: "added" | "taken out"; readonly part: string; readonly what: string }
  | {
      readonly kind: "changed";
      readonly part: string;
      readonly field: string;
      readonly before: unknown;
      readonly after: unknown;
    };

type Written = Readonly<Record<string, unknown>>;

/**
 * Parts added, taken out and changed from one net list to the next, in the order of the parts; ground, test points
 * and title count as a part of no name.
 */
export function changesBetween(before: Written, after: Written): readonly PartChange[] {
  const [old, now] = [partsOf(before), partsOf(after)];
  const changed = [...now].flatMap(([id, part]): PartChange[] => {
    const was = old.get(id);
    return was === undefined ? [{ kind: "added", part: id, what: describe(part) }] : fieldsChanged(id, was, part);
  });
  const gone = [...old].flatMap(([id, part]): PartChange[] =>
    now.has(id) ? [] : [{ kind: "taken out", part: id, what: describe(part) }],
  );
  return [...changed, ...gone, ...fieldsChanged("", without(before), without(after))];
}

function fieldsChanged(part: string, before: Written, after: Written): PartChange[] {
  const fields = new Set([...Object.keys(before), ...Object.keys(after)]);
  return [...fields].flatMap((field): PartChange[] =>
    same(before[field], after[field])
      ? []
      : [{ kind: "changed", part, field, before: before[field] ?? null, after: after[field] ?? null }],
  );
}

function partsOf(netlist: Written): ReadonlyMap<string, Written> {
  const parts = Array.isArray(netlist.parts) ? (netlist.parts as unknown[]) : [];
  return new Map(
    parts.flatMap((part): [string, Written][] => {
      const id = (part as { id?: unknown } | null)?.id;
      return typeof id === "string" ? [[id, part as Written]] : [];
    }),
  );
}

const without = ({ parts: _, ...rest }: Written): Written => rest;

function describe(part: Written): string {
  const value = ["ohm", "uF", "H", "type", "dc_V", "dc_mA"].find((field) => part[field] !== undefined);
  return `${String(part.kind ?? "part")}${value === undefined ? "" : ` ${value} ${String(part[value])}`}`;
}

/** Equal whatever the order in which the fields of an object were written. */
function same(a: unknown, b: unknown): boolean {
  if (Object.is(a, b)) return true;
  if (typeof a !== "object" || typeof b !== "object" || a === null || b === null) return false;
  if (Array.isArray(a) !== Array.isArray(b)) return false;
  const keys = Object.keys(a);
  return keys.length === Object.keys(b).length && keys.every((key) => same((a as Written)[key], (b as Written)[key]));
}
