import type { HumLineView } from "../../workshop/views.ts";
import { Measured } from "../common/Measured.tsx";
import { plainNumber } from "../common/number.ts";
import { CauseBar } from "./CauseBar.tsx";
import { causeWords, type Hearing, hearingOf, namedCauses, originWords } from "./causes.ts";
import { hertz, levelWords } from "./level.ts";
import { words } from "./messages.ts";

/** A pair of headphones: filled when it is heard on them, half when perhaps, empty when not. */
function Headphones({ heard }: { readonly heard: Hearing }) {
  return (
    <svg className={`headphones headphones-${heard}`} viewBox="0 0 26 22" aria-hidden="true" focusable="false">
      <path className="headphones-bow" d="M4 14v-2a9 9 0 0 1 18 0v2" />
      <rect className="headphones-cup headphones-left" x="2" y="12" width="6" height="9" rx="1.500" />
      <rect className="headphones-cup headphones-right" x="18" y="12" width="6" height="9" rx="1.500" />
    </svg>
  );
}

const signed = (dB: number) => `${dB > 0 ? "+" : ""}${plainNumber(Math.round(dB))} dB`;

function HeardOn({ line, headphones }: { readonly line: HumLineView; readonly headphones: number }) {
  if (headphones === 0 && line.heardOn.length === 0) return <p className="heard small quiet">{words.noHeadphones}</p>;
  const by = (audible: Hearing) =>
    line.heardOn.filter((on) => on.audible === audible).sort((a, b) => b.margin_dB - a.margin_dB);
  const groups = (["yes", "doubtful"] as const)
    .map((audible) => ({ audible, on: by(audible) }))
    .filter(({ on }) => on.length > 0);
  const not = by("no").length;
  return (
    <ul className="heard">
      {groups.map(({ audible, on }) => (
        <li key={audible}>
          <Headphones heard={audible} />
          <span>
            <span className="quiet">{audible === "yes" ? words.heard : words.perhaps}</span>{" "}
            {on.map(({ headphone, margin_dB, masked }, i) => (
              <span key={headphone} className="heard-one">
                {headphone} <span className="figure pencil">{signed(margin_dB)}</span>
                {masked && masked !== "no" && (
                  <span className="quiet"> ({masked === "yes" ? words.masked : words.perhapsMasked})</span>
                )}
                {i < on.length - 1 && ", "}
              </span>
            ))}
          </span>
        </li>
      ))}
      {not > 0 && (
        <li>
          <Headphones heard="no" />
          <span className="quiet">{words.notOn(not, line.heardOn.length)}</span>
        </li>
      )}
    </ul>
  );
}

const hundredths = (share: number) => String(Math.round(share * 100));

/** One spectral line: where it lies, how strong it is, what makes it and who would hear it. */
export function LineRow({
  line,
  coincide,
  headphones,
}: {
  readonly line: HumLineView;
  readonly coincide: boolean;
  readonly headphones: number;
}) {
  const causes = namedCauses(line.causes);
  const told = originWords(line);
  // Numbers that say nothing but that anything is possible are left out.
  const isOpen = line.origin?.state === "not told apart" && causes.every(({ low, high }) => low < 0.05 && high > 0.9);
  const split = causes.map((cause) =>
    words.share(causeWords(cause), hundredths(cause.share), hundredths(cause.low), hundredths(cause.high)),
  );
  return (
    <li className="line-row">
      <div className="line-name">
        <p className="line-frequency figure">{hertz(line.frequency_Hz)} Hz</p>
        <p className="small quiet">{words.family(line.order, line.of, coincide)}</p>
        <p className="small figure">{levelWords(line.level_Vrms, line.doubt_Vrms)}</p>
      </div>
      <div className="line-causes">
        <Measured first={520}>
          {(width) => (
            <CauseBar
              causes={causes}
              width={width}
              height={hearingOf(line) === "no" ? 12 : 32}
              label={[told, split.join("; ")].filter(Boolean).join(" ")}
            />
          )}
        </Measured>
        <ul className="small line-split" aria-hidden="true">
          {told && <li className="line-origin">{told}</li>}
          {isOpen && <li>{causes.map(causeWords).join("; ")}</li>}
          {(isOpen ? [] : causes).map((cause) => (
            <li key={`${cause.cause} ${cause.position} ${cause.valve}`}>
              {causeWords(cause)} <strong className="figure">{hundredths(cause.share)}</strong>{" "}
              <span className="quiet figure nowrap">
                {words.between(hundredths(cause.low), hundredths(cause.high))}
              </span>
            </li>
          ))}
        </ul>
      </div>
      <HeardOn line={line} headphones={headphones} />
    </li>
  );
}
