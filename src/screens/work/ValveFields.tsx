import { type FormEvent, useState } from "react";
import type { WorkView } from "../../workshop/orders/views.ts";
import { writeDown } from "../common/api.ts";
import { By } from "../common/By.tsx";
import { Field, FormEnd, Recalled } from "../common/fields.tsx";
import { common } from "../common/messages.ts";
import { Pick } from "../common/Pick.tsx";
import { useBy } from "../common/useBy.ts";
import { useDraft } from "../common/useDraft.ts";
import { useSending } from "../common/useSending.ts";
import { words } from "./messages.ts";

/** Which valve goes into which place; an exchange is written down as what it is, a rework. */
export function ValveFields({ view }: { readonly view: WorkView }) {
  const blank: Readonly<Record<string, string>> = {
    why: words.whyFitted,
    ...Object.fromEntries(view.positions.map(({ position }) => [`in ${position}`, ""])),
  };
  const draft = useDraft(`${view.unit} valves`, blank);
  const [by, setBy] = useBy();
  const [tried, setTried] = useState(false);
  const sending = useSending();
  const why = draft.typed.why ?? "";
  const fitted = Object.fromEntries(
    view.positions.flatMap(({ position }) => {
      const valve = draft.typed[`in ${position}`] ?? "";
      return valve === "" ? [] : [[position, valve] as const];
    }),
  );
  const submit = (event: FormEvent) => {
    event.preventDefault();
    setTried(true);
    const positions = Object.keys(fitted);
    if (positions.length === 0) return sending.refuse(words.nothing);
    if (by.trim() === "" || why.trim() === "") return sending.refuse(common.mend);
    void sending
      .send(async () => {
        await writeDown(by.trim(), [
          {
            kind: "rework",
            unit: view.unit,
            touched: positions.map((position) => ({ position })),
            fitted,
            why: why.trim(),
          },
        ]);
        return words.fitted(positions.length);
      })
      .then((done) => {
        if (!done) return;
        draft.clear();
        setTried(false);
      });
  };
  return (
    <form className="desk-form" onSubmit={submit} noValidate>
      <Recalled isRecalled={draft.isRecalled} clear={() => draft.clear()} />
      <ul className="work-valves">
        {view.positions.map(({ position, type, valve, free }) => (
          <li key={position}>
            <p>
              <strong>{position}</strong> <span className="quiet">{type}</span>{" "}
              <span className="figure">{valve ?? words.empty}</span>
            </p>
            {free.length === 0 ? (
              <p className="quiet">{words.noFree(type)}</p>
            ) : (
              <Pick
                label={
                  <>
                    {words.fit}
                    <span className="visually-hidden"> {position}</span>
                  </>
                }
                value={draft.typed[`in ${position}`] ?? ""}
                onChange={(now) => draft.change({ [`in ${position}`]: now })}
                none={words.keep}
                options={free.map((one) => ({
                  value: one.valve,
                  label: words.free(one.valve, words.standings[one.standing]),
                }))}
              />
            )}
          </li>
        ))}
      </ul>
      <div className="fields">
        <Field
          label={words.why}
          value={why}
          onChange={(now) => draft.change({ why: now })}
          error={tried && why.trim() === "" ? common.needed : undefined}
        />
        <By value={by} onChange={setBy} isTried={tried} />
      </div>
      <FormEnd write={words.write} sending={sending} />
    </form>
  );
}
