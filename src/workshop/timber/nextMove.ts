import type { PieceState, Yard } from "../../claims/timber/yard.ts";

const hour_ms = 3_600_000;

/** When a piece's plan next moves it from where it stands, and where to; nothing where no plan does. */
export function nextMove(
  yard: Yard,
  { piece, place }: Pick<PieceState, "piece" | "place">,
  from_ms: number,
): { readonly at_ms: number; readonly place: string } | undefined {
  const plan = yard.plannedOf(piece)?.body;
  if (!plan) return undefined;
  let begin_ms = Date.parse(plan.begins);
  let here = place;
  for (const stage of plan.stages) {
    if (begin_ms >= from_ms && stage.place !== here) return { at_ms: begin_ms, place: stage.place };
    here = stage.place;
    begin_ms += stage.hours * hour_ms;
  }
  return undefined;
}
