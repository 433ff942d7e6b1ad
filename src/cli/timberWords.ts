import Table from "cli-table3";
import type {
  CaseView,
  CutPlanView,
  FinishPlanView,
  PieceCardView,
  PieceView,
  RunsView,
  RunView,
  TimberShelfView,
} from "../workshop/timber/views.ts";

const figureWords = ["plain", "some", "fine", "the finest"] as const;
const when = (instant: string) => instant.slice(0, 16).replace("T", " ");
const plain = { head: [], border: [] };

/** The shelf as the terminal shows it. */
export function shelfWords({ pieces, places, cracks }: TimberShelfView): string {
  if (pieces.length === 0) return "No timber stands here yet: write down a place, then receive a blank.";
  const table = new Table({
    style: plain,
    head: ["piece", "wood", "mm", "at", "holds %", "goes to", "year there %", "stands", "ripe"],
  });
  for (const one of pieces) {
    table.push([
      one.piece,
      one.species,
      one.thickness_mm,
      one.place,
      holds(one),
      one.band ? `${one.band.unit}, ${one.band.place}` : (one.meantFor ?? ""),
      one.band ? `${one.band.driest_pct.toFixed(1)} to ${one.band.wettest_pct.toFixed(1)}` : "",
      one.stands ?? "",
      one.ripe ? when(one.ripe.at) : "",
    ]);
  }
  const warnings = places.flatMap(({ place, warning }) => (warning ? [`${place}: ${warning}`] : []));
  return [table.toString(), ...warnings, ...cracks.words].join("\n");
}

function holds({ moisture, wanting }: PieceCardView): string {
  if (!moisture) return wanting ? "not known" : "";
  const half = ((moisture.high_pct - moisture.low_pct) / 2).toFixed(1);
  return moisture.basis === "approach" ? "approach only" : `${moisture.mean_pct.toFixed(1)} ± ${half}`;
}

/** A piece: what it holds, what to do with it, and its history. */
export function pieceWords({
  card,
  events,
  aside,
  papersAsked,
  ripens,
  planWanting,
  defects,
  figure,
}: PieceView): string {
  const { moisture } = card;
  const size = `${card.length_mm} × ${card.width_mm} × ${card.thickness_mm} mm`;
  return [
    `${card.piece}: ${card.species}, ${size}, rings at ${card.ringAngle_deg}°, at ${card.place}`,
    moisture && moisture.basis !== "approach"
      ? `holds ${holds(card)} %, skin ${moisture.surface_pct.toFixed(1)}, core ${moisture.core_pct.toFixed(1)}`
      : "",
    card.advice,
    card.nextWeighing ? `weigh it next ${when(card.nextWeighing.at)}: ${card.nextWeighing.why}` : "",
    papersAsked ?? "",
    ...defects.map(
      ({ what, along, across }) =>
        `${what} ${along.from_mm} to ${along.to_mm} mm from the end${across ? `, ${across.from_mm} to ${across.to_mm} mm from the edge` : ""}`,
    ),
    figure === undefined ? "" : `figure ${figureWords[figure]}`,
    ...ripens.map(
      ({ place, to, mean_pct, low_pct, high_pct, surface_pct, core_pct, leftUndone }) =>
        `planned: ${place} until ${when(to)}: ${mean_pct.toFixed(1)} ± ${((high_pct - low_pct) / 2).toFixed(1)} %, skin ${surface_pct.toFixed(1)}, core ${core_pct.toFixed(1)}${leftUndone > 0.005 ? `, ${Math.round(100 * leftUndone)} % of what its air asks for still to come` : ""}`,
    ),
    planWanting ?? "",
    ...aside.map(({ at, mass_g, why }) => `kept aside: ${when(at)}, ${mass_g} g: ${why}`),
    "",
    ...events.map(({ at, words }) => `${when(at)}  ${words}`),
  ]
    .filter((line, i, all) => line !== "" || i === all.length - events.length - 1)
    .join("\n");
}

/** The case of a unit, panel by panel. */
export function caseWords({ words, panels, noSoakBefore, finishPlan }: CaseView): string {
  return [
    words,
    ...panels.map(({ panel, piece, verdict, remedy, clearance_mm, low_mm, high_mm }) => {
      const room =
        clearance_mm === undefined
          ? ""
          : ` (${clearance_mm.toFixed(1)} mm, ${low_mm?.toFixed(1)} to ${high_mm?.toFixed(1)})`;
      return `  ${panel}, ${piece}: ${verdict}${room}. ${remedy}`;
    }),
    ...(finishPlan ? planWords(finishPlan) : []),
    noSoakBefore ? `No heat soak before ${when(noSoakBefore)}: an oil is still hardening.` : "",
  ]
    .filter(Boolean)
    .join("\n");
}

