import type { Panel, Remedy } from "./caseAsk.ts";

const mm = (value: number) => value.toFixed(1);

export interface Found {
  readonly panel: Panel;
  readonly verdict: "proven" | "refuted" | "undecided";
  readonly shrink_mm: number;
  readonly swell_mm: number;
  readonly shrinkDoubt_mm: number;
  readonly swellDoubt_mm: number;
  readonly gap_mm: number;
  /** Middle of what its home will make of it. */
  readonly home_pct: number;
  /** Movement were it quarter-sawn, over what it is. */
  readonly quarter: number;
  readonly parting_mm: number;
}

/** What would help, the first that is enough by itself first; each with its number. */
export function remediesFor(found: Found): Remedy[] {
  const { panel, verdict, shrink_mm, swell_mm, gap_mm } = found;
  const isEdges = panel.fixed === "edges";
  if (verdict === "proven") {
    const words = isEdges
      ? `None needed: the fixing takes ${mm(Math.max(shrink_mm, swell_mm))} mm, well below the ${mm(found.parting_mm)} mm at which the wood would part`
      : `None needed: it keeps ${mm(gap_mm - swell_mm)} mm${shrink_mm > 0 ? `, and shrinks ${mm(shrink_mm)} mm at the driest` : "; drying it further would only use up the gap"}`;
    return [{ kind: "none", words }, ...leaveAlone(found)];
  }
  const inward_mm = shrink_mm + found.shrinkDoubt_mm;
  const outward_mm = swell_mm + found.swellDoubt_mm;
  const main: Remedy = isEdges
    ? {
        kind: "slot",
        value: Math.max(inward_mm, outward_mm),
        words: `Do not fix both edges: slot the fixings for ${mm(inward_mm)} mm inward and ${mm(outward_mm)} mm outward, fixed at the centre`,
      }
    : { kind: "gap", value: outward_mm, words: `Widen the gap from ${mm(gap_mm)} to ${mm(outward_mm)} mm` };
  const taken_mm = isEdges ? Math.max(shrink_mm, swell_mm) : swell_mm;
  const quarter: Remedy[] =
    found.quarter < 0.9
      ? [
          {
            kind: "quarter-sawn",
            value: found.quarter * taken_mm,
            words: `quarter-sawn, it would move ${mm(found.quarter * taken_mm)} mm in place of ${mm(taken_mm)}`,
          },
        ]
      : [];
  return [main, ...quarter, ...condition(found)];
}

/** So near to its home's moisture, percent, it is left as it is. */
const near_pct = 0.5;

function condition(found: Found): Remedy[] {
  const { panel, home_pct } = found;
  if (panel.moisture_pct <= home_pct + near_pct) return leaveAlone(found);
  return [
    {
      kind: "condition",
      value: home_pct,
      words: `dry from ${panel.moisture_pct.toFixed(1)} to about ${home_pct.toFixed(1)} % before it is built`,
    },
  ];
}

/** Wood no wetter than its home will make it must not be dried further. */
function leaveAlone({ panel, home_pct }: Found): Remedy[] {
  if (panel.moisture_pct > home_pct + near_pct) return [];
  if (panel.moisture_pct >= home_pct - near_pct) {
    return [
      {
        kind: "leave alone",
        value: home_pct,
        words: `leave it at ${panel.moisture_pct.toFixed(1)} %: its home will keep it there`,
      },
    ];
  }
  return [
    {
      kind: "leave alone",
      value: home_pct,
      words: `let it take up moisture (do not dry it further) from ${panel.moisture_pct.toFixed(1)} to about ${home_pct.toFixed(1)} % before it is built`,
    },
  ];
}
