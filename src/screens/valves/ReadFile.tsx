import { type ChangeEvent, useId, useState } from "react";
import {
  type Choice as Columns,
  quantities,
  type RowReading,
  readTable,
  rowsOf,
  type Table,
} from "../../workshop/readingsFile.ts";
import type { TrayView } from "../../workshop/views.ts";
import { By } from "../common/By.tsx";
import { Choice, Field, Outcome } from "../common/fields.tsx";
import { common } from "../common/messages.ts";
import { readNumber } from "../common/number.ts";
import { Pick } from "../common/Pick.tsx";
import { useBy } from "../common/useBy.ts";
import { useSending } from "../common/useSending.ts";
import { round, file as words } from "./messages.ts";
import { type Phase, referenceName, sessionOf } from "./session.ts";
import { isSheet, sheetTable } from "./sheetTable.ts";
import { type Untimed, writeReadings } from "./write.ts";

const keyOf = (head: readonly string[]) => `stillglow.columns ${head.join("|")}`;

function recall(head: readonly string[]): Columns | undefined {
  try {
    const kept: unknown = JSON.parse(localStorage.getItem(keyOf(head)) ?? "null");
    if (typeof kept !== "object" || kept === null) return undefined;
    return Object.fromEntries(Object.entries(kept).filter(([, column]) => head.includes(column as string)));
  } catch {
    return undefined;
  }
}

function keep(head: readonly string[], columns: Columns): void {
  try {
    localStorage.setItem(keyOf(head), JSON.stringify(columns));
  } catch {
    // A browser that keeps nothing asks again next time.
  }
}

const number = (typed: string) => {
  const read = readNumber(typed);
  return read.ok ? read.value : undefined;
};

const mostShown = 8;

/** Readings from a table that another program or a hand wrote: which column holds what is chosen once. */
export function ReadFile({ tray }: { readonly tray: TrayView }) {
  const [table, setTable] = useState<Table>();
  const [columns, setColumns] = useState<Columns>({});
  const [isRemembered, setRemembered] = useState(false);
  const [isWide, setWide] = useState(false);
  const [phase, setPhase] = useState<Phase>(sessionOf(tray));
  const [tester, setTester] = useState(tray.instruments.length === 1 ? tray.instruments[0]!.instrument : "");
  const [by, setBy] = useBy();
  const [isTried, setTried] = useState(false);
  const [refused, setRefused] = useState<string>();
  const sending = useSending();
  const id = useId();

  const bring = async (event: ChangeEvent<HTMLInputElement>) => {
    const chosen = event.target.files?.[0];
    if (!chosen) return;
    setTable(undefined);
    setRefused(undefined);
    let read: Table;
    try {
      read = (await isSheet(chosen)) ? await sheetTable(chosen) : readTable(await chosen.text());
    } catch (fault) {
      setRefused(fault instanceof Error ? fault.message : String(fault));
      return;
    }
    const kept = recall(read.head);
    setTable(read);
    setColumns(kept ?? {});
    setRemembered(kept !== undefined);
    setWide(kept !== undefined && Object.keys(kept).some((role) => role.includes(" ")));
  };

  const roles = rolesOf(tray.sections, isWide);
  const chosen = Object.fromEntries(Object.entries(columns).filter(([role]) => roles.includes(role)));
  const { readings, faults } =
    table === undefined
      ? { readings: [], faults: [] }
      : rowsOf(table, chosen, {
          sections: tray.sections,
          valves: tray.valves.map(({ valve }) => valve),
          reference: referenceName(tray),
          phase,
          number,
        });
  const isChosen = chosen.valve !== undefined && Object.keys(chosen).some((role) => role.startsWith("plate_mA"));

  const write = () => {
    setTried(true);
    if (by.trim() === "" || tester.trim() === "" || !table) return;
    keep(table.head, chosen);
    void sending.send(async () => {
      await writeReadings(
        by.trim(),
        tray,
        readings.map((reading) => untimed(reading, tray, tester.trim())),
      );
      setTable(undefined);
      setTried(false);
      return words.written(readings.length);
    });
  };

  return (
    <div className="read-file">
      <p className="quiet">{words.lead}</p>
      <div className="field">
        <label htmlFor={`${id}-file`}>{words.choose}</label>
        <input
          id={`${id}-file`}
          type="file"
          accept=".csv,.tsv,.txt,.xlsx,text/csv,text/plain"
          key={table === undefined ? "waits" : "read"}
          onChange={bring}
        />
      </div>
      {refused !== undefined && (
        <p className="outcome-error" role="alert">
          {refused}
        </p>
      )}
      {table && table.rows.length === 0 && <p className="outcome-error">{words.empty}</p>}
      {table && table.rows.length > 0 && (
        <>
          <h3>{words.columns}</h3>
          {isRemembered && <p className="quiet">{words.remembered}</p>}
          {tray.sections.length > 1 && (
            <Choice
              legend={words.shape}
              value={isWide ? "wide" : "narrow"}
              onChange={(shape) => setWide(shape === "wide")}
              options={[
                { value: "narrow", label: words.shapes.narrow },
                { value: "wide", label: words.shapes.wide },
              ]}
            />
          )}
          <div className="fields">
            {roles.map((role) => (
              <Pick
                key={role}
                label={roleWords(role)}
                value={columns[role] ?? ""}
                onChange={(now) => setColumns(withRole(columns, role, now))}
                none={words.none}
                options={table.head}
              />
            ))}
          </div>
          {!chosen.phase && (
            <Choice
              legend={words.phase}
              value={phase}
              onChange={(now) => setPhase(now as Phase)}
              options={(["cold", "hot"] as const).map((value) => ({ value, label: round.phases[value] }))}
            />
          )}
          <div role="status">
            {!isChosen ? (
              <p>{words.chooseValve}</p>
            ) : readings.length === 0 ? (
              <p>{words.nothing}</p>
            ) : (
              <p>{words.preview(readings.length)}</p>
            )}
          </div>
          {isChosen && readings.length > 0 && <Preview readings={readings} />}
          {isChosen && faults.length > 0 && (
            <>
              <p className="field-error">{words.faults(faults.length)}</p>
              <ul className="file-faults">
                {faults.slice(0, mostShown).map(({ line, words: said }) => (
                  <li key={line}>{words.line(line, said)}</li>
                ))}
                {faults.length > mostShown && <li>…</li>}
              </ul>
            </>
          )}
          {isChosen && readings.length > 0 && (
            <>
              <div className="fields">
                <Field
                  label={round.tester}
                  value={tester}
                  onChange={setTester}
                  list={tray.instruments.map(({ instrument }) => instrument)}
                  error={isTried && tester.trim() === "" ? common.needed : undefined}
                />
                <By value={by} onChange={setBy} isTried={isTried} />
              </div>
              <button type="button" className="main" onClick={write} disabled={sending.busy}>
                {words.write(readings.length)}
              </button>
            </>
          )}
        </>
      )}
      <Outcome busy={sending.busy} said={sending.said} error={sending.error} />
    </div>
  );
}

