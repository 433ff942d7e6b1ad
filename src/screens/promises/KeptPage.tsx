import { useQuery } from "@tanstack/react-query";
import { Link } from "wouter";
import type { KeptView } from "../../workshop/promises/views.ts";
import { get } from "../common/api.ts";
import { day } from "../common/calendar.ts";
import { Measured } from "../common/Measured.tsx";
import { Answer, Empty } from "../common/Waiting.tsx";
import { tell } from "../languages/sentences/told.ts";
import { words } from "./keptMessages.ts";
import "./promises.css";
import { words as whatIf } from "./whatIfMessages.ts";

export default function KeptPage() {
  const asked = useQuery({
    queryKey: ["/api/promises/kept"],
    queryFn: () => get<KeptView>("/api/promises/kept"),
  });
  return (
    <Answer asked={asked} what={words.what}>
      {(kept) => <Kept kept={kept} />}
    </Answer>
  );
}

/** How often dates were kept against how often they were said to be, by when they were given; then order by order. */
export function Kept({ kept }: { readonly kept: KeptView }) {
  return (
    <article className="book">
      <h1>{words.title}</h1>
      <p className="book-lead">{words.lead}</p>
      <p className="book-ways">
        <Link href="/promises">{whatIf.book}</Link>
      </p>
      {kept.orders.length === 0 ? (
        <Empty title={words.none}>{words.noneWords}</Empty>
      ) : (
        <>
          <ol className="kept-groups">
            {kept.groups.map((group) => (
              <li key={`${group.group} ${group.share_pct}`} className={group.group === "all" ? "kept-all" : ""}>
                <h2>{group.group === "all" ? words.all : tell(group.group)}</h2>
                <Measured first={560}>{(width) => <Share group={group} width={width} />}</Measured>
                <p>{group.words}</p>
              </li>
            ))}
          </ol>
          <section aria-labelledby="strip-name">
            <h2 id="strip-name" className="kept-strip-name">
              {words.strip}
            </h2>
            <Measured first={900}>{(width) => <Strip kept={kept} width={width} />}</Measured>
          </section>
          <section aria-labelledby="kept-orders-name">
            <h2 id="kept-orders-name">{words.orders}</h2>
            <ul className="kept-orders">
              {kept.orders.slice(0, 20).map((order) => (
                <li key={order.order}>
                  <strong>{order.order}</strong> <em>{order.model}</em>, {words.promised(day(order.promised))},{" "}
                  {words.left(day(order.left, order.promised))}:{" "}
                  {order.kept ? (
                    words.days(Math.min(0, order.days))
                  ) : (
                    <strong>{words.days(Math.max(1, order.days))}</strong>
                  )}
                  {order.otherwise.length > 0 && ` ${words.otherwise} ${order.otherwise.join("; ")}.`}
                </li>
              ))}
            </ul>
          </section>
          {kept.notes.map((note) => (
            <p key={note} className="quiet small">
              {note}
            </p>
          ))}
        </>
      )}
    </article>
  );
}

/** A share kept with its interval, on a rule from none to all, beside the share that was said. */
function Share({ group, width }: { readonly group: KeptView["groups"][number]; readonly width: number }) {
  const height = 58;
  const middle = 32;
  const x = (pct: number) => 6 + (pct / 100) * (width - 12);
  const percent = (value: number) => `${Math.round(value)} %`;
  const said = words.group(percent(group.kept_pct), percent(group.low_pct), percent(group.high_pct));
  return (
    <svg
      className="kept-share"
      viewBox={`0 0 ${width} ${height}`}
      width={width}
      height={height}
      role="img"
      aria-label={said}
    >
      <path className="ribbon-rule" d={`M6 ${middle}H${width - 6}M6 ${middle - 4}v8M${width - 6} ${middle - 4}v8`} />
      <path
        className="kept-span"
        d={`M${x(group.low_pct).toFixed(1)} ${middle - 6}v12m0 -6H${x(group.high_pct).toFixed(1)}m0 -6v12`}
      />
      <path className="kept-value" d={`M${x(group.kept_pct).toFixed(1)} ${middle - 10}v20`} />
      <text className="kept-number" x={x(group.kept_pct)} y={height - 2} textAnchor="middle">
        {percent(group.kept_pct)}
      </text>
      <path className="kept-said" d={`M${x(group.share_pct).toFixed(1)} ${middle - 18}v30`} />
      <text
        x={x(group.share_pct) + (group.share_pct > 60 ? -5 : 5)}
        y={13}
        textAnchor={group.share_pct > 60 ? "end" : "start"}
      >
        {`${words.said} ${percent(group.share_pct)}`}
      </text>
    </svg>
  );
}

function Strip({ kept, width }: { readonly kept: KeptView; readonly width: number }) {
  const height = 160;
  const days = kept.orders.map((order) => (order.kept ? Math.min(0, order.days) : Math.max(1, order.days)));
  const [low, high] = [Math.min(-7, ...days), Math.max(7, ...days)];
  const x = (at: number) => 8 + ((at - low) / (high - low)) * (width - 16);
  const stacked = new Map<number, number>();
  const strokes = days.map((at, i) => {
    const nth = stacked.get(at) ?? 0;
    stacked.set(at, nth + 1);
    return { key: kept.orders[i]!.order, x: x(at), nth };
  });
  const most = Math.max(1, ...stacked.values());
  const tall = Math.min(11, 122 / most);
  const inTime = kept.orders.filter((order) => order.kept).length;
  const ticks = [...Array(Math.floor((high - low) / 7) + 1).keys()]
    .map((i) => Math.ceil(low / 7) * 7 + 7 * i)
    .filter((at) => at <= high && (width > 500 || at % 14 === 0));
  return (
    <svg
      className="kept-strip"
      viewBox={`0 0 ${width} ${height}`}
      width={width}
      height={height}
      role="img"
      aria-label={words.stripLabel(inTime, kept.orders.length)}
    >
      <path className="ribbon-rule" d={`M8 134H${width - 8}`} />
      {strokes.map(({ key, x: at, nth }) => (
        <path
          key={key}
          className="kept-stroke"
          d={`M${at.toFixed(1)} ${(132 - nth * tall).toFixed(1)}v${(-tall + 2).toFixed(1)}`}
        />
      ))}
      <path className="kept-line" d={`M${(x(0) + x(1)) / 2} 4V140`} />
      {ticks.map((at) => (
        <text key={at} x={x(at)} y={155} textAnchor="middle">
          {at === 0
            ? "0"
            : `${Math.abs(at)} ${at < 0 ? words.early : words.late}`.replace(width > 700 ? "" : / .*/, "")}
        </text>
      ))}
    </svg>
  );
}
