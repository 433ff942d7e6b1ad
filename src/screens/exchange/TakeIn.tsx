import { useEffect, useId, useState } from "react";
import { post } from "../common/api.ts";
import { By } from "../common/By.tsx";
import { Choice, Field, Outcome } from "../common/fields.tsx";
import { asWritten } from "../common/number.ts";
import { Pick } from "../common/Pick.tsx";
import { useBy } from "../common/useBy.ts";
import { useSending } from "../common/useSending.ts";
import type { Column, Offers } from "./ask.ts";
import { keep, lacking, recall, strangers } from "./columns.ts";
import { atRow, Faults, Preview } from "./Looked.tsx";
import { words } from "./messages.ts";
import { useLook } from "./useLook.ts";

const usualKind = "valve-reading";

/** A file is looked at as soon as it is chosen, and again with every answer about it; it is written down by one button. */
export function TakeIn({ offers, now }: { readonly offers: Offers; readonly now: string }) {
  const id = useId();
  const [kind, setKind] = useState(usualKind);
  const [decimal, setDecimal] = useState<"point" | "comma">(asWritten("1.5") === "1,5" ? "comma" : "point");
  const [file, setFile] = useState<File>();
  const [called, setCalled] = useState<Readonly<Record<string, string>>>({});
  const [fill, setFill] = useState<Readonly<Record<string, string>>>({});
  const [by, setBy] = useBy();
  const [tries, setTries] = useState(0);
  const sending = useSending();
  const columns = offers.kinds.find((one) => one.kind === kind)?.columns ?? [];
  const filled = { at: now, ...(by.trim() !== "" && { by: by.trim() }), ...given(fill) };
  const { looked, isLooking, trouble } = useLook(file, { kind, decimal, called, fill: filled });

  const head = looked?.head ?? [];
  const unknown = strangers(head, columns);
  const wanting = lacking(head, columns, called).filter(({ name }) => name !== "at" && name !== "by");

  const choose = (chosen: File | undefined) => {
    setFile(chosen);
    setCalled({});
  };
  useEffect(() => {
    const kept = recall(kind, head);
    if (head.length > 0 && Object.keys(called).length === 0 && Object.keys(kept).length > 0) setCalled(kept);
  });

  const name = (one: string, column: string) => {
    const next = { ...called, [one]: column };
    setCalled(next);
    keep(kind, head, next);
  };

  const take = () => {
    if (!looked?.ok) return;
    const { entries, lines } = looked;
    void sending.send(async () => {
      try {
        await post("/api/evidence", { entries });
      } catch (fault) {
        throw atRow(fault, lines);
      }
      setFile(undefined);
      setTries(tries + 1);
      return words.taken(entries.length);
    });
  };

  return (
    <section aria-labelledby={`${id}-in`}>
      <h2 id={`${id}-in`}>{words.in}</h2>
      <p className="small">{words.inLead}</p>
      <div className="fields">
        <Pick label={words.rows} value={kind} onChange={setKind} options={offers.kinds.map((one) => one.kind)} />
        <div className="field">
          <label htmlFor={`${id}-file`}>{words.file}</label>
          <input
            id={`${id}-file`}
            key={tries}
            type="file"
            accept=".csv,.tsv,.txt,.json,.xlsx"
            onChange={({ target }) => choose(target.files?.[0])}
          />
        </div>
        <Choice
          legend={words.decimal}
          value={decimal}
          onChange={(sign) => setDecimal(sign === "comma" ? "comma" : "point")}
          options={(["point", "comma"] as const).map((value) => ({ value, label: words.decimals[value] }))}
        />
      </div>
      {file && (
        <>
          <div role="status">{isLooking && !looked && <p>{words.looking}</p>}</div>
          {trouble !== undefined && (
            <p className="outcome-error" role="alert">
              {trouble}
            </p>
          )}
          {unknown.length > 0 && (
            <fieldset className="exchange-columns">
              <legend>{words.columns}</legend>
              <p className="small">{words.columnsLead}</p>
              {unknown.map((one) => (
                <div className="field" key={one}>
                  <label htmlFor={`${id}-${one}`}>{words.column(one)}</label>
                  <select
                    id={`${id}-${one}`}
                    value={called[one] ?? "?"}
                    onChange={({ target }) => name(one, target.value)}
                  >
                    {called[one] === undefined && <option value="?">–</option>}
                    {columns.map(({ name }) => (
                      <option key={name}>{name}</option>
                    ))}
                    <option value="">{words.leftOut}</option>
                  </select>
                </div>
              ))}
            </fieldset>
          )}
          {(wanting.length > 0 || Object.keys(given(fill)).length > 0) && head.length > 0 && (
            <fieldset className="exchange-columns">
              <legend>{words.missing}</legend>
              {filling(wanting, fill).map((name) => (
                <Field
                  key={name}
                  label={name}
                  value={fill[name] ?? ""}
                  onChange={(typed) => setFill({ ...fill, [name]: typed })}
                />
              ))}
            </fieldset>
          )}
          <By value={by} onChange={setBy} />
          {looked && !looked.ok && <Faults faults={looked.faults} />}
          {looked?.ok && <Preview looked={looked} />}
          {looked?.ok && (
            <button
              type="button"
              className="main"
              onClick={take}
              disabled={sending.busy || looked.entries.length === 0}
            >
              {words.take(looked.entries.length)}
            </button>
          )}
        </>
      )}
      <Outcome busy={sending.busy} said={sending.said} error={sending.error} />
    </section>
  );
}

/** What was typed for a column the file lacks; a column stays in sight while something is typed for it. */
const given = (fill: Readonly<Record<string, string>>) =>
  Object.fromEntries(Object.entries(fill).filter(([, value]) => value.trim() !== ""));

const filling = (wanting: readonly Column[], fill: Readonly<Record<string, string>>): readonly string[] => [
  ...new Set([...wanting.map(({ name }) => name), ...Object.keys(given(fill))]),
];
