import { type FormEvent, useState } from "react";
import type { SafetyFigureView, SafetySheetView } from "../../workshop/safety/views.ts";
import { writeDown } from "../common/api.ts";
import { By } from "../common/By.tsx";
import { Field, FormEnd, numberError, numberOf, Recalled } from "../common/fields.tsx";
import { common } from "../common/messages.ts";
import { quantitySaid } from "../common/quantity.ts";
import { capital } from "../common/sentence.ts";
import { useBy } from "../common/useBy.ts";
import { useDraft } from "../common/useDraft.ts";
import { useSending } from "../common/useSending.ts";
import { TakeFrom } from "../instruments/TakeFrom.tsx";
import { useTaken } from "../instruments/useTaken.ts";
import { words } from "./messages.ts";

interface Props {
  readonly sheet: SafetySheetView;
  readonly figure: SafetyFigureView;
}

/** One test's reading with its doubt and instrument; the instrument tried on the same quantity is proposed. */
export function ReadingForm({ sheet, figure }: Props) {
  const [by, setBy] = useBy();
  const { draft, change, clear, isRecalled, forget } = useReading(sheet, figure);
  const [tried, setTried] = useState(false);
  const taken = useTaken();
  const sending = useSending();
  const { unit } = quantitySaid(figure.quantity);
  const known = sheet.instruments.find(({ instrument }) => instrument === draft.instrument);
  const errors = {
    value: numberError(draft.value),
    doubt: numberError(draft.doubt),
    instrument: known ? undefined : words.instrumentNeeded,
    by: by.trim() === "" ? common.needed : undefined,
  };
  const submit = async (event: FormEvent) => {
    event.preventDefault();
    setTried(true);
    if (Object.values(errors).some(Boolean)) return;
    const done = await sending.send(async () => {
      await writeDown(by.trim(), [
        {
          ...taken.idOf(draft.value, draft.instrument),
          kind: "reading",
          subject: {
            unit: sheet.unit,
            ...(figure.point !== undefined && { point: figure.point }),
            ...(figure.channel !== undefined && { channel: figure.channel }),
          },
          quantity: figure.quantity,
          value: numberOf(draft.value),
          doubt: numberOf(draft.doubt),
          instrument: draft.instrument,
        },
      ]);
      return words.written(capital(figure.test));
    });
    if (!done) return;
    setTried(false);
    taken.forget();
    clear();
  };
  const shown = (error: string | undefined) => (tried && error ? { error } : {});
  return (
    <form onSubmit={submit} noValidate aria-label={`${words.enter}: ${figure.test}`}>
      <Recalled isRecalled={isRecalled} clear={forget} />
      <div className="fields">
        <Field
          label={words.value}
          value={draft.value}
          onChange={change("value")}
          unit={unit}
          numeric
          {...shown(errors.value)}
        />
        <Field
          label={words.doubt}
          hint={words.doubtHint}
          value={draft.doubt}
          onChange={change("doubt")}
          unit={unit}
          numeric
          {...shown(errors.doubt)}
        />
        <Field
          label={words.instrument}
          value={draft.instrument}
          onChange={change("instrument")}
          list={sheet.instruments.map(({ instrument }) => instrument)}
          {...shown(errors.instrument)}
        />
        <By label={words.by} value={by} onChange={setBy} {...shown(errors.by)} />
      </div>
      <TakeFrom
        quantity={figure.quantity}
        onTaken={(read) => {
          taken.take(read);
          change("value")(read.value);
          change("doubt")(read.doubt);
          change("instrument")(read.instrument);
        }}
      />
      {known && known.state !== "good" && <p className="caution-line">{words.notGood(known.title, known.state)}</p>}
      <FormEnd write={words.write} sending={sending} />
    </form>
  );
}

function useReading({ unit, instruments }: SafetySheetView, figure: SafetyFigureView) {
  const { quantity, point, channel, doubt, instrument } = figure;
  const proposed = instrument ?? instruments.find((one) => one.quantity === quantity)?.instrument ?? "";
  const form = ["safety", unit, quantity, point, channel].filter(Boolean).join(" ");
  const { typed, change, clear, isRecalled } = useDraft(form, {
    value: "",
    doubt: doubt === undefined ? "" : String(doubt),
    instrument: proposed,
  });
  return {
    draft: typed,
    isRecalled,
    change: (field: keyof typeof typed) => (now: string) => change({ [field]: now }),
    clear: () => clear({ ...typed, value: "" }),
    forget: () => clear(),
  };
}
