import { type FormEvent, useId, useState } from "react";
import type { BenchSheetView } from "../../workshop/bench/views.ts";
import type { WaitingView } from "../../workshop/views.ts";
import { postRecording, writeDown } from "../common/api.ts";
import { By } from "../common/By.tsx";
import { CautionMark } from "../common/Caution.tsx";
import { Choice, Field, numberOf, Outcome, Recalled } from "../common/fields.tsx";
import { common } from "../common/messages.ts";
import { plainNumber } from "../common/number.ts";
import { useBy } from "../common/useBy.ts";
import { useDraft } from "../common/useDraft.ts";
import { useSending } from "../common/useSending.ts";
import { CaptureDesk } from "./CaptureDesk.tsx";
import { canRecord } from "./capture/capture.ts";
import {
  asksFor,
  errorsOf,
  type Part,
  recordingNote,
  type Surroundings,
  stimulusOf,
  type Typed,
} from "./conditions.ts";
import { InputChoice } from "./InputChoice.tsx";
import { Loopback } from "./Loopback.tsx";
import { file as fileWords, take, words } from "./messages.ts";
import { type Take, useCapture } from "./useCapture.ts";
import { WaitingFiles } from "./WaitingFiles.tsx";

interface Props {
  readonly sheet: BenchSheetView;
  readonly conditions?: Surroundings;
}

/** A name not yet taken. */
function freeName(taken: readonly string[]): string {
  let number = taken.length + 1;
  while (taken.includes(`b${number}`)) number += 1;
  return `b${number}`;
}

function blankOf({ sheet, conditions }: Props, taken: readonly string[]): Typed {
  const recorder = sheet.recorders.find(({ calibratedAt }) => calibratedAt !== undefined);
  const fullScale = recorder?.channels[0]?.fullScale_Vpk;
  return {
    purpose: "tone",
    name: freeName(taken),
    instrument: recorder?.instrument ?? "",
    fullScale: fullScale === undefined ? "" : plainNumber(fullScale),
    channels: "left, right",
    seconds: "10",
    rate: "",
    tone: "1000",
    low: "60",
    high: "7000",
    products: "modulation",
    start: "10",
    stop: "40000",
    sweepTime: "10",
    level: "20",
    sent: "",
    driven: "both",
    volume: "",
    load: "",
    coupling: "unknown",
    source: "building",
    supply: conditions ? plainNumber(conditions.building_Hz) : "",
  };
}

