import { useQuery } from "@tanstack/react-query";
import type { ReactNode } from "react";
import { Link } from "wouter";
import type { OrderView, PartView } from "../../workshop/orders/views.ts";
import { get, writeDown } from "../common/api.ts";
import { day } from "../common/calendar.ts";
import { DeskForm } from "../common/DeskForm.tsx";
import { Outcome } from "../common/fields.tsx";
import { common, stepName } from "../common/messages.ts";
import { plainNumber } from "../common/number.ts";
import { capital } from "../common/sentence.ts";
import { Table } from "../common/Table.tsx";
import { tradeWord } from "../common/tradeMessages.ts";
import { useArrival } from "../common/useArrival.ts";
import { useBy } from "../common/useBy.ts";
import { useSending } from "../common/useSending.ts";
import { Answer } from "../common/Waiting.tsx";
import { ClimateForm } from "../timber/forms.tsx";
import { form, page, words } from "./messages.ts";
import "../common/office.css";
import "./orders.css";

export default function OrderPage({ order }: { readonly order: string }) {
  const path = `/api/orders/${encodeURIComponent(order)}`;
  const asked = useQuery({ queryKey: [path], queryFn: () => get<OrderView>(path) });
  return (
    <Answer asked={asked} what={words.whatOrder(order)}>
      {(view) => <Order view={view} />}
    </Answer>
  );
}

/** One order: what was asked for, its units, the way they go, what must be proven, and what it waits for. */
export function Order({ view }: { readonly view: OrderView }) {
  const { destination, options, now } = view;
  useArrival();
  return (
    <article className="office order">
      <h1>{page.title(view.order)}</h1>
      <p className="lead">{capital(words.stages[view.stage])}</p>
      <dl className="order-particulars">
        <Said name={page.model}>
          <Link href={`/notebook/${encodeURIComponent(view.model)}`}>
            {view.model} {view.revision}
          </Link>
          , {view.title}
        </Said>
        <Said name={page.customer}>
          {view.customer}{" "}
          <Link className="order-more" href="/customers">
            {page.toCustomers}
          </Link>
        </Said>
        <Said name={page.goesTo}>
          {destination.place},{" "}
          <span className="figure">
            {plainNumber(destination.nominal_V)} V, {plainNumber(destination.frequency_Hz)} Hz
          </span>
        </Said>
        {view.due && <Said name={page.wanted}>{day(view.due, now)}</Said>}
        <Said name={page.promised}>
          {view.promised ? day(view.promised, now) : words.noDate}{" "}
          <Link className="order-more" href="/promises">
            {page.toBook}
          </Link>
        </Said>
        {view.language && (
          <Said name={page.papers}>{form.languages[view.language as keyof typeof form.languages]}</Said>
        )}
        {Object.keys(options).length > 0 && (
          <Said name={page.chose}>
            {Object.entries(options)
              .map(([option, choice]) => `${tradeWord(option)}: ${tradeWord(choice)}`)
              .join("; ")}
          </Said>
        )}
      </dl>

      <section aria-labelledby="units">
        <h2 id="units">{page.unitsTitle}</h2>
        <ul className="order-units">
          {view.folders.map((folder) => (
            <li key={folder.unit}>
              <Folder folder={folder} view={view} />
            </li>
          ))}
        </ul>
      </section>

      <section aria-labelledby="route">
        <h2 id="route">{page.route}</h2>
        <p className="quiet">{page.routeLead}</p>
        <Table
          head={[page.step, page.who, page.where, { words: page.hours, figure: true }]}
          rows={view.route.map(({ step, skill, place, hours, unattended }) => ({
            key: step,
            cells: [
              stepName(step),
              unattended ? page.byItself : skill === undefined ? page.anybody : tradeWord(skill),
              place ?? page.anywhere,
              hours.fast === hours.slow
                ? plainNumber(hours.usual)
                : common.to(plainNumber(hours.fast), plainNumber(hours.slow)),
            ],
          }))}
        />
      </section>

      <section aria-labelledby="claims">
        <h2 id="claims">{page.claims}</h2>
        <ul className="order-claims">
          {view.claims.map(({ claim, title, safety }) => (
            <li key={claim}>
              {title} {safety && <span className="quiet">({page.safety})</span>}
            </li>
          ))}
        </ul>
      </section>

      <section aria-labelledby="climate">
        <h2 id="climate">{page.climate}</h2>
        {view.climate ? (
          <p>{page.climateKnown}</p>
        ) : (
          <>
            <p>{page.climateLead}</p>
            <ClimateForm place={destination.place} />
          </>
        )}
      </section>

      <section aria-labelledby="parts">
        <h2 id="parts">{page.parts}</h2>
        {view.parts.length === 0 ? (
          <p className="quiet">{page.noParts}</p>
        ) : (
          <ul className="order-parts">
            {view.parts.map((part) => (
              <li key={part.part}>
                <Part part={part} now={now} />
              </li>
            ))}
          </ul>
        )}
        <details>
          <summary>{page.morePart}</summary>
          <PartForm view={view} />
        </details>
      </section>
    </article>
  );
}

