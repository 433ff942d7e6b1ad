import { type FormEvent, useEffect, useRef, useState } from "react";
import { Link } from "wouter";
import type { TrayValveView, TrayView, ValveReadingView } from "../../workshop/views.ts";
import { writeDown } from "../common/api.ts";
import { By } from "../common/By.tsx";
import { dayAndTime } from "../common/calendar.ts";
import { Field, numberError, numberOf, Outcome, Recalled } from "../common/fields.tsx";
import { asWritten, plainNumber, withDoubt } from "../common/number.ts";
import { inWords } from "../common/sentence.ts";
import { useBy } from "../common/useBy.ts";
import { useDraft } from "../common/useDraft.ts";
import { useSending } from "../common/useSending.ts";
import { WindowRuler } from "../common/WindowRuler.tsx";
import { tray as trayWords, card as words } from "./messages.ts";
import { Standing } from "./Standing.tsx";

interface Props {
  readonly tray: TrayView;
  readonly valve: TrayValveView;
  readonly close: () => void;
}

const quantities = ["drift_pct", "sectionSpread_pct", "gridCurrent_uA", "leakage_uA", "gm_mS"];

/** All that is known of one valve: its verdict and reasons, each section against its limits, every reading. */
export function ValveCard({ tray, valve, close }: Props) {
  const heading = useRef<HTMLHeadingElement>(null);
  useEffect(() => heading.current?.focus(), []);
  const { limits } = tray;
  return (
    <section
      className="valve-card"
      aria-labelledby="valve-card-name"
      onKeyDown={(event) => event.key === "Escape" && close()}
    >
      <div className="valve-card-head">
        <h2 id="valve-card-name" ref={heading} tabIndex={-1}>
          {valve.valve}
        </h2>
        <Standing standing={valve.standing} />
        <button type="button" className="valve-card-close" onClick={close}>
          {words.close}
        </button>
      </div>
      {valve.standsIn && (
        <p>
          <Link href={`/unit/${encodeURIComponent(valve.standsIn.unit)}`}>
            {trayWords.standsInLong(valve.standsIn.unit, valve.standsIn.position)}
          </Link>
        </p>
      )}
      {valve.reasons.length > 0 && (
        <ul className="valve-reasons">
          {valve.reasons.map((reason) => (
            <li key={reason}>{inWords(reason, quantities)}</li>
          ))}
        </ul>
      )}
      {valve.advice.length > 0 && (
        <>
          <h3>{words.advice}</h3>
          <ul className="valve-reasons">
            {valve.advice.map(({ place, serves, words: said }) => (
              <li key={place}>
                <strong>{place}</strong>: {words.serves[serves]}
                {said.length > 0 && `. ${said.map((sentence) => inWords(sentence)).join(" ")}`}
              </li>
            ))}
          </ul>
        </>
      )}
      {valve.readings.length === 0 ? (
        <p className="quiet">{words.noReadings}</p>
      ) : (
        <>
          {valve.sections.map((section) => (
            <Section key={section.section} section={section} limits={limits} isAlone={valve.sections.length === 1} />
          ))}
          {valve.sectionSpread_pct !== undefined && (
            <Figure
              name={words.spread}
              value={valve.sectionSpread_pct}
              doubt={valve.sectionSpreadDoubt_pct}
              high={limits?.sectionSpread_pct}
              unit="%"
              computed
            />
          )}
          <ReadingList readings={valve.readings} valve={valve.valve} />
        </>
      )}
    </section>
  );
}

function Section({
  section,
  limits,
  isAlone,
}: {
  readonly section: TrayValveView["sections"][number];
  readonly limits: TrayView["limits"];
  readonly isAlone: boolean;
}) {
  const { cold_mA, hot_mA, drift_pct, doubt_pct, gridCurrent_uA, leakage_uA } = section;
  return (
    <div className="section-card">
      {!isAlone && <h3>{words.section(section.section)}</h3>}
      {cold_mA !== undefined && (
        <p className="pencil">
          {hot_mA === undefined ? words.coldOnly(current(cold_mA)) : words.currents(current(cold_mA), current(hot_mA))}
        </p>
      )}
      {drift_pct !== undefined && (
        <Figure
          name={words.drift}
          value={drift_pct}
          doubt={doubt_pct}
          low={limits && -limits.drift_pct}
          high={limits?.drift_pct}
          unit="%"
          computed
        />
      )}
      {gridCurrent_uA !== undefined && (
        <Figure name={words.gridCurrent} value={gridCurrent_uA} high={limits?.gridCurrent_uA} unit="µA" />
      )}
      {leakage_uA !== undefined && (
        <Figure name={words.leakage} value={leakage_uA} high={limits?.leakage_uA} unit="µA" />
      )}
      {section.words.map((sentence) => (
        <p key={sentence} className="pencil">
          {sentence}
        </p>
      ))}
    </div>
  );
}