/** The first readings as they would be written, so that a wrong column shows before it is. */
function Preview({ readings }: { readonly readings: readonly RowReading[] }) {
  return (
    <ul className="file-preview">
      {readings.slice(0, 4).map(({ line, valve, section, phase, quantities: read }) => (
        <li key={`${line} ${section}`}>
          <span className="figure">{[valve, section].filter(Boolean).join(" ")}</span> {phase}:{" "}
          {Object.entries(read)
            .map(([quantity, value]) => `${words.roles[quantity]?.replace(/,.*/, "")} ${value}`)
            .join(", ")}
        </li>
      ))}
    </ul>
  );
}

function rolesOf(sections: readonly string[], isWide: boolean): readonly string[] {
  const figures = isWide ? quantities.flatMap((q) => sections.map((section) => `${q} ${section}`)) : [...quantities];
  return ["valve", ...(isWide || sections.length === 1 ? [] : ["section"]), ...figures, "phase", "time_h"];
}

function roleWords(role: string): string {
  const [quantity = "", section] = role.split(" ");
  const named = words.roles[quantity] ?? quantity;
  return section === undefined ? named : words.ofSection(named, section);
}

function withRole(columns: Columns, role: string, column: string): Columns {
  const { [role]: _, ...rest } = columns;
  return column === "" ? rest : { ...rest, [role]: column };
}

function untimed(reading: RowReading, { type, limits }: TrayView, instrument: string): Untimed {
  const { valve, section, phase, isReference, quantities: read, time_h } = reading;
  const time = time_h === undefined ? {} : { time_h };
  const plate_mA = read.plate_mA!;
  if (isReference) return { kind: "reference-reading", valve, type, plate_mA, instrument, ...time };
  return {
    kind: "valve-reading",
    valve,
    section,
    phase,
    plate_V: limits!.plate_V,
    grid_V: limits!.grid_V,
    ...read,
    plate_mA,
    instrument,
    ...time,
  };
}
