import { useState } from "react";
import type { EndedLogView, LinkedView, LinksView } from "../../workshop/instruments/linkViews.ts";
import { writeDown } from "../common/api.ts";
import { By } from "../common/By.tsx";
import { CautionMark } from "../common/Caution.tsx";
import { dayAndTime } from "../common/calendar.ts";
import { Outcome } from "../common/fields.tsx";
import { Measured } from "../common/Measured.tsx";
import { common } from "../common/messages.ts";
import { StateMark, StopSign } from "../common/StateSign.tsx";
import { inWords } from "../common/sentence.ts";
import { useBy } from "../common/useBy.ts";
import { useSending } from "../common/useSending.ts";
import { figureOf, nameOf, whereOf } from "./figureOf.ts";
import { LinkForm } from "./LinkForm.tsx";
import { LogForm } from "./LogForm.tsx";
import { LogStrip } from "./LogStrip.tsx";
import { problems, linked as words } from "./linkMessages.ts";
import { ReadNow } from "./ReadNow.tsx";
import { SupplyDesk } from "./SupplyDesk.tsx";
import { useStop } from "./useStop.ts";
import "./linked.css";

/** Instruments on a wire: read now, logged by the clock, a supply set. */
export function Linked({ view }: { readonly view: LinksView }) {
  const { linked, ended } = view;
  return (
    <section aria-labelledby="on-the-wire" className="linked">
      <h2 id="on-the-wire">{words.title}</h2>
      <p className="lead">{linked.length === 0 ? words.none : words.lead}</p>
      {linked.length > 0 && (
        <ul className="office-rows">
          {linked.map((one) => (
            <One key={one.instrument} one={one} />
          ))}
        </ul>
      )}
      {ended.length > 0 && <Ended logs={ended} />}
      <LinkForm />
    </section>
  );
}

const marks = { good: "proven", failed: "refuted", undecided: "undecided", untried: "open", expired: "void" } as const;

function One({ one }: { readonly one: LinkedView }) {
  const { instrument, title, where, state, why, standing, quantities, settings, hasOutput, logs } = one;
  const failed = standing.state === "failed";
  const hasSupply = settings.length > 0 || hasOutput;
  return (
    <li className="linked-one" id={`wire-${instrument}`}>
      <div className="instrument-head">
        <h3>{title}</h3>
        <p className={`state-sign${failed ? " trial-failed" : ""}`}>
          {failed ? <StopSign /> : <StateMark state={marks[standing.state]} />}
          {words.trial[standing.state]}
        </p>
      </div>
      <p className="linked-where">
        <Joint state={state} />
        <span>
          {words.states[state]}: <span className="figure">{where}</span>
        </span>
      </p>
      {why !== undefined && <p className="quiet small">{inWords(why)}.</p>}
      <p className="quiet small">{inWords(standing.words)}.</p>
      {!hasSupply && quantities.some(({ quantity }) => isDangerous(quantity)) && (
        <p className="caution">
          <CautionMark />
          <span>{words.leadsCaution}</span>
        </p>
      )}
      {quantities.length > 0 && <ReadNow one={one} />}
      {hasSupply && <SupplyDesk one={one} />}
      {logs.map((log) => (
        <Running key={log.log} log={log} />
      ))}
      {quantities.length > 0 && <LogForm one={one} />}
      <Unlink one={one} />
    </li>
  );
}

function Unlink({ one }: { readonly one: LinkedView }) {
  const [by, setBy] = useBy();
  const sending = useSending();
  const unlink = () => {
    if (by.trim() === "") return sending.refuse(`${common.by}: ${common.needed}`);
    void sending.send(async () => {
      await writeDown(by.trim(), [{ kind: "link", instrument: one.instrument, description: null }]);
      return words.unlinked(one.title);
    });
  };
  return (
    <details>
      <summary>
        {words.owner}: {words.unlink}
      </summary>
      <div className="fields">
        <By value={by} onChange={setBy} />
      </div>
      <button type="button" disabled={sending.busy} onClick={unlink}>
        {words.unlink}
      </button>
      <Outcome busy={sending.busy} said={sending.said} error={sending.error} />
    </details>
  );
}

/** Voltages whose leads may be live. */
const isDangerous = (quantity: string) => ["V", "Vrms"].includes(quantity.slice(quantity.lastIndexOf("_") + 1));

/** A plug in its socket, a plug before it, a plug with a cut wire: told apart by shape. */
function Joint({ state }: { readonly state: LinkedView["state"] }) {
  const gap = state === "open" ? 0 : 5;
  return (
    <svg className="joint" viewBox="0 0 44 16" aria-hidden="true" focusable="false">
      <path d={`M1 8h${state === "lost" ? 4 : 12 - gap}`} />
      {state === "lost" && <path d="M9 8h1M7 3l2 2M7 13l2-2" />}
      <path d={`M${13 - gap} 3h7v10h-7z`} className="joint-plug" />
      <path d={`M${20 - gap} 6h4M${20 - gap} 10h4`} />
      <path d="M24 2h7v12h-7z" />
      <path d="M31 8h12" />
    </svg>
  );
}

function Running({ log }: { readonly log: LinkedView["logs"][number] }) {
  const { sending, stop, by, setBy } = useStop(log.log);
  // Asked for only where this machine does not know it yet, and then left standing while it is typed.
  const [asksBy] = useState(by.trim() === "");
  const { quantity, about, passed, all, logged, missed, steps } = log;
  const last = steps.findLast(({ value }) => value !== undefined);
  const newest = steps.at(-1);
  return (
    <div className="running">
      <div className="running-head">
        <p>
          <strong>{words.running(nameOf(quantity), whereOf(about))}</strong>{" "}
          <span className="quiet tabular">
            {words.progress(passed, all)}, {words.logged(logged)}, {words.missed(missed)}
          </span>
        </p>
        <p className="running-figure figure" aria-live="off">
          {last?.value === undefined ? "–" : figureOf(quantity, last.value, last.doubt ?? 0)}
        </p>
      </div>
      {newest?.problem !== undefined && (
        <p className="take-fault" role="status">
          {problems[newest.problem] ?? newest.problem}. {newest.why}
        </p>
      )}
      {steps.length > 1 && (
        <Measured>{(width) => <LogStrip steps={steps} quantity={quantity} width={width} />}</Measured>
      )}
      <div className="form-end">
        {asksBy && <By value={by} onChange={setBy} />}
        <button type="button" disabled={sending.busy} onClick={stop}>
          {words.stop}
        </button>
      </div>
      <Outcome busy={sending.busy} said={sending.said} error={sending.error} />
    </div>
  );
}

function Ended({ logs }: { readonly logs: readonly EndedLogView[] }) {
  const [isOpen, setOpen] = useState(false);
  return (
    <details open={isOpen} onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary>{words.endedTitle}</summary>
      <ul className="ended">
        {logs.map(({ log, instrument, quantity, about, ended, because, logged, missed }) => (
          <li key={log}>
            <p>
              <strong>{words.running(nameOf(quantity), whereOf(about))}</strong>, {instrument},{" "}
              {words.ended(dayAndTime(ended), inWords(because))}.
            </p>
            <p className="quiet">
              {words.logged(logged)}
              {missed.length > 0 &&
                `; ${missed.map(({ count, problem }) => words.missedBecause(count, problems[problem] ?? problem)).join("; ")}`}
            </p>
          </li>
        ))}
      </ul>
    </details>
  );
}
