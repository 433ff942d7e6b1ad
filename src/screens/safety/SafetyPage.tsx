import { useQuery } from "@tanstack/react-query";
import { useState } from "react";
import { Link } from "wouter";
import type { SafetyFigureView, SafetySheetView } from "../../workshop/safety/views.ts";
import { get } from "../common/api.ts";
import { CautionMark, DangerOf } from "../common/Caution.tsx";
import { dayAndTime } from "../common/calendar.ts";
import { channelWords } from "../common/channel.ts";
import { Field, numberError, numberOf } from "../common/fields.tsx";
import { inHundred, plainNumber, withDoubt } from "../common/number.ts";
import { Papers } from "../common/Papers.tsx";
import { quantitySaid } from "../common/quantity.ts";
import { StateSign, StopSign } from "../common/StateSign.tsx";
import { capital, inWords } from "../common/sentence.ts";
import { Answer, Empty } from "../common/Waiting.tsx";
import { WindowRuler } from "../common/WindowRuler.tsx";
import { tell } from "../languages/sentences/told.ts";
import { words } from "./messages.ts";
import { ReadingForm } from "./ReadingForm.tsx";
import { Stores } from "./Stores.tsx";
import { Loudest, Surfaces } from "./Surfaces.tsx";
import "../common/office.css";
import "./safety.css";

export default function SafetyPage({ unit }: { readonly unit: string }) {
  const path = `/api/units/${encodeURIComponent(unit)}/safety`;
  const asked = useQuery({ queryKey: [path], queryFn: () => get<SafetySheetView>(path) });
  return (
    <Answer asked={asked} what={words.what(unit)}>
      {(sheet) => <SafetySheet sheet={sheet} />}
    </Answer>
  );
}

/** Every safety test of a unit in the order that protects whoever makes it, each with its limit, reading and verdict. */
export function SafetySheet({ sheet }: { readonly sheet: SafetySheetView }) {
  const { unit, model, place, supply, market, state, figures, headphones, cautions } = sheet;
  return (
    <article className="office safety">
      <h1>{words.title(unit)}</h1>
      {place && supply && <p className="lead">{words.goes(model, place, supply.nominal_V, supply.frequency_Hz)}</p>}
      <p className={`safety-state${state === "refuted" ? " safety-stop" : ""}`} role="status">
        {state === "refuted" && <StopSign />}
        <strong>{figures.length === 0 ? words.emptyTitle : words.states[state]}</strong>
      </p>
      <p className="small">{market ? words.market(market.market, market.edition, market.by) : words.noMarket}</p>
      <ul className="office-ways">
        <li>
          <Link href={`/unit/${encodeURIComponent(unit)}`}>{words.toUnit}</Link>
        </li>
        <li>
          <Link href="/safety">{words.toLimits}</Link>
        </li>
        <li>
          <Link href="/instruments">{words.toInstruments}</Link>
        </li>
      </ul>
      <section aria-labelledby="cautions-name" className="safety-cautions">
        <h2 id="cautions-name">{words.cautions}</h2>
        <ul>
          {cautions.map((caution) => (
            <li key={caution} className="caution">
              <CautionMark />
              <span>{caution}</span>
            </li>
          ))}
        </ul>
      </section>
      {figures.length === 0 ? (
        <Empty title={words.emptyTitle}>{words.empty}</Empty>
      ) : (
        <section aria-labelledby="order-name">
          <h2 id="order-name">{words.order}</h2>
          <Papers of={["safety.verdict"]} />
          <p>{words.orderWhy}</p>
          <ol className="office-rows safety-tests">
            {figures.map((figure, i) => (
              <Test
                key={`${figure.claim} ${figure.quantity} ${figure.point ?? ""} ${figure.channel ?? ""}`}
                sheet={sheet}
                figure={figure}
                number={i + 1}
              />
            ))}
          </ol>
        </section>
      )}
      {headphones.length > 0 && <Jack headphones={headphones} greatest_Vrms={sheet.greatest_Vrms} />}
      <Stores stores={sheet.stores} />
      <Surfaces touch={sheet.touch} />
    </article>
  );
}

