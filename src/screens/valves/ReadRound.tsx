import { type FormEvent, useRef, useState } from "react";
import type { TrayView } from "../../workshop/views.ts";
import { By } from "../common/By.tsx";
import { DangerOf } from "../common/Caution.tsx";
import { Choice, Field, numberError, numberOf, Outcome, Recalled } from "../common/fields.tsx";
import { common } from "../common/messages.ts";
import { useBy } from "../common/useBy.ts";
import { useDraft } from "../common/useDraft.ts";
import { useSending } from "../common/useSending.ts";
import { TakeFrom } from "../instruments/TakeFrom.tsx";
import { useTaken } from "../instruments/useTaken.ts";
import { round as words } from "./messages.ts";
import { nextOf, type Phase, readIn, referenceName, sessionOf, type Written } from "./session.ts";
import { type Untimed, writeReadings } from "./write.ts";

const extras = ["gm_mS", "gridCurrent_uA", "leakage_uA", "screen_mA"] as const;
type Extra = (typeof extras)[number];
const units: Readonly<Record<Extra, string>> = {
  gm_mS: "mA/V",
  gridCurrent_uA: "µA",
  leakage_uA: "µA",
  screen_mA: "mA",
};

const askedKey = "stillglow.asked at the tester";

/** Which figures beside the plate current this bench reads; remembered on this machine. */
function useAsked(first: readonly Extra[]) {
  const [asked, setAsked] = useState<readonly Extra[]>(() => {
    try {
      const kept = localStorage.getItem(askedKey);
      return kept === null ? first : extras.filter((extra) => kept.split(" ").includes(extra));
    } catch {
      return first;
    }
  });
  const toggle = (extra: Extra) => {
    const now = asked.includes(extra) ? asked.filter((one) => one !== extra) : [...asked, extra];
    setAsked(extras.filter((one) => now.includes(one)));
    try {
      localStorage.setItem(askedKey, now.join(" "));
    } catch {
      // A browser that keeps nothing asks as it did at first.
    }
  };
  return [asked, toggle] as const;
}

const blank = {
  /** Whose current is being typed, as it was proposed. */
  at: "",
  valve: "",
  section: "",
  plate_mA: "",
  gm_mS: "",
  gridCurrent_uA: "",
  leakage_uA: "",
  screen_mA: "",
  screen_V: "",
  plate_V: "",
  grid_V: "",
};

