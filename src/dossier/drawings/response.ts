import type { Sayer } from "../languages/sayer.ts";
import { type Drawing, ink, letters, line, p, pencil, svg } from "./drawing.ts";
import type { ResponseCurve } from "./drawn.ts";
import { logFrame } from "./logFrame.ts";

/** Gain of each channel against its gain at 1 kHz, one line a channel, told apart by their strokes. */
export function responseDrawing(
  curves: readonly ResponseCurve[],
  recording: string,
  say: Sayer,
  height = 190,
): Drawing | undefined {
  const { drawings: words } = say.words;
  const named = (channel: string) => say.trade(channel);
  const usable = curves.filter(({ frequencies_Hz }) => frequencies_Hz.length >= 2);
  if (usable.length === 0) return undefined;
  const level = usable.map((curve) => ({ ...curve, gain_dB: curve.gain_dB.map((gain) => gain - gainAt(curve, 1000)) }));
  const all = level.flatMap(({ gain_dB }) => gain_dB);
  const low = Math.min(-1, Math.floor(Math.max(-30, Math.min(...all))));
  const high = Math.max(1, Math.ceil(Math.max(...all)));
  const hertz = level.flatMap(({ frequencies_Hz }) => frequencies_Hz).filter((one) => one > 0);
  const ends_Hz = [Math.max(10, Math.min(...hertz)), Math.min(100_000, Math.max(...hertz))] as const;
  const frame = logFrame({ ends_Hz, ends: [low, high], unit: "dB", digits: say.digits, height });
  const strokes = level.map(({ channel, frequencies_Hz, gain_dB }, i) => {
    const inside = frequencies_Hz.flatMap((hz, k) =>
      hz >= ends_Hz[0] && hz <= ends_Hz[1] ? [`${p(frame.x(hz))} ${p(frame.y(Math.max(low, gain_dB[k]!)))}`] : [],
    );
    const dash = i === 0 ? "" : ' stroke-dasharray="5 3"';
    return [
      line(`M${inside.join("L")}`, i === 0 ? pencil : ink, 1.3, dash),
      line(`M${60 + i * 90} 22h22`, i === 0 ? pencil : ink, 1.3, dash),
      letters(86 + i * 90, 25, named(channel), { size: 8.5, colour: ink }),
    ].join("");
  });
  const told = level.map((curve) => {
    const ends = [20, 20_000].filter((hz) => hz >= ends_Hz[0] && hz <= ends_Hz[1]);
    return words.responseAt(
      named(curve.channel),
      ends.map((hz) => words.at(say.digits(gainAt(curve, hz).toFixed(2)), String(hz))).join(", "),
    );
  });
  return {
    id: "response",
    title: words.response,
    alt: words.responseAlt(told.join("; ")),
    caption: words.responseCaption(recording),
    svg: svg(frame.width, frame.height, [...frame.ground, ...strokes]),
  };
}

/** Gain at a frequency between two of the curve's, along the log axis. */
function gainAt({ frequencies_Hz, gain_dB }: ResponseCurve, at_Hz: number): number {
  const above = frequencies_Hz.findIndex((hz) => hz >= at_Hz);
  if (above === 0) return gain_dB[0]!;
  if (above < 0) return gain_dB.at(-1)!;
  const [before_Hz, after_Hz] = [frequencies_Hz[above - 1]!, frequencies_Hz[above]!];
  const share = Math.log(at_Hz / before_Hz) / Math.log(after_Hz / before_Hz);
  return gain_dB[above - 1]! + share * (gain_dB[above]! - gain_dB[above - 1]!);
}
