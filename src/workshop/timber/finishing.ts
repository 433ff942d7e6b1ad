import type { BodyOf } from "../../claims/evidence.ts";
import type { Shop } from "../../claims/index.ts";
import type { Yard } from "../../claims/timber/yard.ts";
import type { Calculate } from "../calculate.ts";
import { coatingAir, hardAfter_h } from "./hardening.ts";
import type { FinishingView } from "./views.ts";

const hour_ms = 3_600_000;

type Coat = BodyOf<"coat"> & { readonly at: string };

interface FinishAnswer {
  readonly steps: readonly { readonly hour: number; readonly kind: string }[];
  readonly handle_h: number;
  readonly hard_h: number;
  readonly cautions: readonly string[];
}

/** Coats that count on a unit's case, those put on its panels before it was the unit's too. */
export function coatsOfUnit({ timber, ledger }: Shop, unit: string): readonly Coat[] {
  const panels = new Set(timber.caseOfUnit(unit)?.joined.body.panels.map(({ piece }) => piece));
  const onPieces = [...panels].flatMap((piece) => timber.entriesOf(piece)).filter(({ body }) => body.kind === "coat");
  const ids = new Set([...onPieces, ...ledger.about("rework", unit)].map(({ id }) => id));
  return [...ids].flatMap((id) => {
    const entry = ledger.get(id);
    return entry?.body.kind === "coat" && ledger.supersederOf(id) === undefined
      ? [{ at: entry.at, ...entry.body }]
      : [];
  });
}

/**
 * What the newest coat lets be done, and when, while it or one below it is still hardening. How many coats are to come
 * nobody writes down, so the next one is told by its earliest moment and by how long it would put all else off.
 */
export async function finishingOf(
  yard: Yard,
  coats: readonly Coat[],
  now: string,
  calculate: Calculate,
): Promise<FinishingView | undefined> {
  const last = coats.toSorted((a, b) => Date.parse(a.at) - Date.parse(b.at)).at(-1);
  if (!last) return undefined;
  const hards_ms = await Promise.all(
    coats.map(async (coat) => Date.parse(coat.at) + (await hardAfter_h(yard, coat, calculate)) * hour_ms),
  );
  const hard_ms = Math.max(...hards_ms);
  if (hard_ms <= Date.parse(now)) return undefined;
  const hard = new Date(hard_ms).toISOString();
  const air = coatingAir(yard, last.at);
  if (!air) return { hard, heatFrom: hard, cautions: [] };
  const { finish, hardens_h } = last;
  const ask = (count: number) =>
    calculate<FinishAnswer>("timber.finish", {
      coats: [{ finish, coats: count }],
      ...air,
      cure: { [finish]: { hard_h: hardens_h } },
    });
  const [one, two] = await Promise.all([ask(1), ask(2)]);
  const next_h = two.steps.filter(({ kind }) => kind === "coat").at(-1)!.hour;
  // Nothing hard through is still too soft to touch.
  const notAfterHard = (hours: number) => new Date(Math.min(hard_ms, Date.parse(last.at) + hours * hour_ms));
  const next = notAfterHard(next_h);
  const alone_h = await hardAfter_h(yard, last, calculate);
  return {
    nextCoat: next.toISOString(),
    handle: notAfterHard(one.handle_h).toISOString(),
    hard,
    heatFrom: hard,
    hardWithNext: new Date(Math.max(hard_ms, next.getTime() + alone_h * hour_ms)).toISOString(),
    cautions: one.cautions.filter((caution) => caution.startsWith("Rags")),
  };
}
