import { keepPreviousData, useQuery } from "@tanstack/react-query";
import { useState } from "react";
import { Link, useLocation } from "wouter";
import type { OrdersView } from "../../workshop/orders/views.ts";
import { get, post } from "../common/api.ts";
import { day } from "../common/calendar.ts";
import { DeskForm } from "../common/DeskForm.tsx";
import { Field } from "../common/fields.tsx";
import { plainNumber } from "../common/number.ts";
import { useArrival } from "../common/useArrival.ts";
import { Answer, Empty } from "../common/Waiting.tsx";
import { numbered } from "../valves/numbered.ts";
import { form, words } from "./messages.ts";
import { dueOf, optionsOf } from "./typed.ts";
import "../common/office.css";
import "./orders.css";

export default function OrdersPage() {
  const [, navigate] = useLocation();
  const asked = useQuery({ queryKey: ["/api/orders"], queryFn: () => get<OrdersView>("/api/orders") });
  return (
    <Answer asked={asked} what={words.what}>
      {(view) => <Orders view={view} open={(order) => navigate(`/order/${encodeURIComponent(order)}`)} />}
    </Answer>
  );
}

type OrderLine = OrdersView["orders"][number];

/** As many stand in a window; there is nothing to fold. */
const fewOrders = 12;

function OrderList({ orders, now }: { readonly orders: readonly OrderLine[]; readonly now: string }) {
  return (
    <ul className="order-list">
      {orders.map(({ order, model, units, place, stage, promised, due }) => {
        const date = promised ?? due;
        return (
          <li key={order}>
            <Link href={`/order/${encodeURIComponent(order)}`}>
              <span className="order-name">{order}</span>
              <span>
                <em>{model}</em>, {words.units(units.length)} {words.to(place)}
              </span>
              <span>{words.stages[stage]}</span>
              <span className="quiet">{date === undefined ? words.noDate : words.promisedFor(day(date, now))}</span>
            </Link>
          </li>
        );
      })}
    </ul>
  );
}

/** Orders with how far each is, any older one by a word of it, and the form that takes another. */
export function Orders({ view, open }: { readonly view: OrdersView; readonly open: (order: string) => void }) {
  useArrival();
  const [typed, setTyped] = useState("");
  const sought = typed.trim();
  const inAll = view.ordersInAll ?? view.orders.length;
  const asked = useQuery({
    queryKey: ["/api/orders", sought],
    queryFn: () => get<OrdersView>(`/api/orders?find=${encodeURIComponent(sought)}`),
    enabled: sought !== "" && view.orders.length < inAll,
    placeholderData: keepPreviousData,
  });
  const isFound = sought !== "" && asked.data !== undefined;
  const { orders } = isFound ? asked.data : view;
  // Years of a shop: what left waits behind a line, unless it is all there is or was asked for.
  const isGone = ({ stage }: OrderLine) => stage === "left" && !isFound && orders.length > fewOrders;
  const inHand = orders.filter((one) => !isGone(one));
  const left = orders.filter(isGone);
  return (
    <article className="office orders">
      <h1>{words.title}</h1>
      {view.orders.length === 0 ? (
        <Empty title={words.emptyTitle}>{words.empty}</Empty>
      ) : (
        <>
          <p className="lead">{words.lead}</p>
          <ul className="office-ways">
            <li>
              <a href="#take">{words.take}</a>
            </li>
          </ul>
          {view.orders.length < inAll && (
            <>
              <Field label={words.find} value={typed} onChange={setTyped} narrow />
              <p className="quiet" role="status">
                {words.found(orders.length, inAll)}
              </p>
            </>
          )}
          <OrderList orders={inHand} now={view.now} />
          {left.length > 0 && (
            <details className="orders-left">
              <summary>{words.gone(left.length)}</summary>
              <OrderList orders={left} now={view.now} />
            </details>
          )}
        </>
      )}
      <section id="take" aria-labelledby="take-name">
        <h2 id="take-name">{words.take}</h2>
        {view.models.length === 0 ? (
          <p>
            {words.noModel} <Link href="/notebook">{words.toNotebook}</Link>
          </p>
        ) : (
          <TakeOrder key={view.nextOrder} view={view} open={open} />
        )}
      </section>
    </article>
  );
}

function TakeOrder({ view, open }: { readonly view: OrdersView; readonly open: (order: string) => void }) {
  const newest = view.models.at(-1)!;
  const keyOf = (model: { readonly model: string; readonly revision: string }) => `${model.model}\n${model.revision}`;
  return (
    <DeskForm
      form="take an order"
      fields={{
        order: { label: form.order, first: view.nextOrder },
        model: {
          label: form.model,
          first: keyOf(newest),
          choices: view.models.map((one) => ({
            value: keyOf(one),
            label: `${one.model} ${one.revision}, ${one.title}`,
          })),
        },
        first: { label: form.first, first: view.nextUnit },
        count: { label: form.count, kind: "number", first: "1" },
        customer: { label: form.customer, hint: form.customerHint, list: view.customers },
        name: { label: form.name, optional: true },
        address: { label: form.address, optional: true, wide: true },
        place: { label: form.place, hint: form.placeHint, list: view.places.map(({ place }) => place) },
        nominal_V: { label: form.volts, kind: "number", unit: "V" },
        frequency_Hz: { label: form.hertz, kind: "number", unit: "Hz" },
        due: { label: form.due, hint: form.dueHint, optional: true },
        language: {
          label: form.language,
          first: "en",
          choices: (["en", "de", "pl"] as const).map((value) => ({ value, label: form.languages[value] })),
        },
        options: {
          label: form.options,
          hint: form.optionsHint,
          optional: true,
          wide: true,
          list: view.options.flatMap(({ option, choices }) => choices.map((choice) => `${option}: ${choice}`)),
        },
      }}
      write={form.write}
      entries={async (typed) => {
        const units = numbered(typed.text("first"), typed.number("count"));
        if (!units) return form.badCount;
        const options = optionsOf(typed.text("options"));
        if ("unread" in options && typeof options.unread === "string") return form.badOptions(options.unread);
        const due = typed.text("due") === "" ? undefined : dueOf(typed.text("due"));
        if (typed.text("due") !== "" && due === undefined) return form.badDue;
        const [name, address] = [typed.text("name"), typed.text("address")];
        if ((name === "") !== (address === "")) return form.addressNeeded;
        const [model = "", revision = ""] = typed.text("model").split("\n");
        const customer = typed.text("customer");
        if (name !== "") await post(`/api/customers/${encodeURIComponent(customer)}`, { name, address });
        return [
          {
            kind: "order",
            order: typed.text("order"),
            customer,
            model,
            revision,
            units: [...units],
            ...(due !== undefined && { due }),
            destination: {
              place: typed.text("place"),
              nominal_V: typed.number("nominal_V"),
              frequency_Hz: typed.number("frequency_Hz"),
            },
            language: typed.text("language") as "en" | "de" | "pl",
            ...(Object.keys(options).length > 0 && { options }),
          },
        ];
      }}
      done={(typed) => form.done(typed.text("order"))}
      after={(typed) => open(typed.text("order"))}
    >
      {view.places.length > 0 && (
        <p className="quiet small">
          {view.places
            .slice(0, 6)
            .map(
              ({ place, nominal_V, frequency_Hz }) =>
                `${place}: ${plainNumber(nominal_V)} V, ${plainNumber(frequency_Hz)} Hz`,
            )
            .join("; ")}
        </p>
      )}
    </DeskForm>
  );
}
