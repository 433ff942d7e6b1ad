import { Link } from "wouter";
import type { LookBackView } from "../../workshop/promises/views.ts";
import { Measured } from "../common/Measured.tsx";
import { Papers } from "../common/Papers.tsx";
import { capital } from "../common/sentence.ts";
import { stageWords } from "../common/stageWords.ts";
import { Answer, Empty, Waiting } from "../common/Waiting.tsx";
import { tell } from "../languages/sentences/told.ts";
import { useSoon } from "../timber/useSoon.ts";
import { Ladder, numberOf } from "./Ladder.tsx";
import "./lookback.css";
import { words } from "./messages.ts";

export default function LookBackPage() {
  const asked = useSoon<LookBackView>("/api/look-back");
  return (
    <Answer asked={asked} what={words.what}>
      {({ ready }) => (ready ? <LookBack view={ready} /> : <Waiting what={words.what} />)}
    </Answer>
  );
}

/** The ladder of stages, then each arrow in words, then what the plate teaches. */
export function LookBack({ view }: { readonly view: LookBackView }) {
  return (
    <article className="look-back">
      <h1>{words.title}</h1>
      <p className="lead">{words.lead}</p>
      <Papers of={["production.lookback"]} />
      {view.faults === 0 ? (
        <Empty title={words.none}>{words.noneWords}</Empty>
      ) : (
        <>
          <p className="look-back-sum">
            {words.sum(view.faults, view.units, view.late)} {words.returns(view.returns.count, view.returns.without)}
          </p>
          <div className="look-back-page">
            <div className="look-back-ladder">
              <Measured first={640}>{(width) => <Ladder view={view} width={width} />}</Measured>
              <p className="quiet small">{words.key}</p>
            </div>
            <section aria-labelledby="arrows-name">
              <h2 id="arrows-name">{words.arrows}</h2>
              <ol className="look-back-arrows">
                {view.arrows.filter(isTelling).map((arrow) => (
                  <ArrowWords key={keyOf(arrow)} view={view} arrow={arrow} />
                ))}
              </ol>
              {view.arrows.some((arrow) => !isTelling(arrow)) && (
                <details className="look-back-quiet">
                  <summary>{words.quiet(view.arrows.filter((arrow) => !isTelling(arrow)).length)}</summary>
                  <ol className="look-back-arrows">
                    {view.arrows
                      .filter((arrow) => !isTelling(arrow))
                      .map((arrow) => (
                        <ArrowWords key={keyOf(arrow)} view={view} arrow={arrow} />
                      ))}
                  </ol>
                </details>
              )}
            </section>
          </div>
        </>
      )}
      {view.plate.length > 0 && (
        <section aria-labelledby="plate-name">
          <h2 id="plate-name">{words.plate}</h2>
          <p>{view.plate.join(" ")}</p>
          {view.suggested.map(({ title, because }) => (
            <p key={title}>
              <strong>{title}</strong>. {because} <Link href="/promises/what-if">{words.tryIt}</Link>
            </p>
          ))}
        </section>
      )}
      {view.notes.map((note) => (
        <p key={note} className="quiet small">
          {note}
        </p>
      ))}
    </article>
  );
}

type Arrow = LookBackView["arrows"][number];
const isTelling = ({ state }: Arrow) => state === "saves";
const keyOf = ({ fault, found, possible }: Arrow) => `${fault} ${found} ${possible}`;

function ArrowWords({ view, arrow }: { readonly view: LookBackView; readonly arrow: Arrow }) {
  const money = `${Math.round(arrow.spent_cents / 100)} ${view.currency}`;
  return (
    <li value={numberOf(view, arrow)}>
      <p>
        <strong>{words.arrow(capital(tell(arrow.fault)), stageWords(arrow.found), stageWords(arrow.possible))}</strong>
        {": "}
        {words.count(arrow.faults, arrow.spent_h.toFixed(0), money)}
      </p>
      <p className={isTelling(arrow) ? "pencil" : "quiet"}>{arrow.words}</p>
    </li>
  );
}