function Test({
  sheet,
  figure,
  number,
}: {
  readonly sheet: SafetySheetView;
  readonly figure: SafetyFigureView;
  readonly number: number;
}) {
  const [isOpen, setOpen] = useState(figure.state === "open" || figure.state === "void");
  const {
    test,
    point,
    channel,
    how,
    caution,
    danger,
    low,
    high,
    limit,
    state,
    value,
    doubt,
    instrument,
    at,
    waitsFor,
    acceptance,
  } = figure;
  const { unit } = quantitySaid(figure.quantity);
  const withUnit = (x: number) => `${plainNumber(x)} ${unit}`.trim();
  const bounds = [
    low === undefined ? "" : words.atLeast(withUnit(low)),
    high === undefined ? "" : words.atMost(withUnit(high)),
  ].filter(Boolean);
  const mustWait = waitsFor.length > 0 && state !== "proven";
  return (
    <li>
      <div className="safety-head">
        <h3>
          <span className="safety-number">{number}</span> {capital(test)}
          {(point ?? channel) && <span className="quiet">, {point ?? channelWords(channel!)}</span>}
        </h3>
        <StateSign state={state} />
      </div>
      <p>{how}.</p>
      {caution && (
        <p className="caution">
          <CautionMark />
          <span>{caution}</span>
        </p>
      )}
      {!caution && <DangerOf danger={danger} />}
      <div className="safety-figure">
        <WindowRuler
          {...(value !== undefined && { value })}
          {...(doubt !== undefined && { doubt })}
          {...(low !== undefined && { low })}
          {...(high !== undefined && { high })}
          unit={unit}
          struck={state === "void"}
        />
        <div>
          <p>
            {value === undefined ? (
              words.notRead
            ) : (
              <>
                <strong className="figure">
                  {withDoubt(value, doubt)} {unit}
                </strong>{" "}
                <span className="quiet">{instrument && at && words.read(instrument, dayAndTime(at))}</span>
              </>
            )}
          </p>
          <p className="small">
            {words.limit(bounds.join(", "))}{" "}
            <span className="quiet">
              ({limit.seen === "model" ? tell(limit.source) : limit.source}; {words.seen[limit.seen]})
            </span>
          </p>
          {acceptance !== undefined && (
            <p className="small pencil">
              {high === undefined ? words.proveFrom(withUnit(acceptance)) : words.proveUpTo(withUnit(acceptance))}{" "}
              {figure.riskFalseAccept !== undefined &&
                state === "undecided" &&
                words.risk(inHundred(figure.riskFalseAccept))}
            </p>
          )}
        </div>
      </div>
      {state === "void" && (
        <p>
          <strong>{words.repeat}</strong> {inWords(capital(figure.because), [figure.quantity])}.
        </p>
      )}
      {(state === "refuted" || state === "undecided") && <p>{inWords(capital(figure.because), [figure.quantity])}.</p>}
      {figure.outOfTurn.length > 0 && (
        <p className="caution">
          <CautionMark />
          <span>{words.outOfTurn(figure.outOfTurn.join(", "))}</span>
        </p>
      )}
      {mustWait ? (
        <p className="safety-wait">{words.wait(waitsFor.join(", "))}</p>
      ) : (
        <details open={isOpen} onToggle={(event) => setOpen(event.currentTarget.open)}>
          <summary>{words.enter}</summary>
          <ReadingForm sheet={sheet} figure={figure} />
        </details>
      )}
    </li>
  );
}

function Jack({ headphones, greatest_Vrms }: Pick<SafetySheetView, "headphones" | "greatest_Vrms">) {
  const [typed, setTyped] = useState(greatest_Vrms === undefined ? "" : String(greatest_Vrms));
  const greatest = numberError(typed) === undefined ? numberOf(typed) : undefined;
  const level = (at80_Vrms: number) =>
    greatest === undefined || greatest <= 0 ? undefined : 80 + 20 * Math.log10(greatest / at80_Vrms);
  const volts = (v: number) => (v < 1 ? `${plainNumber(1000 * v)} mV` : `${plainNumber(v)} V`);
  return (
    <section aria-labelledby="jack-name">
      <h2 id="jack-name">{words.jack}</h2>
      <Papers of={["safety.jack"]} />
      <p>{words.jackLead}</p>
      <div className="safety-greatest">
        <Field
          label={words.greatest}
          hint={words.greatestHint}
          value={typed}
          onChange={setTyped}
          unit="V"
          numeric
          narrow
          {...(typed.trim() !== "" && numberError(typed) ? { error: numberError(typed)! } : {})}
        />
      </div>
      <div className="office-scroll">
        <table className="stacks">
          <thead>
            <tr>
              <th scope="col">{words.headphone}</th>
              <th scope="col" className="figure">
                {words.at80}
              </th>
              <th scope="col" className="figure">
                {words.at100}
              </th>
              <th scope="col" className="figure">
                {words.dc}
              </th>
              {greatest !== undefined && (
                <>
                  <th scope="col" className="figure">
                    {words.atMostLevel}
                  </th>
                  <th scope="col" className="figure">
                    {words.hoursAWeek}
                  </th>
                </>
              )}
            </tr>
          </thead>
          <tbody>
            {headphones.map(({ headphone, impedance_ohm, at80_Vrms, at100_Vrms, dc_mW }) => (
              <tr key={headphone}>
                <th scope="row">
                  {headphone} <span className="quiet small">{impedance_ohm} Ω</span>
                </th>
                <td className="figure pencil" data-label={words.at80}>
                  {volts(at80_Vrms)}
                </td>
                <td className="figure pencil" data-label={words.at100}>
                  {volts(at100_Vrms)}
                </td>
                <td className="figure pencil" data-label={words.dc}>
                  {dc_mW === undefined ? "" : `${plainNumber(1000 * dc_mW)} µW`}
                </td>
                {greatest !== undefined && <Loudest level_dB={level(at80_Vrms)} />}
              </tr>
            ))}
          </tbody>
        </table>
      </div>
      <p className="small">
        {words.dose} <span className="quiet">{words.doseSource}</span>
      </p>
    </section>
  );
}
