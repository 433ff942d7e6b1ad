import { useQuery } from "@tanstack/react-query";
import { type FormEvent, useState } from "react";
import { Link } from "wouter";
import { quantityWords } from "../../measurement/quantityWords.ts";
import type { ShopView } from "../../workshop/orders/views.ts";
import { get, writeDown } from "../common/api.ts";
import { By } from "../common/By.tsx";
import { type Asked, DeskForm } from "../common/DeskForm.tsx";
import { Choice, Field, FormEnd, Recalled } from "../common/fields.tsx";
import { common } from "../common/messages.ts";
import { plainNumber } from "../common/number.ts";
import { Pick } from "../common/Pick.tsx";
import { quantitySaid } from "../common/quantity.ts";
import { useArrival } from "../common/useArrival.ts";
import { useBy } from "../common/useBy.ts";
import { useDraft } from "../common/useDraft.ts";
import { useSending } from "../common/useSending.ts";
import { Answer } from "../common/Waiting.tsx";
import { headphones as headphoneWords, instruments as instrumentWords, words } from "./messages.ts";
import {
  blankHours,
  blankPerson,
  blankPlace,
  faultsOf,
  rowsOf,
  type ShopField,
  shopNote,
  type TypedHours,
  type TypedRows,
  typedOf,
  weekdays,
} from "./typed.ts";
import "../common/office.css";
import "./shop.css";

export default function ShopPage() {
  const asked = useQuery({ queryKey: ["/api/shop"], queryFn: () => get<ShopView>("/api/shop") });
  return (
    <Answer asked={asked} what={words.what}>
      {(view) => <ShopSetUp view={view} />}
    </Answer>
  );
}

/** Where a workshop says what it is: its house, hours, people, places, instruments and headphones. */
export function ShopSetUp({ view }: { readonly view: ShopView }) {
  useArrival();
  return (
    <article className="office shop">
      <h1>{words.title}</h1>
      <p className="lead">{words.lead}</p>
      <section aria-labelledby="house">
        <h2 id="house">{words.house}</h2>
        <HouseForm key={JSON.stringify(view.shop ?? {})} view={view} />
      </section>
      <section aria-labelledby="instruments">
        <h2 id="instruments">{instrumentWords.title}</h2>
        <p>{instrumentWords.lead}</p>
        {view.instruments.length === 0 ? (
          <p className="quiet">{instrumentWords.none}</p>
        ) : (
          <>
            <ul className="shop-list">
              {view.instruments.map(({ instrument, title, trial }) => (
                <li key={instrument}>
                  <strong>{instrument}</strong>
                  {title !== instrument && <>, {title}</>}{" "}
                  <span className="quiet">
                    {instrumentWords.on(
                      trial.reference,
                      `${plainNumber(trial.true)} ${quantitySaid(trial.quantity).unit}`,
                      plainNumber(trial.limit),
                    )}
                  </span>
                </li>
              ))}
            </ul>
            <p>
              <Link href="/instruments">{instrumentWords.toTrials}</Link>
            </p>
          </>
        )}
        <InstrumentForm />
      </section>
      <section aria-labelledby="headphones">
        <h2 id="headphones">{headphoneWords.title}</h2>
        <p>{headphoneWords.lead}</p>
        {view.headphones.length === 0 ? (
          <p className="quiet">{headphoneWords.none}</p>
        ) : (
          <ul className="shop-list">
            {view.headphones.map(({ headphone, impedance_ohm, sensitivity_dB_per_V }) => (
              <li key={headphone}>
                <strong>{headphone}</strong>{" "}
                <span className="quiet figure">
                  {plainNumber(impedance_ohm)} Ω, {plainNumber(sensitivity_dB_per_V)} dB/V
                </span>
              </li>
            ))}
          </ul>
        )}
        <DeskForm
          form="shop headphone"
          fields={{
            headphone: { label: headphoneWords.name },
            impedance_ohm: { label: headphoneWords.impedance, kind: "number", unit: "Ω" },
            sensitivity_dB_per_V: { label: headphoneWords.sensitivity, kind: "number", unit: "dB/V" },
          }}
          write={headphoneWords.write}
          entries={(typed) => [
            {
              kind: "headphone",
              headphone: typed.text("headphone"),
              impedance_ohm: typed.number("impedance_ohm"),
              sensitivity_dB_per_V: typed.number("sensitivity_dB_per_V"),
            },
          ]}
          done={(typed) => headphoneWords.done(typed.text("headphone"))}
        />
      </section>
    </article>
  );
}

