import type { Evidence } from "../claims/evidence.ts";
import { type ClaimState, nextChecks, releaseDecision, type Shop, type UnitState } from "../claims/index.ts";
import type { ValveVerdict } from "./valveTable.ts";
import type { UnitView } from "./views.ts";

/** The usual cautions, shown wherever work at a unit is shown; limits are guides. */
const cautions = {
  always: "Limits here are guides: local codes and a licensed practitioner decide.",
  "high-voltage":
    "Valve amplifiers hold lethal voltages after unplugging. Discharge, measure that it is gone, one hand behind your back.",
  mains: "Mains parts are live while plugged in. Use an isolating transformer and a residual-current device.",
  hot: "Valves and plates burn. Let them cool before touching.",
  dust: "Hardwood dust sensitises. Extract it and wear a mask.",
} as const;

export interface FolderCase {
  readonly shop: Shop;
  readonly evidence: readonly Evidence[];
  readonly unit: UnitState;
  readonly states: readonly ClaimState[];
  readonly verdicts: ReadonlyMap<string, ValveVerdict>;
}

/** The unit folder: its claims with their evidence, what is missing, what comes next and what was done. */
export function unitFolder({ shop, evidence, unit, states, verdicts }: FolderCase): Omit<UnitView, "proposal"> {
  const model = shop.modelOf(unit.unit)!;
  const order = shop.orders.get(unit.order)!.body;
  const due = shop.promises.get(unit.order)?.body.date ?? order.due;
  const back = shop.cameBackAfter(unit.unit);
  const packed = shop.packed(unit.unit);
  return {
    unit: unit.unit,
    model: unit.model,
    revision: unit.revision,
    order: unit.order,
    destination: order.destination,
    ...(due !== undefined && { due }),
    fitted: Object.fromEntries(
      Object.entries(unit.fitted).map(([position, valve]) => {
        const verdict = verdicts.get(valve);
        return [
          position,
          {
            valve,
            type: shop.valve(valve)?.type ?? "",
            ...(verdict && { verdict: verdict.verdict }),
            reasons: verdict?.reasons ?? [],
          },
        ];
      }),
    ),
    claims: states.map(({ claim, title, sheet, safety, state, because, figures, wouldDecide, check }) => ({
      claim,
      title,
      sheet,
      safety,
      state,
      because,
      figures,
      ...(wouldDecide !== undefined && { wouldDecide }),
      check: {
        how: check.how,
        hands_min: check.hands_min,
        wait_h: check.wait_h,
        danger: check.danger,
        skill: check.skill,
      },
    })),
    released: shop.isReleased(unit.unit),
    ...(back && { back: { at: back.at, says: back.body.says } }),
    ...(packed && { packedAt: packed.at }),
    release: releaseDecision(states),
    nextChecks: nextChecks(states, model).map(({ claim, title, why, hands_min, danger }) => ({
      claim,
      title,
      why,
      hands_min,
      danger,
    })),
    history: evidence
      .filter(
        ({ body }) =>
          ("unit" in body && body.unit === unit.unit) || ("subject" in body && body.subject.unit === unit.unit),
      )
      .map(({ id, at, by, body }) => ({ id, at, by, kind: body.kind, words: inWords(body) }))
      .reverse(),
    cautions: [
      ...new Set(
        states
          .map(({ check }) => check.danger)
          .filter((danger) => danger !== "none")
          .map((danger) => cautions[danger]),
      ),
      cautions.always,
    ],
  };
}

/** One line of a unit's history. */
function inWords(body: Evidence["body"]): string {
  switch (body.kind) {
    case "unit":
      return `opened as ${body.model} revision ${body.revision}, tap ${body.tap}, valves ${pairs(body.fitted)}`;
    case "step":
      return `${body.step} done`;
    case "reading":
    case "finding": {
      const where = [body.subject.position, body.subject.section, body.subject.channel, body.subject.point]
        .filter(Boolean)
        .join(" ");
      const how = body.kind === "reading" ? `with ${body.instrument}` : `by ${body.calculation}`;
      return `${body.quantity}${where ? ` at ${where}` : ""} ${brief(body.value)} ± ${brief(body.doubt)}, ${how}`;
    }
    case "recording": {
      const supply =
        body.supply.source === "building" ? "on the building's mains" : `regenerated at ${body.supply.frequency_Hz} Hz`;
      return `recording ${body.recording} (${body.purpose}), ${supply}, valves ${pairs(body.valves)}, input ${body.input}`;
    }
    case "rework":
      return `rework: ${body.why}${body.fitted ? ` (now ${pairs(body.fitted)})` : ""}`;
    case "coat":
      return `a coat of ${body.product ?? body.finish} on its case`;
    case "machined":
      return `${body.piece} of its case machined`;
    case "case-given":
      return `given case ${body.case}`;
    case "meant":
      return `timber kept for it: ${body.pieces.join(", ")}`;
    case "concession":
      return `conceded ${body.claim}: ${body.reason}`;
    case "return":
      return `came back: ${body.says}`;
    case "fault":
      return `fault ${body.fault}, found at ${body.found}${body.what === "" ? "" : `: ${body.what}`}`;
    case "packed":
      return `packed, label ${body.label.nominal_V} V ${body.label.frequency_Hz} Hz, valves apart ${pairs(body.valvesApart)}`;
    case "release":
      return `released on ${body.claims.length} claims, calculations ${body.version}`;
    default:
      return body.kind;
  }
}

function pairs(record: Readonly<Record<string, string>>): string {
  return Object.entries(record)
    .map(([position, valve]) => `${position}=${valve}`)
    .join(" ");
}

function brief(value: number): string {
  return String(Number(value.toPrecision(4)));
}
