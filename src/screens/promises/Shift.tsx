import type { WhatIfOrderView } from "../../workshop/promises/views.ts";
import { daysBetween } from "../common/calendar.ts";
import { words } from "./whatIfMessages.ts";

interface Props {
  readonly orders: readonly WhatIfOrderView[];
  readonly width: number;
}

const edge = 12;
const height = 40;
const middle = 22;

/** Days to either side that hold every shift with its interval; a day promised may lie beyond. */
function reachOf(orders: readonly WhatIfOrderView[]): number {
  const days = orders.flatMap(({ low_h = 0, high_h = 0 }) => [Math.abs(low_h) / 24, Math.abs(high_h) / 24]);
  return Math.max(2, Math.ceil(1.15 * Math.max(0, ...days)));
}

function placeIn(width: number, reach: number) {
  return (days: number) => width / 2 + (Math.max(-reach, Math.min(reach, days)) / reach) * (width / 2 - edge);
}

/** The day that 80 in 100 runs keep now stands in the middle; sooner is left of it. */
export function ShiftScale({ orders, width }: Props) {
  const reach = reachOf(orders);
  const x = placeIn(width, reach);
  const every = reach > 6 ? (width < 500 ? 7 : 2) : width < 500 ? 2 : 1;
  const ticks = Array.from({ length: 2 * reach + 1 }, (_, i) => i - reach).filter((at) => at % every === 0);
  return (
    <svg className="ribbon-scale" viewBox={`0 0 ${width} 42`} width={width} height={42} aria-hidden="true">
      <text x={x(-reach)} y={13} textAnchor="start">
        {words.sooner}
      </text>
      <text x={x(0)} y={13} textAnchor="middle">
        {words.asNow}
      </text>
      <text x={x(reach)} y={13} textAnchor="end">
        {words.later}
      </text>
      <path className="ribbon-rule" d={`M${edge} 40H${width - edge}`} />
      {ticks.map((at) => (
        <g key={at}>
          <path className="ribbon-rule" d={`M${x(at).toFixed(1)} 40v-5`} />
          <text x={x(at)} y={31} textAnchor="middle">
            {at === 0 ? "0" : Math.abs(at)}
          </text>
        </g>
      ))}
    </svg>
  );
}

/** How far one order's 80-in-100 day moves, with its interval, and where the day promised lies. */
export function Shift({
  order,
  orders,
  width,
  said,
}: Props & { readonly order: WhatIfOrderView; readonly said: string }) {
  const { shift_h, low_h, high_h, before_p80, promised } = order;
  if (shift_h === undefined || before_p80 === undefined) return null;
  const reach = reachOf(orders);
  const x = placeIn(width, reach);
  const [to, low, high] = [shift_h, low_h ?? shift_h, high_h ?? shift_h].map((hours) => x(hours / 24)) as [
    number,
    number,
    number,
  ];
  const flag = promised === undefined ? undefined : daysBetween(before_p80, promised);
  const beyond = flag !== undefined && Math.abs(flag) > reach;
  const point = shift_h < 0 ? 1 : -1;
  return (
    <svg
      className="shift"
      viewBox={`0 0 ${width} ${height}`}
      width={width}
      height={height}
      role="img"
      aria-label={said}
    >
      <path className="ribbon-rule" d={`M${edge} ${middle}H${width - edge}`} strokeDasharray="1 5" />
      <path className="shift-before" d={`M${x(0)} ${middle - 12}v24`} />
      <path className="shift-way" d={`M${x(0)} ${middle}H${(to + 7 * point).toFixed(1)}`} />
      <path className="shift-head" d={`M${to.toFixed(1)} ${middle}l${11 * point} -7v14z`} />
      <path className="shift-doubt" d={`M${low.toFixed(1)} ${middle + 9}v6H${high.toFixed(1)}v-6`} />
      {flag !== undefined && (
        <g className={`ribbon-promised${beyond ? " shift-beyond" : ""}`}>
          <path d={`M${x(flag).toFixed(1)} ${middle + 5}V2`} />
          <path
            className="day-flag"
            d={`M${x(flag).toFixed(1)} 1l${flag > 0 && beyond ? -11 : 11} 4.500l${flag > 0 && beyond ? 11 : -11} 4.500z`}
          />
        </g>
      )}
    </svg>
  );
}
