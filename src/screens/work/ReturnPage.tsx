import { useQuery } from "@tanstack/react-query";
import { useState } from "react";
import { Link } from "wouter";
import type { ReserveFit, ReserveView, ReturnView, ThenAndNow } from "../../workshop/orders/views.ts";
import { get } from "../common/api.ts";
import { CautionMark } from "../common/Caution.tsx";
import { dayAndTime } from "../common/calendar.ts";
import { DeskForm } from "../common/DeskForm.tsx";
import { plainNumber, withDoubt } from "../common/number.ts";
import { Papers } from "../common/Papers.tsx";
import { quantitySaid } from "../common/quantity.ts";
import { Table } from "../common/Table.tsx";
import { useArrival } from "../common/useArrival.ts";
import { Answer } from "../common/Waiting.tsx";
import { back as words } from "./messages.ts";
import "../common/office.css";
import "./work.css";

export default function ReturnPage({ unit }: { readonly unit: string }) {
  const path = `/api/units/${encodeURIComponent(unit)}`;
  const asked = useQuery({ queryKey: [`${path}/return`], queryFn: () => get<ReturnView>(`${path}/return`) });
  const reserve = useQuery({
    queryKey: [`${path}/reserve`],
    queryFn: () => get<ReserveView>(`${path}/reserve`),
    enabled: asked.data?.isHere === true,
  });
  return (
    <Answer asked={asked} what={words.what(unit)}>
      {(view) => <Return view={view} {...(reserve.data && { reserve: reserve.data })} />}
    </Answer>
  );
}

/** A unit that came back: what its customer says, what it left with beside today's, and what stands ready for it. */
export function Return({ view, reserve }: { readonly view: ReturnView; readonly reserve?: ReserveView }) {
  const at = `/unit/${encodeURIComponent(view.unit)}`;
  useArrival();
  return (
    <article className="office came-back">
      <h1>{words.title(view.unit)}</h1>
      <p className="caution">
        <CautionMark /> {words.caution}
      </p>
      {view.returns.map(({ id, at: when, says }) => (
        <p key={id}>
          {words.cameBack(dayAndTime(when))} <q>{says}</q>
        </p>
      ))}
      {view.isHere ? (
        <details>
          <summary>{words.newAgain}</summary>
          <ReturnForm unit={view.unit} />
        </details>
      ) : (
        <ReturnForm unit={view.unit} />
      )}
      {view.isHere && (
        <section aria-labelledby="anew">
          <h2 id="anew">{words.readAnew}</h2>
          <ol className="office-ways">
            {[
              { to: `${at}/safety`, name: words.toSafety },
              { to: `${at}/probe`, name: words.toProbe },
              { to: `${at}/hum`, name: words.toHum },
              { to: `${at}/bench`, name: words.toBench },
              { to: `${at}#readings`, name: words.toFolder },
              { to: `${at}/work`, name: words.toWork },
            ].map(({ to, name }) => (
              <li key={to}>
                <Link href={to}>{name}</Link>
              </li>
            ))}
          </ol>
        </section>
      )}
      <section aria-labelledby="figures">
        <h2 id="figures">{words.figures}</h2>
        {view.left ? (
          <>
            <p>{words.left(dayAndTime(view.left.at), view.left.by, view.left.version)}</p>
            <Beside figures={view.figures} />
          </>
        ) : (
          <p className="quiet">{words.neverLeft}</p>
        )}
      </section>
      {reserve && (
        <section aria-labelledby="reserve">
          <h2 id="reserve">{words.reserve}</h2>
          <p>{words.reserveLead}</p>
          <Papers of={["valves.sets"]} />
          {reserve.fits.map((fit) => (
            <Fit key={fit.type} fit={fit} />
          ))}
          {reserve.none.map((type) => (
            <p key={type}>{words.none(type)}</p>
          ))}
        </section>
      )}
      <section aria-labelledby="faults">
        <h2 id="faults">{words.faults}</h2>
        {view.faults.length === 0 ? (
          <p className="quiet">{words.noFault}</p>
        ) : (
          <ul>
            {view.faults.map(({ at: when, fault, what, possible }) => (
              <li key={`${when} ${fault}`}>
                <strong>{fault}</strong> {dayAndTime(when)}. {what}{" "}
                <span className="quiet">{words.possibleAt(titleOf(view, possible))}</span>
              </li>
            ))}
          </ul>
        )}
        {view.returns.length > 0 && <FaultForm view={view} />}
      </section>
    </article>
  );
}

