import { type FormEvent, useState } from "react";
import type { AskedChange, WhatIfOptionsView } from "../../workshop/promises/views.ts";
import { Choice, Field, numberError, numberOf } from "../common/fields.tsx";
import { common, stepName } from "../common/messages.ts";
import { Pick } from "../common/Pick.tsx";
import { useDraft } from "../common/useDraft.ts";
import { words } from "./whatIfMessages.ts";

type Kind = keyof typeof words.kinds;
const kinds = Object.keys(words.kinds) as readonly Kind[];

interface Props {
  readonly options: WhatIfOptionsView;
  readonly ask: (change: AskedChange) => void;
  readonly isBusy: boolean;
}

/** One change, in the shop's own words; what is missing is said beside its field. */
export function ChangeForm({ options, ask, isBusy }: Props) {
  const draft = useDraft("what-if", { kind: "place", fields: "{}" });
  const kind = kinds.find((one) => one === draft.typed.kind) ?? "place";
  const [isTried, setTried] = useState(false);
  const typed = JSON.parse(draft.typed.fields) as Readonly<Record<string, string>>;
  const value = (name: string) => typed[name] ?? first(name, options, typed);
  const set = (name: string) => (now: string) => draft.change({ fields: JSON.stringify({ ...typed, [name]: now }) });
  const numeric = { slots: words.slots, cycle_h: words.cycle_h, units: words.units, days: words.days };
  const asked = fieldsOf(kind);
  const errorOf = (name: string) =>
    name in numeric ? numberError(value(name)) : value(name).trim() === "" ? common.needed : undefined;
  const submit = (event: FormEvent) => {
    event.preventDefault();
    setTried(true);
    if (asked.some((name) => errorOf(name) !== undefined)) return;
    ask(changeOf(kind, value));
  };
  return (
    <form className="change-form" onSubmit={submit} noValidate>
      <Choice
        legend={words.change}
        value={kind}
        options={kinds.map((one) => ({ value: one, label: words.kinds[one] }))}
        onChange={(chosen) => draft.change({ kind: chosen })}
      />
      <div className="fields">
        {asked.map((name) => {
          const list = listOf(name, options, value("unit"));
          const error = isTried ? errorOf(name) : undefined;
          return list ? (
            <Pick
              key={name}
              label={labelOf(name)}
              value={value(name)}
              options={list.map((one) => ({ value: one, label: name === "step" ? stepName(one) : one }))}
              onChange={set(name)}
            />
          ) : (
            <Field
              key={name}
              label={labelOf(name)}
              value={value(name)}
              onChange={set(name)}
              numeric={name in numeric}
              narrow
              {...(isDate(name) && { placeholder: words.dateHint })}
              {...(error !== undefined && { error })}
            />
          );
        })}
      </div>
      <button type="submit" className="main" disabled={isBusy}>
        {words.ask}
      </button>
    </form>
  );
}

const isDate = (name: string) => ["date", "due", "from", "to"].includes(name);

function labelOf(name: string): string {
  const labels: Readonly<Record<string, string>> = {
    place: words.place,
    slots: words.slots,
    cycle_h: words.cycle_h,
    date: words.date,
    model: words.model,
    units: words.units,
    due: words.due,
    unit: words.unit,
    step: words.step,
    part: words.part,
    days: words.days,
    person: words.person,
    from: words.from,
    to: words.to,
    like: words.like,
  };
  return labels[name] ?? name;
}

function fieldsOf(kind: Kind): readonly string[] {
  switch (kind) {
    case "place":
      return ["place", "slots"];
    case "cycle":
      return ["place", "cycle_h"];
    case "holiday":
      return ["date"];
    case "rush":
      return ["model", "units", "due"];
    case "fail":
      return ["unit", "step"];
    case "late":
      return ["part", "days"];
    case "away":
      return ["person", "from", "to"];
    case "hands":
      return ["like"];
  }
}

function listOf(name: string, options: WhatIfOptionsView, unit: string): readonly string[] | undefined {
  switch (name) {
    case "place":
      return options.places.map(({ place }) => place);
    case "model":
      return options.models;
    case "unit":
      return options.units.map((one) => one.unit);
    case "step":
      return options.units.find((one) => one.unit === unit)?.steps ?? [];
    case "part":
      return options.parts.map(({ part }) => part);
    case "person":
    case "like":
      return options.people;
    default:
      return undefined;
  }
}

function first(name: string, options: WhatIfOptionsView, typed: Readonly<Record<string, string>>): string {
  if (name === "slots" || name === "units") return "1";
  if (name === "days") return "7";
  if (name === "cycle_h") {
    const place = typed.place ?? options.places[0]?.place;
    return String(options.places.find((one) => one.place === place)?.cycle_h ?? "");
  }
  const unit = typed.unit ?? options.units[0]?.unit ?? "";
  return listOf(name, options, unit)?.[0] ?? "";
}

function changeOf(kind: Kind, value: (name: string) => string): AskedChange {
  const text = (name: string) => value(name).trim();
  switch (kind) {
    case "place":
      return { kind, place: text("place"), slots: numberOf(value("slots")) };
    case "cycle":
      return { kind: "place", place: text("place"), cycle_h: numberOf(value("cycle_h")) };
    case "holiday":
      return { kind, date: text("date") };
    case "rush":
      return { kind, model: text("model"), units: numberOf(value("units")), due: text("due") };
    case "fail":
      return { kind, unit: text("unit"), step: text("step") };
    case "late":
      return { kind, part: text("part"), days: numberOf(value("days")) };
    case "away":
      return { kind, person: text("person"), from: text("from"), to: text("to") };
    case "hands":
      return { kind, like: text("like") };
  }
}
