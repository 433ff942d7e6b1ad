import type { CrackLookBackView, EarlyWeighingView, TimberShelfView } from "../../workshop/timber/views.ts";
import { Measured } from "../common/Measured.tsx";
import { capital } from "../common/sentence.ts";
import { tradeWord, woodName } from "../common/tradeMessages.ts";
import { cracks as words } from "./messages.ts";

/** What the shop's own records say of cracks: when, where, of which wood, and whether it could have been known. */
export function CrackPanel({
  counts,
  back,
  early,
}: {
  readonly counts: TimberShelfView["cracks"];
  readonly back?: CrackLookBackView | undefined;
  readonly early?: EarlyWeighingView | undefined;
}) {
  return (
    <section className="cracks" aria-labelledby="cracks-name">
      <h2 id="cracks-name">{words.title}</h2>
      {counts.cracks === 0 ? (
        <p className="quiet">{words.none}</p>
      ) : (
        <>
          <p>{counts.words.join(" ")}</p>
          <Ladder counts={counts} />
          <p className="quiet small">{words.ofPlated(counts.cracks, counts.pieces)}</p>
          {back && <Told back={back} />}
          <h3>{words.early}</h3>
          <p className={early ? "crack-early" : "crack-early quiet"}>{early ? early.words : words.earlyWaiting}</p>
          {early?.indexWords && <p>{early.indexWords}</p>}
        </>
      )}
    </section>
  );
}

function Ladder({ counts }: { readonly counts: TimberShelfView["cracks"] }) {
  return (
    <ul className="crack-ladder">
      {counts.found.map(({ what, count }) => (
        <li key={what}>
          <span>{what}</span>
          <span className="crack-strokes" aria-hidden="true">
            {Array.from({ length: count }, (_, i) => (
              // biome-ignore lint/suspicious/noArrayIndexKey: strokes of a tally are alike
              <i key={i} />
            ))}
          </span>
          <span className="figure">{count}</span>
        </li>
      ))}
    </ul>
  );
}

function Told({ back: { groups, plate, silent } }: { readonly back: CrackLookBackView }) {
  const cracked = groups.filter((group) => group.cracked > 0);
  const most = Math.max(0.1, ...cracked.map(({ high }) => high));
  const [all] = plate;
  return (
    <>
      {all && (
        <>
          <h3>{words.whole}</h3>
          <Measured>{(width) => <WholeCurve points={all.points} width={Math.min(width, 736)} />}</Measured>
          <p className="quiet small">{words.wholeHow(all.pieces)}</p>
        </>
      )}
      {cracked.length > 0 && (
        <>
          <h3>{words.where}</h3>
          <ol className="crack-groups">
            {cracked.map((group) => (
              <li key={`${group.stage} ${group.species} ${group.thickness}`}>
                <span>
                  <strong>{capital(tradeWord(group.stage))}</strong>, {woodName(group.species)}, {group.thickness}
                </span>
                <span className="pencil figure">
                  {words.share(group.cracked, group.pieces, percent(group.low), percent(group.high))}
                </span>
                <Measured first={300}>
                  {(width) => (
                    <ShareRule share={group.share} low={group.low} high={group.high} to={most} width={width} />
                  )}
                </Measured>
              </li>
            ))}
          </ol>
        </>
      )}
      {silent > 0 && <p className="quiet small">{words.silent(silent)}</p>}
    </>
  );
}

const percent = (share: number) => `${Math.round(100 * share)}`;

function ShareRule({
  share,
  low,
  high,
  to,
  width,
}: {
  readonly share: number;
  readonly low: number;
  readonly high: number;
  readonly to: number;
  readonly width: number;
}) {
  const x = (one: number) => Number(((one / to) * (width - 4) + 2).toFixed(1));
  return (
    <svg width={width} height="20" aria-hidden="true" focusable="false">
      <path className="rule-base" d={`M0 10.500H${width}`} />
      <path className="whole-doubt-line" d={`M${x(low)} 4v13M${x(high)} 4v13M${x(low)} 10.500H${x(high)}`} />
      <circle className="year-end" cx={x(share)} cy="10.5" r="4.5" />
    </svg>
  );
}

const height = 190;
const [left, top, bottom] = [46, 10, 30];

/** Steps of the share still whole by hours on the plate, with its interval. */
function WholeCurve({
  points,
  width,
}: {
  readonly points: CrackLookBackView["plate"][number]["points"];
  readonly width: number;
}) {
  const last_h = Math.max(24, ...points.map(({ hours }) => hours));
  const floor = Math.max(0, Math.floor(10 * Math.min(...points.map(({ low }) => low))) / 10);
  const x = (hours: number) => Number((left + (hours / last_h) * (width - left - 12)).toFixed(1));
  const y = (share: number) => Number((top + ((1 - share) / (1 - floor)) * (height - top - bottom)).toFixed(1));
  const steps = (of: (point: (typeof points)[number]) => number) =>
    points.map((point) => `H${x(point.hours)}V${y(of(point))}`).join("");
  const low = `M${x(0)} ${y(1)}${steps((point) => point.low)}H${x(last_h)}`;
  const highBack = [...points]
    .reverse()
    .map((point, i, back) => `V${y(point.high)}H${x(point.hours)}${i === back.length - 1 ? `V${y(1)}` : ""}`)
    .join("");
  const every = last_h > 60 ? 24 : 6;
  const shares = Array.from({ length: 11 }, (_, i) => i / 10).filter((share) => share >= floor);
  return (
    <svg className="whole-curve" width={width} height={height} role="img" aria-label={words.wholeLabel(points)}>
      {shares.map((share, i) => (
        <g key={share}>
          <path className="course-grid" d={`M${left} ${y(share)}H${width - 12}`} />
          {(shares.length < 6 || i % 2 === 0) && (
            <text className="rule-number" x={left - 7} y={y(share) + 4} textAnchor="end">
              {percent(share)} %
            </text>
          )}
        </g>
      ))}
      <path className="course-doubt" d={`${low}${highBack}Z`} />
      <path className="course-mean" d={`M${x(0)} ${y(1)}${steps((point) => point.survival)}H${x(last_h)}`} />
      <path className="rule-base" d={`M${left} ${height - bottom + 0.5}H${width - 12}`} />
      {Array.from({ length: Math.floor(last_h / every) + 1 }, (_, i) => i * every).map((hours) => (
        <g key={hours}>
          <path className="rule-mark" d={`M${x(hours)} ${height - bottom}v5`} />
          <text className="rule-number" x={x(hours)} y={height - 8} textAnchor="middle">
            {hours} h
          </text>
        </g>
      ))}
    </svg>
  );
}
