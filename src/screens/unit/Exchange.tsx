import { type FormEvent, useState } from "react";
import type { ProposalView } from "../../workshop/views.ts";
import { writeDown } from "../common/api.ts";
import { By } from "../common/By.tsx";
import { DangerOf } from "../common/Caution.tsx";
import { type DayMark, DayRule } from "../common/DayRule.tsx";
import { Field, FormEnd, Recalled } from "../common/fields.tsx";
import { Measured } from "../common/Measured.tsx";
import { common, stepName } from "../common/messages.ts";
import { minutes, withDoubt } from "../common/number.ts";
import { StateMark } from "../common/StateSign.tsx";
import { inWords } from "../common/sentence.ts";
import { useBy } from "../common/useBy.ts";
import { useDraft } from "../common/useDraft.ts";
import { useSending } from "../common/useSending.ts";
import { ValveDrawing } from "../common/ValveDrawing.tsx";
import { WindowRuler } from "../common/WindowRuler.tsx";
import { exchange, words } from "./messages.ts";

function marksOf({ promised, before_p80, after_p80 }: ProposalView["promise"]): readonly DayMark[] {
  return [
    ...(promised
      ? [{ at: promised, words: exchange.promised, short: exchange.short.promised, kind: "promised" as const }]
      : []),
    { at: before_p80, words: exchange.before, short: exchange.short.before, kind: "before" },
    { at: after_p80, words: exchange.after, short: exchange.short.after, kind: "after" },
  ];
}

interface Props {
  readonly unit: string;
  readonly proposal: ProposalView;
  readonly tell: (said: string) => void;
}

function RecordExchange({ unit, proposal, tell }: Props) {
  const { position, out, in: into } = proposal;
  const [by, setBy] = useBy();
  const draft = useDraft(`${unit} exchange ${out} ${into}`, { why: exchange.whyDefault(out, into, position) });
  const { why } = draft.typed;
  const [asked, setAsked] = useState(false);
  const sending = useSending();
  const submit = (event: FormEvent) => {
    event.preventDefault();
    setAsked(true);
    if (by.trim() === "" || why.trim() === "") return;
    void sending.send(async () => {
      await writeDown(by.trim(), [
        { kind: "rework", unit, touched: [{ position }], fitted: { [position]: into }, why: why.trim() },
      ]);
      draft.clear();
      tell(exchange.recorded(into, position));
      return "";
    });
  };
  return (
    <form className="desk-form" onSubmit={submit} noValidate>
      <p className="quiet">{exchange.recordNote}</p>
      <Recalled isRecalled={draft.isRecalled} clear={() => draft.clear()} />
      <div className="fields">
        <By value={by} onChange={setBy} isTried={asked} />
        <Field
          label={exchange.why}
          value={why}
          onChange={(now) => draft.change({ why: now })}
          error={asked && why.trim() === "" ? common.needed : undefined}
        />
      </div>
      <FormEnd write={exchange.record} sending={sending} />
    </form>
  );
}

/** The proposed exchange: what goes, what comes, what it voids, what must be checked again and what it does to the date. */
export function Exchange({ unit, proposal, tell }: Props) {
  const { position, out, in: into, balance_dB, doubt_dB, limit_dB } = proposal;
  return (
    <section className="sheet sheet-pencil" id="proposal" aria-labelledby="proposal-name">
      <p className="eyebrow">{exchange.eyebrow(position)}</p>
      <div className="exchange-top">
        <div className="exchange-valves">
          <figure>
            <ValveDrawing name={out} out />
            <figcaption>{out}</figcaption>
          </figure>
          <figure>
            <ValveDrawing name={into} />
            <figcaption>{into}</figcaption>
          </figure>
        </div>
        <div className="exchange-words">
          <h2 id="proposal-name">{exchange.title(out, into)}</h2>
          {proposal.because.map((words) => (
            <p key={words}>{inWords(words)}</p>
          ))}
          <p>{exchange.considered(proposal.considered)}</p>
          <p className="exchange-balance">
            {exchange.balance}: <strong className="figure pencil">{withDoubt(balance_dB, doubt_dB)} dB</strong>
          </p>
          <WindowRuler
            value={balance_dB}
            doubt={doubt_dB}
            low={-limit_dB}
            high={limit_dB}
            unit="dB"
            computed
            width={300}
          />
        </div>
      </div>
      <div className="exchange-effects">
        <div>
          <h3>{exchange.voids}</h3>
          {proposal.voids.length === 0 ? (
            <p>{exchange.noVoids}</p>
          ) : (
            <ul className="marked">
              {proposal.voids.map((claim) => (
                <li key={claim.claim}>
                  <StateMark state="void" />
                  <span>{claim.title}</span>
                </li>
              ))}
            </ul>
          )}
        </div>
        <div>
          <h3>{exchange.retests}</h3>
          <ol className="numbered">
            {proposal.retests.map((check) => (
              <li key={check.claim}>
                {check.title}
                <span className="quiet nowrap">
                  {" "}
                  {minutes(check.hands_min)}
                  {check.wait_h > 0 && `, ${words.wait(check.wait_h)}`}
                </span>{" "}
                <DangerOf danger={check.danger} short />
              </li>
            ))}
          </ol>
        </div>
      </div>
      <div className="exchange-promise">
        <h3>{exchange.promise}</h3>
        <Measured first={640}>
          {(width) => <DayRule marks={marksOf(proposal.promise)} width={Math.min(width, 640)} />}
        </Measured>
        <p>
          {exchange.blue} {exchange.heldBy(stepName(proposal.promise.heldBy))}
        </p>
      </div>
      <RecordExchange unit={unit} proposal={proposal} tell={tell} />
    </section>
  );
}
