import { useQuery } from "@tanstack/react-query";
import { type FormEvent, useState } from "react";
import { Link } from "wouter";
import type { DestinationAnswer } from "../../circuits/destination.ts";
import type { UnitView } from "../../workshop/views.ts";
import { get } from "../common/api.ts";
import { CautionMark } from "../common/Caution.tsx";
import { Field, numberError, numberOf, Recalled } from "../common/fields.tsx";
import { common } from "../common/messages.ts";
import { plainNumber, withDoubt } from "../common/number.ts";
import { StateMark } from "../common/StateSign.tsx";
import { inWords } from "../common/sentence.ts";
import { Table } from "../common/Table.tsx";
import { useComputed } from "../common/useComputed.ts";
import { useDraft } from "../common/useDraft.ts";
import { Answer } from "../common/Waiting.tsx";
import { words } from "./messages.ts";
import "../common/office.css";
import "./supply.css";

export default function SupplyPage({ unit }: { readonly unit: string }) {
  const path = `/api/units/${encodeURIComponent(unit)}`;
  const asked = useQuery({ queryKey: [path], queryFn: () => get<UnitView>(path) });
  return (
    <Answer asked={asked} what={words.what(unit)}>
      {(view) => <Supply unit={view} />}
    </Answer>
  );
}

/** What the mains at a unit's destination will make of it, told ahead from readings at two supplies here. */
export function Supply({ unit }: { readonly unit: Pick<UnitView, "unit" | "destination"> }) {
  const { place, nominal_V, frequency_Hz } = unit.destination;
  const at = `/unit/${encodeURIComponent(unit.unit)}`;
  const asked = useComputed<DestinationAnswer & { readonly notes: readonly string[] }>("supply.destination");
  return (
    <article className="office supply">
      <p className="back">
        <Link href={at}>{words.back(unit.unit)}</Link>
      </p>
      <h1>{words.title(unit.unit)}</h1>
      <p className="lead">
        {words.goes(place, plainNumber(nominal_V), plainNumber(frequency_Hz))} {words.lead}
      </p>
      <p className="caution">
        <CautionMark />
        <span>{words.caution}</span>
      </p>
      <SupplyForm unit={unit} ask={asked.ask} isBusy={asked.busy} error={asked.error} />
      <div role="status">{asked.answer && <Told answer={asked.answer} at={at} />}</div>
    </article>
  );
}

interface Row {
  readonly tap: string;
  readonly supply: string;
  readonly heater: string;
  readonly ht: string;
}
const blankRow: Row = { tap: "", supply: "", heater: "", ht: "" };
const rowNames = ["supply", "heater", "ht"] as const;

const blank = {
  rows: JSON.stringify([blankRow, blankRow]),
  taps: "",
  frequency: "",
  tolerance: "10",
  rated: "6.3",
  off: "5",
  extreme: "10",
  htMost: "",
  meter: "0.5",
  turns: "",
  area: "",
  fluxMost: "",
};
type Name = Exclude<keyof typeof blank, "rows" | "taps">;

/** Figures that may be left out. */
const optional: readonly Name[] = ["extreme", "turns", "area", "fluxMost"];
const ofCore = ["turns", "area", "fluxMost"] as const;
const units: Readonly<Record<Name, string>> = {
  frequency: "Hz",
  tolerance: "%",
  rated: "V",
  off: "%",
  extreme: "%",
  htMost: "V",
  meter: "%",
  turns: "",
  area: "cm²",
  fluxMost: "T",
};

