import { Link } from "wouter";
import { quantityWords } from "../../measurement/quantityWords.ts";
import type { BenchFigure, BenchRecordingView, BenchSheetView } from "../../workshop/bench/views.ts";
import { DangerOf } from "../common/Caution.tsx";
import { dayAndTime } from "../common/calendar.ts";
import { channelWords } from "../common/channel.ts";
import { Measured } from "../common/Measured.tsx";
import { plainNumber } from "../common/number.ts";
import { Papers } from "../common/Papers.tsx";
import { capital } from "../common/sentence.ts";
import { Empty } from "../common/Waiting.tsx";
import { BalancePicture } from "./BalancePicture.tsx";
import type { Surroundings } from "./conditions.ts";
import { words } from "./messages.ts";
import { Recorders } from "./Recorders.tsx";
import { ResponseCurve } from "./ResponseCurve.tsx";
import { isRecorders, readable, written } from "./readable.ts";
import { TakeRecording } from "./TakeRecording.tsx";
import "../common/recording.css";
import "./bench.css";

function quantityName(quantity: string): string {
  const [, kind, n] = /^(resonance|ring|peak)_(\d+)_/.exec(quantity) ?? [];
  if (kind === "resonance") return words.resonance(n ?? "");
  if (kind === "ring") return words.ring(n ?? "");
  if (kind === "peak") return words.peak(n ?? "");
  return words.quantities[quantity] ?? quantityWords(quantity).name;
}

function Figure({ figure }: { readonly figure: BenchFigure }) {
  const { value, doubt, recorder, unit } = readable(figure);
  return (
    <li>
      <span className="bench-quantity">{quantityName(figure.quantity)}</span>
      <span className="figure pencil">
        {figure.isLimit
          ? `${words.atMost} ${plainNumber(value + (doubt ?? 0))} ${unit}`
          : `${written({ value, doubt })} ${unit}`}
      </span>
      {recorder !== undefined && (
        <span className={`small ${isRecorders(figure) ? "bench-hidden" : "quiet"}`}>
          {isRecorders(figure)
            ? words.hidden(`${plainNumber(recorder)} ${unit}`)
            : words.own(`${plainNumber(recorder)} ${unit}`)}
        </span>
      )}
    </li>
  );
}

function Figures({ figures }: { readonly figures: readonly BenchFigure[] }) {
  const channels = [...new Set(figures.map(({ channel }) => channel))];
  return (
    <div className="bench-figures">
      {channels.map((channel) => (
        <div key={channel ?? ""}>
          <h4>{channel === undefined ? words.whole : channelWords(channel)}</h4>
          <ul>
            {figures
              .filter((figure) => figure.channel === channel)
              .map((figure) => (
                <Figure key={figure.quantity} figure={figure} />
              ))}
          </ul>
        </div>
      ))}
    </div>
  );
}

function Judged({ taken }: { readonly taken: BenchRecordingView }) {
  return (
    <article className="recording bench-recording">
      <div className="recording-head">
        <h3>
          {words.purposes[taken.purpose] ?? taken.purpose} <span className="quiet">{taken.recording}</span>
        </h3>
        <p className="small quiet">
          {dayAndTime(taken.at)}, {taken.instrument}, {taken.by}
        </p>
      </div>
      <p className="recording-conditions">{taken.conditions}</p>
      {taken.trouble !== undefined && <p className="bench-trouble">{plainTrouble(taken.trouble)}</p>}
      {taken.figures.length > 0 && <Figures figures={taken.figures} />}
      {taken.curves.map((curve) => (
        <figure key={curve.channel}>
          <figcaption>{words.curve(channelWords(curve.channel))}</figcaption>
          <Measured>{(width) => <ResponseCurve curve={curve} width={width} />}</Measured>
        </figure>
      ))}
      {taken.notes.length > 0 && (
        <ul className="bench-notes small quiet">
          {taken.notes.map((note) => (
            <li key={note}>{note}</li>
          ))}
        </ul>
      )}
    </article>
  );
}

