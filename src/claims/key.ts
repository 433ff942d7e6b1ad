import type { EvidenceKind } from "./evidence.ts";

/** The name of a drawer. */
export function key(
  kind:
    | EvidenceKind
    | "valve"
    | "kind"
    | "folder"
    | "missing"
    | "ordered"
    | "piece"
    | "received"
    | "standing"
    | "trust",
  name = "",
  quantity?: string,
): string {
  return quantity === undefined ? `${kind}\u0000${name}` : `${kind}\u0000${name}\u0000${quantity}`;
}