/** The calendar of a finishing plan: what is on is ticked. */
function planWords({ who, steps, coatsLeft, soak }: FinishPlanView): string[] {
  return [
    `Finishing plan, ${who}: ${coatsLeft === 0 ? "all coats are on" : `${coatsLeft} to come`}.`,
    ...steps
      .filter(({ kind }) => kind !== "turn")
      .map(({ at, what, isDone }) => `  ${when(at)}  ${what}${isDone ? " (is on)" : ""}`),
    ...(soak
      ? [
          `  ${when(soak.from)}  soak on ${soak.place} until ${when(soak.to)}${soak.isAllowed ? "" : `: too soon, ${soak.why}; not before ${when(soak.earliest)}`}`,
        ]
      : []),
  ];
}

/** What is in each warm place and comes out when, what goes in next, and what to weigh. */
export function runWords({ places, weigh, waiting, notPlaced, later, notes }: RunsView): string {
  if (places.length === 0) return "No warm place is on record: write down a chamber or a plate first.";
  const table = new Table({ style: plain, head: ["place", "run", "piece", "mm", "to %", "for", "out", "between"] });
  const rowsOf = (place: string, run: RunView, begins: string) => {
    for (const { thickness_mm, target_pct, unit, pieces } of run.groups) {
      for (const { piece, out } of pieces) {
        const between = `${when(out.from)} to ${out.to === undefined ? "no end known" : when(out.to)}`;
        table.push([place, begins, piece, thickness_mm, target_pct.toFixed(1), unit ?? "", when(out.at), between]);
      }
    }
  };
  for (const { place, runs, next } of places) {
    for (const run of runs) rowsOf(place, run, "now");
    for (const run of next) rowsOf(place, run, `from ${when(run.begins)}`);
  }
  const said = places.flatMap(({ place, ripe, noTarget, never, wanting }) => [
    ...(wanting === undefined ? [] : [wanting]),
    ...(ripe.length > 0 ? [`${place}: take out ${ripe.join(", ")}, at the target or below.`] : []),
    ...(noTarget.length > 0 ? [`${place}: kept for no unit, so without a target: ${noTarget.join(", ")}.`] : []),
    ...never.map(({ piece, why }) => `${place}: ${piece}: ${why}`),
  ]);
  return [
    ...(table.length > 0 ? [table.toString()] : ["Nothing is drying in a warm place, and nothing waits for one."]),
    ...said,
    ...weigh.map(({ at, piece, place, why }) => `weigh ${piece}, ${place}, ${when(at)}: ${why}`),
    ...(waiting.length > 0 ? [`Waiting: ${waiting.join(", ")}.`] : []),
    ...notPlaced.map(({ piece, why }) => `not planned: ${piece}: ${why}`),
    ...(later.length > 0 ? [`Too many to plan at once, so later: ${later.join(", ")}.`] : []),
    ...notes,
  ].join("\n");
}

/** Which piece of which board becomes which panel. */
export function cutWords({ units, open, boards, unplaced, aside, sum, notes }: CutPlanView): string {
  if (units.length === 0)
    return "No panels are written down for a case that is not made yet: list them on the timber page.";
  const table = new Table({
    style: plain,
    head: ["board", "holds %", "panel", "unit", "becomes", "along mm", "across mm", "moves mm", "dry by %"],
  });
  for (const { board, moisture_pct, cuts } of boards) {
    for (const cut of cuts) {
      table.push([
        board,
        moisture_pct.toFixed(1),
        cut.staves > 1 ? `${cut.panel}, stave ${cut.stave} of ${cut.staves}` : cut.panel,
        cut.unit,
        cut.piece,
        `${cut.from_mm.toFixed(0)} to ${cut.to_mm.toFixed(0)}`,
        `${cut.across_mm.toFixed(0)} to ${(cut.across_mm + cut.width_mm).toFixed(0)}`,
        cut.movement_mm.toFixed(1),
        cut.dryBy_pct > 0.05 ? cut.dryBy_pct.toFixed(1) : "",
      ]);
    }
  }
  return [
    ...(table.length > 0 ? [table.toString()] : []),
    ...(sum
      ? [
          `${sum.opened_dm2.toFixed(0)} dm² of board opened, ${sum.wasted_dm2.toFixed(0)} wasted, ${sum.movement_mm.toFixed(1)} mm of movement. ${sum.words}`,
        ]
      : []),
    ...units.flatMap(({ wanting }) => wanting ?? []),
    ...unplaced.map(({ unit, panel, why }) => `not placed: ${unit}, ${panel}: ${why}`),
    ...aside.map(({ piece, why }) => `left aside: ${piece}: ${why}`),
    ...(open.length > 0 ? [`Without a list of panels: ${open.join(", ")}.`] : []),
    ...notes,
  ].join("\n");
}
