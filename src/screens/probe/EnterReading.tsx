import { type FormEvent, useEffect, useRef, useState } from "react";
import type { ProbeCardView, ProbeKind, ProbeSuspectsView, ProbeWindowsView } from "../../workshop/views.ts";
import { type Note, writeDown } from "../common/api.ts";
import { By } from "../common/By.tsx";
import { CautionMark } from "../common/Caution.tsx";
import { Choice, Field, numberError, numberOf, Outcome, Recalled } from "../common/fields.tsx";
import { common } from "../common/messages.ts";
import { minutes } from "../common/number.ts";
import { useBy } from "../common/useBy.ts";
import type { useDraft } from "../common/useDraft.ts";
import { useKept } from "../common/useKept.ts";
import { useSending } from "../common/useSending.ts";
import { TakeFrom } from "../instruments/TakeFrom.tsx";
import { useTaken } from "../instruments/useTaken.ts";
import { figure, windowWords } from "./figures.ts";
import { words as cardWords, kindShort, kinds, units, enter as words } from "./messages.ts";
import { isLethal, type Probe, readingAt, windowAt } from "./order.ts";
import { readOhms } from "./resistance.ts";

interface Props {
  readonly card: ProbeCardView;
  readonly windows: ProbeWindowsView | undefined;
  readonly suspects: ProbeSuspectsView | undefined;
  /** What is to be read: chosen by hand, else proposed; nothing when all is read. */
  readonly probe: Probe | undefined;
  readonly isChosen: boolean;
  readonly draft: ReturnType<typeof useDraft<keyof typeof blankReading>>;
  readonly choose: (probe: Probe | undefined) => void;
}

const quantities: Readonly<Record<ProbeKind, string>> = {
  resistance: "resistance_ohm",
  dc: "level_V",
  gain: "gain_dB",
};
const gainProbe_Hz = 1000;
/** What is typed of a reading, and `at` which place. */
export const blankReading = { reading: "", at: "", doubt: "", triedBy: "", trueValue: "", limit: "" };
const all: readonly ProbeKind[] = ["resistance", "dc", "gain"];

/** An ordinary hand-held meter's doubt (common practice); a field left empty takes it. */
const usualDoubt: Readonly<Record<ProbeKind, (value: number) => number>> = {
  resistance: (ohm) => 0.01 * ohm + 0.2,
  dc: (volts) => 0.005 * Math.abs(volts) + 0.02,
  gain: () => 0.1,
};

