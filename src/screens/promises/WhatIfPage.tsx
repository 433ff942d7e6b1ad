import { useQuery } from "@tanstack/react-query";
import { useState } from "react";
import { Link } from "wouter";
import type { AskedChange, OrderingView, WhatIfOptionsView, WhatIfView } from "../../workshop/promises/views.ts";
import { get, post, type WorkshopHead } from "../common/api.ts";
import { day } from "../common/calendar.ts";
import { Measured } from "../common/Measured.tsx";
import { fixed } from "../common/number.ts";
import { useArrival } from "../common/useArrival.ts";
import { Answer, TroubleNote } from "../common/Waiting.tsx";
import { useSoon } from "../timber/useSoon.ts";
import { ChangeForm } from "./ChangeForm.tsx";
import { Shift, ShiftScale } from "./Shift.tsx";
import "./promises.css";
import { words } from "./whatIfMessages.ts";

export default function WhatIfPage({ workshop }: { readonly workshop: WorkshopHead | undefined }) {
  const asked = useQuery({
    queryKey: ["/api/promises/what-if"],
    queryFn: () => get<WhatIfOptionsView>("/api/promises/what-if"),
  });
  const ordering = useSoon<OrderingView>("/api/promises/ordering");
  const [answer, setAnswer] = useState<WhatIfView>();
  const [fault, setFault] = useState<unknown>();
  const [isBusy, setBusy] = useState(false);
  const ask = async (change: AskedChange) => {
    setBusy(true);
    setFault(undefined);
    try {
      setAnswer(await post<WhatIfView>("/api/promises/what-if", { changes: [change] }));
    } catch (error) {
      setFault(error);
    } finally {
      setBusy(false);
    }
  };
  const now = workshop?.now ?? "";
  return (
    <Answer asked={{ ...asked, data: workshop && asked.data }} what={words.what}>
      {(options) => (
        <WhatIf
          options={options}
          now={now}
          ask={(change) => void ask(change)}
          isBusy={isBusy}
          {...(answer && { answer })}
          {...(fault !== undefined && { fault })}
          ordering={ordering.data?.ready}
        />
      )}
    </Answer>
  );
}

interface Props {
  readonly options: WhatIfOptionsView;
  readonly now: string;
  readonly ask: (change: AskedChange) => void;
  readonly isBusy?: boolean;
  readonly answer?: WhatIfView;
  readonly fault?: unknown;
  readonly ordering?: OrderingView | undefined;
}

/** A change put to the shop, and what it does to each date; then what is still to be ordered. */
export function WhatIf({ options, now, ask, isBusy = false, answer, fault, ordering }: Props) {
  useArrival();
  return (
    <article className="book">
      <h1>{words.title}</h1>
      <p className="book-lead">{words.lead}</p>
      <p className="book-ways">
        <Link href="/promises">{words.book}</Link>
      </p>
      {options.suggested.length > 0 && (
        <section className="what-if-suggested" aria-labelledby="suggested-name">
          <h2 id="suggested-name">{words.suggested}</h2>
          {options.suggested.map(({ title, because, change }) => (
            <p key={title}>
              <strong>{title}</strong>. {because}{" "}
              <button type="button" onClick={() => ask(change)} disabled={isBusy}>
                {words.tryIt}
              </button>
            </p>
          ))}
        </section>
      )}
      <ChangeForm options={options} ask={ask} isBusy={isBusy} />
      <div aria-live="polite">
        {isBusy && <p className="waiting">{words.asking}</p>}
        {fault !== undefined && <TroubleNote error={fault} />}
        {answer && !isBusy && <Outcome answer={answer} now={now} />}
      </div>
      <section id="ordering" className="what-if-ordering" aria-labelledby="ordering-name">
        <h2 id="ordering-name">{words.ordering}</h2>
        {ordering ? <Ordering ordering={ordering} now={now} /> : <p className="quiet">{words.working}</p>}
      </section>
    </article>
  );
}

function Outcome({ answer, now }: { readonly answer: WhatIfView; readonly now: string }) {
  return (
    <section className="what-if-outcome" aria-labelledby="outcome-name">
      <h2 id="outcome-name">{words.if(answer.changes)}</h2>
      <p className="what-if-sum pencil">{answer.words}</p>
      {answer.orders.length > 0 && (
        <>
          <p className="quiet">{words.scale}</p>
          <div className="what-if-scale">
            <Measured first={560}>{(width) => <ShiftScale orders={answer.orders} width={width} />}</Measured>
          </div>
          <ol className="what-if-orders">
            {answer.orders.map((order) => (
              <Moved key={order.order} order={order} all={answer.orders} now={now} />
            ))}
          </ol>
        </>
      )}
      <p>{words.still(answer.still)}</p>
    </section>
  );
}

function Moved({
  order,
  all,
  now,
}: {
  readonly order: WhatIfView["orders"][number];
  readonly all: WhatIfView["orders"];
  readonly now: string;
}) {
  const in_ = (at: string) => day(at, now);
  const { shift_h, low_h, high_h } = order;
  const days = (hours: number) => fixed(Math.abs(hours) / 24, 1);
  const said =
    order.before_p80 === undefined
      ? words.isNew(in_(order.after_p80))
      : words.moves(in_(order.before_p80), in_(order.after_p80));
  const state =
    order.lateBefore === undefined
      ? order.lateAfter && words.lost
      : order.lateBefore
        ? order.lateAfter
          ? words.stillLate
          : words.saved
        : order.lateAfter && words.lost;
  const [near, far] = [low_h ?? 0, high_h ?? 0].sort((a, b) => Math.abs(a) - Math.abs(b)) as [number, number];
  return (
    <li className="what-if-order">
      <p className="promise-words">
        <strong>{order.order}</strong> <em>{order.model}</em>
      </p>
      <div>
        <Measured first={560}>{(width) => <Shift order={order} orders={all} width={width} said={said} />}</Measured>
        <p>
          {said}
          {shift_h !== undefined && (
            <>
              . <span className="pencil">{words.days_shift(days(shift_h), days(near), days(far), shift_h < 0)}</span>
            </>
          )}
          {state && <strong>{`; ${state}`}</strong>}.
        </p>
      </div>
    </li>
  );
}

function Ordering({ ordering, now }: { readonly ordering: OrderingView; readonly now: string }) {
  if (ordering.parts.length + ordering.valves.length === 0) return <p>{words.nothing}</p>;
  return (
    <>
      <p className="book-lead">{words.orderingLead}</p>
      <ul className="ordering">
        {ordering.parts.map(({ part, order, by, isNow }) => (
          <li key={`${part} ${order}`}>
            <strong className={isNow ? "" : "pencil"}>{isNow ? words.now : words.by(day(by, now))}</strong>
            <span>
              {part}
              {part.endsWith(order) ? "" : `, ${words.forOrder(order)}`}
            </span>
          </li>
        ))}
        {ordering.valves.map(({ type, model, sets, buy, chance, by, reason }) => (
          <li key={`${type} ${model}`}>
            <strong className="pencil">{by ? words.by(day(by, now)) : "–"}</strong>
            <span>
              {buy === undefined ? `${type}, ${model}: ${reason ?? ""}` : words.buy(buy, type, sets, model)}
              {chance !== undefined && `; ${words.enough(String(Math.round(100 * chance)))}`}
            </span>
          </li>
        ))}
      </ul>
      {ordering.notes.map((note) => (
        <p key={note} className="quiet small">
          {note}
        </p>
      ))}
    </>
  );
}