/** What was in the way, without the name of the calculation that met it. */
const plainTrouble = (trouble: string) => capital(trouble.replace(/^[a-z]+\.\w+: /, "").replace(/([^.!?])$/, "$1."));

const valvesInWords = (valves: Readonly<Record<string, string>>) =>
  Object.entries(valves)
    .map(([position, valve]) => `${position} ${valve}`)
    .join(", ");

function Balance({ balance }: { readonly balance: NonNullable<BenchSheetView["balance"]> }) {
  const { rounds, cause } = balance;
  const settings = [...new Set(rounds.flatMap(({ byPosition }) => byPosition.map(({ position }) => position)))];
  return (
    <article className="recording bench-recording">
      <h3>{words.balance}</h3>
      <p className="bench-verdict">
        <strong>{words.balanceCauses[cause]}</strong> {balance.words.replace(/^Undecided\. /, "")}
      </p>
      <Measured>{(width) => <BalancePicture rounds={rounds} width={Math.min(width, 760)} />}</Measured>
      <div className="balance-table">
        <table>
          <thead>
            <tr>
              <th scope="col">{words.settings}</th>
              {rounds.map(({ valves }, round) => (
                <th key={JSON.stringify(valves)} scope="col">
                  <svg className={`balance-round balance-round-${round % 3}`} width="44" height="12" aria-hidden="true">
                    <path d="M2 6H42" />
                    <circle cx="22" cy="6" r="4" />
                  </svg>{" "}
                  {valvesInWords(valves)}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {settings.map((setting) => (
              <tr key={setting}>
                <th scope="row">{words.balanceAt(setting)}</th>
                {rounds.map(({ valves, byPosition }) => {
                  const at = byPosition.find(({ position }) => position === setting);
                  return (
                    <td key={JSON.stringify(valves)} className="figure pencil">
                      {at && `${written({ value: at.difference_dB, doubt: Math.max(0.01, at.doubt_dB) })} dB`}
                    </td>
                  );
                })}
              </tr>
            ))}
          </tbody>
        </table>
      </div>
    </article>
  );
}

/** The newest stand open; a long row of tones waits behind a line each. */
const openRecordings = 3;

export function BenchSheet({
  sheet,
  conditions,
}: {
  readonly sheet: BenchSheetView;
  readonly conditions?: Surroundings;
}) {
  return (
    <div className="bench">
      <p className="back">
        <Link href={`/unit/${encodeURIComponent(sheet.unit)}`}>{words.back(sheet.unit)}</Link>
      </p>
      <h1>{words.title(sheet.unit)}</h1>
      <p className="lead">{words.lead}</p>
      <DangerOf danger="hot" />
      <Recorders recorders={sheet.recorders} />
      <section aria-labelledby="bench-found">
        <h2 id="bench-found">{words.found}</h2>
        <Papers of={["bench.tone", "bench.sweep", "bench.noise", "bench.balance"]} />
        {sheet.balance && <Balance balance={sheet.balance} />}
        {sheet.recordings.slice(0, openRecordings).map((taken) => (
          <Judged key={taken.recording} taken={taken} />
        ))}
        {sheet.recordings.slice(openRecordings).map((taken) => (
          <details key={taken.recording} className="bench-folded">
            <summary>
              {words.purposes[taken.purpose] ?? taken.purpose} <span className="quiet">{taken.recording}</span>,{" "}
              <span className="quiet">{taken.conditions}</span>
            </summary>
            <Judged taken={taken} />
          </details>
        ))}
        {sheet.recordings.length === 0 && <Empty title={words.none}>{words.noneHow}</Empty>}
      </section>
      <TakeRecording key={conditions ? "known" : "awaited"} sheet={sheet} conditions={conditions} />
    </div>
  );
}
