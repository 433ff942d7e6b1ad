import type { Shop } from "../../claims/index.ts";
import type { Finding } from "../findings.ts";
import { version } from "../version.ts";
import { boundShop } from "./boundShop.ts";
import { boundOf } from "./destination.ts";
import { lifeOf } from "./life.ts";
import { momentsOf } from "./placeAir.ts";
import type { CaseView } from "./views.ts";

/** Panels that will not keep their room at the destination; what a model's claim asks for by this name. */
export const panelsAtRisk = "panelsAtRisk";

/**
 * The case of a unit as a figure for its claim: how many panels are at risk, those undecided counted by halves with as
 * much doubt.
 */
export function caseFinding(shop: Shop, { unit, panels }: Pick<CaseView, "unit" | "panels">): Finding | undefined {
  const { timber } = shop;
  const standing = timber.caseOfUnit(unit);
  const { climate } = boundOf(boundShop(shop), unit);
  if (!standing || !climate || panels.length === 0) return undefined;
  const count = (verdict: string) => panels.filter((panel) => panel.verdict === verdict).length;
  const pieces = standing.joined.body.panels.filter(({ moisture_pct }) => moisture_pct === undefined);
  const lineage = pieces.flatMap(({ piece }) => {
    const from = timber.state(piece)?.from;
    return from === undefined ? [piece] : [piece, from];
  });
  const read = [...new Set(lineage)].flatMap((piece) =>
    timber
      .entriesOf(piece)
      .filter(
        ({ at, body }) =>
          (body.kind === "weighing" || body.kind === "offcut") && Date.parse(at) <= Date.parse(standing.joined.at),
      ),
  );
  const airs = pieces.flatMap(({ piece }) => airRead(shop, piece, standing.joined.at));
  // A panel planed since then has another width, and is to be judged again.
  const planed = standing.joined.body.panels.flatMap(({ piece }) =>
    timber.entriesOf(piece).filter(({ body }) => body.kind === "machined"),
  );
  const woods = standing.joined.body.panels.flatMap(({ piece }) => {
    const own = timber.woodOf(timber.state(piece)?.species ?? "");
    return own ? [own] : [];
  });
  return {
    subject: { unit },
    quantity: panelsAtRisk,
    value: count("refuted") + count("undecided") / 2,
    doubt: count("undecided") / 2,
    calculation: "timber.case",
    version,
    from: [
      ...new Set([
        standing.joined.id,
        standing.given.id,
        climate.id,
        ...[...read, ...planed, ...airs, ...woods].map(({ id }) => id),
      ]),
    ],
  };
}

/** Logs of the air that a piece stood in until it was joined; on a plate without a log of its own that of the room. */
function airRead({ timber }: Shop, piece: string, joinedAt: string) {
  const told = lifeOf(timber, piece);
  if (!told.ok) return [];
  const room = [...timber.places].find(([name, { what }]) => what === "room" && timber.airOf(name).length > 0)?.[0];
  return told.life.stays.flatMap(({ place, from, to = joinedAt }) => {
    const own = timber.airOf(place);
    const logs = own.length > 0 || room === undefined ? own : timber.airOf(room);
    const [from_ms, to_ms] = [Date.parse(from), Date.parse(to)];
    return logs.filter((log) => momentsOf(log).some((at_ms) => at_ms >= from_ms && at_ms <= to_ms));
  });
}
