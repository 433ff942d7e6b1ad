import type { Sayer } from "../languages/sayer.ts";
import { type Drawing, hair, ink, line, p, svg } from "./drawing.ts";
import type { SpectrumColumns } from "./drawn.ts";
import { logFrame } from "./logFrame.ts";

/** Levels of a recording against frequency: in every column of the paper a stroke from its lowest to its highest. */
export function spectrumDrawing(
  { recording, channel, columns, resolution_Hz }: SpectrumColumns,
  id: string,
  say: Sayer,
  height = 190,
): Drawing | undefined {
  const { drawings: words, channels } = say.words;
  const named = channels[channel] ?? channel;
  const inside = columns.filter(({ frequency_Hz }) => frequency_Hz >= 20 && frequency_Hz <= 20_000);
  const highest = inside.reduce((best, one) => (one.high_dBV > best.high_dBV ? one : best), inside[0]!);
  if (highest === undefined) return undefined;
  const top = 10 * Math.ceil((highest.high_dBV + 3) / 10);
  // What lies deeper than this under the usual level is chance, and would only fill the paper.
  const usual = inside.map(({ high_dBV }) => high_dBV).toSorted((a, b) => a - b)[Math.floor(inside.length / 4)]!;
  const floor = 10 * Math.floor((usual - 25) / 10);
  const frame = logFrame({ ends_Hz: [20, 20_000], ends: [floor, top], unit: "dBV", digits: say.digits, height });
  const tops = inside.map((one) => `${p(frame.x(one.frequency_Hz))} ${p(frame.y(Math.max(floor, one.high_dBV)))}`);
  const reach = inside
    .map(({ frequency_Hz, low_dBV, high_dBV }) => {
      const x = p(frame.x(frequency_Hz));
      return `M${x} ${p(frame.y(Math.max(floor, high_dBV)))}V${p(frame.y(Math.max(floor, low_dBV)) + 0.4)}`;
    })
    .join("");
  return {
    id,
    title: words.noise(named),
    alt: words.noiseAlt(
      named,
      recording,
      say.digits(highest.high_dBV.toFixed(1)),
      String(Math.round(highest.frequency_Hz)),
    ),
    caption: words.noiseCaption(recording, named, say.digits(resolution_Hz.toPrecision(2))),
    svg: svg(frame.width, frame.height, [
      ...frame.ground,
      line(reach, hair, 0.7),
      line(`M${tops.join("L")}`, ink, 0.7),
    ]),
  };
}