function Said({ name, children }: { readonly name: string; readonly children: ReactNode }) {
  return (
    <div>
      <dt>{name}</dt>
      <dd>{children}</dd>
    </div>
  );
}

function Folder({ folder, view }: { readonly folder: OrderView["folders"][number]; readonly view: OrderView }) {
  const { unit, opened, done, missing, released, packed } = folder;
  const at = `/unit/${encodeURIComponent(unit)}`;
  if (!opened) {
    const volts = `${plainNumber(view.destination.nominal_V)} V`;
    return (
      <>
        <p>
          <span className="figure order-serial">{unit}</span> {page.notOpened}
        </p>
        <p className="quiet small">{page.openLead}</p>
        <DeskForm
          form={`open ${unit}`}
          fields={{ tap: { label: page.tap, hint: page.tapHint(volts), list: view.taps } }}
          write={page.open(unit)}
          entries={(typed) => [
            {
              kind: "unit",
              unit,
              order: view.order,
              model: view.model,
              revision: view.revision,
              fitted: {},
              tap: typed.text("tap"),
            },
          ]}
          done={() => page.opened(unit)}
        />
      </>
    );
  }
  return (
    <>
      <p>
        <span className="figure order-serial">{unit}</span> {page.done(done, view.route.length)},{" "}
        {packed ? page.packed : released ? page.released : page.missing(missing)}
      </p>
      <p className="order-ways">
        <Link href={at}>
          {page.folder}
          <span className="visually-hidden"> {unit}</span>
        </Link>
        <Link href={`${at}/work`}>
          {page.work}
          <span className="visually-hidden"> {unit}</span>
        </Link>
        {released && (
          <Link href={`${at}/pack`}>
            {page.pack}
            <span className="visually-hidden"> {unit}</span>
          </Link>
        )}
      </p>
    </>
  );
}

function Part({ part, now }: { readonly part: PartView; readonly now: string }) {
  const [by] = useBy();
  const sending = useSending();
  const { part: name, step, ordered, arrived } = part;
  const come = () => {
    if (by.trim() === "") return sending.refuse(`${common.by}: ${common.needed}`);
    void sending.send(async () => {
      await writeDown(by.trim(), [{ kind: "arrival", part: name }]);
      return page.arrivedDone(name);
    });
  };
  return (
    <>
      <p>
        <strong>{name}</strong> <span className="quiet">{stepName(step)}</span>{" "}
        {arrived ? page.came(day(arrived, now)) : ordered ? page.orderedOn(day(ordered, now)) : page.notOrdered}
      </p>
      {!arrived && (
        <button type="button" disabled={sending.busy} onClick={come}>
          {page.arrived}
          <span className="visually-hidden"> {name}</span>
        </button>
      )}
      <Outcome busy={sending.busy} said={sending.said} error={sending.error} />
    </>
  );
}

function PartForm({ view }: { readonly view: OrderView }) {
  const [first] = view.route;
  return (
    <DeskForm
      form={`part of ${view.order}`}
      fields={{
        part: { label: page.part },
        step: {
          label: page.forStep,
          first: first?.step ?? "",
          choices: view.route.map(({ step }) => ({ value: step, label: stepName(step) })),
        },
        usual: { label: page.usual, kind: "number" },
        slow: { label: page.slow, kind: "number" },
        ordered: {
          label: page.isOrdered,
          first: "yes",
          choices: (["yes", "no"] as const).map((value) => ({ value, label: page.isOrderedChoices[value] })),
        },
      }}
      write={page.writePart}
      entries={(typed) => {
        const usual = typed.number("usual");
        return [
          {
            kind: "part",
            part: typed.text("part"),
            model: view.model,
            step: typed.text("step"),
            lead_days: { fast: usual / 2, usual, slow: Math.max(usual, typed.number("slow")) },
            ...(typed.text("ordered") === "yes" && { ordered: view.now }),
            orders: [view.order],
          },
        ];
      }}
      done={(typed) => page.partDone(typed.text("part"))}
    />
  );
}
