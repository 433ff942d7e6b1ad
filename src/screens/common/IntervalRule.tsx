interface Props {
  readonly value: number;
  readonly low: number;
  readonly high: number;
  /** Ends of the scale, the same for all rules of a list, so that they can be compared. */
  readonly from: number;
  readonly to: number;
  readonly words: string;
  readonly decided: boolean;
  readonly width?: number;
}

const height = 26;
const inset = 6;

/**
 * A difference drawn from its naught: a pencil bracket for the interval, a line for the value. Dashed where the interval
 * holds naught, so that what is not decided looks so without colour.
 */
export function IntervalRule({ value, low, high, from, to, words, decided, width = 240 }: Props) {
  const x = (at: number) => {
    const along = Math.min(1, Math.max(0, (at - from) / (to - from || 1)));
    return inset + along * (width - 2 * inset);
  };
  const beyond = high > to;
  return (
    <svg
      className={`interval-rule${decided ? "" : " interval-open"}`}
      viewBox={`0 0 ${width} ${height}`}
      width={width}
      height={height}
      role="img"
      aria-label={words}
    >
      <path className="interval-naught" d={`M${x(0).toFixed(1)} 2V${height - 2}`} />
      <path className="interval-base" d={`M${inset} ${height / 2}H${width - inset}`} />
      <path
        className="interval-span"
        d={`M${x(low).toFixed(1)} ${height / 2 - 5}v10M${x(low).toFixed(1)} ${height / 2}H${x(high).toFixed(1)}${beyond ? "m-5 -4l5 4l-5 4" : `m0 -5v10`}`}
      />
      <path className="interval-value" d={`M${x(value).toFixed(1)} ${height / 2 - 9}v18`} />
    </svg>
  );
}

/** Ends that hold every interval and naught, cut so that one wide one does not flatten the others. */
export function sharedScale(
  intervals: readonly { readonly low: number; readonly high: number; readonly value: number }[],
): {
  readonly from: number;
  readonly to: number;
} {
  const most = Math.max(1, ...intervals.map(({ value }) => Math.abs(value))) * 2.4;
  const from = Math.min(0, ...intervals.map(({ low }) => low));
  const to = Math.max(0, ...intervals.map(({ high }) => high));
  return { from: Math.max(from, -most), to: Math.min(to, most) };
}
