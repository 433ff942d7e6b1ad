import { type FormEvent, useState } from "react";
import type { AdoptedLimitsView, SafetyLimitsView } from "../../workshop/safety/views.ts";
import { writeDown } from "../common/api.ts";
import { By } from "../common/By.tsx";
import { Choice, Field, numberError, numberOf, Outcome, Recalled } from "../common/fields.tsx";
import { quantitySaid } from "../common/quantity.ts";
import { capital } from "../common/sentence.ts";
import { useBy } from "../common/useBy.ts";
import { useDraft } from "../common/useDraft.ts";
import { useSending } from "../common/useSending.ts";
import { limits as words } from "./messages.ts";

type Seen = keyof typeof words.seenShort;

interface Row {
  readonly quantity: string;
  readonly point?: string;
  readonly test: string;
  readonly low: string;
  readonly high: string;
  readonly source: string;
  readonly seen: Seen;
}

/** What may be changed of a row. */
type Typed = Partial<Pick<Row, "low" | "high" | "source" | "seen">>;

const keyOf = ({ quantity, point = "" }: Row) => `${quantity} ${point}`;

function changedOf(text: string): Readonly<Record<string, Typed>> {
  try {
    return JSON.parse(text) as Record<string, Typed>;
  } catch {
    return {};
  }
}

/** Limits as one person adopts them, with where each is from; nothing is filled in that nobody adopted before. */
export function LimitsForm({ view, market }: { readonly view: SafetyLimitsView; readonly market?: AdoptedLimitsView }) {
  const [by, setBy] = useBy();
  const adopted = rowsOf(view, market);
  const draft = useDraft(`safety-limits ${market?.market ?? ""}`, {
    name: market?.market ?? "",
    places: (market?.places ?? view.uncovered).join("\n"),
    edition: market?.edition ?? "",
    changed: "{}",
  });
  const { name, places, edition } = draft.typed;
  const changed = changedOf(draft.typed.changed);
  const rows = adopted.map((row) => ({ ...row, ...changed[keyOf(row)] }));
  const [isSure, setSure] = useState(false);
  const [tried, setTried] = useState(false);
  const sending = useSending();
  const kept = rows.filter(({ low, high }) => low.trim() !== "" || high.trim() !== "");
  const bad = kept.some(
    ({ low, high, source }) => numberError(low, false) || numberError(high, false) || source.trim() === "",
  );
  const problem =
    name.trim() === "" || edition.trim() === "" || places.trim() === "" || kept.length === 0 || bad
      ? words.needed
      : isSure
        ? undefined
        : words.sureNeeded;
  const put = (row: Row, change: Typed) =>
    draft.change({ changed: JSON.stringify({ ...changed, [keyOf(row)]: { ...changed[keyOf(row)], ...change } }) });
  const submit = async (event: FormEvent) => {
    event.preventDefault();
    setTried(true);
    if (problem) return;
    const done = await sending.send(async () => {
      await writeDown(by.trim() === "" ? "nobody" : by.trim(), [
        {
          kind: "safety-limits",
          market: name.trim(),
          places: places
            .split("\n")
            .map((place) => place.trim())
            .filter(Boolean),
          edition: edition.trim(),
          limits: kept.map(({ quantity, point, low, high, source, seen }) => ({
            quantity,
            ...(point !== undefined && { point }),
            ...(low.trim() !== "" && { low: numberOf(low) }),
            ...(high.trim() !== "" && { high: numberOf(high) }),
            source: source.trim(),
            seen,
          })),
        },
      ]);
      return words.written(name.trim());
    });
    if (!done) return;
    setSure(false);
    setTried(false);
    draft.clear(draft.typed);
  };
  return (
    <form onSubmit={submit} noValidate>
      <Recalled isRecalled={draft.isRecalled} clear={() => draft.clear()} />
      <div className="fields">
        <Field
          label={words.market}
          hint={words.marketHint}
          value={name}
          onChange={(typed) => draft.change({ name: typed })}
        />
        <Field
          label={words.edition}
          hint={words.editionHint}
          value={edition}
          onChange={(typed) => draft.change({ edition: typed })}
        />
        <By
          need="safety"
          label={words.by}
          hint={words.byHint(view.able.join(", "))}
          value={by}
          onChange={setBy}
          list={view.able}
        />
      </div>
      <div className="field">
        <label htmlFor={`places-${market?.id ?? "new"}`}>{words.places}</label>
        <span className="field-hint">{words.placesHint}</span>
        <textarea
          id={`places-${market?.id ?? "new"}`}
          rows={3}
          value={places}
          onChange={(event) => draft.change({ places: event.target.value })}
        />
      </div>
      {rows.map((row) => (
        <fieldset key={keyOf(row)} className="limits-row">
          <legend>
            {capital(row.test)}
            {row.point && `, ${row.point}`}
          </legend>
          <div className="fields">
            <Field
              label={words.low}
              value={row.low}
              onChange={(low) => put(row, { low })}
              unit={quantitySaid(row.quantity).unit}
              numeric
              narrow
            />
            <Field
              label={words.high}
              value={row.high}
              onChange={(high) => put(row, { high })}
              unit={quantitySaid(row.quantity).unit}
              numeric
              narrow
            />
            <Field label={words.source} value={row.source} onChange={(source) => put(row, { source })} />
          </div>
          <Choice
            legend={words.seen}
            value={row.seen}
            options={(Object.keys(words.seenShort) as Seen[]).map((value) => ({
              value,
              label: words.seenShort[value],
            }))}
            onChange={(seen) => put(row, { seen: seen as Seen })}
          />
        </fieldset>
      ))}
      <label className="choice-option">
        <input type="checkbox" checked={isSure} onChange={(event) => setSure(event.target.checked)} />
        <span>{words.sure}</span>
      </label>
      <button type="submit" className="main" disabled={sending.busy}>
        {words.write}
      </button>
      {tried && problem && <p className="field-error">{problem}</p>}
      <Outcome {...sending} />
    </form>
  );
}

function rowsOf({ quantities }: SafetyLimitsView, market: AdoptedLimitsView | undefined): readonly Row[] {
  const known = (market?.limits ?? []).map(
    ({ quantity, point, test, low, high, source, seen }): Row => ({
      quantity,
      ...(point !== undefined && { point }),
      test,
      low: low === undefined ? "" : String(low),
      high: high === undefined ? "" : String(high),
      source,
      seen,
    }),
  );
  const more = quantities
    .filter(({ quantity }) => !known.some((row) => row.quantity === quantity))
    .map(({ quantity, test }): Row => ({ quantity, test, low: "", high: "", source: "", seen: "memory" }));
  return [...known, ...more];
}