interface FigureProps {
  readonly name: string;
  readonly value: number;
  readonly doubt?: number | undefined;
  readonly low?: number | undefined;
  readonly high?: number | undefined;
  readonly unit: string;
  readonly computed?: boolean;
}

function Figure({ name, value, doubt, low, high, unit, computed = false }: FigureProps) {
  return (
    <div className="valve-figure">
      <p>
        {name}
        <br />
        <span className={`figure${computed ? " pencil" : ""}`}>
          {withDoubt(value, doubt)} {unit}
        </span>
      </p>
      <WindowRuler
        value={value}
        {...(doubt !== undefined && { doubt })}
        {...(low !== undefined && { low })}
        {...(high !== undefined && { high })}
        unit={unit}
        computed={computed}
        width={220}
      />
    </div>
  );
}

function ReadingList({ readings, valve }: { readonly readings: readonly ValveReadingView[]; readonly valve: string }) {
  const [correcting, setCorrecting] = useState<string>();
  const newestFirst = readings.toReversed();
  return (
    <>
      <h3>{words.readings}</h3>
      <ul className="valve-readings">
        {newestFirst.map((reading) => (
          <li key={reading.evidence}>
            <p className="valve-reading">
              <span className="valve-reading-what">
                {reading.section}, {words.phases[reading.phase]}
              </span>
              <span className="figure">{current(reading.plate_mA)} mA</span>
              <span className="quiet">
                {plainNumber(reading.plate_V)} V, grid {plainNumber(reading.grid_V)} V
              </span>
              <time className="quiet" dateTime={reading.at}>
                {dayAndTime(reading.at)}
              </time>
              {reading.right_mA !== undefined && (
                <span className="pencil">
                  {current(reading.right_mA)} mA {words.right}
                </span>
              )}
              <button
                type="button"
                className="small-button"
                aria-expanded={correcting === reading.evidence}
                onClick={() => setCorrecting(correcting === reading.evidence ? undefined : reading.evidence)}
              >
                {words.correct}
              </button>
            </p>
            {correcting === reading.evidence && (
              <Correction valve={valve} reading={reading} close={() => setCorrecting(undefined)} />
            )}
          </li>
        ))}
      </ul>
    </>
  );
}

/** A reading put right by a newer one that supersedes it; the old one stays in the ledger. */
function Correction({
  valve,
  reading,
  close,
}: {
  readonly valve: string;
  readonly reading: ValveReadingView;
  readonly close: () => void;
}) {
  const draft = useDraft(`correction ${reading.evidence}`, { plate_mA: String(reading.plate_mA) });
  const typed = draft.typed.plate_mA;
  const [by, setBy] = useBy();
  const [asked, setAsked] = useState(false);
  const sending = useSending();
  const submit = (event: FormEvent) => {
    event.preventDefault();
    setAsked(true);
    if (numberError(typed) || by.trim() === "") return;
    const { evidence, at: _at, by: _by, right_mA: _right, ...rest } = reading;
    void sending
      .send(async () => {
        await writeDown(by.trim(), [
          { kind: "valve-reading", valve, ...rest, plate_mA: numberOf(typed), supersedes: evidence },
        ]);
        return words.corrected;
      })
      .then((done) => {
        if (!done) return;
        draft.clear();
        close();
      });
  };
  return (
    <form className="correction" onSubmit={submit} noValidate>
      <p>{words.correctNote}</p>
      <Recalled isRecalled={draft.isRecalled} clear={() => draft.clear()} />
      <div className="fields">
        <Field
          label={words.correctTitle(`${reading.section}, ${words.phases[reading.phase]}`)}
          unit="mA"
          numeric
          value={typed}
          onChange={(plate_mA) => draft.change({ plate_mA })}
          error={asked ? numberError(typed) : undefined}
        />
        <By value={by} onChange={setBy} isTried={asked} />
      </div>
      <div className="form-end">
        <button type="submit" className="main" disabled={sending.busy}>
          {words.write}
        </button>
        <button
          type="button"
          onClick={() => {
            draft.clear();
            close();
          }}
        >
          {words.cancel}
        </button>
      </div>
      <Outcome busy={sending.busy} said={sending.said} error={sending.error} />
    </form>
  );
}

/** A current to four figures, as a tester shows it. */
export function current(mA: number): string {
  return asWritten(Number(mA.toPrecision(4)).toString());
}
