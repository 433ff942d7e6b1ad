import { type FormEvent, useId, useState } from "react";
import type { HumHearingView, WaitingView } from "../../workshop/views.ts";
import { WaitingFiles } from "../bench/WaitingFiles.tsx";
import { postRecording, writeDown } from "../common/api.ts";
import { By } from "../common/By.tsx";
import { Choice, Field, FormEnd, numberError, numberOf, Recalled } from "../common/fields.tsx";
import { common } from "../common/messages.ts";
import { useBy } from "../common/useBy.ts";
import { useDraft } from "../common/useDraft.ts";
import { useSending } from "../common/useSending.ts";
import { bring } from "./messages.ts";

type Part =
  | "name"
  | "fullScale"
  | "channels"
  | "source"
  | "supply"
  | "building"
  | "input"
  | "instrument"
  | "regenerator"
  | "ht"
  | "htDoubt"
  | "htMeter"
  | `valve in ${string}`;

interface Props {
  readonly hearing: HumHearingView;
  readonly fitted: Readonly<Record<string, string>>;
}

/** A name not yet taken: the newest one counted on, else r1. */
function freeName(taken: readonly string[]): string {
  const [, stem = "r", last = String(taken.length)] = /^(.*?)(\d+)$/.exec(taken.at(-1) ?? "") ?? [];
  let number = Number(last) + 1;
  while (taken.includes(`${stem}${number}`)) number += 1;
  return `${stem}${number}`;
}

const typedNumber = (value: number | undefined) => (value === undefined ? "" : String(value));
const positive = (typed: string) => numberError(typed) ?? (numberOf(typed) > 0 ? undefined : bring.positive);
const filled = (typed: string) => (typed.trim() === "" ? common.needed : undefined);

/** The field that holds the valve of a position. */
const fieldOf = (position: string) => `valve in ${position}` as const;

function firstConditions({ hearing, fitted }: Props) {
  const last = hearing.recordings.at(-1);
  const next = hearing.nextRecording;
  return {
    name: freeName(hearing.recordings.map((recording) => recording.recording)),
    fullScale: "",
    channels: "left, right",
    source: next?.supply.source === "regenerated" ? "regenerated" : "building",
    supply: typedNumber(next?.supply.frequency_Hz ?? hearing.building_Hz),
    building: typedNumber(hearing.building_Hz),
    input: last?.input ?? "shorted",
    instrument: "",
    regenerator: hearing.supplies.findLast(({ instrument }) => instrument !== undefined)?.instrument ?? "",
    ht: "",
    htDoubt: "",
    htMeter: "",
    ...Object.fromEntries(
      Object.entries({ ...fitted, ...next?.valves }).map(([position, valve]) => [fieldOf(position), valve]),
    ),
  };
}

