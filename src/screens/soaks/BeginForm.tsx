import { type FormEvent, useState } from "react";
import { type Note, writeDown } from "../common/api.ts";
import { By } from "../common/By.tsx";
import { dayAndTime } from "../common/calendar.ts";
import { Field, FormEnd, numberError, numberOf, Recalled } from "../common/fields.tsx";
import { useBy } from "../common/useBy.ts";
import { useDraft } from "../common/useDraft.ts";
import { useSending } from "../common/useSending.ts";
import { words } from "./messages.ts";

/** What is set going: of a unit a step or the wait of a check, or the valves of a tray. */
export interface ToBegin {
  readonly name: string;
  readonly units?: readonly string[];
  readonly valves?: readonly string[];
  readonly step?: string | undefined;
  readonly claim?: string | undefined;
  readonly place?: string | undefined;
  readonly slot?: number | undefined;
  readonly hours: number;
}

const keyOf = ({ name, step, claim }: ToBegin) => [name, step ?? claim].filter(Boolean).join(" ");

/** Writes down that hands set something going: where it stands, in which slot, and for how long. */
export function BeginForm({
  what,
  now,
  places,
}: {
  readonly what: ToBegin;
  readonly now: string;
  readonly places: readonly string[];
}) {
  const [by, setBy] = useBy();
  const draft = useDraft(`begin ${keyOf(what)}`, {
    place: what.place ?? "",
    slot: what.slot === undefined ? "" : String(what.slot),
    hours: String(what.hours),
  });
  const { place, slot, hours } = draft.typed;
  const [tried, setTried] = useState(false);
  const sending = useSending();
  const bad =
    place.trim() === "" ||
    by.trim() === "" ||
    numberError(hours) !== undefined ||
    numberError(slot, false) !== undefined;
  const submit = async (event: FormEvent) => {
    event.preventDefault();
    setTried(true);
    if (bad) return;
    const begun: Note = {
      kind: "begun",
      run: `${keyOf(what)} ${now.slice(0, 16)}`,
      units: [...(what.units ?? [])],
      valves: [...(what.valves ?? [])],
      ...(what.step !== undefined && { step: what.step }),
      ...(what.claim !== undefined && { claim: what.claim }),
      place: place.trim(),
      ...(slot.trim() !== "" && { slot: numberOf(slot) }),
      hours: numberOf(hours),
    };
    const done = await sending.send(async () => {
      await writeDown(by.trim(), [begun]);
      return words.begun(what.name, dayAndTime(ripeAt(now, numberOf(hours))));
    });
    if (!done) return;
    draft.clear();
    setTried(false);
  };
  return (
    <form onSubmit={submit} noValidate className="begin" aria-label={`${words.isBegun}: ${what.name}`}>
      <Recalled isRecalled={draft.isRecalled} clear={() => draft.clear()} />
      <div className="fields">
        <Field label={words.place} value={place} onChange={(typed) => draft.change({ place: typed })} list={places} />
        <Field
          label={words.slotField}
          value={slot}
          onChange={(typed) => draft.change({ slot: typed })}
          numeric
          narrow
        />
        <Field
          label={words.planned}
          value={hours}
          onChange={(typed) => draft.change({ hours: typed })}
          unit="h"
          numeric
          narrow
        />
        <By value={by} onChange={setBy} />
      </div>
      {tried && bad && (
        <p className="field-error" role="alert">
          {words.beginNeeded}
        </p>
      )}
      <FormEnd write={words.isBegun} sending={sending} isMain={false} />
    </form>
  );
}

/** The same wall clock so many hours on, in the offset it is written with. */
function ripeAt(now: string, hours: number): string {
  const offset = /(Z|[+-]\d{2}:\d{2})$/.exec(now)?.[1] ?? "Z";
  const shift_min =
    offset === "Z" ? 0 : Number(`${offset[0]}1`) * (Number(offset.slice(1, 3)) * 60 + Number(offset.slice(4)));
  const wall = new Date(Date.parse(now) + hours * 3_600_000 + shift_min * 60_000);
  return `${wall.toISOString().slice(0, 19)}${offset}`;
}
