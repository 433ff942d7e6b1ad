import type { GaugeView } from "../../workshop/instruments/views.ts";
import { plainNumber } from "../common/number.ts";
import { Table } from "../common/Table.tsx";
import { gauge as words } from "./studyMessages.ts";

type Study = GaugeView["studies"][number];

/** The spreads of a study with their intervals; also of one that is not written down yet. */
export function GaugeResult({ result, unit }: { readonly result: Study["result"]; readonly unit: string }) {
  if (result.state === "undecided") return <p>{result.reason}</p>;
  const rows = [
    [words.repeatability, result.repeatability_sd, result.interval.repeatability_sd],
    [words.reproducibility, result.reproducibility_sd, result.interval.reproducibility_sd],
    [words.both, result.gauge_sd, result.interval.gauge_sd],
    [words.parts, result.part_sd, result.interval.part_sd],
  ] as const;
  const { gauge_pct, interval } = result;
  return (
    <>
      <Table
        head={[
          "",
          { words: `${words.sd}${unit ? `, ${unit}` : ""}`, figure: true },
          { words: words.between, figure: true },
        ]}
        rows={rows.map(([name, sd, { low, high }]) => ({
          key: name,
          cells: [
            name,
            <span key="sd" className="pencil">
              {plainNumber(sd)}
            </span>,
            `${plainNumber(low)} – ${plainNumber(high)}`,
          ],
        }))}
      />
      {gauge_pct !== undefined && interval.gauge_pct && (
        <p className="pencil">
          {words.share(gauge_pct.toFixed(0), interval.gauge_pct.low.toFixed(0), interval.gauge_pct.high.toFixed(0))}
        </p>
      )}
      {result.notes.map((note) => (
        <p key={note} className="small quiet">
          {note}
        </p>
      ))}
    </>
  );
}