/** Makes a recording here, or brings one that a recorder made, with everything that must be known of it. */
export function TakeRecording({ sheet, conditions }: Props) {
  const fileId = useId();
  const taken = sheet.recordings.map(({ recording }) => recording);
  const [by, setBy] = useBy();
  const draft = useDraft<Part>(`${sheet.unit} bench`, blankOf({ sheet, conditions }, taken));
  const [device, setDevice] = useState("");
  const [file, setFile] = useState<File>();
  const [waits, setWaits] = useState<WaitingView["files"][number]>();
  const [round, setRound] = useState(0);
  const [asked, setAsked] = useState(false);
  const { state, begin, stop, clear } = useCapture(`${sheet.unit} bench`);
  const sending = useSending();
  const typed = draft.typed;
  const errors = errorsOf(typed);
  const said = (part: Part) => (asked ? errors[part] : undefined);
  const channels = typed.channels.split(/[,;\s]+/).filter(Boolean);
  const isReady = Object.keys(errors).length === 0 && by.trim() !== "";

  const field = (part: Part, label: string, more: { unit?: string; hint?: string; text?: boolean } = {}) => (
    <Field
      label={label}
      unit={more.unit}
      hint={more.hint}
      numeric={!more.text}
      value={typed[part]}
      onChange={(value) => draft.change({ [part]: value })}
      error={said(part)}
    />
  );

  const record = (event: FormEvent) => {
    event.preventDefault();
    setAsked(true);
    if (!isReady) return;
    void begin({
      stimulus: stimulusOf(typed),
      record_s: asksFor(typed.purpose, "seconds") ? numberOf(typed.seconds) : 0,
      driven: typed.driven === "left" || typed.driven === "right" ? typed.driven : "both",
      ...(device !== "" && { device }),
      ...(typed.rate.trim() !== "" && { rate_Hz: numberOf(typed.rate) }),
    });
  };

  const write = (wav: Blob | WaitingView["files"][number], names?: readonly string[]) =>
    sending
      .send(async () => {
        const { file_sha256 } = wav instanceof Blob ? await postRecording(wav) : wav;
        const about = {
          unit: sheet.unit,
          file_sha256,
          building_Hz: conditions?.building_Hz ?? numberOf(typed.supply),
          valves: conditions?.fitted ?? {},
        };
        const note = recordingNote(typed, about);
        await writeDown(by.trim(), [names ? { ...note, channels: [...names] } : note]);
        return take.kept(note.recording);
      })
      .then((done) => {
        if (!done) return;
        if (names) clear();
        setFile(undefined);
        setWaits(undefined);
        setRound(round + 1);
        setAsked(false);
        draft.clear({ ...typed, name: freeName([...taken, typed.name.trim()]) });
      });

  const after = (made: Take) => (
    <>
      <button
        type="button"
        className="main"
        disabled={sending.busy}
        onClick={() => void write(made.wav, channels.slice(0, made.samples.length))}
      >
        {take.keep}
      </button>
      <a className="button" href={URL.createObjectURL(made.wav)} download={`${sheet.unit}-${typed.name.trim()}.wav`}>
        {take.saveFile}
      </a>
      <button type="button" onClick={() => clear()}>
        {take.discard}
      </button>
    </>
  );

  const bring = () => {
    setAsked(true);
    const brought = waits ?? file;
    if (!brought) return sending.refuse(fileWords.missing);
    if (!isReady) return sending.refuse(take.mend);
    void write(brought);
  };

  return (
    <section className="take" id="record" aria-labelledby="take-name">
      <h2 id="take-name">{take.title}</h2>
      <p className="quiet">{take.lead}</p>
      <p className="caution">
        <CautionMark />
        <span>{take.caution}</span>
      </p>
      <form className="take-form" onSubmit={record} noValidate>
        <Recalled isRecalled={draft.isRecalled} clear={() => draft.clear()} />
        <Choice
          legend={take.purpose}
          value={typed.purpose}
          options={["tone", "two tones", "sweep", "noise", "tap", "switching on", "supply"].map((value) => ({
            value,
            label: purposeName(value),
          }))}
          onChange={(purpose) => draft.change({ purpose })}
        />
        <div className="fields">
          {typed.purpose === "tone" && field("tone", take.tone, { unit: "Hz" })}
          {typed.purpose === "two tones" && field("low", take.low, { unit: "Hz" })}
          {typed.purpose === "two tones" && field("high", take.high, { unit: "Hz" })}
          {typed.purpose === "sweep" && field("start", take.start, { unit: "Hz" })}
          {typed.purpose === "sweep" && field("stop", take.stop, { unit: "Hz" })}
          {typed.purpose === "sweep" && field("sweepTime", take.sweepTime, { unit: "s" })}
          {asksFor(typed.purpose, "seconds") && field("seconds", take.seconds, { unit: "s" })}
          {asksFor(typed.purpose, "level") && field("level", take.level, { unit: "dB", hint: take.levelHint })}
          {asksFor(typed.purpose, "sent") && field("sent", take.sent, { unit: common.voltsPeak, hint: take.sentHint })}
        </div>
        {typed.purpose === "two tones" && (
          <Choice
            legend={take.products}
            value={typed.products}
            options={[
              { value: "modulation", label: take.modulation },
              { value: "difference", label: take.difference },
            ]}
            onChange={(products) =>
              draft.change(
                products === "modulation"
                  ? { products, low: "60", high: "7000" }
                  : { products, low: "18000", high: "19000" },
              )
            }
          />
        )}
        {asksFor(typed.purpose, "coupling") && (
          <>
            <p className="caution">
              <CautionMark />
              <span>{take.switchingOn}</span>
            </p>
            <Choice
              legend={take.coupling}
              value={typed.coupling}
              options={[
                { value: "dc", label: take.couplings.dc },
                { value: "ac", label: take.couplings.ac },
                { value: "unknown", label: take.couplings.unknown },
              ]}
              onChange={(coupling) => draft.change({ coupling })}
            />
          </>
        )}
        {asksFor(typed.purpose, "level") && (
          <Choice
            legend={take.driven}
            value={typed.driven}
            options={[
              { value: "both", label: take.both },
              { value: "left", label: take.left },
              { value: "right", label: take.right },
            ]}
            onChange={(driven) => draft.change({ driven })}
          />
        )}
        <div className="fields">
          {field("volume", take.volume, { hint: take.volumeHint, text: true })}
          {field("load", take.load, { unit: "Ω" })}
        </div>
        <Choice
          legend={take.source}
          value={typed.source}
          options={[
            { value: "building", label: take.building },
            { value: "regenerated", label: take.regenerated },
          ]}
          onChange={(source) => draft.change({ source })}
        />
        <div className="fields">
          {field("supply", take.supply, { unit: "Hz" })}
          <Field
            label={take.instrument}
            value={typed.instrument}
            list={sheet.instruments}
            onChange={(instrument) => draft.change({ instrument })}
            error={said("instrument")}
          />
          {field("fullScale", take.fullScale, { unit: common.voltsPeak, hint: take.fullScaleHint })}
          {field("channels", take.channels, { hint: take.channelsHint, text: true })}
          {field("name", take.name, { text: true })}
          <By value={by} onChange={setBy} isTried={asked} />
        </div>
        {canRecord() ? (
          <>
            <div className="fields">
              <InputChoice value={device} onChange={setDevice} />
              {field("rate", take.rate, { unit: "Hz", hint: take.rateHint })}
            </div>
            {state.at === "rest" && (
              <button type="submit" className="main">
                {take.begin}
              </button>
            )}
            {asked && !isReady && state.at === "rest" && (
              <p role="alert" className="outcome-error">
                {take.mend}
              </p>
            )}
            <CaptureDesk state={state} channels={channels} stop={stop} after={after} />
          </>
        ) : (
          <p>{take.insecure}</p>
        )}
        <Outcome busy={sending.busy} said={sending.said} error={sending.error} />
      </form>
      <div className="take-file">
        <h3>{fileWords.title}</h3>
        <p className="quiet">{fileWords.lead}</p>
        <WaitingFiles chosen={waits?.file_sha256} onChoose={setWaits} />
        <div className="field" hidden={waits !== undefined}>
          <label htmlFor={fileId}>{fileWords.file}</label>
          <input
            key={round}
            id={fileId}
            type="file"
            accept=".wav,audio/wav,audio/x-wav"
            onChange={(event) => setFile(event.target.files?.[0])}
          />
        </div>
        <button type="button" onClick={bring} disabled={sending.busy}>
          {fileWords.send}
        </button>
      </div>
      {canRecord() && <Loopback sheet={sheet} device={device} />}
    </section>
  );
}

const purposeName = (purpose: string) => words.purposes[purpose] ?? purpose;
