import { type KeyboardEvent, type ReactNode, useId } from "react";
import { Link } from "wouter";
import type { HumHearingView, HumLineView, SpectrumView } from "../../workshop/views.ts";
import { dayAndTime } from "../common/calendar.ts";
import { channelWords } from "../common/channel.ts";
import { Choice } from "../common/fields.tsx";
import { Measured } from "../common/Measured.tsx";
import { inHundred, plainNumber } from "../common/number.ts";
import { Papers } from "../common/Papers.tsx";
import { inWords } from "../common/sentence.ts";
import { useArrival } from "../common/useArrival.ts";
import { Empty } from "../common/Waiting.tsx";
import { BringRecording } from "./BringRecording.tsx";
import { Textures } from "./CauseBar.tsx";
import { causeWords, shownLines, type Verdict } from "./causes.ts";
import { LineRow } from "./LineRow.tsx";
import { hertz } from "./level.ts";
import { words, zoomWords } from "./messages.ts";
import { NextRecording } from "./NextRecording.tsx";
import { channelsByWeight, recordingsByTelling } from "./order.ts";
import { levelsOf, Spectrum } from "./Spectrum.tsx";
import { Supplies } from "./Supplies.tsx";
import { Taps } from "./Taps.tsx";
import { type Band, type Zoom, zoomed, zoomKeys } from "./zoom.ts";
import "../common/recording.css";
import "./hum.css";

type HumRecording = HumHearingView["recordings"][number];

export interface SpectraOf {
  readonly channel: string;
  readonly onChannel: (channel: string) => void;
  /** The part of the frequency axis that is drawn; left out, all of it. */
  readonly band?: Band | undefined;
  readonly onBand?: (band: Band | undefined) => void;
  readonly spectra: readonly SpectrumView[];
  /** What to say in their place: still fetched, or failed. */
  readonly instead?: ReactNode;
  /** Those that are not there yet will come: their room is kept. */
  readonly isAwaited?: boolean;
}

const small = (sentence: string) => sentence.charAt(0).toLowerCase() + sentence.slice(1);

/** What is said first in large letters: of an undecided channel that it is, its reason with the rest. */
function headlineOf(sentences: readonly string[]): readonly string[] {
  const [first, ...rest] = sentences;
  const [, head, reason] = /^(.*?: undecided\.) (.+)$/.exec(first ?? "") ?? [];
  return head && reason ? [head, reason, ...rest] : sentences;
}

function VerdictWords({ verdict }: { readonly verdict: Verdict | undefined }) {
  if (!verdict || verdict.state === "quiet") return <p>{words.quiet}</p>;
  if (verdict.state === "decided") return <p>{words.decided(causeWords(verdict), inHundred(verdict.odds))}</p>;
  if (verdict.together) return <p>{verdict.reason}</p>;
  return (
    <p>
      {words.undecided(small(verdict.reason))}
      {/[.!?]$/.test(verdict.reason) ? " " : ". "}
      {verdict.candidates.length > 0 &&
        words.candidates(verdict.candidates.map((cause) => words.causes[cause] ?? cause).join("; "))}
    </p>
  );
}

function Key() {
  const id = useId();
  const samples = ["valve", "amplifier", "pick-up", "mains"] as const;
  const swatch = (texture: string) => (
    <svg className="swatch" width="38" height="20" viewBox="0 0 38 20" aria-hidden="true">
      <rect x="0.5" y="0.5" width="37" height="19" fill={`url(#${id}-${texture})`} className="cause-edge-filled" />
    </svg>
  );
  return (
    <section className="hum-key" aria-label={words.key}>
      <svg width="0" height="0" className="hum-key-defs" aria-hidden="true">
        <Textures id={id} />
      </svg>
      <ul>
        {samples.map((sample) => (
          <li key={sample}>
            {swatch(sample)} {words.short[sample]}
          </li>
        ))}
        <li>
          {swatch("doubt")} {words.keyDoubt}
        </li>
      </ul>
      <p>{words.keyThin}</p>
    </section>
  );
}

function RecordingHead({ recording }: { readonly recording: HumRecording }) {
  const valves = Object.entries(recording.valves)
    .map(([position, valve]) => `${position} ${valve}`)
    .join(", ");
  return (
    <header className="recording-head">
      <h3>
        {words.recordingName(recording.recording)}{" "}
        <span className="recording-conditions">
          {words.conditions(recording.source, hertz(recording.frequency_Hz), recording.input)}
        </span>
      </h3>
      <p className="quiet small tabular">
        {[
          valves,
          words.seconds(plainNumber(recording.duration_s)),
          dayAndTime(recording.at),
          recording.truncated ? words.truncated : "",
        ]
          .filter(Boolean)
          .join(" · ")}
      </p>
    </header>
  );
}