/** Brings a WAV file in with its conditions, already set to those of the recording that is asked for. */
export function BringRecording({ hearing, fitted }: Props) {
  const fileId = useId();
  const [by, setBy] = useBy();
  const [file, setFile] = useState<File>();
  const [waits, setWaits] = useState<WaitingView["files"][number]>();
  const draft = useDraft<string>(`${hearing.unit} recording`, firstConditions({ hearing, fitted }));
  const typed = (name: Part) => draft.typed[name] ?? "";
  const positions = Object.keys({ ...fitted, ...hearing.nextRecording?.valves });
  const [asked, setAsked] = useState(false);
  const [round, setRound] = useState(0);
  const sending = useSending();
  const change = (part: Partial<Record<Part, string>>) => draft.change(part);
  const errors = {
    file: file || waits ? undefined : bring.noFile,
    name: filled(typed("name")),
    fullScale: positive(typed("fullScale")),
    channels: filled(typed("channels")),
    supply: positive(typed("supply")),
    building: positive(typed("building")),
    input: filled(typed("input")),
    instrument: filled(typed("instrument")),
    ht: typed("ht").trim() === "" ? undefined : positive(typed("ht")),
    htDoubt: typed("ht").trim() === "" ? undefined : positive(typed("htDoubt")),
    htMeter: typed("ht").trim() === "" ? undefined : filled(typed("htMeter")),
    by: filled(by),
  };
  const isRegenerated = typed("source") === "regenerated";
  const said = (error: string | undefined) => (asked ? error : undefined);

  const submit = (event: FormEvent) => {
    event.preventDefault();
    setAsked(true);
    if (Object.values(errors).some(Boolean)) return sending.refuse(bring.mend);
    const building_Hz = numberOf(typed("building"));
    const names = [...hearing.recordings.map((recording) => recording.recording), typed("name").trim()];
    const htNote = () => ({
      kind: "reading" as const,
      subject: { unit: hearing.unit, point: "HT" },
      quantity: "ht_V",
      value: numberOf(typed("ht")),
      doubt: numberOf(typed("htDoubt")),
      instrument: typed("htMeter").trim(),
      conditions: { during: typed("name").trim() },
    });
    const bringIn = async () => {
      const { file_sha256 } = waits ?? (await postRecording(file!));
      await writeDown(by.trim(), [
        {
          kind: "recording",
          unit: hearing.unit,
          recording: typed("name").trim(),
          file_sha256,
          fullScale_Vpk: numberOf(typed("fullScale")),
          channels: typed("channels")
            .split(/[,;\s]+/)
            .filter(Boolean),
          supply: {
            source: isRegenerated ? "regenerated" : "building",
            frequency_Hz: numberOf(typed("supply")),
            ...(isRegenerated && typed("regenerator").trim() !== "" && { instrument: typed("regenerator").trim() }),
          },
          building_Hz,
          valves: Object.fromEntries(
            positions
              .map((position) => [position, typed(fieldOf(position)).trim()])
              .filter(([, valve]) => valve !== ""),
          ),
          input: typed("input").trim(),
          instrument: typed("instrument").trim(),
          purpose: "hum",
        },
        ...(typed("ht").trim() === "" ? [] : [htNote()]),
      ]);
      return bring.brought(typed("name").trim());
    };
    void sending.send(bringIn).then((done) => {
      if (!done) return;
      setFile(undefined);
      setWaits(undefined);
      setRound(round + 1);
      setAsked(false);
      draft.clear({ ...draft.typed, name: freeName(names) });
    });
  };

  // Where nothing more is asked for, the form keeps out of the way until it is wanted.
  const [isWanted] = useState(hearing.recordings.length === 0 || hearing.nextRecording !== null || draft.isRecalled);
  const form = (
    <>
      <p className="quiet">{bring.lead}</p>
      <form className="bring-form" onSubmit={submit} noValidate>
        <Recalled isRecalled={draft.isRecalled} clear={() => draft.clear()} />
        <WaitingFiles chosen={waits?.file_sha256} onChoose={setWaits} />
        <div className="field" hidden={waits !== undefined}>
          <label htmlFor={fileId}>{bring.file}</label>
          <input
            key={round}
            id={fileId}
            type="file"
            accept=".wav,audio/wav,audio/x-wav"
            aria-invalid={said(errors.file) ? true : undefined}
            aria-describedby={said(errors.file) ? `${fileId}-error` : undefined}
            onChange={(event) => setFile(event.target.files?.[0])}
          />
          {said(errors.file) && (
            <span className="field-error" id={`${fileId}-error`}>
              {errors.file}
            </span>
          )}
        </div>
        <Choice
          legend={bring.source}
          value={typed("source")}
          options={[
            { value: "building", label: bring.building },
            { value: "regenerated", label: bring.regenerated },
          ]}
          onChange={(source) => change({ source })}
        />
        <div className="fields">
          <Field
            label={bring.supply}
            unit="Hz"
            numeric
            value={typed("supply")}
            onChange={(supply) => change({ supply })}
            error={said(errors.supply)}
          />
          <Field
            label={bring.buildingHz}
            unit="Hz"
            numeric
            value={typed("building")}
            onChange={(building) => change({ building })}
            error={said(errors.building)}
          />
          <Field
            label={bring.fullScale}
            unit={common.voltsPeak}
            numeric
            value={typed("fullScale")}
            onChange={(fullScale) => change({ fullScale })}
            error={said(errors.fullScale)}
          />
        </div>
        <div className="fields">
          {isRegenerated && (
            <Field
              label={bring.regenerator}
              hint={bring.regeneratorHint}
              value={typed("regenerator")}
              onChange={(regenerator) => change({ regenerator })}
            />
          )}
          <Field
            label={bring.ht}
            hint={bring.htHint}
            unit="V"
            numeric
            value={typed("ht")}
            onChange={(ht) => change({ ht })}
            error={said(errors.ht)}
          />
          {typed("ht").trim() !== "" && (
            <>
              <Field
                label={bring.htDoubt}
                unit="V"
                numeric
                value={typed("htDoubt")}
                onChange={(htDoubt) => change({ htDoubt })}
                error={said(errors.htDoubt)}
              />
              <Field
                label={bring.htMeter}
                value={typed("htMeter")}
                onChange={(htMeter) => change({ htMeter })}
                error={said(errors.htMeter)}
              />
            </>
          )}
        </div>
        <div className="fields">
          {positions.map((position) => (
            <Field
              key={position}
              label={bring.valve(position)}
              value={typed(fieldOf(position))}
              onChange={(valve) => change({ [fieldOf(position)]: valve })}
            />
          ))}
        </div>
        <div className="fields">
          <Field
            label={bring.channels}
            hint={bring.channelsHint}
            value={typed("channels")}
            onChange={(channels) => change({ channels })}
            error={said(errors.channels)}
          />
          <Field
            label={bring.input}
            hint={bring.inputHint}
            value={typed("input")}
            onChange={(input) => change({ input })}
            error={said(errors.input)}
          />
        </div>
        <div className="fields">
          <Field
            label={bring.name}
            value={typed("name")}
            onChange={(name) => change({ name })}
            error={said(errors.name)}
          />
          <Field
            label={bring.instrument}
            value={typed("instrument")}
            onChange={(instrument) => change({ instrument })}
            error={said(errors.instrument)}
          />
          <By label={common.by} value={by} onChange={setBy} error={said(errors.by)} />
        </div>
        <FormEnd write={bring.send} sending={sending} />
      </form>
    </>
  );
  return (
    <section className="bring" id="recording" aria-labelledby="bring-name">
      {isWanted ? (
        <>
          <h2 id="bring-name">{bring.title}</h2>
          {form}
        </>
      ) : (
        <details open={location.hash === "#recording" || undefined}>
          <summary>
            <h2 id="bring-name">{bring.again}</h2>
          </summary>
          {form}
        </details>
      )}
    </section>
  );
}
