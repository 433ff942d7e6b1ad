import { Link, useLocation } from "wouter";
import type { PieceCardView, TimberPlaceView, TimberShelfView } from "../../workshop/timber/views.ts";
import { day, dayAndTime } from "../common/calendar.ts";
import { fixed } from "../common/number.ts";
import { woodName } from "../common/tradeMessages.ts";
import { useArrival } from "../common/useArrival.ts";
import { Answer, Empty } from "../common/Waiting.tsx";
import { EndGrain } from "./EndGrain.tsx";
import { Fold } from "./Fold.tsx";
import { forms } from "./formMessages.ts";
import { AirForm, PlaceForm, ReceiveForm } from "./forms.tsx";
import { MoistureRule } from "./MoistureRule.tsx";
import { standingWords, shelf as words } from "./messages.ts";
import { OwnWoodForm } from "./OwnWoodForm.tsx";
import { useShelf } from "./useShelf.ts";
import "./timber.css";

export default function ShelfPage() {
  const [, navigate] = useLocation();
  return (
    <Answer asked={useShelf()} what={words.what}>
      {(shelf) => (
        <TimberShelf shelf={shelf} open={(piece) => navigate(`/timber/piece/${encodeURIComponent(piece)}`)} />
      )}
    </Answer>
  );
}

/** The shelf as one stands before it: a plank a place, on it the ends of the boards, below each what it holds. */
export function TimberShelf({
  shelf,
  open,
}: {
  readonly shelf: TimberShelfView;
  readonly open: (piece: string) => void;
}) {
  useArrival();
  const { pieces, places, now } = shelf;
  const due = pieces.filter(({ nextWeighing }) => nextWeighing && Date.parse(nextWeighing.at) <= Date.parse(now));
  const ready = pieces.filter(({ stands, ripe }) => stands === "inside" && !ripe);
  const isBare = pieces.length === 0;
  const taken = places.filter((place) => place.pieces.length > 0);
  return (
    <article className="timber">
      <h1>{words.title}</h1>
      {isBare ? (
        <Empty title={words.emptyTitle}>{words.empty}</Empty>
      ) : (
        <p className="lead" role="status">
          {[
            words.standing(pieces.length),
            ready.length > 0 ? words.ready(ready.length) : "",
            due.length > 0 ? words.due(due.length) : "",
            shelf.computing > 0 ? words.computing(shelf.computing) : "",
          ]
            .filter(Boolean)
            .join(" ")}
        </p>
      )}
      <ul className="timber-ways">
        <li>
          <Link href="/timber/weigh" className="way-main">
            {words.weigh}
          </Link>
        </li>
        <li>
          <Link href="/timber/places">{words.places}</Link>
        </li>
        <li>
          <Link href="/timber/cuts">{words.cuts}</Link>
        </li>
        <li>
          <a href="#receive">{words.receive}</a>
        </li>
      </ul>
      {!isBare && <p className="quiet small shelf-how">{words.how}</p>}
      {taken.map((place) => (
        <Plank key={place.place} place={place} pieces={pieces.filter((one) => one.place === place.place)} now={now} />
      ))}
      {shelf.cases.length > 0 && (
        <section aria-labelledby="cases-name">
          <h2 id="cases-name">{words.cases}</h2>
          <ul className="case-list">
            {shelf.cases.map((one) => (
              <li key={one.case}>
                {one.unit === undefined ? (
                  <span>{words.caseOf(one.case, one.panels)}</span>
                ) : (
                  <Link href={`/unit/${encodeURIComponent(one.unit)}/case`}>{words.caseOf(one.case, one.panels)}</Link>
                )}{" "}
                <span className="quiet">{one.place ?? words.caseFree}</span>
              </li>
            ))}
          </ul>
        </section>
      )}
      <div className="timber-desk">
        <section id="receive">
          <Fold title={words.receive} first={isBare && places.length > 0} key={String(places.length > 0)}>
            <ReceiveForm shelf={shelf} open={open} />
          </Fold>
        </section>
        <section id="wood">
          <Fold title={forms.wood.title}>
            <OwnWoodForm />
          </Fold>
        </section>
        <section id="place">
          <Fold title={words.place} first={places.length === 0}>
            <PlaceForm />
          </Fold>
        </section>
        <section id="air">
          <Fold title={words.air}>
            <AirForm shelf={shelf} />
          </Fold>
        </section>
      </div>
    </article>
  );
}

function Plank({
  place,
  pieces,
  now,
}: {
  readonly place: TimberPlaceView;
  readonly pieces: readonly PieceCardView[];
  readonly now: string;
}) {
  const id = `plank-${place.place.replace(/\W+/g, "-")}`;
  return (
    <section className="plank" aria-labelledby={id}>
      <h2 id={id}>
        {place.place}
        {place.air && (
          <span className="quiet plank-air">
            {" "}
            {fixed(place.air.temperature_C, 0)} °C, {fixed(place.air.humidity_pct, 0)} %
          </span>
        )}
      </h2>
      <ul className="boards">
        {pieces.map((piece) => (
          <BoardEnd key={piece.piece} piece={piece} faces={place.faces} now={now} />
        ))}
      </ul>
    </section>
  );
}

/** Pixels to the millimetre, and the length of a moisture rule. */
const scale = 0.48;
const rule = 150;

function BoardEnd({
  piece,
  faces,
  now,
}: {
  readonly piece: PieceCardView;
  readonly faces: "both" | "one";
  readonly now: string;
}) {
  const { moisture, band } = piece;
  const fit = Math.min(scale, rule / piece.width_mm);
  return (
    <li className="board">
      <Link href={`/timber/piece/${encodeURIComponent(piece.piece)}`} className="board-link">
        <span className="board-end">
          <EndGrain piece={piece} faces={faces} scale={fit} />
        </span>
        <span className="board-name">
          <strong>{piece.piece}</strong> <span>{woodName(piece.species)}</span>
        </span>
        <MoistureRule moisture={moisture} band={band} target_pct={piece.target_pct} width={rule} />
        <span className="board-says">
          {moisture && moisture.basis !== "approach" ? (
            <span className="pencil figure">
              {fixed(moisture.mean_pct, 1)} ± {fixed((moisture.high_pct - moisture.low_pct) / 2, 1)} %
            </span>
          ) : null}{" "}
          {saysOf(piece)}
        </span>
        <span className="quiet small">
          {band ? `${band.place}, ${band.unit}` : piece.meantFor ? piece.meantFor : words.unbound}
          {piece.ripe ? `; ${words.ripe(dayAndTime(piece.ripe.at))}` : ""}
        </span>
        {piece.flaws.length > 0 && <span className="board-flaw">{piece.flaws.join(", ")}</span>}
        {!piece.pending && !moisture && piece.wanting && <span className="small">{piece.wanting}</span>}
        <span className="visually-hidden">
          {piece.lastWeighed ? words.lastWeighed(day(piece.lastWeighed, now)) : words.neverWeighed}
        </span>
      </Link>
    </li>
  );
}

function saysOf({ pending, moisture, stands }: PieceCardView): string {
  if (pending) return words.pending;
  if (!moisture) return "";
  if (moisture.basis === "approach") return words.approach;
  const loose = moisture.basis === "unweighed" ? words.loose : "";
  const standing = stands ? standingWords[stands] : "";
  return [standing, loose].filter(Boolean).join(", ");
}
