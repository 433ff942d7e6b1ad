import { useState } from "react";
import { Link } from "wouter";
import type { ProbeCardView, ProbeSuspectsView, ProbeWindowsView } from "../../workshop/views.ts";
import { StopSign } from "../common/StateSign.tsx";
import { useDraft } from "../common/useDraft.ts";
import { Empty } from "../common/Waiting.tsx";
import { Chassis } from "./Chassis.tsx";
import { blankReading, EnterReading } from "./EnterReading.tsx";
import { words } from "./messages.ts";
import { deadOutside, deadPoints, nextProbe, type Probe, readingAt } from "./order.ts";
import { nextKind, PointList } from "./PointList.tsx";
import { Suspects } from "./Suspects.tsx";
import "./probe.css";

interface Props {
  readonly card: ProbeCardView;
  readonly windows?: ProbeWindowsView | undefined;
  readonly suspects?: ProbeSuspectsView | undefined;
}

/** The probe card: the drawing, the reading asked for, what the readings speak for, and every point below. */
export function ProbeCard({ card, windows, suspects }: Props) {
  const [chosen, setChosen] = useState<Probe>();
  const draft = useDraft(`probe ${card.unit}`, blankReading);
  const isHere = (one: Probe | undefined) => one !== undefined && card.points.some(({ point }) => point === one.point);
  const isKnown = isHere(chosen);
  // A reading that is being typed stays with its place, whatever is proposed meanwhile.
  const held = placeOf(draft.typed.at);
  const probe = isKnown ? chosen : isHere(held) ? held : nextProbe(card, windows, suspects);
  const place = (one: Probe | undefined) => {
    setChosen(one);
    if (one && draft.typed.reading.trim() !== "") draft.change({ at: JSON.stringify(one) });
  };
  const choose = (name: string) => {
    const point = card.points.find((known) => known.point === name);
    if (point) place({ point: name, kind: nextKind(point) });
  };
  const chooseFromList = (one: Probe) => {
    place(one);
    document.getElementById("reading")?.scrollIntoView({ block: "nearest" });
  };
  return (
    <article className="probe-card">
      <h1>{words.title(card.unit)}</h1>
      <p className="lead">
        {words.model(card.model, card.revision)}.{" "}
        <Link href={`/unit/${encodeURIComponent(card.unit)}`}>{words.folder(card.unit)}</Link>
      </p>
      {card.points.length === 0 ? (
        <Empty title={words.emptyTitle}>{words.empty}</Empty>
      ) : (
        <>
          <Progress card={card} windows={windows} />
          <div className="probe-body">
            <section className="probe-picture" aria-label={words.fromBelow}>
              <Chassis card={card} windows={windows} here={probe?.point} choose={choose} />
              <p className="quiet small">
                {words.fromBelow} {card.placed === "by stage" && words.byStage}
              </p>
            </section>
            <div className="probe-side" id="reading">
              <EnterReading
                card={card}
                windows={windows}
                suspects={suspects}
                probe={probe}
                isChosen={isKnown}
                draft={draft}
                choose={place}
              />
            </div>
            <div className="probe-told">
              {suspects ? <Suspects suspects={suspects} card={card} /> : <p className="quiet">{words.suspectsBusy}</p>}
            </div>
          </div>
          <section className="probe-points" aria-labelledby="points-name">
            <h2 id="points-name">{words.all}</h2>
            <WindowsNote windows={windows} />
            <PointList card={card} windows={windows} choose={chooseFromList} />
          </section>
          <p className="quiet small">{words.guide}</p>
        </>
      )}
    </article>
  );
}

function placeOf(kept: string): Probe | undefined {
  try {
    return JSON.parse(kept) as Probe;
  } catch {
    return undefined;
  }
}

/** How far the dead-circuit card and the voltages are, and whether the unit may be powered. */
function Progress({ card, windows }: { readonly card: ProbeCardView; readonly windows: ProbeWindowsView | undefined }) {
  const dead = deadPoints(card, windows);
  const deadRead = dead.filter((point) => readingAt(point, "resistance") !== undefined).length;
  const liveRead = card.points.filter((point) => readingAt(point, "dc") !== undefined).length;
  const out = deadOutside(card, windows);
  return (
    <div className="probe-progress">
      {card.released && <p>{words.released}</p>}
      <dl>
        <div>
          <dt>{words.step.dead}</dt>
          <dd>{words.deadProgress(deadRead, dead.length)}</dd>
        </div>
        <div>
          <dt>{words.step.live}</dt>
          <dd>{words.liveProgress(liveRead, card.points.length)}</dd>
        </div>
      </dl>
      {out.length > 0 ? (
        <p className="probe-stop">
          <StopSign />
          <span>{words.deadOut(out.join(", "))}</span>
        </p>
      ) : deadRead < dead.length && liveRead < card.points.length ? (
        <p>{liveRead === 0 ? words.deadFirst : words.deadOpen(dead.length - deadRead)}</p>
      ) : null}
    </div>
  );
}

function WindowsNote({ windows }: { readonly windows: ProbeWindowsView | undefined }) {
  if (!windows) return <p className="quiet">{words.windowsBusy}</p>;
  if (windows.trouble)
    return (
      <p className="outcome-error">
        {words.windowsTrouble} {windows.trouble}
      </p>
    );
  return (
    <p className="quiet">
      {words.key} {windows.ownCurves.length > 0 ? words.ownCurves(windows.ownCurves.join(", ")) : words.typeCurves}
    </p>
  );
}
