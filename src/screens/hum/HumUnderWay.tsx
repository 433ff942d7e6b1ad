import { Link } from "wouter";
import { words as hearing, underWayWords as words } from "./messages.ts";

/** How far the hearing is that is being computed. */
export interface UnderWay {
  readonly share: number;
  readonly what: string;
}

/** What is being done while a hearing is computed for the first time; a second visit finds it kept. */
export function HumUnderWay({ unit, underWay }: { readonly unit: string; readonly underWay: UnderWay | undefined }) {
  const part = Math.round(100 * (underWay?.share ?? 0));
  return (
    <section className="hum-under-way" aria-busy="true">
      <p className="back">
        <Link href={`/unit/${encodeURIComponent(unit)}`}>{hearing.back(unit)}</Link>
      </p>
      <h1>{words.title(unit)}</h1>
      <p role="status">{underWay ? words.doing(underWay.what) : words.opening}</p>
      <progress max={100} value={part} aria-label={words.part(part)} />
      <p className="quiet small">{words.why}</p>
    </section>
  );
}
