import { useQuery } from "@tanstack/react-query";
import { Link } from "wouter";
import type { ChecksView, ProposalView } from "../../workshop/production/views.ts";
import { get } from "../common/api.ts";
import { IntervalRule, sharedScale } from "../common/IntervalRule.tsx";
import { money, moreMoney } from "../common/money.ts";
import { plainNumber } from "../common/number.ts";
import { Papers } from "../common/Papers.tsx";
import { capital } from "../common/sentence.ts";
import { stageWords } from "../common/stageWords.ts";
import { Table } from "../common/Table.tsx";
import { tradeWord } from "../common/tradeMessages.ts";
import { Answer, Empty } from "../common/Waiting.tsx";
import { tell } from "../languages/sentences/told.ts";
import { words } from "./messages.ts";
import "../common/office.css";
import "./checks.css";

export default function ChecksPage() {
  const asked = useQuery({ queryKey: ["/api/checks"], queryFn: () => get<ChecksView>("/api/checks") });
  return (
    <Answer asked={asked} what={words.what}>
      {(checks) => <Checks checks={checks} />}
    </Answer>
  );
}

/** Where each check belongs by the faults of the past, silent where the records do not tell. */
export function Checks({ checks }: { readonly checks: ChecksView }) {
  const { currency, saves, dear, silent, sorts, orders, soaks = [] } = checks;
  const scale = scaleOf([...saves, ...dear, ...silent]);
  return (
    <article className="office checks">
      <h1>{words.title}</h1>
      <p className="lead">{words.lead(checks.units, checks.faults)}</p>
      <Papers of={["production.where"]} />
      <ul className="office-ways">
        <li>
          <Link href="/costs">{words.toCosts}</Link>
        </li>
        <li>
          <Link href="/">{words.toMorning}</Link>
        </li>
      </ul>
      {checks.faults === 0 ? (
        <Empty title={words.title}>{words.none}</Empty>
      ) : (
        <section aria-labelledby="saves-name">
          <h2 id="saves-name">{words.saves}</h2>
          <p>
            {words.today(money(checks.today_cents, currency))} {saves.length === 0 && words.noSaves}{" "}
            {saves.length === 0 && !soaks.some(({ state }) => state === "saves") && words.asToday}
          </p>
          {saves.length > 0 && <Proposals list={saves} scale={scale} currency={currency} />}
        </section>
      )}
      {soaks.length > 0 && <SoakLengths soaks={soaks} currency={currency} />}
      {dear.length > 0 && (
        <section aria-labelledby="dear-name">
          <h2 id="dear-name">{words.dear}</h2>
          <p>{words.dearLead}</p>
          <Proposals list={dear} scale={scale} currency={currency} />
        </section>
      )}
      {silent.length > 0 && (
        <section aria-labelledby="silent-name">
          <h2 id="silent-name">{words.silent}</h2>
          <p>{words.silentLead}</p>
          <Proposals list={silent} scale={scale} currency={currency} />
        </section>
      )}
      {sorts.length > 0 && <Sorts sorts={sorts} currency={currency} />}
      {orders.length > 0 && <Orders orders={orders} />}
    </article>
  );
}

function sentence({ what, title, from, to }: ProposalView): string {
  const check = title.replace(/^look for: /, "a look for ");
  if (what === "add") return words.kinds.add(check, stageWords(to ?? ""));
  if (what === "move") return words.kinds.move(check, stageWords(from ?? ""), stageWords(to ?? ""));
  return words.kinds.drop(tradeWord(check));
}

interface Saving {
  readonly saving_cents: number;
  readonly low_cents: number;
  readonly high_cents: number;
}

const scaleOf = (list: readonly Saving[]) =>
  sharedScale(list.map((one) => ({ value: one.saving_cents, low: one.low_cents, high: one.high_cents })));