const titleOf = ({ stages }: ReturnView, stage: string) =>
  stage === "customer" ? words.customer : (stages.find((one) => one.stage === stage)?.title ?? stage);

function ReturnForm({ unit }: { readonly unit: string }) {
  return (
    <DeskForm
      form={`return ${unit}`}
      fields={{ says: { label: words.says, wide: true } }}
      write={words.write}
      entries={(typed) => [{ kind: "return", unit, says: typed.text("says") }]}
      done={() => words.written}
    />
  );
}

function Beside({ figures }: { readonly figures: readonly ThenAndNow[] }) {
  const [isWhole, setWhole] = useState(false);
  const read = figures.filter(({ now }) => now);
  const moved = read.filter(({ change }) => change?.state === "moved");
  const shown = isWhole || read.length === 0 ? figures : read;
  const left = figures.length - read.length;
  return (
    <>
      <p role="status">{words.moved(moved.length, read.length)}</p>
      <Table
        className="stacks"
        head={[
          words.figure,
          { words: words.atLeaving, figure: true },
          { words: words.today, figure: true },
          { words: words.change, figure: true },
        ]}
        rows={shown.map((one) => {
          const { name, unit } = quantitySaid(one.quantity);
          const said = (value: { readonly value: number; readonly doubt: number } | undefined) =>
            value ? `${withDoubt(value.value, value.doubt)} ${unit}` : "–";
          return {
            key: `${one.claim} ${one.quantity} ${one.where}`,
            cells: [
              <span key="name">
                {name} <span className="quiet">{one.where}</span>
              </span>,
              said(one.left),
              one.now ? (
                said(one.now)
              ) : (
                <span key="today" className="quiet">
                  {words.notYet}
                </span>
              ),
              one.change ? `${said(one.change)}, ${words.states[one.change.state]}` : "–",
            ],
          };
        })}
      />
      {!isWhole && read.length > 0 && left > 0 && (
        <button type="button" onClick={() => setWhole(true)}>
          {words.showAll(left)}
        </button>
      )}
    </>
  );
}

function Fit({ fit }: { readonly fit: ReserveFit }) {
  const { type, positions, by, cost, doubt, limit_dB, ownParts, considered } = fit;
  return (
    <div className="back-fit">
      <h3>{words.fit(type)}</h3>
      <p>
        {Object.entries(positions).map(([position, valve]) => (
          <span key={position}>
            <span className="quiet">{position}</span> <span className="figure">{valve}</span>{" "}
          </span>
        ))}
      </p>
      <p>
        <strong className="figure pencil">
          {withDoubt(cost, doubt)} {by === "circuit" ? "dB" : "%"}
        </strong>{" "}
        {by === "circuit" ? words.balance(plainNumber(limit_dB ?? 0)) : words.likeness}
      </p>
      <p className="quiet">
        {by === "circuit" && (ownParts ? words.ownParts : words.printed)} {words.best(considered)}
      </p>
    </div>
  );
}

function FaultForm({ view }: { readonly view: ReturnView }) {
  return (
    <DeskForm
      form={`fault of ${view.unit}`}
      fields={{
        fault: { label: words.fault, hint: words.faultHint },
        what: { label: words.whatFound, wide: true },
        possible: {
          label: words.possible,
          first: "customer",
          choices: [
            { value: "customer", label: words.customer },
            ...view.stages.map(({ stage, title }) => ({ value: stage, label: title })),
          ],
        },
        repair_h: { label: words.repair, kind: "number", unit: "h" },
        cost: { label: words.cost, kind: "number", optional: true },
      }}
      write={words.writeFault}
      entries={(typed) => [
        {
          kind: "fault",
          unit: view.unit,
          fault: typed.text("fault"),
          what: typed.text("what"),
          possible: typed.text("possible"),
          found: "customer",
          repair_h: typed.number("repair_h"),
          cost_cents: Math.round(100 * (typed.optional("cost") ?? 0)),
        },
      ]}
      done={(typed) => words.faultDone(typed.text("fault"))}
    />
  );
}
