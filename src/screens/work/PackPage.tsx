import { useQuery } from "@tanstack/react-query";
import { type FormEvent, type ReactNode, useRef, useState } from "react";
import { Link } from "wouter";
import type { PackView } from "../../workshop/orders/views.ts";
import { get, writeDown } from "../common/api.ts";
import { By } from "../common/By.tsx";
import { dayAndTime } from "../common/calendar.ts";
import { Field, FormEnd, numberError, numberOf, Recalled } from "../common/fields.tsx";
import { common } from "../common/messages.ts";
import { plainNumber } from "../common/number.ts";
import { useBy } from "../common/useBy.ts";
import { useDraft } from "../common/useDraft.ts";
import { useSending } from "../common/useSending.ts";
import { Answer } from "../common/Waiting.tsx";
import { pack as words } from "./messages.ts";
import "../common/office.css";
import "./work.css";

export default function PackPage({ unit }: { readonly unit: string }) {
  const path = `/api/units/${encodeURIComponent(unit)}/pack`;
  const asked = useQuery({ queryKey: [path], queryFn: () => get<PackView>(path) });
  return (
    <Answer asked={asked} what={words.what(unit)}>
      {(view) => <Pack view={view} />}
    </Answer>
  );
}

type Thing = keyof typeof words.things;

/** What belongs into every parcel; care of the wood into one with a case of it. */
const thingsFor = ({ hasCase }: PackView): readonly Thing[] => [
  "unit",
  "lead",
  "fuse",
  "dossier",
  "cautions",
  ...(hasCase ? (["care"] as const) : []),
  "silica",
];

/** The parcel: its label read aloud, its valves wrapped apart, its papers, and nothing forgotten. */
export function Pack({ view }: { readonly view: PackView }) {
  const { unit, destination, packed, released } = view;
  const at = `/unit/${encodeURIComponent(unit)}`;
  const codes = [unit, ...view.valves.map(({ valve }) => valve)].map(encodeURIComponent).join(",");
  const [volts, hertz] = [plainNumber(destination.nominal_V), plainNumber(destination.frequency_Hz)];
  return (
    <article className="office pack">
      <h1>{words.title(unit)}</h1>
      <p className="lead">{words.goes(destination.place, volts, hertz)}</p>
      {released ? (
        <>
          <p>{words.released(dayAndTime(released.at), released.by)}</p>
          <section aria-labelledby="papers">
            <h2 id="papers">{words.papers}</h2>
            <ul className="office-ways">
              <li>
                <a href={`/api/units/${encodeURIComponent(unit)}/dossier.pdf`}>{words.printDossier}</a>
              </li>
              <li>
                <a href={`/api/labels.pdf?codes=${codes}`}>{words.printLabels}</a>
              </li>
            </ul>
          </section>
          {packed && <Packed packed={packed} />}
          {packed ? (
            <details>
              <summary>{words.putRight}</summary>
              <PackForm key={packed.id} view={view} supersedes={packed.id} />
            </details>
          ) : (
            <PackForm key={released.at} view={view} />
          )}
          {packed && (
            <p>
              <Link href={`${at}/return`}>{words.back}</Link>
            </p>
          )}
        </>
      ) : (
        <p>
          {words.notReleased} <Link href={`${at}#release`}>{words.toFolder}</Link>
        </p>
      )}
    </article>
  );
}

function Packed({ packed }: { readonly packed: NonNullable<PackView["packed"]> }) {
  const { label, valvesApart, leftIn, contents } = packed;
  return (
    <section aria-label={words.contents}>
      <p>
        <strong>{words.packed(dayAndTime(packed.at), packed.by)}</strong>{" "}
        {words.packedLabel(plainNumber(label.nominal_V), plainNumber(label.frequency_Hz))}
      </p>
      <p>{words.packedWith}</p>
      <ul>
        {Object.entries(valvesApart).map(([position, valve]) => (
          <li key={position}>{words.apart(valve, position)}</li>
        ))}
        {leftIn.map((position) => (
          <li key={position}>{words.leftIn(position)}</li>
        ))}
        {contents.map((thing) => (
          <li key={thing}>{thing}</li>
        ))}
        {packed.mass_kg !== undefined && (
          <li>
            {words.mass}: <span className="figure">{plainNumber(packed.mass_kg)} kg</span>
          </li>
        )}
      </ul>
    </section>
  );
}

