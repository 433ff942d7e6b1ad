import { type FormEvent, useState } from "react";
import type { LinkedView, TakenView } from "../../workshop/instruments/linkViews.ts";
import { post } from "../common/api.ts";
import { By } from "../common/By.tsx";
import { time } from "../common/calendar.ts";
import { Field, FormEnd } from "../common/fields.tsx";
import { common } from "../common/messages.ts";
import { quantitySaid } from "../common/quantity.ts";
import { useBy } from "../common/useBy.ts";
import { useSending } from "../common/useSending.ts";
import { figureOf, nameOf, whereOf } from "./figureOf.ts";
import { linked as words } from "./linkMessages.ts";
import { faultWords, freshId } from "./useLinks.ts";
import { useWhere } from "./useWhere.tsx";

/** Each quantity with its button; the figure large, and a form that writes it down under its own id. */
export function ReadNow({ one }: { readonly one: LinkedView }) {
  const [busy, setBusy] = useState("");
  const [taken, setTaken] = useState<TakenView>();
  const [fault, setFault] = useState<string>();
  const [keptId, setKeptId] = useState<string>();
  const read = async (quantity: string) => {
    setBusy(quantity);
    setFault(undefined);
    try {
      const path = `/api/instruments/${encodeURIComponent(one.instrument)}/read`;
      setTaken(await post<TakenView>(path, { quantity, id: freshId("m") }));
      setKeptId(undefined);
    } catch (what) {
      setTaken(undefined);
      setFault(faultWords(what));
    } finally {
      setBusy("");
    }
  };
  return (
    <div className="read-now">
      <div className="take-from">
        {one.quantities.map(({ quantity }) => (
          <button key={quantity} type="button" disabled={busy !== ""} onClick={() => void read(quantity)}>
            {busy === quantity ? words.reading : words.readNow(nameOf(quantity))}
          </button>
        ))}
      </div>
      <div role="status">
        {taken && (
          <p className="read-figure">
            <span className="figure">{figureOf(taken.quantity, taken.value, taken.doubt)}</span>{" "}
            <span className="quiet">
              {quantitySaid(taken.quantity).name}, {words.read(time(taken.at))}
            </span>
          </p>
        )}
        {fault !== undefined && <p className="take-fault">{fault}</p>}
      </div>
      {taken && keptId !== taken.id && <Keep taken={taken} done={() => setKeptId(taken.id)} />}
    </div>
  );
}

function Keep({ taken, done }: { readonly taken: TakenView; readonly done: () => void }) {
  const [by, setBy] = useBy();
  const [as, setAs] = useState("");
  const where = useWhere(`wire keep ${taken.instrument}`, taken.quantity);
  const sending = useSending();
  const submit = (event: FormEvent) => {
    event.preventDefault();
    if (!where.isSaid) return sending.refuse(words.needsWhere);
    if (by.trim() === "") return sending.refuse(`${common.by}: ${common.needed}`);
    void sending
      .send(async () => {
        await post(`/api/instruments/measurements/${encodeURIComponent(taken.id)}`, {
          by: by.trim(),
          about: where.about,
          ...(as.trim() !== "" && { as: as.trim() }),
        });
        return words.written(figureOf(taken.quantity, taken.value, taken.doubt), whereOf(where.about));
      })
      .then((isDone) => isDone && done());
  };
  return (
    <details>
      <summary>{words.keep}</summary>
      <form onSubmit={submit} noValidate>
        <p className="quiet">{words.keepWhere}</p>
        <div className="fields">
          {where.fields}
          {taken.quantity !== "mass_g" && (
            <Field label={words.asName} hint={words.asHint(taken.quantity)} value={as} onChange={setAs} />
          )}
          <By value={by} onChange={setBy} />
        </div>
        <FormEnd write={words.write} sending={sending} />
      </form>
    </details>
  );
}
