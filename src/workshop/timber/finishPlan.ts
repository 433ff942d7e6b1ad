import type { Shop } from "../../claims/index.ts";
import type { Calculate } from "../calculate.ts";
import { coatsOfUnit } from "./finishing.ts";
import { handsThere } from "./handsThere.ts";
import { coatingAir } from "./hardening.ts";
import type { FinishPlanView } from "./views.ts";

const hour_ms = 3_600_000;
/** Where the room's air is not logged: what the usual times are told for. */
const usualAir = { temperature_C: 20, humidity_pct: 50 } as const;

interface FinishAnswer {
  readonly steps: readonly {
    readonly hour: number;
    readonly what: string;
    readonly kind: "coat" | "turn" | "handle" | "hard";
    readonly isDone?: boolean;
  }[];
  readonly hard_h: number;
  readonly wishes: readonly { readonly isAllowed: boolean; readonly earliest_h: number; readonly why: string }[];
  readonly cautions: readonly string[];
}

/** Nobody coats by the minute: up to the next quarter or full hour. */
function roundedUp(at: string, step_ms: number): string {
  return new Date(Math.ceil((Date.parse(at) - 1000) / step_ms) * step_ms).toISOString();
}

/**
 * Every coat of a unit's finishing plan by its moment, those on already among them, when the case may be handled and
 * when it is hard; and whether the soak that is planned waits for that. Coats go on when the plan's hands are in.
 */
export async function finishPlanOf(
  shop: Shop,
  unit: string,
  now: string,
  calculate: Calculate,
): Promise<FinishPlanView | undefined> {
  const { timber } = shop;
  const plan = timber.finishPlanOf(unit)?.body;
  if (!plan) return undefined;
  const soak = timber.soakPlanOf(unit)?.body;
  const on = coatsOfUnit(shop, unit)
    .map(({ at }) => Date.parse(at))
    .toSorted((a, b) => a - b);
  const planned = plan.coats.reduce((sum, { coats }) => sum + coats, 0);
  const origin_ms = Math.min(Date.parse(plan.begins), Date.parse(now), ...on);
  const hourOf = (ms: number) => Number(Math.max(0, (ms - origin_ms) / hour_ms).toFixed(3));
  const instant = (hour: number) => new Date(Math.round(origin_ms + hour * hour_ms)).toISOString();
  const hands = handsThere(shop, origin_ms, plan.who);
  const air = coatingAir(timber, now);
  const answer = await calculate<FinishAnswer>("timber.finish", {
    coats: plan.coats.map(({ finish, coats, between_h, hardens_h }) => ({
      ...{ finish, coats },
      ...(between_h !== undefined && { between_h }),
      ...(hardens_h !== undefined && { hard_h: hardens_h, handle_h: Math.min(72, hardens_h) }),
    })),
    ...(air ?? usualAir),
    begin_h: hourOf(Date.parse(plan.begins)),
    done_h: on.slice(0, planned).map(hourOf),
    now_h: hourOf(Date.parse(now)),
    ...(hands && { hands }),
    ...(soak && { wishes: [{ name: "soak", begin_h: hourOf(Date.parse(soak.begins)), kind: "heat" }] }),
  });
  const [wish] = answer.wishes;
  const soak_h = soak?.stages.reduce((sum, { hours }) => sum + hours, 0) ?? 0;
  return {
    who: plan.who,
    steps: answer.steps.map(({ hour, what, kind, isDone = false }) => ({
      at: isDone
        ? instant(hour)
        : roundedUp(instant(hour), kind === "handle" || kind === "hard" ? hour_ms : hour_ms / 4),
      ...{ what, kind, isDone },
    })),
    coatsLeft: Math.max(0, planned - on.length),
    hard: roundedUp(instant(answer.hard_h), hour_ms),
    extraCoats: Math.max(0, on.length - planned),
    isAirAssumed: air === undefined,
    ...(soak &&
      wish && {
        soak: {
          place: soak.stages.map(({ place }) => place).join(", "),
          from: soak.begins,
          to: new Date(Date.parse(soak.begins) + soak_h * hour_ms).toISOString(),
          isAllowed: wish.isAllowed,
          earliest: roundedUp(instant(wish.earliest_h), hour_ms),
          why: wish.why.replace(/: wait until hour \d+/, ""),
        },
      }),
    cautions: answer.cautions.filter((caution) => caution.startsWith("Rags")),
  };
}