function HouseForm({ view }: { readonly view: ShopView }) {
  const draft = useDraft<ShopField>("shop", typedOf(view));
  const { typed } = draft;
  const [by, setBy] = useBy();
  const [isTried, setTried] = useState(false);
  const sending = useSending();
  const rows = rowsOf(typed.rows);
  const faults = faultsOf(typed);
  const setRows = (part: Partial<TypedRows>) => draft.change({ rows: JSON.stringify({ ...rows, ...part }) });
  const submit = (event: FormEvent) => {
    event.preventDefault();
    setTried(true);
    if (by.trim() === "" || Object.keys(faults).length > 0) return sending.refuse(common.mend);
    void sending
      .send(async () => {
        await writeDown(by.trim(), [shopNote(typed)]);
        return words.done;
      })
      .then((isDone) => {
        if (!isDone) return;
        draft.clear(typed);
        setTried(false);
      });
  };
  const ask = (name: Exclude<ShopField, "rows">) => ({
    value: typed[name],
    onChange: (now: string) => draft.change({ [name]: now }),
    ...(isTried && faults[name] !== undefined && { error: faults[name] }),
  });
  const wrong = (name: "hours" | "people" | "places") =>
    isTried && faults[name] !== undefined && <p className="field-error">{faults[name]}</p>;
  return (
    <form className="desk-form" onSubmit={submit} noValidate>
      <Recalled isRecalled={draft.isRecalled} clear={() => draft.clear()} />
      <div className="fields">
        <Field label={words.name} {...ask("title")} />
        <Field label={words.zone} hint={words.zoneHint} {...ask("zone")} />
        <Field label={words.currency} hint={words.currencyHint} {...ask("currency")} />
        <Field label={words.mains} unit="Hz" numeric {...ask("mains")} />
        <Field label={words.clean} hint={words.cleanHint} unit="Hz" {...ask("clean")} />
      </div>
      <h3>{words.hours}</h3>
      <p className="quiet small">{words.hoursHint}</p>
      {rows.hours.map((hours, i) => (
        <HoursRow
          // biome-ignore lint/suspicious/noArrayIndexKey: a row is its place in the list
          key={i}
          hours={hours}
          isAlone={rows.hours.length === 1}
          change={(now) => setRows({ hours: rows.hours.with(i, now) })}
        />
      ))}
      {wrong("hours")}
      <button type="button" onClick={() => setRows({ hours: [...rows.hours, blankHours(`${rows.hours.length + 1}`)] })}>
        {words.moreHours}
      </button>
      <h3>{words.people}</h3>
      {rows.people.map((person, i) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: a row is its place in the list
        <fieldset key={i} className="shop-row">
          <legend className="visually-hidden">
            {words.people} {i + 1}
          </legend>
          <Field
            label={words.person}
            value={person.id}
            onChange={(id) => setRows({ people: rows.people.with(i, { ...person, id }) })}
          />
          <div className="field shop-skills">
            <Field
              label={words.skills}
              {...(i === 0 && { hint: words.skillsHint })}
              value={person.skills}
              onChange={(skills) => setRows({ people: rows.people.with(i, { ...person, skills }) })}
            />
          </div>
          {rows.hours.length > 1 && (
            <Pick
              label={words.works}
              value={person.hours}
              options={rows.hours.map(({ name }) => name)}
              onChange={(hours) => setRows({ people: rows.people.with(i, { ...person, hours }) })}
            />
          )}
          {rows.people.length > 1 && (
            <button type="button" onClick={() => setRows({ people: rows.people.toSpliced(i, 1) })}>
              {words.drop}
              <span className="visually-hidden"> {person.id}</span>
            </button>
          )}
        </fieldset>
      ))}
      {wrong("people")}
      <button
        type="button"
        onClick={() => setRows({ people: [...rows.people, blankPerson(rows.hours[0]?.name ?? "all")] })}
      >
        {words.morePeople}
      </button>
      <h3>{words.places}</h3>
      {rows.places.map((place, i) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: a row is its place in the list
        <fieldset key={i} className="shop-row">
          <legend className="visually-hidden">
            {words.places} {i + 1}
          </legend>
          <Field
            label={words.place}
            value={place.id}
            onChange={(id) => setRows({ places: rows.places.with(i, { ...place, id }) })}
          />
          <Choice
            legend={words.kind}
            value={place.kind}
            options={(["single", "batch"] as const).map((value) => ({ value, label: words.kinds[value] }))}
            onChange={(kind) =>
              setRows({ places: rows.places.with(i, { ...place, kind: kind as "single" | "batch" }) })
            }
          />
          {place.kind === "batch" && (
            <>
              <Field
                label={words.capacity}
                numeric
                narrow
                value={place.capacity}
                onChange={(capacity) => setRows({ places: rows.places.with(i, { ...place, capacity }) })}
              />
              <Field
                label={words.cycle}
                numeric
                narrow
                unit="h"
                value={place.cycle}
                onChange={(cycle) => setRows({ places: rows.places.with(i, { ...place, cycle }) })}
              />
            </>
          )}
          {rows.places.length > 1 && (
            <button type="button" onClick={() => setRows({ places: rows.places.toSpliced(i, 1) })}>
              {words.drop}
              <span className="visually-hidden"> {place.id}</span>
            </button>
          )}
        </fieldset>
      ))}
      {wrong("places")}
      <button type="button" onClick={() => setRows({ places: [...rows.places, blankPlace] })}>
        {words.morePlaces}
      </button>
      <div className="fields">
        <By need="release" hint={common.byHint} value={by} onChange={setBy} isTried={isTried} />
      </div>
      <FormEnd write={words.write} sending={sending} />
    </form>
  );
}

