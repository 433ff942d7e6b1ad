import { type FormEvent, useState } from "react";
import type { InstrumentView } from "../../workshop/instruments/views.ts";
import { writeDown } from "../common/api.ts";
import { By } from "../common/By.tsx";
import { Field, FormEnd, numberError, numberOf, Recalled } from "../common/fields.tsx";
import { common } from "../common/messages.ts";
import { quantitySaid } from "../common/quantity.ts";
import { useBy } from "../common/useBy.ts";
import { useDraft } from "../common/useDraft.ts";
import { useSending } from "../common/useSending.ts";
import { words } from "./messages.ts";
import { TakeFrom } from "./TakeFrom.tsx";

/** A trial as it is read, with its doubt; what was typed stays until it is written. */
export function TrialForm({ one }: { readonly one: InstrumentView }) {
  const [by, setBy] = useBy();
  const draft = useDraft(`trial ${one.instrument}`, { value: "", doubt: lastDoubt(one) });
  const { value, doubt } = draft.typed;
  const [tried, setTried] = useState(false);
  const sending = useSending();
  const { unit } = quantitySaid(one.trial.quantity);
  const errors = {
    value: numberError(value),
    doubt: numberError(doubt),
    by: by.trim() === "" ? common.needed : undefined,
  };
  const submit = async (event: FormEvent) => {
    event.preventDefault();
    setTried(true);
    if (errors.value || errors.doubt || errors.by) return;
    const done = await sending.send(async () => {
      await writeDown(by.trim(), [
        { kind: "trial", instrument: one.instrument, value: numberOf(value), doubt: numberOf(doubt) },
      ]);
      return words.written(one.title);
    });
    if (done) {
      draft.clear({ value: "", doubt });
      setTried(false);
    }
  };
  const shown = (error: string | undefined) => (tried && error ? { error } : {});
  return (
    <details open={draft.isRecalled || undefined}>
      <summary>{words.enter}</summary>
      <form onSubmit={submit} noValidate>
        <Recalled isRecalled={draft.isRecalled} clear={() => draft.clear()} />
        <div className="fields">
          <Field
            label={words.reading}
            value={value}
            onChange={(typed) => draft.change({ value: typed })}
            unit={unit}
            numeric
            {...shown(errors.value)}
          />
          <Field
            label={words.doubt}
            hint={words.doubtHint}
            value={doubt}
            onChange={(typed) => draft.change({ doubt: typed })}
            unit={unit}
            numeric
            {...shown(errors.doubt)}
          />
          <TakeFrom
            quantity={one.trial.quantity}
            only={one.instrument}
            onTaken={({ value, doubt }) => draft.change({ value, doubt })}
          />
          <By label={words.by} value={by} onChange={setBy} {...shown(errors.by)} />
        </div>
        <FormEnd write={words.write} sending={sending} />
      </form>
    </details>
  );
}

function lastDoubt({ trials }: InstrumentView): string {
  const last = trials.at(-1)?.doubt;
  return last === undefined ? "" : String(last);
}
