import { useQuery } from "@tanstack/react-query";
import { type FormEvent, useState } from "react";
import { Link } from "wouter";
import type { WorkView } from "../../workshop/orders/views.ts";
import { get, type Note, writeDown } from "../common/api.ts";
import { By } from "../common/By.tsx";
import { dayAndTime } from "../common/calendar.ts";
import { Field, FormEnd, Outcome, Recalled } from "../common/fields.tsx";
import { common, stepName } from "../common/messages.ts";
import { plainNumber } from "../common/number.ts";
import { useArrival } from "../common/useArrival.ts";
import { useBy } from "../common/useBy.ts";
import { useDraft } from "../common/useDraft.ts";
import { useSending } from "../common/useSending.ts";
import { Answer } from "../common/Waiting.tsx";
import { BeginForm } from "../soaks/BeginForm.tsx";
import { words } from "./messages.ts";
import { ValveFields } from "./ValveFields.tsx";
import "../common/office.css";
import "./work.css";

export default function WorkPage({ unit }: { readonly unit: string }) {
  const path = `/api/units/${encodeURIComponent(unit)}/work`;
  const asked = useQuery({ queryKey: [path], queryFn: () => get<WorkView>(path) });
  return (
    <Answer asked={asked} what={words.what(unit)}>
      {(view) => <Work view={view} />}
    </Answer>
  );
}

/** A unit under hands: steps one after another, valves into their places, and every later touch written down. */
export function Work({ view }: { readonly view: WorkView }) {
  const at = `/unit/${encodeURIComponent(view.unit)}`;
  useArrival();
  return (
    <article className="office work">
      <h1>{words.title(view.unit)}</h1>
      <p className="lead">{words.lead(`${view.model} ${view.revision}`, view.order, view.tap)}</p>
      {Object.keys(view.options).length > 0 && (
        <p>
          {Object.entries(view.options)
            .map(([option, choice]) => `${option}: ${choice}`)
            .join("; ")}
        </p>
      )}
      <ul className="office-ways">
        <li>
          <Link href={at}>{words.folder}</Link>
        </li>
        <li>
          <Link href={`/order/${encodeURIComponent(view.order)}`}>{words.order}</Link>
        </li>
        <li>
          <Link href={`${at}/probe`}>{words.probe}</Link>
        </li>
        <li>
          <Link href={`${at}/safety`}>{words.safety}</Link>
        </li>
        {view.released && (
          <li>
            <Link href={`${at}/pack`}>{words.pack}</Link>
          </li>
        )}
      </ul>
      <section aria-labelledby="steps">
        <h2 id="steps">{words.steps}</h2>
        <Steps view={view} />
      </section>
      <section aria-labelledby="valves">
        <h2 id="valves">{words.valves}</h2>
        <p>
          {words.valvesLead} <Link href="/valves">{words.toTrays}</Link>
        </p>
        <ValveFields key={view.positions.map(({ valve }) => valve).join()} view={view} />
      </section>
      <section aria-labelledby="rework">
        <h2 id="rework">{words.rework}</h2>
        <p>{words.reworkLead}</p>
        <ReworkForm view={view} />
        {view.reworks.length > 0 && (
          <>
            <h3>{words.before}</h3>
            <ul>
              {view.reworks.map(({ at: when, by, why }) => (
                <li key={`${when} ${why}`}>
                  {dayAndTime(when)}, {by}: {why}
                </li>
              ))}
            </ul>
          </>
        )}
      </section>
    </article>
  );
}

