import { useQuery } from "@tanstack/react-query";
import { type FormEvent, useState } from "react";
import { Link } from "wouter";
import type { RunningView, SoakSortView, SoaksView } from "../../workshop/production/soakViews.ts";
import { get, writeDown } from "../common/api.ts";
import { By } from "../common/By.tsx";
import { DangerOf } from "../common/Caution.tsx";
import { dayAndTime } from "../common/calendar.ts";
import { Choice, Field, FormEnd, numberError, numberOf, Recalled } from "../common/fields.tsx";
import { stepName } from "../common/messages.ts";
import { money, moreMoney } from "../common/money.ts";
import { plainNumber } from "../common/number.ts";
import { Pick } from "../common/Pick.tsx";
import { capital } from "../common/sentence.ts";
import { tradeWord } from "../common/tradeMessages.ts";
import { useBy } from "../common/useBy.ts";
import { useDraft } from "../common/useDraft.ts";
import { useKept } from "../common/useKept.ts";
import { useSending } from "../common/useSending.ts";
import { Answer } from "../common/Waiting.tsx";
import { tell } from "../languages/sentences/told.ts";
import { BeginForm, type ToBegin } from "./BeginForm.tsx";
import { words } from "./messages.ts";
import { Survival } from "./Survival.tsx";
import "../common/office.css";
import "./soaks.css";

export default function SoaksPage() {
  const asked = useQuery({ queryKey: ["/api/soaks"], queryFn: () => get<SoaksView>("/api/soaks") });
  return (
    <Answer asked={asked} what={words.what}>
      {(soaks) => <Soaks soaks={soaks} />}
    </Answer>
  );
}

/** What goes on by itself, what may be set going, and what the hours on record say of each sort of soak. */
export function Soaks({ soaks }: { readonly soaks: SoaksView }) {
  const { running, sorts, now, currency } = soaks;
  return (
    <article className="office soaks">
      <h1>{words.title}</h1>
      <p className="lead">{words.lead}</p>
      <ul className="office-ways">
        <li>
          <Link href="/checks">{words.toChecks}</Link>
        </li>
        <li>
          <Link href="/timber/places">{words.toPlaces}</Link>
        </li>
        <li>
          <Link href="/">{words.toMorning}</Link>
        </li>
      </ul>
      <section aria-labelledby="running-name">
        <h2 id="running-name">{words.running}</h2>
        {running.length === 0 ? (
          <p className="quiet">{words.nothing}</p>
        ) : (
          <ul className="office-rows">
            {running.map((run) => (
              <Running key={run.run} run={run} now={now} />
            ))}
          </ul>
        )}
      </section>
      <section aria-labelledby="begin-name">
        <h2 id="begin-name">{words.begin}</h2>
        <Begin soaks={soaks} />
      </section>
      <section aria-labelledby="records-name">
        <h2 id="records-name">{words.records}</h2>
        <p>{sorts.length === 0 ? words.noRecords : words.recordsLead}</p>
        {sorts
          .filter(({ failures, pieces }) => failures > 0 || pieces >= few)
          .map((sort) => (
            <Sort key={sort.what} sort={sort} currency={currency} />
          ))}
        <Few sorts={sorts.filter(({ failures, pieces }) => failures === 0 && pieces < few)} />
      </section>
    </article>
  );
}

const hour_ms = 3_600_000;

function Running({ run, now }: { readonly run: RunningView; readonly now: string }) {
  const { what, things, place, at, by, ripe, hours, danger, ended } = run;
  const gone_h = Math.max(0, (Date.parse(now) - Date.parse(at)) / hour_ms);
  const isRipe = Date.parse(ripe) <= Date.parse(now);
  const names = things.map(({ thing, slot }) => (slot === undefined ? thing : `${thing} (${words.slot(slot)})`));
  const shown = names.length > 6 ? `${names.slice(0, 5).join(", ")} + ${names.length - 5}` : names.join(", ");
  return (
    <li>
      <div className="soaks-run">
        <div>
          <p>
            <strong>{capital(what)}</strong>, {place}: {shown}
          </p>
          <p className="small quiet">
            {words.since(by, dayAndTime(at))}
            {ended > 0 && `; ${words.came(ended)}`}
          </p>
        </div>
        <p className="soaks-ripe">
          {isRipe ? <strong>{words.isRipe(dayAndTime(ripe))}</strong> : words.ripe(dayAndTime(ripe))}
          <meter
            min={0}
            max={hours}
            value={Math.min(hours, gone_h)}
            aria-label={words.gone(plainNumber(gone_h), plainNumber(hours))}
          />
          <span className="small quiet">
            {words.gone(plainNumber(Math.round(10 * gone_h) / 10), plainNumber(hours))}
          </span>
        </p>
      </div>
      <DangerOf danger={danger} />
      <EndForm run={run} />
    </li>
  );
}