function RecordingLines({
  hearing,
  recording,
  channel,
}: {
  readonly hearing: HumHearingView;
  readonly recording: HumRecording;
  readonly channel: string;
}) {
  const lines = hearing.lines.filter((line) => line.recording === recording.recording && line.channel === channel);
  const { shown, folded } = shownLines(lines);
  const coincide = recording.source === "building" || Math.abs(recording.frequency_Hz - hearing.building_Hz) < 0.05;
  const row = (line: (typeof lines)[number]) => (
    <LineRow key={`${line.of} ${line.order}`} line={line} coincide={coincide} headphones={hearing.headphones.length} />
  );
  return (
    <section className="recording">
      <RecordingHead recording={recording} />
      {lines.length === 0 && <p className="quiet recording-none">{words.noLines}</p>}
      {shown.length > 0 && (
        <>
          <div className="line-heads small quiet" aria-hidden="true">
            <span>{words.line}</span>
            <span>{words.causesHead}</span>
            <span>{words.heardHead}</span>
          </div>
          <ol className="lines">{shown.map(row)}</ol>
        </>
      )}
      {folded.length > 0 && (
        <details className="lines-folded">
          <summary>
            {words.folded(folded.length, hearing.headphones.length > 0)}{" "}
            <span className="quiet figure">
              {words.foldedAt(folded.map((line) => hertz(line.frequency_Hz)).join(", "))}
            </span>
          </summary>
          <ol className="lines">{folded.map(row)}</ol>
        </details>
      )}
    </section>
  );
}

/** The recording that the verdict is told on stands open; the others wait behind one line each. */
function Recordings({ hearing, channel }: { readonly hearing: HumHearingView; readonly channel: string }) {
  const [told, ...others] = recordingsByTelling(hearing, channel);
  return (
    <>
      {told && <RecordingLines hearing={hearing} recording={told} channel={channel} />}
      {others.map((recording) => (
        <details key={recording.recording} className="recording-folded">
          <summary>
            {words.recordingName(recording.recording)}{" "}
            <span className="quiet">
              {words.conditions(recording.source, hertz(recording.frequency_Hz), recording.input)}
            </span>
          </summary>
          <RecordingLines hearing={hearing} recording={recording} channel={channel} />
        </details>
      ))}
    </>
  );
}

const spectrum_px = 220;

const isWithin = (frequency_Hz: number, [from_Hz, to_Hz]: Band) => frequency_Hz >= from_Hz && frequency_Hz <= to_Hz;