function Steps({ view }: { readonly view: WorkView }) {
  const [by, setBy] = useBy();
  const [tried, setTried] = useState(false);
  const sending = useSending();
  const next = view.steps.find(({ done }) => !done);
  if (view.steps.length === 0) return <p className="quiet">{words.noSteps}</p>;
  const finish = (step: string) => {
    setTried(true);
    if (by.trim() === "") return sending.refuse(common.mend);
    void sending.send(async () => {
      await writeDown(by.trim(), [{ kind: "step", unit: view.unit, step }]);
      return words.stepDone(stepName(step));
    });
  };
  return (
    <>
      {next && <By value={by} onChange={setBy} isTried={tried} />}
      <ol className="work-steps">
        {view.steps.map(({ step, skill, place, hours, unattended, done, runs }) => (
          <li key={step} className={done ? "work-done" : undefined}>
            <p>
              <strong>{stepName(step)}</strong>{" "}
              <span className="quiet">
                {[unattended ? words.byItself : skill, place, words.hours(plainNumber(hours.usual))]
                  .filter(Boolean)
                  .join(", ")}
              </span>
            </p>
            {done ? (
              <p>{words.done(dayAndTime(done.at), done.by)}</p>
            ) : (
              <>
                {runs && <p>{words.runs(runs.place, dayAndTime(runs.ripe))}</p>}
                <button
                  type="button"
                  className={step === next?.step ? "main" : undefined}
                  disabled={sending.busy}
                  onClick={() => finish(step)}
                >
                  {words.isDone}
                  <span className="visually-hidden">: {stepName(step)}</span>
                </button>
                {unattended && !runs && (
                  <details>
                    <summary>{words.begin}</summary>
                    <BeginForm
                      what={{ name: view.unit, units: [view.unit], step, place, hours: hours.usual }}
                      now={view.now}
                      places={view.places}
                    />
                  </details>
                )}
              </>
            )}
          </li>
        ))}
      </ol>
      <Outcome busy={sending.busy} said={sending.said} error={sending.error} />
    </>
  );
}

type Touched = Extract<Note, { kind: "rework" }>["touched"];

function ReworkForm({ view }: { readonly view: WorkView }) {
  const draft = useDraft(`${view.unit} rework`, { touched: "", parts: "", why: "" });
  const { typed } = draft;
  const [by, setBy] = useBy();
  const [tried, setTried] = useState(false);
  const sending = useSending();
  const named = view.things.filter(({ aspect }) => aspect !== "part");
  const parts = view.things.filter(({ aspect }) => aspect === "part").map(({ name }) => name);
  const ticked = new Set(typed.touched === "" ? [] : typed.touched.split("\n"));
  const keyOf = ({ aspect, name }: WorkView["things"][number]) => `${aspect} ${name}`;
  const typedParts = typed.parts.split(/[\s,;]+/).filter(Boolean);
  const unknown = typedParts.find((part) => !parts.includes(part));
  const submit = (event: FormEvent) => {
    event.preventDefault();
    setTried(true);
    if (unknown !== undefined) return sending.refuse(words.noPart(unknown));
    if (ticked.size + typedParts.length === 0) return sending.refuse(words.touchSomething);
    if (by.trim() === "" || typed.why.trim() === "") return sending.refuse(common.mend);
    const touched: Touched = [
      ...named.filter((thing) => ticked.has(keyOf(thing))).map(({ aspect, name }) => ({ [aspect]: name })),
      ...typedParts.map((part) => ({ part })),
    ];
    void sending
      .send(async () => {
        await writeDown(by.trim(), [{ kind: "rework", unit: view.unit, touched, why: typed.why.trim() }]);
        return words.reworked;
      })
      .then((done) => {
        if (!done) return;
        draft.clear();
        setTried(false);
      });
  };
  const tick = (key: string, is: boolean) => {
    const now = new Set(ticked);
    if (is) now.add(key);
    else now.delete(key);
    draft.change({ touched: [...now].join("\n") });
  };
  return (
    <form className="desk-form" onSubmit={submit} noValidate>
      <Recalled isRecalled={draft.isRecalled} clear={() => draft.clear()} />
      <fieldset className="choice">
        <legend>{words.touched}</legend>
        <div className="choice-row">
          {named.map((thing) => (
            <label key={keyOf(thing)} className="choice-option">
              <input
                type="checkbox"
                checked={ticked.has(keyOf(thing))}
                onChange={({ target }) => tick(keyOf(thing), target.checked)}
              />
              <span>{words.thing(thing.aspect, thing.name)}</span>
            </label>
          ))}
        </div>
      </fieldset>
      <div className="fields">
        <Field
          label={words.parts}
          hint={words.partsHint}
          value={typed.parts}
          onChange={(now) => draft.change({ parts: now })}
          error={tried && unknown !== undefined ? words.noPart(unknown) : undefined}
        />
        <Field
          label={words.why}
          value={typed.why}
          onChange={(why) => draft.change({ why })}
          error={tried && typed.why.trim() === "" ? common.needed : undefined}
        />
        <By value={by} onChange={setBy} isTried={tried} />
      </div>
      <FormEnd write={words.writeRework} sending={sending} isMain={false} />
    </form>
  );
}