/** A session at the tester: the current typed, Enter, the next section. */
export function ReadRound({ tray }: { readonly tray: TrayView }) {
  const { limits } = tray;
  const [phase, setPhase] = useState<Phase>(sessionOf(tray));
  const [by, setBy] = useBy();
  const [tester, setTester] = useState(() => usualTester(tray));
  const [isCurve, setCurve] = useState(false);
  const [asked, toggle] = useAsked(
    extras.filter((extra) => (extra === "gridCurrent_uA" || extra === "leakage_uA") && limits?.[extra] !== undefined),
  );
  const draft = useDraft(`tray ${tray.batch} round`, blank);
  const [last, setLast] = useState<{ valve: string }>();
  const [isTried, setTried] = useState(false);
  const taken = useTaken();
  const sending = useSending();
  const form = useRef<HTMLFormElement>(null);
  const { typed } = draft;
  // What was just written counts at once: a quick hand must not be led to the section that it has just read.
  const [written, setWritten] = useState<{ tray: TrayView; phase: Phase; list: readonly Written[] }>();
  const justWritten = written?.tray === tray && written.phase === phase ? written.list : [];
  // A current that is being typed stays with its valve, whatever another bench reads meanwhile.
  const next = proposedAt(typed.at) ?? nextOf(tray, phase, last, justWritten);
  const reference = referenceName(tray);
  const valve = typed.valve.trim() || next?.valve || reference;
  const isReference = valve === reference;
  const section =
    tray.sections.length === 1
      ? tray.sections[0]!
      : typed.section.trim() ||
        (next?.kind === "section" && next.valve === valve ? next.section : "") ||
        tray.sections[0]!;
  const shown = isReference ? [] : asked;

  if (!limits) return null;

  const errors = {
    valve:
      isReference || tray.valves.some((known) => known.valve === valve)
        ? undefined
        : words.unknownValve(valve, tray.batch),
    section: isReference || tray.sections.includes(section) ? undefined : words.unknownSection(section),
    plate_mA: numberError(typed.plate_mA) ?? (numberOf(typed.plate_mA) < 0 ? words.negative : undefined),
    ...Object.fromEntries(shown.map((extra) => [extra, numberError(typed[extra], false)])),
    ...(isCurve && { plate_V: numberError(typed.plate_V), grid_V: numberError(typed.grid_V) }),
    by: by.trim() === "" ? common.needed : undefined,
    tester: tester.trim() === "" ? common.needed : undefined,
  } as Readonly<Record<string, string | undefined>>;

  const submit = (event: FormEvent) => {
    event.preventDefault();
    const scanned = typed.plate_mA.trim();
    if (scanned === reference || tray.valves.some((known) => known.valve === scanned)) {
      return draft.change({ valve: scanned, section: "", plate_mA: "", at: "" });
    }
    const following = emptyAfter(form.current, document.activeElement);
    if (following) return following.focus();
    setTried(true);
    if (Object.values(errors).some((error) => error !== undefined)) return sending.refuse(words.mend);
    const instrument = tester.trim();
    const plate_mA = numberOf(typed.plate_mA);
    const reading: Untimed = isReference
      ? {
          ...taken.idOf(typed.plate_mA, instrument),
          kind: "reference-reading",
          valve,
          type: tray.type,
          plate_mA,
          instrument,
        }
      : {
          ...taken.idOf(typed.plate_mA, instrument),
          kind: "valve-reading",
          valve,
          section,
          phase: isCurve ? "curve" : phase,
          plate_V: isCurve ? numberOf(typed.plate_V) : limits.plate_V,
          grid_V: isCurve ? numberOf(typed.grid_V) : limits.grid_V,
          plate_mA,
          ...Object.fromEntries(
            [...shown, "screen_V" as const]
              .filter((name) => typed[name].trim() !== "")
              .map((name) => [name, numberOf(typed[name])]),
          ),
          instrument,
        };
    const what = isReference ? valve : `${valve} ${tray.sections.length > 1 ? section : ""}`.trim();
    const send = sending.send(async () => {
      await writeReadings(by.trim(), tray, [reading]);
      setLast({ valve });
      if (!isCurve) {
        setWritten({ tray, phase, list: [...justWritten, isReference ? { valve } : { valve, section }] });
      }
      taken.forget();
      setTried(false);
      draft.clear(isCurve ? { ...blank, valve: typed.valve, section: typed.section } : blank);
      return words.written(`${what}: ${typed.plate_mA} mA`);
    });
    // The current's own field waits for the keys again.
    void send.then(
      (isDone) => isDone && form.current?.querySelector<HTMLInputElement>(".round-current input")?.focus(),
    );
  };

  const atFor = (plate_mA: string) => (plate_mA.trim() === "" || next === undefined ? "" : JSON.stringify(next));
  const all = tray.valves.length * tray.sections.length;
  const ask = (name: keyof typeof blank) => ({
    value: typed[name],
    onChange: (now: string) => draft.change({ [name]: now }),
    error: isTried ? errors[name] : undefined,
  });
  return (
    <form className="round" ref={form} onSubmit={submit} noValidate data-takes-codes>
      <DangerOf danger="high-voltage" />
      <p className="quiet">{words.lead}</p>
      <div className="round-terms">
        <Choice
          legend={words.phase}
          value={phase}
          onChange={(now) => setPhase(now as Phase)}
          options={(["cold", "hot"] as const).map((value) => ({ value, label: words.phases[value] }))}
        />
        <div className="fields">
          <Field
            label={words.tester}
            value={tester}
            onChange={setTester}
            list={tray.instruments.map(({ instrument }) => instrument)}
            error={isTried ? errors.tester : undefined}
          />
          <By label={common.by} value={by} onChange={setBy} error={isTried ? errors.by : undefined} />
        </div>
      </div>
      <p className="round-next" role="status">
        {next === undefined
          ? words.allRead
          : next.kind === "reference"
            ? words.nextReference(next.valve)
            : words.next(next.valve, tray.sections.length > 1 ? next.section : "")}
        <span className="quiet"> {words.progress(readIn(tray.valves, phase), all)}</span>
      </p>
      <Recalled isRecalled={draft.isRecalled} clear={() => draft.clear()} />
      <div className="round-fields">
        <Proposed label={words.valve} proposal={next?.valve ?? reference} {...ask("valve")} />
        {tray.sections.length > 1 && !isReference && (
          <Proposed label={words.section} proposal={section} {...ask("section")} />
        )}
        {isCurve && !isReference && (
          <>
            <Field label={words.plate_V} unit="V" numeric {...ask("plate_V")} />
            <Field label={words.grid_V} unit="V" numeric {...ask("grid_V")} />
          </>
        )}
        <div className="round-current">
          <Field
            label={words.plate_mA}
            unit="mA"
            numeric
            {...ask("plate_mA")}
            onChange={(plate_mA) => draft.change({ plate_mA, at: atFor(plate_mA) })}
          />
          <TakeFrom
            quantity="plate_mA"
            onTaken={(figure) => {
              taken.take(figure);
              setTester(figure.instrument);
              draft.change({ plate_mA: figure.value, at: atFor(figure.value) });
            }}
          />
        </div>
        {shown.map((extra) => (
          <div key={extra}>
            <Field label={words[extra]} unit={units[extra]} numeric {...ask(extra)} />
            <TakeFrom quantity={extra} onTaken={({ value }) => draft.change({ [extra]: value })} />
          </div>
        ))}
        {shown.includes("screen_mA") && <Field label={words.screen_V} unit="V" numeric {...ask("screen_V")} />}
      </div>
      <div className="form-end">
        <button type="submit" className="main" disabled={sending.busy}>
          {words.write}
        </button>
        <fieldset className="choice">
          <legend className="quiet">{words.also}</legend>
          <div className="choice-row">
            {extras.map((extra) => (
              <label key={extra} className="choice-option">
                <input type="checkbox" checked={asked.includes(extra)} onChange={() => toggle(extra)} />
                <span>{words[extra]}</span>
              </label>
            ))}
            <label className="choice-option">
              <input type="checkbox" checked={isCurve} onChange={() => setCurve(!isCurve)} />
              <span>{words.curve}</span>
            </label>
          </div>
        </fieldset>
      </div>
      <Outcome busy={sending.busy} said={sending.said} error={sending.error} />
    </form>
  );
}

