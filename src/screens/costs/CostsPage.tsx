import { useQuery } from "@tanstack/react-query";
import { Link } from "wouter";
import type { CostsView, ModelCostView } from "../../workshop/production/views.ts";
import { get } from "../common/api.ts";
import { IntervalRule, sharedScale } from "../common/IntervalRule.tsx";
import { Measured } from "../common/Measured.tsx";
import { common } from "../common/messages.ts";
import { money, moreMoney } from "../common/money.ts";
import { fixed, inHundred } from "../common/number.ts";
import { Papers } from "../common/Papers.tsx";
import { capital } from "../common/sentence.ts";
import { Table } from "../common/Table.tsx";
import { tradeWord } from "../common/tradeMessages.ts";
import { Answer, Empty } from "../common/Waiting.tsx";
import { words } from "./messages.ts";
import { PriceStrip } from "./PriceStrip.tsx";
import "../common/office.css";
import "./costs.css";

export default function CostsPage() {
  const asked = useQuery({ queryKey: ["/api/costs"], queryFn: () => get<CostsView>("/api/costs") });
  return (
    <Answer asked={asked} what={words.what}>
      {(costs) => <Costs costs={costs} />}
    </Answer>
  );
}

/** What a unit of each model costs, what each choice really costs, and what open orders leave. */
export function Costs({ costs }: { readonly costs: CostsView }) {
  const { models, missing, currency = "EUR" } = costs;
  return (
    <article className="office costs">
      <h1>{words.title}</h1>
      <p className="lead">{words.lead}</p>
      <Papers of={["production.cost", "production.options"]} />
      <ul className="office-ways">
        <li>
          <Link href="/checks">{words.toChecks}</Link>
        </li>
        <li>
          <Link href="/promises">{words.toPromises}</Link>
        </li>
      </ul>
      {models.length === 0 && missing.length === 0 && <Empty title={words.title}>{words.none}</Empty>}
      {models.map((one) => (
        <Model key={one.model} one={one} currency={currency} />
      ))}
      {missing.map(({ model, why }) => (
        <p key={model}>{words.missing(model, why)}</p>
      ))}
      {models.length > 0 && <Options costs={costs} currency={currency} />}
      {costs.orders.length > 0 && <Orders costs={costs} currency={currency} />}
    </article>
  );
}

function Model({ one, currency }: { readonly one: ModelCostView; readonly currency: string }) {
  const m = (cents: number) => money(cents, currency);
  const { cost, margin, real, bySkill } = one;
  return (
    <section aria-label={one.model}>
      <div className="costs-head">
        <h2>{words.model(one.model, one.revision)}</h2>
        <p className="figure">{words.price(m(one.price_cents))}</p>
      </div>
      <Measured>{(width) => <PriceStrip one={one} currency={currency} width={width} />}</Measured>
      <p className="pencil">
        {words.cost(m(cost.mean_cents), m(cost.p05_cents), m(cost.p95_cents))} {words.margin(m(margin.mean_cents))}{" "}
        {margin.oddsOfLoss > 0.005 ? words.loss(capital(inHundred(margin.oddsOfLoss))) : words.noLoss}
      </p>
      <p className="small">
        {real ? words.real(one.accounts, m(real.mean_cents), m(real.low_cents), m(real.high_cents)) : words.noReal}{" "}
        <span className="quiet">
          {words.bySkill}:{" "}
          {bySkill.map(({ skill, mean_h }) => `${tradeWord(skill)} ${words.hours(fixed(mean_h, 1))}`).join(", ")}.
        </span>
      </p>
    </section>
  );
}

function Options({ costs, currency }: { readonly costs: CostsView; readonly currency: string }) {
  const told = costs.options.map((one) => ({
    ...one,
    value: one.more_cents,
    low: one.low_cents,
    high: one.high_cents,
  }));
  const { from, to } = sharedScale(told);
  const names = [...new Set(told.map(({ option }) => option))];
  return (
    <section aria-labelledby="options-name">
      <h2 id="options-name">{words.options}</h2>
      {told.length === 0 ? <p>{words.noOptions}</p> : <p>{words.optionsLead(costs.accounts)}</p>}
      {names.map((option) => (
        <div key={option} className="costs-option">
          <h3>{capital(tradeWord(option))}</h3>
          <ul className="office-rows">
            {told
              .filter((one) => one.option === option)
              .map((one) => (
                <li key={one.choice} className="office-line">
                  <p>
                    <strong>{capital(tradeWord(one.choice))}</strong>{" "}
                    <span className="quiet small">{words.against(tradeWord(one.against), one.units)}</span>
                  </p>
                  <IntervalRule
                    value={one.value}
                    low={one.low}
                    high={one.high}
                    from={from}
                    to={to}
                    decided={one.state !== "undecided"}
                    words={words.interval(
                      tradeWord(one.choice),
                      moreMoney(one.more_cents, currency),
                      moreMoney(one.low_cents, currency),
                      moreMoney(one.high_cents, currency),
                    )}
                  />
                  {one.state === "undecided" ? (
                    <span className="quiet small costs-untold">{words.undecided(one.moreUnits)}</span>
                  ) : (
                    <span className="figure pencil">
                      <strong>{moreMoney(one.more_cents, currency)}</strong>
                    </span>
                  )}
                </li>
              ))}
          </ul>
        </div>
      ))}
      {costs.untold.map(({ choice, why }) => (
        <p key={choice} className="small quiet">
          {words.untold(capital(tradeWord(choice)), why)}
        </p>
      ))}
    </section>
  );
}

function Orders({ costs, currency }: { readonly costs: CostsView; readonly currency: string }) {
  return (
    <section aria-labelledby="orders-name">
      <h2 id="orders-name">{words.orders}</h2>
      <p>{words.ordersLead}</p>
      <Table
        head={[
          words.order,
          { words: words.units, figure: true },
          { words: words.leaves, figure: true },
          { words: words.between, figure: true },
        ]}
        rows={costs.orders.map(({ order, model, units, margin_cents, low_cents, high_cents }) => ({
          key: order,
          cells: [
            <>
              {order} <span className="quiet">{model}</span>
            </>,
            units,
            <span key="margin" className="pencil">
              {money(margin_cents, currency)}
            </span>,
            <span key="between" className="nowrap">
              {common.to(money(low_cents, currency), money(high_cents, currency))}
            </span>,
          ],
        }))}
      />
    </section>
  );
}
