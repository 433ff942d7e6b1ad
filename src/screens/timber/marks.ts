import type { DefectView } from "../../workshop/timber/views.ts";
import { forms } from "./formMessages.ts";

const kinds = ["knot", "check", "sapwood", "other"] as const;
const { marks: words } = forms;

/** What is not clear on a board, in words. */
export function defectWords(defects: readonly DefectView[]): string {
  return defects
    .map(({ what, along, across }) => words.where(nameOf(what), span(along), across && span(across)))
    .join("; ");
}

const span = ({ from_mm, to_mm }: { readonly from_mm: number; readonly to_mm: number }) => words.span(from_mm, to_mm);
const nameOf = (what: string) => kinds.flatMap((kind) => (kind === what ? [words.kinds[kind]] : []))[0] ?? what;

/** As one writes marks down: `knot 480-520 30-60; check 0-40`, from the end first, then from the edge. */
export function marksTyped(defects: readonly DefectView[]): string {
  return defects
    .map(({ what, along, across }) =>
      [nameOf(what), `${along.from_mm}-${along.to_mm}`, ...(across ? [`${across.from_mm}-${across.to_mm}`] : [])].join(
        " ",
      ),
    )
    .join("; ");
}

/**
 * Reads marks as they are typed, in English or in the language in use.
 *
 * @returns the part that can't be read, where there is one
 * @example marksIn("knot 480-520 30-60; check 0-40") // a knot 30 to 60 mm from the edge, a check over the whole width
 */
export function marksIn(typed: string): readonly DefectView[] | string {
  const parts = typed
    .split(";")
    .map((part) => part.trim())
    .filter(Boolean);
  const read = parts.map((part) => markIn(part) ?? part);
  const bad = read.find((one) => typeof one === "string");
  return bad ?? (read as readonly DefectView[]);
}

function markIn(part: string): DefectView | undefined {
  const found = /^(\p{L}+)\s+([\d.,]+)\s*[-–]\s*([\d.,]+)(?:\s+([\d.,]+)\s*[-–]\s*([\d.,]+))?$/u.exec(part);
  const named = found?.[1]?.toLowerCase();
  const what = kinds.find((kind) => kind === named || words.kinds[kind].toLowerCase() === named);
  if (!found || !what) return undefined;
  const [from_mm, to_mm, near_mm, far_mm] = found.slice(2).map((one) => Number((one ?? "").replace(",", ".")));
  if (!(to_mm! > from_mm!)) return undefined;
  if (found[4] === undefined) return { what, along: { from_mm: from_mm!, to_mm: to_mm! } };
  if (!(far_mm! > near_mm!)) return undefined;
  return { what, along: { from_mm: from_mm!, to_mm: to_mm! }, across: { from_mm: near_mm!, to_mm: far_mm! } };
}