function HoursRow({
  hours,
  isAlone,
  change,
}: {
  readonly hours: TypedHours;
  readonly isAlone: boolean;
  readonly change: (now: TypedHours) => void;
}) {
  return (
    <fieldset className="shop-hours">
      <legend className={isAlone ? "visually-hidden" : undefined}>{words.hoursOf(hours.name)}</legend>
      {weekdays.map((day) => (
        <Field
          key={day}
          label={words.days[day]}
          value={hours.week[day]}
          onChange={(now) => change({ ...hours, week: { ...hours.week, [day]: now } })}
        />
      ))}
      <Field
        label={words.closed}
        hint={words.closedHint}
        value={hours.closed}
        onChange={(closed) => change({ ...hours, closed })}
      />
    </fieldset>
  );
}

/** What each usual sort of instrument is tried on; the true value stands on the reference itself. */
const sorts = {
  meter: "level_V",
  recorder: "level_Vrms",
  tester: "plate_mA",
  bond: "bond_ohm",
  balance: "mass_g",
  other: "",
} as const;
type Sort = keyof typeof sorts;

function InstrumentForm() {
  const [sort, setSort] = useState<Sort>("meter");
  const quantity = sorts[sort];
  const fields: Readonly<Record<string, Asked>> = {
    instrument: { label: instrumentWords.name, hint: instrumentWords.nameHint },
    title: { label: instrumentWords.long, optional: true },
    reference: {
      label: instrumentWords.reference,
      hint: instrumentWords.referenceHint,
      first: instrumentWords.references[sort],
    },
    ...(sort === "other" && { quantity: { label: instrumentWords.quantity, hint: "level_V, humidity_pct, …" } }),
    true: {
      label: instrumentWords.true,
      kind: "number",
      ...(quantity !== "" && { unit: quantityWords(quantity).unit }),
    },
    limit: {
      label: instrumentWords.limit,
      kind: "number",
      ...(quantity !== "" && { unit: quantityWords(quantity).unit }),
    },
  };
  return (
    <>
      <Choice
        legend={instrumentWords.kind}
        value={sort}
        options={(Object.keys(sorts) as Sort[]).map((value) => ({ value, label: instrumentWords.kinds[value] }))}
        onChange={(now) => setSort(now as Sort)}
      />
      <DeskForm
        key={sort}
        form={`shop instrument ${sort}`}
        fields={fields}
        write={instrumentWords.write}
        entries={(typed) => [
          {
            kind: "instrument",
            instrument: typed.text("instrument"),
            title: typed.text("title") || typed.text("instrument"),
            trial: {
              reference: typed.text("reference"),
              quantity: quantity === "" ? typed.text("quantity") : quantity,
              true: typed.number("true"),
              limit: typed.number("limit"),
            },
          },
        ]}
        done={(typed) => instrumentWords.done(typed.text("instrument"))}
      />
    </>
  );
}
