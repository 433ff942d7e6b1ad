import type { ModelCostView } from "../../workshop/production/views.ts";
import { money } from "../common/money.ts";
import { words } from "./messages.ts";

const height = 74;
const bar = 26;
const top = 20;

/**
 * A price as a strip of paper cut by what it pays for: parts, hands, what is done again, what is thrown away, and what is
 * left. Told apart by hatching and words; the bracket below holds nine of ten units.
 */
export function PriceStrip({
  one,
  currency,
  width,
}: {
  readonly one: ModelCostView;
  readonly currency: string;
  readonly width: number;
}) {
  const { price_cents, cost, parts, work, rework, scrap } = one;
  const to = Math.max(price_cents, cost.p95_cents) * 1.02;
  const x = (cents: number) => (cents / to) * (width - 2) + 1;
  const pieces = [
    { name: words.parts, cents: parts.mean_cents, hatch: "plain" },
    { name: words.work, cents: work.mean_cents, hatch: "lines" },
    { name: words.rework, cents: rework.mean_cents, hatch: "cross" },
    { name: words.scrap, cents: scrap.mean_cents, hatch: "dots" },
  ] as const;
  let at = 0;
  const placed = pieces.map((piece) => {
    const start = at;
    at += piece.cents;
    return { ...piece, start, end: at };
  });
  const label = (start: number, end: number, name: string) =>
    x(end) - x(start) > name.length * 7.4 ? (
      <text x={(x(start) + x(end)) / 2} y={top - 6} textAnchor="middle" className="price-word">
        {name}
      </text>
    ) : null;
  return (
    <svg
      className="price-strip"
      viewBox={`0 0 ${width} ${height}`}
      width={width}
      height={height}
      role="img"
      aria-label={words.drawn(one.model, money(cost.mean_cents, currency), money(price_cents, currency))}
    >
      <defs>
        <pattern
          id={`lines-${one.model}`}
          width="6"
          height="6"
          patternUnits="userSpaceOnUse"
          patternTransform="rotate(45)"
        >
          <path d="M0 0V6" className="price-hatch" />
        </pattern>
        <pattern id={`cross-${one.model}`} width="5" height="5" patternUnits="userSpaceOnUse">
          <path d="M0 0L5 5M5 0L0 5" className="price-hatch" />
        </pattern>
        <pattern id={`dots-${one.model}`} width="5" height="5" patternUnits="userSpaceOnUse">
          <circle cx="2.5" cy="2.5" r="1.2" className="price-dot" />
        </pattern>
      </defs>
      {placed.map(({ name, hatch, start, end }) => (
        <g key={name}>
          <rect
            className="price-piece"
            x={x(start)}
            y={top}
            width={Math.max(0, x(end) - x(start))}
            height={bar}
            fill={hatch === "plain" ? "#ebe5d6" : `url(#${hatch}-${one.model})`}
          />
          {label(start, end, name)}
        </g>
      ))}
      {at < price_cents && (
        <g>
          <rect className="price-left" x={x(at)} y={top} width={x(price_cents) - x(at)} height={bar} />
          {label(at, price_cents, words.left)}
        </g>
      )}
      <path className="price-end" d={`M${x(price_cents)} ${top - 4}V${top + bar + 4}`} />
      <path
        className="price-reach"
        d={`M${x(cost.p05_cents)} ${top + bar + 6}v8M${x(cost.p05_cents)} ${top + bar + 10}H${x(cost.p95_cents)}m0 -4v8`}
      />
      <path className="price-mean" d={`M${x(cost.mean_cents)} ${top + bar + 4}v12`} />
    </svg>
  );
}