/** One change in words, what it saves on the scale that its list shares, and in money where the records decide. */
function SavingLine({
  saving,
  isDecided,
  told,
  notes,
  per,
  scale,
  currency,
}: {
  readonly saving: Saving;
  readonly isDecided: boolean;
  readonly told: string;
  readonly notes: string;
  readonly per: string;
  readonly scale: ReturnType<typeof scaleOf>;
  readonly currency: string | undefined;
}) {
  const [mean, low, high] = [saving.saving_cents, saving.low_cents, saving.high_cents].map((cents) =>
    moreMoney(cents, currency),
  );
  return (
    <li className="office-line">
      <div>
        <p>{isDecided ? <strong>{told}</strong> : told}</p>
        <p className="small quiet">{notes}</p>
      </div>
      <IntervalRule
        value={saving.saving_cents}
        low={saving.low_cents}
        high={saving.high_cents}
        {...scale}
        decided={isDecided}
        words={words.interval(mean!, low!, high!)}
      />
      <span className={`figure${isDecided ? " pencil" : " quiet"}`}>
        {isDecided && (
          <>
            <strong>{mean}</strong> {per}
            <br />
          </>
        )}
        <span className="small">{words.between(low!, high!)}</span>
      </span>
    </li>
  );
}

function Proposals({
  list,
  scale,
  currency,
}: {
  readonly list: readonly ProposalView[];
  readonly scale: ReturnType<typeof scaleOf>;
  readonly currency: string | undefined;
}) {
  return (
    <ul className="office-rows">
      {list.map((one) => (
        <SavingLine
          key={`${one.what} ${one.check} ${one.to ?? ""}`}
          saving={one}
          isDecided={one.state !== "undecided"}
          told={sentence(one)}
          notes={`${capital(words.units(one.units))}.`}
          per={words.per}
          scale={scale}
          currency={currency}
        />
      ))}
    </ul>
  );
}

/** Soaks and places that their own hours say to make shorter or longer. */
function SoakLengths({
  soaks,
  currency,
}: {
  readonly soaks: NonNullable<ChecksView["soaks"]>;
  readonly currency: string | undefined;
}) {
  const scale = scaleOf(soaks);
  return (
    <section aria-labelledby="soaks-name">
      <h2 id="soaks-name">{words.soaks}</h2>
      <p>
        {words.soaksLead} <Link href="/soaks">{words.toSoaks}</Link>
      </p>
      <ul className="office-rows">
        {soaks.map((one) => {
          const told = words.soakKinds[one.kind](one.what, plainNumber(one.from_h), plainNumber(one.to_h));
          const missed = one.missed === undefined ? "" : ` ${capital(words.past(one.missed))}.`;
          const isDecided = one.state === "saves";
          return (
            <SavingLine
              key={one.what}
              saving={one}
              isDecided={isDecided}
              told={isDecided ? told : words.soakSilent(told)}
              notes={words.soakPieces(one.pieces, one.failures) + missed}
              per={words.perPiece}
              scale={scale}
              currency={currency}
            />
          );
        })}
      </ul>
    </section>
  );
}

function Sorts({ sorts, currency }: { readonly sorts: ChecksView["sorts"]; readonly currency: string | undefined }) {
  return (
    <section aria-labelledby="sorts-name">
      <h2 id="sorts-name">{words.sorts}</h2>
      <Table
        head={[words.sort, words.possible, words.found]}
        rows={sorts.map(({ fault, count, possible, found }) => ({
          key: fault,
          cells: [
            <>
              {capital(tell(fault))} <span className="figure quiet">{count}</span>
            </>,
            stageWords(possible),
            found.map(({ stage, count: here, mean_cents }) => (
              <span key={stage} className="checks-found">
                {stage === possible ? stageWords(stage) : <strong>{stageWords(stage)}</strong>}{" "}
                <span className="figure">{here}</span>
                {mean_cents > 0 && <span className="quiet small"> {words.at(money(mean_cents, currency))}</span>}
              </span>
            )),
          ],
        }))}
      />
    </section>
  );
}

function Orders({ orders }: Pick<ChecksView, "orders">) {
  return (
    <section aria-labelledby="order-name">
      <h2 id="order-name">{words.order}</h2>
      <p>{words.orderLead}</p>
      {orders.map(({ model, now_min, best_min, best, optimal }) => (
        <details key={model}>
          <summary>
            {model}: <span className="pencil">{words.minutes(now_min.toFixed(0), best_min.toFixed(0))}</span>
          </summary>
          <ol className="numbered checks-order" aria-label={words.show(model)}>
            {best.map((title) => (
              <li key={title}>{title}</li>
            ))}
          </ol>
          <p className="small quiet">{optimal ? words.proven : words.notProven}</p>
        </details>
      ))}
    </section>
  );
}
