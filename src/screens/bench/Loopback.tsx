import { useState } from "react";
import type { BenchSheetView } from "../../workshop/bench/views.ts";
import { post, postRecording, writeDown } from "../common/api.ts";
import { By } from "../common/By.tsx";
import { Field, numberError, numberOf, Outcome } from "../common/fields.tsx";
import { common } from "../common/messages.ts";
import { plainNumber } from "../common/number.ts";
import { useBy } from "../common/useBy.ts";
import { useDraft } from "../common/useDraft.ts";
import { useSending } from "../common/useSending.ts";
import { TakeFrom } from "../instruments/TakeFrom.tsx";
import { CaptureDesk } from "./CaptureDesk.tsx";
import type { Stimulus } from "./capture/stimulus.ts";
import { loop, take } from "./messages.ts";
import { type Take, useCapture } from "./useCapture.ts";

interface Props {
  readonly sheet: BenchSheetView;
  readonly device: string;
}

type Part = "instrument" | "applied" | "doubt" | "level" | "channels";

interface LoopbackAnswer {
  readonly grain_bits: number;
  readonly channels: Readonly<
    Record<
      string,
      {
        readonly fullScale_Vpk: number;
        readonly thd_pct: number;
        readonly noise_Vrms?: number;
        readonly noiseA_Vrms?: number;
        readonly doubt: { readonly fullScale_Vpk: number };
      }
    >
  >;
}

const tone_Hz = 1000;
const record_s = 5;
const positive = (typed: string) => numberError(typed) ?? (numberOf(typed) > 0 ? undefined : take.positive);
const isLevel = (typed: string) => numberError(typed) ?? (numberOf(typed) < 0 ? take.notBelowZero : undefined);

