import { type FormEvent, useState } from "react";
import type { TrayView } from "../../workshop/views.ts";
import { type Note, writeDown } from "../common/api.ts";
import { By } from "../common/By.tsx";
import { Field, FormEnd, numberError, numberOf, Recalled } from "../common/fields.tsx";
import { common } from "../common/messages.ts";
import { useBy } from "../common/useBy.ts";
import { useDraft } from "../common/useDraft.ts";
import { useSending } from "../common/useSending.ts";
import { limits as words } from "./messages.ts";
import { referenceName } from "./session.ts";

const figures = [
  ["plate_V", "V", true],
  ["grid_V", "V", true],
  ["referenceTrue_mA", "mA", true],
  ["reading_doubt_pct", "%", true],
  ["heatRun_h", "h", true],
  ["drift_pct", "%", true],
  ["sectionSpread_pct", "%", true],
  ["gridCurrent_uA", "µA", false],
  ["leakage_uA", "µA", false],
  ["gm_min_pct", "%", false],
] as const;
type Name = (typeof figures)[number][0];

/** Common practice for a small shop, to begin with; every figure is the shop's own to change. */
const usual: Readonly<Partial<Record<Name, string>>> = {
  reading_doubt_pct: "1",
  heatRun_h: "48",
  drift_pct: "5",
  sectionSpread_pct: "15",
};

/** The test point of a type, its reference valve's true current and its limits, set once and changed by a newer entry. */
export function Limits({ tray }: { readonly tray: TrayView }) {
  const { limits } = tray;
  const blank = {
    tester: "",
    ...Object.fromEntries(
      figures.map(([name]) => [
        name,
        limits?.[name] === undefined ? (limits ? "" : (usual[name] ?? "")) : String(limits[name]),
      ]),
    ),
  } as Readonly<Record<Name | "tester", string>>;
  const draft = useDraft(`limits ${tray.type}`, blank);
  const { typed } = draft;
  const [by, setBy] = useBy();
  const [isTried, setTried] = useState(false);
  const sending = useSending();
  const reference = referenceName(tray);
  const needsTester = tray.instruments.every((known) => known.reference !== reference);
  const errors: Readonly<Record<string, string | undefined>> = {
    ...Object.fromEntries(figures.map(([name, , isNeeded]) => [name, figureError(name, typed[name], isNeeded)])),
    by: by.trim() === "" ? common.needed : undefined,
    tester: needsTester && typed.tester.trim() === "" && tray.instruments.length === 0 ? common.needed : undefined,
  };
  const submit = (event: FormEvent) => {
    event.preventDefault();
    setTried(true);
    if (Object.values(errors).some(Boolean)) return;
    void sending
      .send(async () => {
        await writeDown(by.trim(), notesOf(typed, tray, reference));
        return words.done(tray.type);
      })
      .then((done) => {
        if (!done) return;
        draft.clear(typed);
        setTried(false);
      });
  };
  return (
    <form className="desk-form" onSubmit={submit} noValidate>
      <p className="quiet">
        {words.lead} {words.guide}
      </p>
      <Recalled isRecalled={draft.isRecalled} clear={() => draft.clear()} />
      <div className="fields">
        {needsTester && (
          <Field
            label={words.tester}
            hint={words.testerHint}
            value={typed.tester}
            onChange={(tester) => draft.change({ tester })}
            list={tray.instruments.map(({ instrument }) => instrument)}
            error={isTried ? errors.tester : undefined}
          />
        )}
        {figures.map(([name, unit, isNeeded]) => (
          <Field
            key={name}
            label={name === "referenceTrue_mA" ? `${reference}: ${words[name].toLowerCase()}` : words[name]}
            {...(!isNeeded && { hint: words.optional })}
            unit={unit}
            numeric
            value={typed[name]}
            onChange={(now) => draft.change({ [name]: now })}
            error={isTried ? errors[name] : undefined}
          />
        ))}
        <By need="release" label={common.by} value={by} onChange={setBy} error={isTried ? errors.by : undefined} />
      </div>
      <FormEnd write={words.write} sending={sending} />
    </form>
  );
}

function figureError(name: Name, typed: string, isNeeded: boolean): string | undefined {
  const unread = numberError(typed, isNeeded);
  if (unread || typed.trim() === "") return unread;
  return name !== "grid_V" && !(numberOf(typed) > 0) ? words.positive : undefined;
}

/** The limits, and with them a tester not yet on record, tried by the type's reference valve each day. */
function notesOf(
  typed: Readonly<Record<Name | "tester", string>>,
  { type, instruments }: TrayView,
  reference: string,
): readonly Note[] {
  const value = (name: Name) => numberOf(typed[name]);
  const given = (name: Name) => (typed[name].trim() === "" ? {} : { [name]: value(name) });
  const tester = typed.tester.trim();
  const isNew = tester !== "" && instruments.every(({ instrument }) => instrument !== tester);
  const tried: readonly Note[] = isNew
    ? [
        {
          kind: "instrument",
          instrument: tester,
          title: tester,
          trial: {
            reference,
            quantity: "plate_mA",
            true: value("referenceTrue_mA"),
            limit: Number((value("referenceTrue_mA") * testerLimit).toPrecision(3)),
          },
        },
      ]
    : [];
  return [
    ...tried,
    {
      kind: "valve-limits",
      type,
      plate_V: value("plate_V"),
      grid_V: value("grid_V"),
      referenceTrue_mA: value("referenceTrue_mA"),
      reading_doubt_pct: value("reading_doubt_pct"),
      heatRun_h: value("heatRun_h"),
      limits: {
        drift_pct: value("drift_pct"),
        sectionSpread_pct: value("sectionSpread_pct"),
        ...given("gridCurrent_uA"),
        ...given("leakage_uA"),
        ...given("gm_min_pct"),
      },
    },
  ];
}

/** A tester that is off by more than this share fails its trial; less is put right by the reference valve. */
const testerLimit = 0.1;