function Spectra({
  hearing,
  shown,
  channels,
}: {
  readonly hearing: HumHearingView;
  readonly shown: SpectraOf;
  readonly channels: readonly string[];
}) {
  const levels = levelsOf(shown.spectra);
  const first = shown.spectra[0];
  const { band, onBand, isAwaited = false } = shown;
  const places = isAwaited
    ? recordingsByTelling(hearing, shown.channel).map(({ recording }) => recording)
    : shown.spectra.map(({ recording }) => recording);
  const whole = first?.whole_Hz;
  // Closer is closer to the loudest line there, which is what one goes closer for.
  const loudest = hearing.lines
    .filter(({ channel, frequency_Hz }) => channel === shown.channel && (!band || isWithin(frequency_Hz, band)))
    .reduce<HumLineView | undefined>((a, b) => (a && a.level_Vrms >= b.level_Vrms ? a : b), undefined);
  const go = (how: Zoom) =>
    whole && onBand?.(zoomed(band, whole, how, how === "closer" ? loudest?.frequency_Hz : undefined));
  const onKeyDown = (event: KeyboardEvent) => {
    const how = zoomKeys[event.key];
    if (!how || event.ctrlKey || event.metaKey || event.altKey) return;
    event.preventDefault();
    go(how);
  };
  return (
    <section className="spectra" aria-labelledby="spectra-name">
      <h2 id="spectra-name">{words.spectrum}</h2>
      {channels.length > 1 && (
        <Choice
          legend={words.spectrumChannel}
          value={shown.channel}
          options={channels.map((channel) => ({ value: channel, label: channelWords(channel) }))}
          onChange={shown.onChannel}
        />
      )}
      {onBand && (whole || isAwaited) && (
        <fieldset className="zoom" aria-label={zoomWords.legend}>
          {(["closer", "wider", "lower", "higher", "whole"] as const).map((how) => (
            <button key={how} type="button" disabled={!whole || (!band && how !== "closer")} onClick={() => go(how)}>
              {zoomWords[how]}
            </button>
          ))}
          <span className="figure" role="status">
            {whole && zoomWords.between(hertz((band ?? whole)[0]), hertz((band ?? whole)[1]))}
          </span>
          <p className="small quiet">{zoomWords.keys}</p>
        </fieldset>
      )}
      {places.map((name) => {
        const recording = hearing.recordings.find((one) => one.recording === name);
        const spectrum = shown.spectra.find((one) => one.recording === name);
        return (
          <figure key={name}>
            <figcaption>
              <strong>{words.recordingName(name)}</strong>
              {recording && ` ${words.conditions(recording.source, hertz(recording.frequency_Hz), recording.input)}`}
            </figcaption>
            {/* biome-ignore lint/a11y/useSemanticElements: nothing here is filled in; the picture answers to keys */}
            <div
              className="spectrum-place"
              role="group"
              aria-label={zoomWords.keys}
              // biome-ignore lint/a11y/noNoninteractiveTabindex: as above
              tabIndex={0}
              onKeyDown={onKeyDown}
            >
              <Measured first={1000}>
                {(width) =>
                  spectrum ? (
                    <Spectrum
                      spectrum={spectrum}
                      lines={hearing.lines}
                      width={width}
                      height={spectrum_px}
                      levels_dBV={levels}
                    />
                  ) : (
                    <svg width={width} height={spectrum_px} aria-hidden="true" />
                  )
                }
              </Measured>
            </div>
          </figure>
        );
      })}
      {first ? <p className="quiet small">{words.resolution(plainNumber(first.resolution_Hz))}</p> : shown.instead}
    </section>
  );
}

interface Props {
  readonly hearing: HumHearingView;
  readonly spectra: SpectraOf;
  /** Valves that stand in the unit now, for the conditions of a new recording; not known until the folder came. */
  readonly fitted: Readonly<Record<string, string>> | undefined;
}

/** What hums, what makes it, who would hear it, and which recording would settle what is left. */
export function HumHearing({ hearing, spectra, fitted }: Props) {
  useArrival();
  const channels = channelsByWeight(hearing);
  const [first, ...rest] = headlineOf(hearing.sentences);
  const last = hearing.recordings.at(-1);
  return (
    <article className="hum">
      <p className="back">
        <Link href={`/unit/${encodeURIComponent(hearing.unit)}`}>{words.back(hearing.unit)}</Link>
      </p>
      <h1>{words.title(hearing.unit)}</h1>
      <div className="hum-told">
        <div className="hum-sentences">
          {first && <p className="hum-headline">{first}</p>}
          {rest.length > 0 && (
            <ul>
              {rest.map((sentence) => (
                <li key={sentence}>{inWords(sentence)}</li>
              ))}
            </ul>
          )}
          {first && <Papers of={["hum.trace", "hum.audible"]} />}
        </div>
        {hearing.recordings.length > 0 && <NextRecording hearing={hearing} before={last?.valves ?? fitted ?? {}} />}
      </div>

      {hearing.recordings.length === 0 ? (
        <Empty title={words.emptyTitle}>{words.empty}</Empty>
      ) : (
        <>
          <Key />
          {channels.map((channel) => (
            <section className="channel" key={channel} aria-labelledby={`channel-${channel}`}>
              <header className="channel-head">
                <h2 id={`channel-${channel}`}>{words.channel(channel)}</h2>
                <VerdictWords verdict={hearing.verdict[channel]} />
              </header>
              <Recordings hearing={hearing} channel={channel} />
            </section>
          ))}
          <Supplies supplies={hearing.supplies} />
          <Spectra hearing={hearing} shown={spectra} channels={channels} />
        </>
      )}
      {hearing.microphony && <Taps microphony={hearing.microphony} />}
      {hearing.notes.length > 0 && (
        <section className="hum-notes">
          <h2>{words.notes}</h2>
          <ul>
            {hearing.notes.map((note) => (
              <li key={note}>{note}</li>
            ))}
          </ul>
        </section>
      )}
      {fitted && <BringRecording hearing={hearing} fitted={fitted} />}
    </article>
  );
}