/** Calibrates the recorder: a tone whose volts a meter reads, then silence, both through the recorder alone. */
export function Loopback({ sheet, device }: Props) {
  const [by, setBy] = useBy();
  const blank = {
    instrument: sheet.recorders[0]?.instrument ?? "",
    applied: "",
    doubt: "",
    level: "6",
    channels: "left, right",
  };
  const draft = useDraft<Part>("loop-back", blank);
  const { typed } = draft;
  const [tone, setTone] = useState<Take>();
  const [quiet, setQuiet] = useState<Take>();
  const [asked, setAsked] = useState(false);
  const { state, begin, stop, clear } = useCapture();
  const sending = useSending();
  const channels = typed.channels.split(/[,;\s]+/).filter(Boolean);
  const errors = {
    instrument: typed.instrument.trim() === "" ? common.needed : undefined,
    applied: positive(typed.applied),
    doubt: typed.doubt.trim() === "" ? undefined : positive(typed.doubt),
    level: isLevel(typed.level),
    by: by.trim() === "" ? common.needed : undefined,
  };
  const said = (part: keyof typeof errors) => (asked ? errors[part] : undefined);

  const record = async (stimulus: Stimulus, keep: (made: Take) => void) => {
    const made = await begin({ stimulus, record_s, driven: "both", ...(device !== "" && { device }) });
    if (!made) return;
    keep(made);
  };

  const write = () => {
    setAsked(true);
    if (Object.values(errors).some(Boolean)) return sending.refuse(take.mend);
    if (!tone) return sending.refuse(loop.first);
    void sending.send(async () => {
      const toneFile = await postRecording(tone.wav);
      const quietFile = quiet && (await postRecording(quiet.wav));
      const names = channels.slice(0, tone.samples.length);
      const answer = await post<LoopbackAnswer>("/api/calc/bench.loopback", {
        recording: toneFile.file_sha256,
        applied_Vrms: numberOf(typed.applied),
        ...(typed.doubt.trim() !== "" && { appliedDoubt_Vrms: numberOf(typed.doubt) }),
        ...(quietFile && { quiet: quietFile.file_sha256 }),
        channels: names,
      });
      await writeDown(by.trim(), [
        {
          kind: "recorder-calibration",
          instrument: typed.instrument.trim(),
          rate_Hz: tone.rate_Hz,
          grain_bits: answer.grain_bits,
          channels: Object.fromEntries(
            Object.entries(answer.channels).map(([channel, { doubt, ...figures }]) => [
              channel,
              { ...figures, doubt_Vpk: doubt.fullScale_Vpk },
            ]),
          ),
          files_sha256: [toneFile.file_sha256, ...(quietFile ? [quietFile.file_sha256] : [])],
        },
      ]);
      const [first] = Object.values(answer.channels);
      setTone(undefined);
      setQuiet(undefined);
      setAsked(false);
      clear();
      return loop.done(typed.instrument.trim(), plainNumber(first?.fullScale_Vpk ?? 0));
    });
  };

  const recorder = sheet.recorders.find(({ instrument }) => instrument === typed.instrument.trim());
  const trial = recorder?.trial?.quantity === "level_Vrms" ? recorder.trial : undefined;
  const known = recorder?.channels[0];
  const tryIt = () => {
    if (!tone || !known || by.trim() === "") return sending.refuse(tone ? take.mend : loop.first);
    void sending.send(async () => {
      const { file_sha256 } = await postRecording(tone.wav);
      const { channels: read } = await post<{
        channels: Readonly<Record<string, { level_Vrms: number; doubt: { level_Vrms: number } }>>;
      }>("/api/calc/bench.tone", { recording: file_sha256, fullScale_Vpk: known.fullScale_Vpk });
      const first = Object.values(read)[0]!;
      await writeDown(by.trim(), [
        {
          kind: "trial",
          instrument: typed.instrument.trim(),
          value: first.level_Vrms,
          doubt: first.doubt.level_Vrms,
        },
      ]);
      setTone(undefined);
      clear();
      return loop.tried(typed.instrument.trim(), plainNumber(first.level_Vrms));
    });
  };

  const isAtRest = state.at === "rest" || state.at === "taken";
  return (
    <details className="loopback">
      <summary>
        <h3>{loop.title}</h3>
      </summary>
      <p className="quiet">{loop.lead}</p>
      <div className="fields">
        <Field
          label={take.instrument}
          value={typed.instrument}
          list={sheet.instruments}
          onChange={(instrument) => draft.change({ instrument })}
          error={said("instrument")}
        />
        <Field
          label={take.level}
          hint={take.levelHint}
          unit="dB"
          numeric
          value={typed.level}
          onChange={(level) => draft.change({ level })}
          error={said("level")}
        />
        <Field
          label={loop.applied}
          unit="V r.m.s."
          numeric
          value={typed.applied}
          onChange={(applied) => draft.change({ applied })}
          error={said("applied")}
        />
        <Field
          label={loop.doubt}
          unit="V r.m.s."
          numeric
          value={typed.doubt}
          onChange={(doubt) => draft.change({ doubt })}
          error={said("doubt")}
        />
        <By label={common.by} value={by} onChange={setBy} error={said("by")} />
      </div>
      <TakeFrom quantity="applied_Vrms" onTaken={(read) => draft.change({ applied: read.value, doubt: read.doubt })} />
      {isAtRest && (
        <div className="capture-ways">
          <button
            type="button"
            disabled={errors.level !== undefined}
            onClick={() =>
              void record({ kind: "tone", frequency_Hz: tone_Hz, level: 10 ** (-numberOf(typed.level) / 20) }, setTone)
            }
          >
            {loop.tone}
          </button>
          <button type="button" onClick={() => void record({ kind: "silence" }, setQuiet)}>
            {loop.quiet}
          </button>
          <button type="button" className="main" disabled={sending.busy} onClick={write}>
            {loop.write}
          </button>
          {trial && known && tone && (
            <button type="button" disabled={sending.busy} onClick={tryIt}>
              {loop.trial(trial.reference, plainNumber(trial.true))}
            </button>
          )}
        </div>
      )}
      <p role="status" className="quiet">
        {[tone && loop.haveTone, quiet && loop.haveQuiet].filter(Boolean).join(" ")}
      </p>
      <CaptureDesk state={state} channels={channels} stop={stop} after={() => null} />
      <Outcome busy={sending.busy} said={sending.said} error={sending.error} />
    </details>
  );
}