function proposedAt(kept: string): ReturnType<typeof nextOf> {
  try {
    return JSON.parse(kept) as ReturnType<typeof nextOf>;
  } catch {
    return undefined;
  }
}

interface ProposedProps {
  readonly label: string;
  readonly proposal: string;
  readonly value: string;
  readonly onChange: (typed: string) => void;
  readonly error: string | undefined;
}

/** A field that takes what is proposed when it is left empty; the proposal stands in its hint, not as if typed. */
function Proposed({ label, proposal, ...rest }: ProposedProps) {
  return <Field {...rest} label={label} placeholder={proposal} />;
}

/** The next empty field of the measured figures, where Enter goes before it writes. */
function emptyAfter(form: HTMLFormElement | null, here: Element | null): HTMLInputElement | undefined {
  if (!form || !(here instanceof HTMLInputElement)) return undefined;
  const fields = [...form.querySelectorAll<HTMLInputElement>(".round-fields input")];
  const at = fields.indexOf(here);
  if (at < 0) return undefined;
  // A proposal stands for what is left empty, so an empty field with one is not waited for.
  return fields.slice(at + 1).find((field) => field.value.trim() === "" && field.placeholder === "");
}

/** The instrument that read this tray last, else the one that is tried by the type's reference valve. */
function usualTester(tray: TrayView): string {
  const read = tray.valves.flatMap(({ readings }) => readings);
  const newest = read.toSorted((a, b) => Date.parse(a.at) - Date.parse(b.at)).at(-1);
  return (
    newest?.instrument ??
    tray.instruments.find(({ reference }) => reference === referenceName(tray))?.instrument ??
    (tray.instruments.length === 1 ? tray.instruments[0]!.instrument : "")
  );
}
