import { type ChangeEvent, type FormEvent, useId, useState } from "react";
import { cellOf, takeTable } from "../../workshop/instruments/studyTable.ts";
import type { GaugeView } from "../../workshop/instruments/views.ts";
import { post, writeDown } from "../common/api.ts";
import { By } from "../common/By.tsx";
import { Field, Outcome, Recalled } from "../common/fields.tsx";
import { Measured } from "../common/Measured.tsx";
import { quantitySaid } from "../common/quantity.ts";
import { useBy } from "../common/useBy.ts";
import { useDraft } from "../common/useDraft.ts";
import { useSending } from "../common/useSending.ts";
import { TroubleNote } from "../common/Waiting.tsx";
import { GaugeResult } from "./GaugeResult.tsx";
import { names, number, readingsOf } from "./gaugeTable.ts";
import { HandsPicture } from "./HandsPicture.tsx";
import { gauge as words } from "./studyMessages.ts";

type Result = GaugeView["studies"][number]["result"];
const most = { parts: 30, people: 8, times: 10 } as const;
const blank = { instrument: "", quantity: "", parts: "", people: "", times: "2", cells: "{}" };

/** A study typed in field by field or taken from a table; worked out at once, written down when somebody says so. */
export function GaugeForm({ view }: { readonly view: GaugeView }) {
  const { typed, change, clear, isRecalled } = useDraft("gauge study", blank);
  const [by, setBy] = useBy();
  const [said, setSaid] = useState<string>();
  const [result, setResult] = useState<Result>();
  const [fault, setFault] = useState<unknown>();
  const sending = useSending();
  const id = useId();
  const cells = parsed(typed.cells);
  const sheet = {
    parts: names(typed.parts).slice(0, most.parts),
    people: names(typed.people).slice(0, most.people),
    times: Math.min(most.times, Math.max(1, Number.parseInt(typed.times, 10) || 1)),
  };
  const isWide = sheet.parts.length > 1 && sheet.people.length > 1 && sheet.times > 1;
  const readings = isWide ? readingsOf(sheet, cells) : undefined;
  const chosen = view.instruments.find(
    ({ instrument, title }) => instrument === typed.instrument || title === typed.instrument,
  );
  const { unit } = quantitySaid(typed.quantity);
  const quantities = [
    ...new Set([...view.windows.map(({ quantity }) => quantity), ...view.instruments.map((one) => one.quantity)]),
  ];

  const take = async (event: ChangeEvent<HTMLInputElement>) => {
    const file = event.target.files?.[0];
    if (!file) return;
    const taken = takeTable(await file.text(), number);
    if (!taken.ok) {
      setSaid("line" in taken ? words.fileFault(taken.line, taken.words) : words.noColumns(taken.head.join(", ")));
      return;
    }
    change({
      parts: taken.sheet.parts.join(", "),
      people: taken.sheet.people.join(", "),
      times: String(taken.sheet.times),
      cells: JSON.stringify(taken.cells),
    });
    setResult(undefined);
    setSaid(words.fileTook(taken.count));
  };
  const work = async (event: FormEvent) => {
    event.preventDefault();
    setFault(undefined);
    if (!readings) {
      setResult(undefined);
      setSaid(isWide ? words.lacks : words.tooFew);
      return;
    }
    setSaid(undefined);
    try {
      setResult(await post<Result>("/api/calc/measurement.gauge", { readings }));
    } catch (error) {
      setFault(error);
    }
  };
  const write = async () => {
    if (by.trim() === "") {
      setSaid(words.needed);
      return;
    }
    const done = await sending.send(async () => {
      await writeDown(by.trim(), [
        {
          kind: "gauge-study",
          instrument: chosen?.instrument ?? typed.instrument.trim(),
          quantity: typed.quantity.trim(),
          readings: [...readings!],
        },
      ]);
      return words.written;
    });
    if (!done) return;
    clear();
    setResult(undefined);
  };

  return (
    <section aria-labelledby={`${id}-name`}>
      <h2 id={`${id}-name`}>{words.enter}</h2>
      <form onSubmit={work} noValidate>
        <Recalled isRecalled={isRecalled} clear={() => clear()} />
        <div className="fields">
          <Field
            label={words.instrument}
            value={typed.instrument}
            onChange={(instrument) => change({ instrument })}
            list={view.instruments.map(({ title }) => title)}
          />
          <Field
            label={words.quantity}
            hint={words.quantityHint}
            value={typed.quantity}
            onChange={(quantity) => change({ quantity })}
            list={quantities}
          />
          <Field
            label={words.partsRead}
            hint={words.listHint}
            value={typed.parts}
            onChange={(parts) => change({ parts })}
          />
          <Field
            label={words.people}
            hint={words.listHint}
            value={typed.people}
            onChange={(people) => change({ people })}
          />
          <Field label={words.times} value={typed.times} onChange={(times) => change({ times })} numeric narrow />
        </div>
        <div className="field">
          <label htmlFor={`${id}-file`}>{words.file}</label>
          <span className="field-hint" id={`${id}-file-hint`}>
            {words.fileHint}
          </span>
          <input
            id={`${id}-file`}
            type="file"
            accept=".csv,.txt,.tsv,text/csv,text/plain"
            aria-describedby={`${id}-file-hint`}
            onChange={take}
          />
        </div>
        {sheet.parts.length > 0 && sheet.people.length > 0 && (
          <div className="office-scroll">
            <table className="gauge-cells">
              <thead>
                <tr>
                  <th scope="col">{words.part}</th>
                  {sheet.people.map((who) => (
                    <th key={who} scope="colgroup" colSpan={sheet.times}>
                      {who}
                    </th>
                  ))}
                </tr>
              </thead>
              <tbody>
                {sheet.parts.map((part) => (
                  <tr key={part}>
                    <th scope="row">{part}</th>
                    {sheet.people.flatMap((who) =>
                      Array.from({ length: sheet.times }, (_, i) => {
                        const cell = cellOf(part, who, i + 1);
                        return (
                          <td key={cell}>
                            <input
                              type="text"
                              inputMode="decimal"
                              autoComplete="off"
                              aria-label={words.cell(part, who, i + 1)}
                              value={cells[cell] ?? ""}
                              onChange={({ target }) =>
                                change({ cells: JSON.stringify({ ...cells, [cell]: target.value }) })
                              }
                            />
                          </td>
                        );
                      }),
                    )}
                  </tr>
                ))}
              </tbody>
            </table>
          </div>
        )}
        <button type="submit" className="main">
          {words.work}
        </button>
        <p role="status">{said}</p>
        {fault !== undefined && <TroubleNote error={fault} />}
        {result && readings && (
          <div aria-live="polite">
            <h3>{words.result}</h3>
            <Measured>
              {(width) => <HandsPicture title={typed.instrument} readings={readings} unit={unit} width={width} />}
            </Measured>
            <GaugeResult result={result} unit={unit} />
            <div className="fields">
              <By label={words.by2} value={by} onChange={setBy} />
            </div>
            <button type="button" onClick={write} disabled={sending.busy}>
              {words.write}
            </button>
          </div>
        )}
        <Outcome {...sending} />
      </form>
    </section>
  );
}

function parsed(text: string): Readonly<Record<string, string>> {
  try {
    const found: unknown = JSON.parse(text);
    return typeof found === "object" && found !== null ? (found as Record<string, string>) : {};
  } catch {
    return {};
  }
}
