import { type FormEvent, useState } from "react";
import { Link } from "wouter";
import type { ClaimView, UnitView } from "../../workshop/views.ts";
import { writeDown } from "../common/api.ts";
import { By } from "../common/By.tsx";
import { DangerOf } from "../common/Caution.tsx";
import { Field, numberError, numberOf, Outcome, Recalled } from "../common/fields.tsx";
import { common } from "../common/messages.ts";
import { minutes, plainNumber } from "../common/number.ts";
import { quantitySaid } from "../common/quantity.ts";
import { StateSign } from "../common/StateSign.tsx";
import { useBy } from "../common/useBy.ts";
import { useDraft } from "../common/useDraft.ts";
import { useSending } from "../common/useSending.ts";
import { TakeFrom } from "../instruments/TakeFrom.tsx";
import { readings } from "./messages.ts";
import { claimsToRead, type Figure } from "./sheets.ts";

/** The two fields of one figure, named so that a draft finds them again whatever else the claim then asks for. */
const fieldsOf = ({ quantity, where }: Figure) =>
  ({ value: `${quantity}, ${where}: value`, doubt: `${quantity}, ${where}: doubt` }) as const;

const doubtError = (typed: string) => numberError(typed) ?? (numberOf(typed) < 0 ? readings.negative : undefined);

function limitsWords({ low, high }: Figure, unit: string): string {
  if (low !== undefined && high !== undefined) return `, ${common.to(plainNumber(low), plainNumber(high))} ${unit}`;
  if (low !== undefined) return `, ${common.ruler.notUnder(`${plainNumber(low)} ${unit}`.trim())}`;
  return high === undefined ? "" : `, ${common.ruler.notOver(`${plainNumber(high)} ${unit}`.trim())}`;
}

interface FormProps {
  readonly unit: UnitView;
  readonly claim: ClaimView;
  readonly instruments: readonly string[];
  readonly tell: (said: string) => void;
}

/** The form of one check: every figure it needs, one instrument, one hand. */
function ReadingForm({ unit, claim, instruments, tell }: FormProps) {
  const figures: readonly Figure[] = claim.figures;
  const [by, setBy] = useBy();
  const blank: Readonly<Record<string, string>> = {
    instrument: figures.find((figure) => figure.instrument)?.instrument ?? "",
    ...Object.fromEntries(figures.flatMap((figure) => Object.values(fieldsOf(figure)).map((name) => [name, ""]))),
  };
  const draft = useDraft(`${unit.unit} reading ${claim.claim}`, blank);
  const instrument = draft.typed.instrument ?? "";
  const [asked, setAsked] = useState(false);
  const sending = useSending();

  const at = (figure: Figure) => {
    const fields = fieldsOf(figure);
    return { value: draft.typed[fields.value] ?? "", doubt: draft.typed[fields.doubt] ?? "" };
  };
  const isTyped = (figure: Figure) => at(figure).value.trim() !== "" || at(figure).doubt.trim() !== "";
  const errors = figures.map((figure) =>
    isTyped(figure) ? { value: numberError(at(figure).value), doubt: doubtError(at(figure).doubt) } : {},
  );

  const submit = (event: FormEvent) => {
    event.preventDefault();
    setAsked(true);
    if (!figures.some(isTyped)) return sending.refuse(readings.nothing);
    const unread = errors.some((error) => error.value || error.doubt);
    if (unread || by.trim() === "" || instrument.trim() === "") return sending.refuse(readings.mend);
    const notes = figures.flatMap((figure) =>
      isTyped(figure)
        ? [
            {
              kind: "reading" as const,
              subject: figure.subject,
              quantity: figure.quantity,
              value: numberOf(at(figure).value),
              doubt: numberOf(at(figure).doubt),
              instrument: instrument.trim(),
            },
          ]
        : [],
    );
    void sending
      .send(async () => {
        await writeDown(by.trim(), notes);
        tell(readings.written(claim.title));
        return "";
      })
      .then((done) => {
        if (!done) return;
        draft.clear();
        setAsked(false);
      });
  };

  return (
    <form className="desk-form" onSubmit={submit} noValidate>
      <DangerOf danger={claim.check.danger} />
      <p className="quiet">{claim.check.how}</p>
      <Recalled isRecalled={draft.isRecalled} clear={() => draft.clear()} />
      {figures.map((figure, i) => {
        const { name, unit: sign } = quantitySaid(figure.quantity);
        return (
          <fieldset className="reading" key={`${figure.quantity} ${figure.where}`}>
            <legend>
              {name}
              <span className="quiet">
                {figure.where && figure.where !== `unit ${unit.unit}` && `, ${figure.where}`}
                {limitsWords(figure, sign)}
              </span>
            </legend>
            <Field
              label={readings.value}
              unit={sign}
              numeric
              value={at(figure).value}
              onChange={(value) => draft.change({ [fieldsOf(figure).value]: value })}
              error={asked ? errors[i]?.value : undefined}
            />
            <Field
              label={readings.doubt}
              unit={sign}
              numeric
              value={at(figure).doubt}
              onChange={(doubt) => draft.change({ [fieldsOf(figure).doubt]: doubt })}
              error={asked ? errors[i]?.doubt : undefined}
            />
            <TakeFrom
              quantity={figure.quantity}
              onTaken={(read) =>
                draft.change({
                  instrument: read.instrument,
                  [fieldsOf(figure).value]: read.value,
                  [fieldsOf(figure).doubt]: read.doubt,
                })
              }
            />
          </fieldset>
        );
      })}
      <div className="fields">
        <Field
          label={readings.instrument}
          value={instrument}
          onChange={(now) => draft.change({ instrument: now })}
          list={instruments}
          error={asked && instrument.trim() === "" ? common.needed : undefined}
        />
        <By value={by} onChange={setBy} isTried={asked} />
      </div>
      <div className="form-end">
        <button type="submit" className="main" disabled={sending.busy}>
          {readings.write}
        </button>
        {claim.sheet === "hum" && (
          <Link href={`/unit/${encodeURIComponent(unit.unit)}/hum#recording`}>{readings.recording}</Link>
        )}
      </div>
      <Outcome busy={sending.busy} said={sending.said} error={sending.error} />
    </form>
  );
}

/** Every check that waits, the next one open. */
export function Readings({ unit, tell }: { readonly unit: UnitView; readonly tell: (said: string) => void }) {
  const waiting = claimsToRead(unit);
  const instruments = [
    ...new Set(unit.claims.flatMap((claim) => claim.figures.flatMap((f) => f.instrument ?? []))),
  ].sort();
  return (
    <section className="desk" id="readings" aria-labelledby="readings-name">
      <h2 id="readings-name">{readings.title}</h2>
      <p className="quiet">{waiting.length === 0 ? readings.none : readings.lead}</p>
      {waiting.map((claim, i) => (
        <details key={claim.claim} open={i === 0} name="reading">
          <summary>
            <span className="summary-title">{claim.title}</span> <StateSign state={claim.state} />{" "}
            <span className="quiet summary-hands">{minutes(claim.check.hands_min)}</span>{" "}
            <DangerOf danger={claim.check.danger} short />
          </summary>
          <ReadingForm unit={unit} claim={claim} instruments={instruments} tell={tell} />
        </details>
      ))}
    </section>
  );
}
