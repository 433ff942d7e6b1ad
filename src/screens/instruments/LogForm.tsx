import { type FormEvent, useState } from "react";
import type { LinkedView } from "../../workshop/instruments/linkViews.ts";
import { post } from "../common/api.ts";
import { By } from "../common/By.tsx";
import { Choice, Field, FormEnd, numberError, numberOf } from "../common/fields.tsx";
import { common } from "../common/messages.ts";
import { useBy } from "../common/useBy.ts";
import { useDraft } from "../common/useDraft.ts";
import { useSending } from "../common/useSending.ts";
import { nameOf } from "./figureOf.ts";
import { linked as words } from "./linkMessages.ts";
import { freshId } from "./useLinks.ts";
import { useWhere } from "./useWhere.tsx";

const blank = { every_s: "10", for_min: "30", condition: "", as: "" };

/** Begins a run of readings that the machine takes by itself. */
export function LogForm({ one }: { readonly one: LinkedView }) {
  const [by, setBy] = useBy();
  const [chosen, setChosen] = useState(one.quantities[0]?.quantity ?? "");
  const draft = useDraft(`wire log ${one.instrument}`, blank);
  const where = useWhere(`wire log of ${one.instrument}`, chosen);
  // The same id until it has begun: sent twice, it begins once.
  const [id, setId] = useState(() => freshId("log"));
  const [tried, setTried] = useState(false);
  const sending = useSending();
  const { typed } = draft;
  const errors = {
    every_s: numberError(typed.every_s) ?? (numberOf(typed.every_s) < 1 ? words.atLeast : undefined),
    for_min: numberError(typed.for_min) ?? (numberOf(typed.for_min) > 0 ? undefined : words.positive),
    by: by.trim() === "" ? common.needed : undefined,
  };
  const submit = (event: FormEvent) => {
    event.preventDefault();
    setTried(true);
    if (!where.isSaid) return sending.refuse(words.needsWhere);
    if (Object.values(errors).some(Boolean)) return;
    void sending
      .send(async () => {
        await post(`/api/instruments/${encodeURIComponent(one.instrument)}/logs`, {
          id,
          by: by.trim(),
          quantity: chosen,
          ...(typed.as.trim() !== "" && { as: typed.as.trim() }),
          about: where.about,
          every_s: numberOf(typed.every_s),
          for_s: numberOf(typed.for_min) * 60,
          ...(typed.condition.trim() !== "" && { conditions: { noted: typed.condition.trim() } }),
        });
        return words.begun(nameOf(chosen));
      })
      .then((isDone) => {
        if (!isDone) return;
        setId(freshId("log"));
        setTried(false);
      });
  };
  const field = (name: "every_s" | "for_min", label: string, unit: string) => (
    <Field
      label={label}
      unit={unit}
      numeric
      narrow
      value={typed[name]}
      onChange={(now) => draft.change({ [name]: now })}
      {...(tried && errors[name] && { error: errors[name] })}
    />
  );
  return (
    <details>
      <summary>{words.log}</summary>
      <form onSubmit={submit} noValidate>
        <p className="quiet">{words.logLead}</p>
        {one.quantities.length > 1 && (
          <Choice
            legend={words.quantity}
            value={chosen}
            onChange={setChosen}
            options={one.quantities.map(({ quantity }) => ({ value: quantity, label: nameOf(quantity) }))}
          />
        )}
        <div className="fields">
          {where.fields}
          {field("every_s", words.every, words.seconds)}
          {field("for_min", words.forTime, words.minutes)}
          {chosen !== "mass_g" && (
            <>
              <Field
                label={words.condition}
                hint={words.conditionHint}
                value={typed.condition}
                onChange={(condition) => draft.change({ condition })}
              />
              <Field
                label={words.asName}
                hint={words.asHint(chosen)}
                value={typed.as}
                onChange={(as) => draft.change({ as })}
              />
            </>
          )}
          <By label={common.by} value={by} onChange={setBy} {...(tried && errors.by && { error: errors.by })} />
        </div>
        <FormEnd write={words.begin} sending={sending} />
      </form>
    </details>
  );
}
