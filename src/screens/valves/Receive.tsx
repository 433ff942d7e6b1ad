import { type FormEvent, useState } from "react";
import type { TraysView } from "../../workshop/views.ts";
import { writeDown } from "../common/api.ts";
import { By } from "../common/By.tsx";
import { Choice, Field, FormEnd, numberError, numberOf, Recalled } from "../common/fields.tsx";
import { common } from "../common/messages.ts";
import { useBy } from "../common/useBy.ts";
import { useDraft } from "../common/useDraft.ts";
import { useSending } from "../common/useSending.ts";
import { receive as words } from "./messages.ts";
import { numbered } from "./numbered.ts";

const blank = { batch: "", type: "", seller: "", first: "", count: "", sections: "" };

/** A batch comes in: what it is, from whom, and the numbers its valves get. */
export function Receive({ trays, done }: { readonly trays: TraysView; readonly done: (batch: string) => void }) {
  const draft = useDraft("receive valves", blank);
  const { typed } = draft;
  const [by, setBy] = useBy();
  const [isTried, setTried] = useState(false);
  const sending = useSending();
  const known = trays.catalogue.find(({ type }) => type.toLowerCase() === typed.type.trim().toLowerCase());
  const sections = typed.sections || String(known?.sections ?? 2);
  const count = numberError(typed.count) === undefined ? numberOf(typed.count) : Number.NaN;
  const valves = numbered(typed.first.trim(), count);
  const needed = (text: string) => (text.trim() === "" ? common.needed : undefined);
  const errors = {
    batch: needed(typed.batch),
    type: needed(typed.type),
    seller: needed(typed.seller),
    first: needed(typed.first) ?? (/\d$/.test(typed.first.trim()) ? undefined : words.badFirst),
    count: numberError(typed.count) ?? (valves || !/\d$/.test(typed.first.trim()) ? undefined : words.badCount),
    by: needed(by),
  };
  const submit = (event: FormEvent) => {
    event.preventDefault();
    setTried(true);
    if (Object.values(errors).some(Boolean) || !valves) return sending.refuse(words.mend);
    const batch = typed.batch.trim();
    void sending
      .send(async () => {
        await writeDown(by.trim(), [
          {
            kind: "batch",
            batch,
            type: known?.type ?? typed.type.trim(),
            seller: typed.seller.trim(),
            valves: [...valves],
            sections: sections === "1" ? ["a"] : ["a", "b"],
          },
        ]);
        return words.done(batch, valves.length);
      })
      .then((isDone) => {
        if (!isDone) return;
        draft.clear();
        setTried(false);
        done(batch);
      });
  };
  const ask = (name: keyof typeof blank & keyof typeof errors) => ({
    value: typed[name],
    onChange: (now: string) => draft.change({ [name]: now }),
    error: isTried ? errors[name] : undefined,
  });
  return (
    <form className="desk-form" onSubmit={submit} noValidate>
      <Recalled isRecalled={draft.isRecalled} clear={() => draft.clear()} />
      <div className="fields">
        <Field label={words.batch} {...ask("batch")} />
        <Field label={words.type} list={trays.catalogue.map(({ type }) => type)} {...ask("type")} />
        <Field label={words.seller} {...ask("seller")} />
        <Field label={words.first} hint={words.firstHint} {...ask("first")} />
        <Field label={words.count} numeric {...ask("count")} />
        <By label={common.by} value={by} onChange={setBy} error={isTried ? errors.by : undefined} />
      </div>
      <Choice
        legend={words.sections}
        value={sections}
        onChange={(now) => draft.change({ sections: now })}
        options={[
          { value: "1", label: words.one },
          { value: "2", label: words.two },
        ]}
      />
      {valves && <p role="status">{words.numbers(valves[0]!, valves.at(-1)!)}</p>}
      <FormEnd write={words.write} sending={sending} />
    </form>
  );
}