function EndForm({ run: { run, things } }: { readonly run: RunningView }) {
  const [by, setBy] = useBy();
  const { typed, change, clear, isRecalled } = useDraft(`end ${run}`, {
    which: "",
    outcome: "good",
    hours: "",
    fault: "",
  });
  const { which, outcome, hours, fault } = typed;
  const [tried, setTried] = useState(false);
  const sending = useSending();
  const bad = numberError(hours, false) !== undefined || by.trim() === "";
  const submit = async (event: FormEvent) => {
    event.preventDefault();
    setTried(true);
    if (bad) return;
    const done = await sending.send(async () => {
      await writeDown(by.trim(), [
        {
          kind: "ended",
          run,
          ...(which !== "" && { things: [which] }),
          outcome: outcome as "good" | "failed",
          ...(hours.trim() !== "" && { hours: numberOf(hours) }),
          ...(outcome === "failed" && fault.trim() !== "" && { fault: fault.trim() }),
        },
      ]);
      return words.ended(run);
    });
    if (done) clear();
  };
  return (
    <details open={isRecalled || undefined}>
      <summary>{words.end}</summary>
      <form onSubmit={submit} noValidate>
        <Recalled isRecalled={isRecalled} clear={() => clear()} />
        <Choice
          legend={words.outcome}
          value={outcome}
          onChange={(now) => change({ outcome: now })}
          options={[
            { value: "good", label: words.good },
            { value: "failed", label: words.failed },
          ]}
        />
        <div className="fields">
          <Pick
            label={words.things}
            value={which}
            onChange={(now) => change({ which: now })}
            options={[
              { value: "", label: words.allThings },
              ...things.map(({ thing }) => ({ value: thing, label: thing })),
            ]}
          />
          <Field
            label={words.hours}
            hint={words.hoursHint}
            value={hours}
            onChange={(now) => change({ hours: now })}
            unit="h"
            numeric
            narrow
          />
          {outcome === "failed" && (
            <Field
              label={words.fault}
              hint={words.faultHint}
              value={fault}
              onChange={(now) => change({ fault: now })}
            />
          )}
          <By value={by} onChange={setBy} />
        </div>
        {tried && bad && (
          <p className="field-error" role="alert">
            {words.endNeeded}
          </p>
        )}
        <FormEnd write={words.write} sending={sending} isMain={false} />
      </form>
    </details>
  );
}

function Begin({ soaks: { units, trays, places, now } }: { readonly soaks: SoaksView }) {
  const slotAt = (place: string | undefined) => places.find((one) => one.place === place)?.slot;
  const ready = trays.filter(({ valves }) => valves.length > 0);
  const choices: readonly (ToBegin & { readonly label: string; readonly danger?: string | undefined })[] = [
    ...units.flatMap(({ unit, waits }) =>
      waits.map(({ step, claim, title, hours, place, danger }) => ({
        label: `${words.unit(unit)}: ${stepName(step ?? title)}`,
        name: unit,
        units: [unit],
        step,
        claim,
        place,
        slot: slotAt(place),
        hours,
        danger,
      })),
    ),
    ...ready.map(({ batch, valves, heatRun_h = 48 }) => ({
      label: `${words.tray(batch, valves.length)}: ${words.heatRun}`,
      name: batch,
      valves,
      hours: heatRun_h,
      danger: "hot",
    })),
  ];
  // By its words: the list grows and shrinks while somebody is choosing.
  const [at, setAt] = useKept("stillglow.begin", "");
  const chosen = choices.find(({ label }) => label === at) ?? choices[0];
  if (!chosen) return <p>{words.nothingToBegin}</p>;
  return (
    <>
      <Pick
        label={words.thing}
        value={chosen.label}
        onChange={setAt}
        options={choices.map(({ label }) => ({ value: label, label }))}
      />
      <DangerOf danger={chosen.danger ?? "none"} />
      {/coat/.test(chosen.step ?? "") && <p className="small">{words.rag}</p>}
      <BeginForm key={chosen.label} what={chosen} now={now} places={places.map(({ place }) => place)} />
      <p className="small quiet">
        {places.map(({ place, free, capacity }) => `${place}: ${words.free(free, capacity)}`).join("; ")}
      </p>
    </>
  );
}

/** With fewer and no failure nothing can be said yet. */
const few = 12;

function Few({ sorts }: { readonly sorts: readonly SoakSortView[] }) {
  if (sorts.length === 0) return null;
  const list = sorts.map(({ what, pieces }) => `${tradeWord(what)} (${pieces})`).join(", ");
  return <p className="soaks-few">{words.few(list)}</p>;
}

function Sort({ sort, currency }: { readonly sort: SoakSortView; readonly currency: string | undefined }) {
  const { what, pieces, failures, soaked_h, today_h, curve, atMost, costs, faults } = sort;
  return (
    <section className="soaks-sort" aria-label={what}>
      <h3>{capital(tradeWord(what))}</h3>
      <p className="small quiet">{words.pieces(pieces, failures, plainNumber(Math.round(soaked_h)))}</p>
      {atMost !== undefined ? (
        <p>{words.atMost(plainNumber(Math.round(1000 * atMost) / 10))}</p>
      ) : (
        <div className="soaks-told">
          <Survival curve={curve} today_h={today_h} what={what} pays_h={sort.hoursThatPay} />
          <div>
            <p className="pencil">
              <strong>{paysWords(sort, currency)}</strong>
            </p>
            <p className="small">
              {costs
                ? words.costs(money(costs.hour_cents, currency), money(costs.escape_cents, currency), costs.returns)
                : words.noCosts}
            </p>
            <p className="small">
              {words.faults}:{" "}
              {faults
                .map(({ fault, hours }) => `${tell(fault)} ${words.at(hours.map((h) => plainNumber(h)).join(", "))}`)
                .join("; ")}
            </p>
          </div>
        </div>
      )}
    </section>
  );
}

function paysWords(
  { costs, hoursThatPay, today_h, againstToday, againstNone }: SoakSortView,
  currency: string | undefined,
) {
  if (!costs || hoursThatPay === undefined || !againstToday) return "";
  const money_ = (cents: number) => moreMoney(cents, currency);
  const { saving_cents, low_cents, high_cents, state } = againstToday;
  if (hoursThatPay === 0 && againstNone?.state !== "costs" && state !== "saves") return words.none;
  if (hoursThatPay === today_h) return words.paysToday(plainNumber(today_h));
  if (state !== "saves") return words.silent(plainNumber(hoursThatPay), money_(low_cents), money_(high_cents));
  return words.pays(plainNumber(hoursThatPay), money_(saving_cents), money_(low_cents), money_(high_cents));
}
