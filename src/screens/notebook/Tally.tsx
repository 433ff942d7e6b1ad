interface Props {
  readonly good: number;
  readonly label: string;
}

const fives = 20;
const wide = 38;
const high = 34;
const perLine = 10;

/** A hundred units counted off in fives, the good ones as pencil strokes, the others as ink rings. */
export function Tally({ good, label }: Props) {
  const strokes = Array.from({ length: 5 * fives }, (_, i) => {
    const five = Math.floor(i / 5);
    const left = (five % perLine) * wide + 3;
    const top = Math.floor(five / perLine) * (high + 12) + 3;
    return { i, left, top, place: i % 5, isGood: i < good };
  });
  return (
    <svg
      className="tally"
      viewBox={`0 0 ${perLine * wide} ${2 * (high + 12)}`}
      role="img"
      aria-label={label}
      preserveAspectRatio="xMinYMin meet"
    >
      {strokes.map(({ i, left, top, place, isGood }) => {
        const lean = ((i * 7) % 5) - 2;
        if (!isGood) {
          return (
            <circle key={i} className="tally-bad" cx={left + 3.2 + place * 6} cy={top + high / 2 + lean} r={2.6} />
          );
        }
        return place === 4 ? (
          <path
            key={i}
            className="tally-good"
            d={`M${left - 2} ${top + high - 6 + lean}L${left + 25} ${top + 5 + lean}`}
          />
        ) : (
          <path key={i} className="tally-good" d={`M${left + 2 + place * 6} ${top + lean}l${lean * 0.6} ${high - 4}`} />
        );
      })}
    </svg>
  );
}