const positionsIn = (typed: string) => new Set(typed === "" ? [] : typed.split("\n"));
const withOne = (typed: string, name: string, is: boolean) => {
  const now = positionsIn(typed);
  if (is) now.add(name);
  else now.delete(name);
  return [...now].join("\n");
};

type Ticked = "apart" | "leftIn" | "ticked" | "without";

interface PackListProps {
  readonly lines: readonly {
    readonly name: string;
    readonly says: ReactNode;
    /** What is said where it does not go in; left out where it must. */
    readonly otherwise?: ReactNode;
  }[];
  /** Names of the lines ticked, and of those ticked otherwise. */
  readonly ticked: readonly [ReadonlySet<string>, ReadonlySet<string>];
  readonly tick: (name: string, is: boolean) => void;
  readonly tickOtherwise: (name: string, is: boolean) => void;
}

/** What goes into the parcel, line by line: ticked as it goes in, or as it does not. */
function PackList({ lines, ticked: [here, elsewhere], tick, tickOtherwise }: PackListProps) {
  return (
    <ul className="pack-list">
      {lines.map(({ name, says, otherwise }) => (
        <li key={name}>
          <label className="choice-option">
            <input type="checkbox" checked={here.has(name)} onChange={({ target }) => tick(name, target.checked)} />
            <span>{says}</span>
          </label>
          {otherwise !== undefined && (
            <label className="choice-option">
              <input
                type="checkbox"
                checked={elsewhere.has(name)}
                onChange={({ target }) => tickOtherwise(name, target.checked)}
              />
              <span>{otherwise}</span>
            </label>
          )}
        </li>
      ))}
    </ul>
  );
}

