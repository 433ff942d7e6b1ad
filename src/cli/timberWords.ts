import Table from "cli-table3";
import type { CaseView, PieceCardView, PieceView, TimberShelfView } from "../workshop/timber/views.ts";

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
export function pieceWords({ card, events, aside, papersAsked }: PieceView): string {
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
    ...aside.map(({ at, mass_g, why }) => `kept aside: ${when(at)}, ${mass_g} g: ${why}`),
    "",
    ...events.map(({ at, words }) => `${when(at)}  ${words}`),
  ]
    .filter((line, i, all) => line !== "" || i === all.length - events.length - 1)
    .join("\n");
}

/** The case of a unit, panel by panel. */
export function caseWords({ words, panels, noSoakBefore }: CaseView): string {
  return [
    words,
    ...panels.map(({ panel, piece, verdict, remedy, clearance_mm, low_mm, high_mm }) => {
      const room =
        clearance_mm === undefined
          ? ""
          : ` (${clearance_mm.toFixed(1)} mm, ${low_mm?.toFixed(1)} to ${high_mm?.toFixed(1)})`;
      return `  ${panel}, ${piece}: ${verdict}${room}. ${remedy}`;
    }),
    noSoakBefore ? `No heat soak before ${when(noSoakBefore)}: an oil is still hardening.` : "",
  ]
    .filter(Boolean)
    .join("\n");
}