function SupplyForm({
  unit: { unit, destination },
  ask,
  isBusy,
  error,
}: {
  readonly unit: Pick<UnitView, "unit" | "destination">;
  readonly ask: (question: unknown) => Promise<void>;
  readonly isBusy: boolean;
  readonly error: string | undefined;
}) {
  const draft = useDraft(`${unit} supply`, blank);
  const { typed } = draft;
  const [isTried, setTried] = useState(false);
  const rows = JSON.parse(typed.rows) as readonly Row[];
  const put = (now: readonly Row[]) => draft.change({ rows: JSON.stringify(now) });
  const taps = typed.taps.split(/[\s;]+/).filter(Boolean);
  const errorOf = (name: Name) => numberError(typed[name], !optional.includes(name));
  const given = ofCore.filter((name) => typed[name].trim() !== "").length;
  const tapFault =
    taps.length === 0 ? common.needed : taps.some((tap) => numberError(tap) !== undefined) ? words.badTaps : undefined;
  const tapOf = ({ tap }: Row) => (tap.trim() === "" ? taps[0] : tap.trim());
  const rowTapFault = (row: Row) =>
    tapFault === undefined && !taps.includes(tapOf(row)!) ? words.noTap(row.tap.trim()) : undefined;
  const isGood =
    tapFault === undefined &&
    (Object.keys(units) as Name[]).every((name) => errorOf(name) === undefined) &&
    rows.every(
      (row) => rowTapFault(row) === undefined && rowNames.every((name) => numberError(row[name]) === undefined),
    ) &&
    (given === 0 || given === ofCore.length);
  const submit = (event: FormEvent) => {
    event.preventDefault();
    setTried(true);
    if (!isGood) return;
    const number = (name: Name) => numberOf(typed[name]);
    void ask({
      readings: rows.map((row) => ({
        tap: tapOf(row),
        supply_V: numberOf(row.supply),
        frequency_Hz: number("frequency"),
        heater_V: numberOf(row.heater),
        ht_V: numberOf(row.ht),
      })),
      taps: taps.map((name) => ({ name, nominal_V: numberOf(name) })),
      destination: {
        nominal_V: destination.nominal_V,
        frequency_Hz: destination.frequency_Hz,
        tolerance_pct: number("tolerance"),
      },
      limits: {
        heater_V: number("rated"),
        heater_pct: number("off"),
        ht_max_V: number("htMost"),
        ...(typed.extreme.trim() !== "" && { heaterExtreme_pct: number("extreme") }),
      },
      ...(given > 0 && { core: { turns: number("turns"), area_cm2: number("area"), limit_T: number("fluxMost") } }),
      reading_doubt_pct: number("meter"),
    });
  };
  const field = (name: Name, hint?: string) => (
    <Field
      label={words[name]}
      {...(hint !== undefined && { hint })}
      {...(units[name] !== "" && { unit: units[name] })}
      numeric
      value={typed[name]}
      onChange={(now) => draft.change({ [name]: now })}
      error={isTried ? errorOf(name) : undefined}
    />
  );
  return (
    <form className="desk-form" onSubmit={submit} noValidate>
      <Recalled isRecalled={draft.isRecalled} clear={() => draft.clear()} />
      <h2>{words.transformer}</h2>
      <div className="fields">
        <Field
          label={words.taps}
          hint={words.tapsHint}
          value={typed.taps}
          onChange={(now) => draft.change({ taps: now })}
          error={isTried ? tapFault : undefined}
        />
        {field("tolerance", words.toleranceHint)}
        {field("rated")}
        {field("off")}
        {field("extreme", words.extremeHint)}
        {field("htMost")}
      </div>
      <h2>{words.readings}</h2>
      <p>{words.readingsLead}</p>
      {rows.map((row, i) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: a row is its place in the list
        <fieldset key={i} className="supply-reading">
          <legend>{words.reading(i + 1)}</legend>
          <Field
            label={words.tap}
            numeric
            value={row.tap}
            placeholder={taps[0] ?? ""}
            onChange={(tap) => put(rows.with(i, { ...row, tap }))}
            error={isTried ? rowTapFault(row) : undefined}
          />
          {rowNames.map((name) => (
            <Field
              key={name}
              label={words[name]}
              unit="V"
              numeric
              value={row[name]}
              onChange={(now) => put(rows.with(i, { ...row, [name]: now }))}
              error={isTried ? numberError(row[name]) : undefined}
            />
          ))}
          {rows.length > 1 && (
            <button type="button" onClick={() => put(rows.toSpliced(i, 1))}>
              {words.drop}
              <span className="visually-hidden"> {words.reading(i + 1)}</span>
            </button>
          )}
        </fieldset>
      ))}
      <button type="button" onClick={() => put([...rows, blankRow])}>
        {words.more}
      </button>
      <div className="fields">
        {field("frequency")}
        {field("meter")}
      </div>
      <details>
        <summary>{words.core}</summary>
        <p className="quiet">{words.coreLead}</p>
        <div className="fields">
          {ofCore.map((name) => (
            <div key={name}>{field(name)}</div>
          ))}
        </div>
        {isTried && given > 0 && given < ofCore.length && <p className="field-error">{words.coreWhole}</p>}
      </details>
      <div className="form-end">
        <button type="submit" className="main" disabled={isBusy}>
          {words.work}
        </button>
      </div>
      <div role="alert">
        {(error ?? (isTried && !isGood)) && <p className="outcome-error">{error ?? common.mend}</p>}
      </div>
    </form>
  );
}

function Told({
  answer,
  at,
}: {
  readonly answer: DestinationAnswer & { readonly notes: readonly string[] };
  readonly at: string;
}) {
  const { tap, cases, state, reasons, notes } = answer;
  const hasFlux = cases.some(({ flux_T }) => flux_T !== undefined);
  return (
    <section className="supply-told" aria-label={words.states[state]}>
      <h2 className="supply-verdict">
        <StateMark state={state} /> {words.onTap(tap)} {words.states[state]}
      </h2>
      <Table
        head={[
          words.mains,
          { words: words.heater, figure: true },
          { words: words.ht, figure: true },
          ...(hasFlux ? [{ words: words.flux, figure: true }] : []),
        ]}
        rows={cases.map(({ supply_V, heater_V, ht_V, flux_T, doubt }, i) => ({
          key: String(i),
          cells: [
            <span key="case">
              {words.cases[i]}, <span className="figure nowrap">{plainNumber(Number(supply_V.toPrecision(4)))} V</span>
            </span>,
            `${withDoubt(heater_V, doubt.heater_V)} V`,
            `${withDoubt(ht_V, doubt.ht_V)} V`,
            ...(flux_T === undefined ? [] : [`${plainNumber(Number(flux_T.toPrecision(3)))} T`]),
          ],
        }))}
      />
      <ul className="supply-reasons">
        {reasons.map((reason) => (
          <li key={reason}>{inWords(reason)}</li>
        ))}
      </ul>
      <ul className="supply-reasons small quiet">
        {notes.map((note) => (
          <li key={note}>{note}</li>
        ))}
      </ul>
      <p className="supply-after">{words.after}</p>
      <ul className="office-ways">
        <li>
          <Link href={`${at}#readings`}>{words.toReadings}</Link>
        </li>
        <li>
          <Link href={`${at}/safety`}>{words.toSafety}</Link>
        </li>
      </ul>
    </section>
  );
}