/** One reading: its place and its window, the value, Enter, and the next place is proposed. */
export function EnterReading({ card, windows, suspects, probe, isChosen, draft, choose }: Props) {
  const [by, setBy] = useBy();
  const [meter, setMeter] = useKept("stillglow.meter", card.instruments.length === 1 ? card.instruments[0]! : "");
  const [load, setLoad] = useKept("stillglow.meter load", String(card.meter_Mohm));
  const [isTried, setTried] = useState(false);
  const taken = useTaken();
  const sending = useSending();
  const form = useRef<HTMLFormElement>(null);
  const place = probe && `${probe.kind} ${probe.point}`;
  const before = useRef(place);
  useEffect(() => {
    if (before.current === place) return;
    before.current = place;
    form.current?.querySelector<HTMLInputElement>(".probe-reading input")?.focus({ preventScroll: true });
  }, [place]);

  if (!probe) return <p className="probe-done">{words.done}</p>;

  const { kind } = probe;
  const point = card.points.find((known) => known.point === probe.point)!;
  const number = card.points.indexOf(point) + 1;
  const told = suspects?.nextProbe;
  const isTold = !isChosen && told?.point === probe.point && told.kind === kind;
  const input = (isTold ? told.input : undefined) ?? point.input;
  const to = (isTold ? told.to : undefined) ?? card.ground;
  const window = windowAt(windows, probe);
  const standing = readingAt(point, kind);
  const { typed } = draft;
  const value = kind === "resistance" ? readOhms(typed.reading) : typedValue(typed.reading);
  const isNewMeter = meter.trim() !== "" && !card.instruments.includes(meter.trim());
  const kindsHere = all.filter((one) => one !== "gain" || input !== undefined);

  const errors = {
    reading: readingError(typed.reading, kind, value),
    doubt:
      numberError(typed.doubt, false) ??
      (typedValue(typed.doubt) !== undefined && typedValue(typed.doubt)! < 0 ? words.negative : undefined),
    meter: meter.trim() === "" ? common.needed : undefined,
    load: kind === "dc" ? numberError(load) : undefined,
    by: by.trim() === "" ? common.needed : undefined,
    ...(isNewMeter && {
      triedBy: typed.triedBy.trim() === "" ? common.needed : undefined,
      trueValue: numberError(typed.trueValue),
      limit: numberError(typed.limit),
    }),
  } as Readonly<Record<string, string | undefined>>;

  const submit = (event: FormEvent) => {
    event.preventDefault();
    setTried(true);
    if (value === undefined || Object.values(errors).some(Boolean)) return sending.refuse(words.mend);
    const instrument = meter.trim();
    const doubt = typedValue(typed.doubt) ?? Number(usualDoubt[kind](value).toPrecision(2));
    const conditions: Readonly<Record<ProbeKind, Record<string, string | number>>> = {
      resistance: { to, state: "dead" },
      dc: { meter_Mohm: typedValue(load) ?? card.meter_Mohm },
      gain: { input: input ?? "", frequency_Hz: gainProbe_Hz },
    };
    const isSamePlace = kind !== "resistance" || standing?.to === undefined || standing.to === to;
    const notes: Note[] = [
      ...(isNewMeter
        ? [
            {
              kind: "instrument" as const,
              instrument,
              title: instrument,
              trial: {
                reference: typed.triedBy.trim(),
                quantity: quantities[kind],
                true: numberOf(typed.trueValue),
                limit: Math.abs(numberOf(typed.limit)),
              },
            },
          ]
        : []),
      {
        ...taken.idOf(typed.reading, instrument),
        kind: "reading",
        subject: { unit: card.unit, point: probe.point },
        quantity: quantities[kind],
        value,
        doubt,
        instrument,
        conditions: conditions[kind],
        ...(standing && isSamePlace && { supersedes: standing.evidence }),
      },
    ];
    // Cleared at once, not when the suspects are worked out anew: the next reading is typed meanwhile.
    void sending.send(async () => {
      await writeDown(by.trim(), notes);
      draft.clear();
      taken.forget();
      setTried(false);
      choose(undefined);
      return words.written(`${number} ${probe.point}`, figure(value, kind));
    });
  };

  const step = (places: number) => {
    const next = card.points[(number - 1 + places + card.points.length) % card.points.length]!;
    choose({ kind, point: next.point });
  };
  const ask = (name: Exclude<keyof typeof blankReading, "reading" | "at">) => ({
    value: typed[name],
    onChange: (now: string) => draft.change({ [name]: now }),
    error: isTried ? errors[name] : undefined,
  });
  const from =
    kind === "gain" ? words.from.gain(input ?? "") : words.from[kind](to === card.ground ? words.ground : to);
  return (
    <form className="probe-form" ref={form} onSubmit={submit} noValidate>
      <p className="probe-eyebrow">{isChosen ? words.chosen : words.next}</p>
      <h2 className="probe-here" aria-live="polite">
        <span className="probe-number figure">{number}</span>
        <span>
          {probe.point}
          <span className="probe-what">
            {kinds[kind]}, {from}
          </span>
        </span>
      </h2>
      <DangerHere kind={kind} point={probe.point} windows={windows} />
      {isTold && (
        <p className="probe-why pencil">
          {told.why} {words.minutes(minutes(told.minutes))}
        </p>
      )}
      <p className="pencil">{window ? words.window(windowWords(window, kind)) : words.noWindow}</p>
      <Recalled isRecalled={draft.isRecalled} clear={() => draft.clear()} />
      <div className="probe-fields">
        <div className="probe-reading">
          <Field
            label={words.reading}
            unit={units[kind]}
            numeric={kind !== "resistance"}
            {...(kind === "resistance" && { hint: words.ohmHint })}
            value={typed.reading}
            onChange={(reading) => draft.change({ reading, at: reading.trim() === "" ? "" : JSON.stringify(probe) })}
            error={isTried ? errors.reading : undefined}
          />
        </div>
        <Field
          label={words.doubt}
          unit={units[kind]}
          numeric
          placeholder={value === undefined ? "" : usualDoubt[kind](value).toPrecision(2)}
          {...ask("doubt")}
        />
      </div>
      <TakeFrom
        quantity={quantities[kind]}
        onTaken={(figure) => {
          taken.take(figure);
          setMeter(figure.instrument);
          draft.change({ reading: figure.value, doubt: figure.doubt, at: JSON.stringify(probe) });
        }}
      />
      {standing && <p className="quiet small">{words.replaces(figure(standing.value, kind))}</p>}
      <div className="form-end">
        <button type="submit" className="main" disabled={sending.busy}>
          {words.write}
        </button>
        <button type="button" onClick={() => step(-1)}>
          {words.before}
        </button>
        <button type="button" onClick={() => step(1)}>
          {words.after}
        </button>
      </div>
      <Outcome busy={sending.busy} said={sending.said} error={sending.error} />
      <Choice
        legend={words.what}
        value={kind}
        onChange={(now) => choose({ kind: now as ProbeKind, point: probe.point })}
        options={kindsHere.map((one) => ({ value: one, label: kindShort[one] }))}
      />
      <div className="fields">
        <Field
          label={words.meter}
          value={meter}
          onChange={setMeter}
          list={card.instruments}
          error={isTried ? errors.meter : undefined}
        />
        {kind === "dc" && (
          <Field
            label={words.meterLoad}
            unit="MΩ"
            numeric
            value={load}
            onChange={setLoad}
            error={isTried ? errors.load : undefined}
          />
        )}
        <By label={common.by} value={by} onChange={setBy} error={isTried ? errors.by : undefined} />
      </div>
      {isNewMeter && (
        <fieldset className="new-meter">
          <legend>{words.unknownMeter(meter.trim())}</legend>
          <div className="fields">
            <Field label={words.triedBy} hint={words.triedByHint} {...ask("triedBy")} />
            <Field label={words.trueValue} unit={units[kind]} numeric {...ask("trueValue")} />
            <Field label={words.limit} unit={units[kind]} numeric {...ask("limit")} />
          </div>
        </fieldset>
      )}
    </form>
  );
}

/** What can hurt at this probe, in ink beside it. */
function DangerHere({ kind, point, windows }: Probe & { readonly windows: ProbeWindowsView | undefined }) {
  const { dead, live, low } = cardWords.cautions;
  const said = kind === "resistance" ? dead : isLethal(point, windows) ? live : low;
  return (
    <p className="caution">
      <CautionMark />
      <span>{said}</span>
    </p>
  );
}

function readingError(typed: string, kind: ProbeKind, value: number | undefined): string | undefined {
  if (kind !== "resistance") return numberError(typed);
  if (typed.trim() === "") return common.needed;
  if (value === undefined) return words.notOhm(typed);
  return value < 0 ? words.negativeOhm : undefined;
}

function typedValue(typed: string): number | undefined {
  return numberError(typed) === undefined ? numberOf(typed) : undefined;
}
