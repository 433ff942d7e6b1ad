import type { TimberTruth } from "./truth.ts";

/** What the tool says of the demo's timber. */
export interface TimberAnswers {
  /** 95 % ends of the moisture of boards that stand in the shop; left out where it will not say. */
  readonly boards: readonly { readonly piece: string; readonly low_pct?: number; readonly high_pct?: number }[];
  readonly cases: readonly {
    readonly unit: string;
    readonly verdict: "proven" | "refuted" | "undecided" | "open";
    readonly remedies: readonly string[];
  }[];
  readonly cracks: {
    readonly cracked: number;
    readonly firstNight: number;
    readonly secondDay: number;
    /** Share of the cracked that an earlier weighing would have held back, and of the whole ones. */
    readonly wetShare?: number;
  };
}

/** So much of the boards' true moistures must lie within what was said. */
const leastInside = 0.9;
/** Shares told from records count as right within this. */
const near = 0.05;
/** A share that rests on moistures, each with its doubt, within this. */
const nearByMoisture = 0.2;

export function scoreTimber(truth: TimberTruth, answers: TimberAnswers | undefined) {
  const found: string[] = [];
  const missed: string[] = [];
  const falseAccusations: string[] = [];

  for (const { unit, verdict, remedy, story } of truth.cases) {
    const said = answers?.cases.find((one) => one.unit === unit);
    const words = said?.remedies.join(" ").toLowerCase() ?? "";
    const lacking = remedy.filter((word) => !words.includes(word));
    if (said?.verdict === verdict && lacking.length === 0) found.push(`case of ${unit}: ${story}`);
    else if (said?.verdict === "refuted" && verdict === "proven")
      falseAccusations.push(`case of ${unit}: said refuted`);
    else
      missed.push(
        `case of ${unit}: ${story}; said ${said?.verdict ?? "nothing"}, without ${lacking.join(", ") || "nothing"}`,
      );
  }

  const said = truth.boards.flatMap(({ piece, mean_pct }) => {
    const one = answers?.boards.find((board) => board.piece === piece);
    if (one?.low_pct === undefined || one.high_pct === undefined) return [];
    return [{ piece, isInside: one.low_pct <= mean_pct && mean_pct <= one.high_pct }];
  });
  const inside = said.filter(({ isInside }) => isInside).length;
  const boards = `moisture of ${said.length} boards within its doubt for ${inside}`;
  if (said.length >= 0.8 * truth.boards.length && inside >= leastInside * said.length) found.push(boards);
  else missed.push(`${boards}; out: ${said.flatMap(({ piece, isInside }) => (isInside ? [] : [piece])).join(", ")}`);

  const { cracks } = truth;
  const told = answers?.cracks;
  const isTold =
    told !== undefined &&
    Math.abs(told.firstNight - cracks.firstNight) <= near &&
    Math.abs(told.secondDay - cracks.secondDay) <= near;
  const shares =
    told &&
    `${Math.round(100 * told.firstNight)} % in the first night, ${Math.round(100 * told.secondDay)} % on the second day`;
  if (isTold) found.push(`cracks: ${cracks.story} (${shares})`);
  else missed.push(`cracks: ${cracks.story}; said ${shares ?? "nothing"}`);
  const early = "an earlier weighing would have caught about half before sanding";
  if (told?.wetShare !== undefined && Math.abs(told.wetShare - cracks.wetShare) <= nearByMoisture) {
    found.push(`cracks: ${early} (${Math.round(100 * told.wetShare)} % were wetter than the shop's whole boards)`);
  } else missed.push(`cracks: ${early}; said ${told?.wetShare ?? "nothing"}`);
  return { found, missed, falseAccusations };
}
