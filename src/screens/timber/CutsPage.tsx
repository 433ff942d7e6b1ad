import { Link } from "wouter";
import type { Soon } from "../../workshop/timber/soon.ts";
import type { CutPlanView } from "../../workshop/timber/views.ts";
import { CautionMark } from "../common/Caution.tsx";
import { Measured } from "../common/Measured.tsx";
import { common } from "../common/messages.ts";
import { fixed } from "../common/number.ts";
import { capital } from "../common/sentence.ts";
import { tradeWord, woodName } from "../common/tradeMessages.ts";
import { useArrival } from "../common/useArrival.ts";
import { Answer, Empty } from "../common/Waiting.tsx";
import { BoardDrawn } from "./BoardDrawn.tsx";
import { PanelsForm, SawnSoForm } from "./cutForms.tsx";
import { Fold } from "./Fold.tsx";
import { defectWords } from "./marks.ts";
import { cuts as words } from "./messages.ts";
import { TimberHead } from "./TimberHead.tsx";
import { UnderWay } from "./UnderWay.tsx";
import { useSoon } from "./useSoon.ts";
import "./timber.css";

export default function CutsPage() {
  const asked = useSoon<CutPlanView>("/api/timber/cuts");
  return (
    <Answer asked={asked} what={words.what}>
      {({ ready, progress }) => <Cuts plan={ready} progress={progress} />}
    </Answer>
  );
}

/** Boards with the panels that they are to become; each is written down only once it is sawn. */
export function Cuts({
  plan,
  progress,
}: {
  readonly plan?: CutPlanView | undefined;
  readonly progress?: Soon<CutPlanView>["progress"];
}) {
  useArrival();
  return (
    <article className="timber">
      <TimberHead at="/timber/cuts" title={words.title} lead={words.lead} />
      {plan ? <Plan plan={plan} /> : <UnderWay what={words.waits} progress={progress} />}
    </article>
  );
}

function Plan({ plan }: { readonly plan: CutPlanView }) {
  const { sum } = plan;
  const longest_mm = Math.max(1, ...plan.boards.map(({ length_mm }) => length_mm));
  return (
    <>
      {plan.units.length === 0 && <Empty title={words.noneTitle}>{words.none}</Empty>}
      {sum && (
        <p className="shelf-how">
          <span className="pencil">{words.sum(sum.opened_dm2, sum.wasted_dm2)}</span> {sum.words}
        </p>
      )}
      {plan.units.map(({ unit, wanting }) =>
        wanting ? (
          <p key={unit} className="timber-note">
            {wanting}
          </p>
        ) : null,
      )}
      {plan.boards.length > 0 && (
        <p className="caution">
          <CautionMark />
          <span>{common.dangers.dust}</span>
        </p>
      )}
      <ol className="cut-boards">
        {plan.boards.map((board) => (
          <CutBoard key={board.board} board={board} longest_mm={longest_mm} />
        ))}
      </ol>
      {plan.unplaced.length > 0 && (
        <section aria-labelledby="unplaced-name">
          <h2 id="unplaced-name">{words.unplaced}</h2>
          <ul className="case-list">
            {plan.unplaced.map(({ unit, panel, why }) => (
              <li key={`${unit} ${panel}`}>
                <strong>
                  {unit} {tradeWord(panel)}
                </strong>
                : {why}.
              </li>
            ))}
          </ul>
        </section>
      )}
      {plan.aside.length > 0 && (
        <details className="piece-notes">
          <summary>{words.aside}</summary>
          <ul>
            {plan.aside.map(({ piece, why }) => (
              <li key={piece}>
                {piece}: {why}.
              </li>
            ))}
          </ul>
        </details>
      )}
      {plan.notes.length > 0 && (
        <details className="piece-notes">
          <summary>{words.notes}</summary>
          <ul>
            {plan.notes.map((note) => (
              <li key={note}>{note}</li>
            ))}
          </ul>
        </details>
      )}
      <div className="timber-desk">
        <section id="panels">
          <Fold title={words.wanted} first={plan.units.length === 0}>
            {plan.open.length > 0 && (
              <p className="quiet">
                {words.open} {plan.open.join(", ")}.
              </p>
            )}
            <PanelsForm open={plan.open} />
          </Fold>
        </section>
      </div>
    </>
  );
}

function CutBoard({
  board,
  longest_mm,
}: {
  readonly board: CutPlanView["boards"][number];
  readonly longest_mm: number;
}) {
  const dryBy = Math.max(...board.cuts.map(({ dryBy_pct }) => dryBy_pct));
  return (
    <li className="cut-board">
      <h2>
        <Link href={`/timber/piece/${encodeURIComponent(board.board)}`}>{board.board}</Link>
      </h2>
      <p>
        {woodName(board.species)}, {words.size(board.length_mm, board.width_mm, board.thickness_mm)},{" "}
        {words.ring(board.ringAngle_deg)}; {board.place}.{" "}
        <span className="pencil">
          {words.area(board.used_dm2, board.opened_dm2)}
          {board.offcuts_mm.length > 0 ? `; ${words.offcuts(board.offcuts_mm)}` : ""}
        </span>
        {dryBy > 0.5 && <strong>; {words.dryFirst(fixed(dryBy, 1))}</strong>}.
        {board.defects.length > 0 && (
          <span className="quiet"> {capital(words.round(defectWords(board.defects)))}.</span>
        )}
      </p>
      <Measured>{(width) => <BoardDrawn board={board} longest_mm={longest_mm} width={width} />}</Measured>
      <ul className="cut-list">
        {board.cuts.map((cut) => (
          <li key={cut.piece}>
            <strong>{cut.piece}</strong>{" "}
            {`${cut.unit} ${tradeWord(cut.panel)}${words.stave(cut.stave, cut.staves)}: ${Math.round(cut.to_mm - cut.from_mm)} × ${Math.round(cut.width_mm)} mm; ${words.moves(fixed(cut.movement_mm, 1))}`}
          </li>
        ))}
      </ul>
      <Fold title={words.saw}>
        <SawnSoForm board={board} />
      </Fold>
    </li>
  );
}
