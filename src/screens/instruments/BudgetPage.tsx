import { type FormEvent, useState } from "react";
import { Link } from "wouter";
import { windowShare } from "../../measurement/windowShare.ts";
import { post } from "../common/api.ts";
import { Field, numberError, Recalled } from "../common/fields.tsx";
import { plainNumber, readNumber } from "../common/number.ts";
import { useDraft } from "../common/useDraft.ts";
import { TroubleNote } from "../common/Waiting.tsx";
import { gauge, budget as words } from "./studyMessages.ts";
import "../common/office.css";
import "./instruments.css";

type Told = keyof typeof words.tells;

interface Line {
  readonly name: string;
  readonly told: Told;
  readonly value: string;
  readonly sensitivity: string;
  readonly freedom: string;
}

export interface BudgetAnswer {
  readonly standard: number;
  readonly freedom?: number;
  readonly factor: number;
  readonly doubt: number;
  readonly lines: readonly { readonly name: string; readonly contribution: number; readonly share_pct: number }[];
  readonly notes: readonly string[];
  readonly judged?: { readonly state: "proven" | "refuted" | "undecided"; readonly riskFalseAccept: number };
  readonly eaten_pct?: number;
}

const empty: Line = { name: "", told: "doubt", value: "", sensitivity: "", freedom: "" };
const blank = { lines: JSON.stringify([empty, empty]), value: "", low: "", high: "" };

/** What makes a result uncertain, line by line; nothing is written down, what was typed stays on this machine. */
export default function BudgetPage({ first }: { readonly first?: BudgetAnswer }) {
  const { typed, change, clear, isRecalled } = useDraft("doubt budget", blank);
  const [answer, setAnswer] = useState<BudgetAnswer | undefined>(first);
  const [isTried, setTried] = useState(false);
  const [fault, setFault] = useState<unknown>();
  const lines = linesOf(typed.lines);
  const put = (next: readonly Line[]) => change({ lines: JSON.stringify(next) });
  const edit = (i: number, part: Partial<Line>) => put(lines.map((line, k) => (k === i ? { ...line, ...part } : line)));
  const read = (text: string) => {
    const found = readNumber(text);
    return found.ok ? found.value : undefined;
  };
  const errorsOf = ({ name, told, value, sensitivity, freedom }: Line) => ({
    name: name.trim() === "" ? words.unnamed : undefined,
    value:
      told === "readings"
        ? value
            .trim()
            .split(/\s+/)
            .map((one) => numberError(one))
            .find((error) => error !== undefined)
        : numberError(value),
    sensitivity: numberError(sensitivity, false),
    freedom: numberError(freedom, false),
  });
  const isSound =
    lines.every((line) => Object.values(errorsOf(line)).every((error) => error === undefined)) &&
    [typed.value, typed.low, typed.high].every((text) => numberError(text, false) === undefined);

  const submit = async (event: FormEvent) => {
    event.preventDefault();
    setTried(true);
    setFault(undefined);
    if (!isSound) return;
    try {
      const [value, low, high] = [read(typed.value), read(typed.low), read(typed.high)];
      const found = await post<BudgetAnswer>("/api/calc/measurement.budget", {
        components: lines.map((line) => componentOf(line, read)),
      });
      const limits = { ...(low !== undefined && { low }), ...(high !== undefined && { high }) };
      const isBounded = low !== undefined || high !== undefined;
      const judged =
        value !== undefined && isBounded
          ? await post<NonNullable<BudgetAnswer["judged"]>>("/api/calc/measurement.guard", {
              value,
              doubt: found.doubt,
              ...limits,
            })
          : undefined;
      const { eaten_pct } = windowShare(found.doubt / 1.96, low, high);
      setAnswer({ ...found, ...(judged && { judged }), ...(eaten_pct !== undefined && { eaten_pct }) });
    } catch (error) {
      setAnswer(undefined);
      setFault(error);
    }
  };
  const shown = (error: string | undefined) => (isTried && error ? { error } : {});

  return (
    <article className="office budget">
      <h1>{words.title}</h1>
      <p className="lead">{words.lead}</p>
      <ul className="office-ways">
        <li>
          <Link href="/instruments">{gauge.toInstruments}</Link>
        </li>
        <li>
          <Link href="/instruments/gauge">{gauge.title}</Link>
        </li>
      </ul>
      <form onSubmit={submit} noValidate>
        <Recalled isRecalled={isRecalled} clear={() => clear()} />
        {lines.map((line, i) => {
          const errors = errorsOf(line);
          return (
            // biome-ignore lint/suspicious/noArrayIndexKey: a line being typed has no name yet
            <fieldset key={i} className="budget-line">
              <legend>{words.line(i + 1)}</legend>
              <div className="fields">
                <Field
                  label={words.name}
                  value={line.name}
                  onChange={(name) => edit(i, { name })}
                  {...shown(errors.name)}
                />
                <label className="field">
                  <span>{words.told}</span>
                  <select value={line.told} onChange={({ target }) => edit(i, { told: target.value as Told })}>
                    {(Object.keys(words.tells) as Told[]).map((told) => (
                      <option key={told} value={told}>
                        {words.tells[told]}
                      </option>
                    ))}
                  </select>
                </label>
                <Field
                  label={words.value}
                  {...(line.told === "readings" && { hint: words.readingsHint })}
                  value={line.value}
                  onChange={(value) => edit(i, { value })}
                  numeric={line.told !== "readings"}
                  {...shown(errors.value)}
                />
                <Field
                  label={words.sensitivity}
                  hint={words.sensitivityHint}
                  value={line.sensitivity}
                  onChange={(sensitivity) => edit(i, { sensitivity })}
                  numeric
                  narrow
                  {...shown(errors.sensitivity)}
                />
                {line.told !== "readings" && (
                  <Field
                    label={words.freedom}
                    hint={words.freedomHint}
                    value={line.freedom}
                    onChange={(freedom) => edit(i, { freedom })}
                    numeric
                    narrow
                    {...shown(errors.freedom)}
                  />
                )}
              </div>
              {lines.length > 1 && (
                <button type="button" onClick={() => put(lines.filter((_, k) => k !== i))}>
                  {words.out(line.name.trim() || words.line(i + 1))}
                </button>
              )}
            </fieldset>
          );
        })}
        <button type="button" onClick={() => put([...lines, empty])}>
          {words.add}
        </button>
        <div className="fields">
          <Field
            label={words.result}
            value={typed.value}
            onChange={(value) => change({ value })}
            numeric
            {...shown(numberError(typed.value, false))}
          />
          <Field
            label={words.low}
            hint={words.limitsHint}
            value={typed.low}
            onChange={(low) => change({ low })}
            numeric
            {...shown(numberError(typed.low, false))}
          />
          <Field
            label={words.high}
            hint={words.limitsHint}
            value={typed.high}
            onChange={(high) => change({ high })}
            numeric
            {...shown(numberError(typed.high, false))}
          />
        </div>
        <button type="submit" className="main">
          {words.work}
        </button>
      </form>
      {fault !== undefined && <TroubleNote error={fault} />}
      <div aria-live="polite">{answer && <Outcome answer={answer} />}</div>
    </article>
  );
}