function PackForm({ view, supersedes }: { readonly view: PackView; readonly supersedes?: string }) {
  const { unit, valves } = view;
  const draft = useDraft(`pack ${unit}`, {
    volts: "",
    hertz: "",
    apart: "",
    leftIn: "",
    ticked: "",
    without: "",
    more: "",
    mass: "",
  });
  const { typed } = draft;
  const [by, setBy] = useBy();
  const [tried, setTried] = useState(false);
  const [code, setCode] = useState("");
  const [scanned, setScanned] = useState<string>();
  const scan = useRef<HTMLInputElement>(null);
  const sending = useSending();
  const [apart, leftIn] = [positionsIn(typed.apart), positionsIn(typed.leftIn)];
  const [ticked, without] = [positionsIn(typed.ticked), positionsIn(typed.without)];
  const things = thingsFor(view);

  /** A line is in the parcel or it is not: ticking one way takes the other back. */
  const either = (here: Ticked, otherwise: Ticked) => ({
    ticked: [positionsIn(typed[here]), positionsIn(typed[otherwise])] as const,
    tick: (name: string, is: boolean) =>
      draft.change({
        [here]: withOne(typed[here], name, is),
        ...(is && { [otherwise]: withOne(typed[otherwise], name, false) }),
      }),
    tickOtherwise: (name: string, is: boolean) =>
      draft.change({
        [otherwise]: withOne(typed[otherwise], name, is),
        ...(is && { [here]: withOne(typed[here], name, false) }),
      }),
  });
  const take = () => {
    const found = valves.find(({ valve }) => valve === code.trim());
    setScanned(found ? words.scanned(found.valve, found.position) : words.notHere(code.trim()));
    if (found) either("apart", "leftIn").tick(found.position, true);
    setCode("");
    scan.current?.focus();
  };
  const submit = (event: FormEvent) => {
    event.preventDefault();
    setTried(true);
    if (numberError(typed.volts) !== undefined || numberError(typed.hertz) !== undefined)
      return sending.refuse(words.badLabel);
    const unsaid = valves.filter(({ position }) => !apart.has(position) && !leftIn.has(position));
    if (unsaid.length > 0) return sending.refuse(words.lacksValve(unsaid.map(({ valve }) => valve).join(", ")));
    const missing = things.find((thing) => !ticked.has(thing) && !without.has(thing));
    if (missing !== undefined) return sending.refuse(words.lacksThing(words.things[missing]));
    if (by.trim() === "" || numberError(typed.mass, false) !== undefined) return sending.refuse(common.mend);
    void sending
      .send(async () => {
        await writeDown(by.trim(), [
          {
            kind: "packed",
            unit,
            label: { nominal_V: numberOf(typed.volts), frequency_Hz: numberOf(typed.hertz) },
            valvesApart: Object.fromEntries(
              valves.filter(({ position }) => apart.has(position)).map(({ position, valve }) => [position, valve]),
            ),
            leftIn: [...leftIn].filter((position) => !apart.has(position)),
            contents: [
              ...things.filter((thing) => ticked.has(thing)).map((thing) => words.things[thing]),
              ...typed.more
                .split(/[;\n]+/)
                .map((one) => one.trim())
                .filter(Boolean),
            ],
            ...(typed.mass.trim() !== "" && { mass_kg: numberOf(typed.mass) }),
            ...(supersedes !== undefined && { supersedes }),
          },
        ]);
        return words.done(unit);
      })
      .then((done) => {
        if (!done) return;
        draft.clear();
        setTried(false);
      });
  };
  return (
    <form className="desk-form" onSubmit={submit} noValidate>
      <Recalled isRecalled={draft.isRecalled} clear={() => draft.clear()} />
      <h2>{words.label}</h2>
      <p>{words.labelLead}</p>
      <div className="fields">
        <Field
          label={words.volts}
          unit="V"
          numeric
          narrow
          value={typed.volts}
          onChange={(volts) => draft.change({ volts })}
          error={tried ? numberError(typed.volts) : undefined}
        />
        <Field
          label={words.hertz}
          unit="Hz"
          numeric
          narrow
          value={typed.hertz}
          onChange={(hertz) => draft.change({ hertz })}
          error={tried ? numberError(typed.hertz) : undefined}
        />
      </div>
      <h2>{words.valves}</h2>
      {valves.length === 0 ? (
        <p className="quiet">{words.noValves}</p>
      ) : (
        <>
          <p>{words.valvesLead}</p>
          <div className="field field-narrow">
            <label htmlFor="pack-scan">{words.scan}</label>
            <input
              id="pack-scan"
              ref={scan}
              value={code}
              autoComplete="off"
              spellCheck={false}
              data-takes-codes
              onChange={({ target }) => setCode(target.value)}
              onKeyDown={(event) => {
                if (event.key !== "Enter") return;
                event.preventDefault();
                if (code.trim() !== "") take();
              }}
            />
          </div>
          <div role="status">{scanned && <p>{scanned}</p>}</div>
          <PackList
            lines={valves.map(({ position, valve, type }) => ({
              name: position,
              says: (
                <>
                  {words.apart(valve, position)} <span className="quiet">{type}</span>
                </>
              ),
              otherwise: words.leftIn(position),
            }))}
            {...either("apart", "leftIn")}
          />
        </>
      )}
      <h2>{words.contents}</h2>
      <PackList
        lines={things.map((thing) => ({
          name: thing,
          says: words.things[thing],
          otherwise:
            thing === "unit" ? undefined : (
              <>
                {words.without}
                <span className="visually-hidden">: {words.things[thing]}</span>
              </>
            ),
        }))}
        {...either("ticked", "without")}
      />
      <div className="fields">
        <Field
          label={words.more}
          hint={words.moreHint}
          value={typed.more}
          onChange={(more) => draft.change({ more })}
        />
        <Field
          label={words.mass}
          unit="kg"
          numeric
          narrow
          value={typed.mass}
          onChange={(mass) => draft.change({ mass })}
          error={tried ? numberError(typed.mass, false) : undefined}
        />
        <By value={by} onChange={setBy} isTried={tried} />
      </div>
      <FormEnd write={words.write} sending={sending} />
    </form>
  );
}
