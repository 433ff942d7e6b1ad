import { type FormEvent, useId, useState } from "react";
import type { NotebookView, OutlookView, TrialView } from "../../workshop/notebook/views.ts";
import { post } from "../common/api.ts";
import { Field, numberError, numberOf, Outcome } from "../common/fields.tsx";
import { Pick } from "../common/Pick.tsx";
import { useDraft } from "../common/useDraft.ts";
import { useSending } from "../common/useSending.ts";
import { typedBench } from "./benched.ts";
import { trialWords, words } from "./messages.ts";
import { Outlook } from "./Outlook.tsx";
import { Spread } from "./Spread.tsx";
import { useReading } from "./useReading.ts";

interface Props {
  readonly notebook: NotebookView;
  readonly onKeep: (draft: { text: string; from: string; bench: string; why: string }) => void;
}

type Good = Extract<TrialView, { state: "good" }>;

/** One value of one part in place of its own, with all that moves told beside the page it came from. */
export function TrialDesk({ notebook, onKeep }: Props) {
  const id = useId();
  const { pages, model } = notebook;
  const { typed: trial, change } = useDraft(`trial of ${model}`, {
    version: pages.at(-1)?.version ?? "",
    part: "",
    field: "",
    value: "",
  });
  const { version, part, field, value: typed } = trial;
  const page = pages.find((one) => one.version === version) ?? pages.at(-1)!;
  const { reading } = useReading(page.text);
  const [asked, setAsked] = useState(false);
  const [tried, setTried] = useState<{ readonly good: Good; readonly part: string; readonly why: string }>();
  const [outlooks, setOutlooks] = useState<readonly OutlookView[]>();
  const [isKept, setKept] = useState(false);
  const sending = useSending();
  const parts = (reading?.state === "good" ? reading.parts : []).filter(({ fields }) => fields.length > 0);
  const chosen = parts.find((one) => one.part === part);
  const chosenField = chosen?.fields.find((one) => one.field === field) ?? chosen?.fields[0];
  const isWord = chosenField?.field === "type";
  const error = !asked || isWord ? undefined : numberError(typed);

  const pick = (name: string) => {
    change({ part: name, field: "", value: "" });
    setAsked(false);
  };
  const submit = (event: FormEvent) => {
    event.preventDefault();
    setAsked(true);
    if (!chosen || !chosenField || typed.trim() === "" || (!isWord && numberError(typed))) return;
    const value = isWord ? typed.trim() : numberOf(typed);
    const question = {
      text: page.text,
      benched: { channels: page.channels, loads: page.loads, limits: page.limits },
      from: { model, version: page.version },
      change: { part: chosen.part, field: chosenField.field, value },
    };
    setOutlooks(undefined);
    setKept(false);
    void sending.send(async () => {
      const answer = await post<TrialView>("/api/notebook-trial", question);
      if (answer.state === "faulty") throw new Error(answer.faults.map(({ message }) => message).join("; "));
      setTried({ good: answer, part: chosen.part, why: `${chosen.part} ${chosenField.field} ${value} on trial` });
      void post<readonly OutlookView[]>("/api/notebook-trial/outlook", question).then(setOutlooks, () => undefined);
      return "";
    });
  };

  return (
    <section className="trial" aria-labelledby={`${id}-name`}>
      <h2 id={`${id}-name`}>{trialWords.title}</h2>
      <p className="quiet">{trialWords.lead}</p>
      {pages.length > 1 && (
        <Pick
          narrow
          label={trialWords.page}
          value={page.version}
          onChange={(version) => change({ version })}
          options={pages.map((one) => ({ value: one.version, label: words.page(one.version) }))}
        />
      )}
      <fieldset className="trial-parts">
        <legend>{trialWords.parts}</legend>
        {parts.map((one) => (
          <button
            key={one.part}
            type="button"
            aria-pressed={one.part === chosen?.part}
            aria-label={`${one.part}, ${one.kind}, ${shownValue(one)}`}
            onClick={() => pick(one.part)}
          >
            <span className="trial-part">{one.part}</span>
            <span className="trial-value">{shownValue(one)}</span>
          </button>
        ))}
      </fieldset>
      {chosen && chosenField && (
        <form className="trial-form" onSubmit={submit} noValidate>
          <Pick
            label={trialWords.field}
            value={chosenField.field}
            onChange={(field) => change({ field, value: "" })}
            options={chosen.fields.map((one) => ({
              value: one.field,
              label: trialWords.fields[one.field] ?? one.field,
            }))}
          />
          <Field
            label={`${trialWords.value}: ${chosen.part}`}
            hint={trialWords.now(chosenField.value === null ? trialWords.none : String(chosenField.value))}
            value={typed}
            numeric={!isWord}
            error={error}
            onChange={(value) => change({ value })}
          />
          <button type="submit" className="main" disabled={sending.busy}>
            {trialWords.go}
          </button>
        </form>
      )}
      <Outcome busy={sending.busy} error={sending.error} />
      {tried && (
        <section aria-labelledby={`${id}-result`}>
          <h3 id={`${id}-result`}>{trialWords.result(tried.part)}</h3>
          <Spread
            spread={tried.good.spread}
            pages={pages}
            outlooks={outlooks}
            currency={notebook.currency}
            caption={trialWords.result(tried.part)}
          />
          {outlooks ? (
            <div className="outlooks">
              {outlooks.map((outlook, i) => (
                <Outlook
                  key={outlook.name}
                  outlook={outlook}
                  name={i === 0 ? words.page(outlook.name) : outlook.name}
                />
              ))}
            </div>
          ) : (
            <p className="quiet" role="status">
              {words.outlookWaiting}
            </p>
          )}
          <button
            type="button"
            onClick={() => {
              onKeep({
                text: tried.good.text,
                from: page.version,
                bench: JSON.stringify(typedBench(page)),
                why: tried.why,
              });
              setKept(true);
            }}
          >
            {trialWords.keep}
          </button>
          <p role="status">{isKept && trialWords.kept}</p>
        </section>
      )}
    </section>
  );
}

function shownValue({
  fields,
}: {
  readonly fields: readonly { readonly field: string; readonly value: number | string | null }[];
}): string {
  const [first] = fields;
  if (!first || first.value === null) return "";
  const unit = { ohm: " Ω", uF: " µF", H: " H", dc_V: " V", dc_mA: " mA" }[first.field] ?? "";
  return `${first.value}${unit}`;
}