function Outcome({ answer }: { readonly answer: BudgetAnswer }) {
  const { doubt, standard, factor, freedom, lines, notes, judged, eaten_pct } = answer;
  const most = Math.max(1, ...lines.map(({ share_pct }) => Math.abs(share_pct)));
  return (
    <section aria-label={words.work}>
      <h2 className="pencil">{words.doubt(plainNumber(doubt))}</h2>
      <p className="small">
        {words.from(plainNumber(standard), plainNumber(factor))}
        {freedom !== undefined && `; ${words.freedomIs(freedom.toFixed(0))}`}.
      </p>
      {judged && (
        <p>
          <strong>{words.verdicts[judged.state]}</strong> {words.risk(plainNumber(100 * judged.riskFalseAccept))}
        </p>
      )}
      {eaten_pct !== undefined && <p>{words.eaten(eaten_pct.toFixed(0))}</p>}
      <h3>{words.shares}</h3>
      <ul className="office-rows budget-shares">
        {lines.map(({ name, share_pct, contribution }) => (
          <li key={name} className="office-line">
            <span>{name}</span>
            <svg
              viewBox="0 0 240 18"
              width={240}
              height={18}
              role="img"
              aria-label={words.share(name, share_pct.toFixed(0))}
            >
              <path className="interval-base" d="M0 14H240" />
              <rect
                className="budget-bar"
                y={3}
                width={Math.max(1, (240 * Math.max(0, share_pct)) / most)}
                height={11}
              />
            </svg>
            <span className="figure pencil">
              <strong>{share_pct.toFixed(0)} %</strong>{" "}
              <span className="small">± {plainNumber(1.96 * contribution)}</span>
            </span>
          </li>
        ))}
      </ul>
      {notes.map((note) => (
        <p key={note} className="small quiet">
          {note}
        </p>
      ))}
    </section>
  );
}

function componentOf({ name, told, value, sensitivity, freedom }: Line, read: (text: string) => number | undefined) {
  const [slope, count] = [read(sensitivity), read(freedom)];
  const base = {
    name: name.trim(),
    ...(slope !== undefined && { sensitivity: slope }),
    ...(count !== undefined && told !== "readings" && { freedom: count }),
  };
  if (told === "readings")
    return {
      ...base,
      readings: value
        .trim()
        .split(/\s+/)
        .map((one) => read(one)!),
    };
  if (told === "standard") return { ...base, standard: read(value)! };
  return { ...base, halfWidth: read(value)!, shape: told };
}

function linesOf(text: string): readonly Line[] {
  try {
    const found: unknown = JSON.parse(text);
    if (!Array.isArray(found)) return [empty];
    return found.map((line: Partial<Line>) => ({ ...empty, ...line }));
  } catch {
    return [empty];
  }
}
