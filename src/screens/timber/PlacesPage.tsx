import { useQuery } from "@tanstack/react-query";
import { Link } from "wouter";
import type { EarlyWeighingView, TimberPlaceView, TimberShelfView } from "../../workshop/timber/views.ts";
import { get } from "../common/api.ts";
import { CautionMark } from "../common/Caution.tsx";
import { dayAndTime } from "../common/calendar.ts";
import { Measured } from "../common/Measured.tsx";
import { useArrival } from "../common/useArrival.ts";
import { Answer, Empty } from "../common/Waiting.tsx";
import { Fold } from "./Fold.tsx";
import { AirForm, MoveForm, PlaceForm } from "./forms.tsx";
import { shelf as shelfWords, places as words } from "./messages.ts";
import { RipeningRule } from "./RipeningRule.tsx";
import { useShelf } from "./useShelf.ts";
import "./timber.css";

export default function PlacesPage() {
  const early = useQuery({
    queryKey: ["/api/timber/early-weighing"],
    queryFn: () => get<EarlyWeighingView>("/api/timber/early-weighing"),
    staleTime: 600_000,
  });
  return (
    <Answer asked={useShelf()} what={words.what}>
      {(shelf) => <Places shelf={shelf} early={early.data} />}
    </Answer>
  );
}

/** What ripens where and when, and what the plate did to pieces so far. */
export function Places({
  shelf,
  early,
}: {
  readonly shelf: TimberShelfView;
  readonly early?: EarlyWeighingView | undefined;
}) {
  useArrival();
  const warm = shelf.places.filter(({ what }) => what !== "room" && what !== "outside");
  const rooms = shelf.places.filter((place) => !warm.includes(place));
  return (
    <article className="timber">
      <h1>{words.title}</h1>
      <p className="lead">{words.lead}</p>
      <ul className="timber-ways">
        <li>
          <Link href="/timber">{shelfWords.title}</Link>
        </li>
        <li>
          <Link href="/timber/weigh" className="way-main">
            {shelfWords.weigh}
          </Link>
        </li>
      </ul>
      {shelf.places.length === 0 && <Empty title={words.emptyTitle}>{words.empty}</Empty>}
      {[...warm, ...rooms].map((place) => (
        <PlaceBoard key={place.place} place={place} now={shelf.now} />
      ))}
      <section className="cracks" aria-labelledby="cracks-name">
        <h2 id="cracks-name">{words.cracks}</h2>
        {shelf.cracks.cracks === 0 ? (
          <p className="quiet">{words.noCracks}</p>
        ) : (
          <>
            <p>{shelf.cracks.words.join(" ")}</p>
            <CrackLadder shelf={shelf} />
            <p className="quiet small">{words.ofPlated(shelf.cracks.cracks, shelf.cracks.pieces)}</p>
            <h3>{words.early}</h3>
            <p className={early ? undefined : "quiet"}>{early ? early.words : words.earlyWaiting}</p>
          </>
        )}
      </section>
      <div className="timber-desk">
        <section id="move">
          <Fold title={words.move}>
            <MoveForm places={shelf.places.map(({ place }) => place)} />
          </Fold>
        </section>
        <section id="air">
          <Fold title={shelfWords.air}>
            <AirForm shelf={shelf} />
          </Fold>
        </section>
        <section id="place">
          <Fold title={shelfWords.place} first={shelf.places.length === 0}>
            <PlaceForm />
          </Fold>
        </section>
      </div>
    </article>
  );
}

function PlaceBoard({ place, now }: { readonly place: TimberPlaceView; readonly now: string }) {
  const { air } = place;
  const id = `place-${place.place.replace(/\W+/g, "-")}`;
  return (
    <section className="place-board" aria-labelledby={id}>
      <h2 id={id}>{place.place}</h2>
      <p className="place-air">
        {[place.set_C === undefined ? "" : words.set(String(place.set_C)), place.faces === "one" ? words.oneFace : ""]
          .filter(Boolean)
          .map((one) => (
            <span key={one}>{one}; </span>
          ))}
        {air
          ? words.air(air.temperature_C.toFixed(0), air.humidity_pct.toFixed(0), air.emc_pct.toFixed(1))
          : place.what === "plate" || place.what === "amplifier"
            ? "in the air of the room"
            : words.noAir}
        .
      </p>
      {place.warning && <p className="timber-note">{place.warning}</p>}
      {place.batches.length === 0 ? (
        <p className="quiet">{words.empty1}</p>
      ) : (
        <ol className="batches">
          {place.batches.map((batch) => (
            <li key={`${batch.thickness_mm} ${batch.pieces[0]}`}>
              <p className="batch-name">
                <strong>{words.batch(batch.pieces.length, batch.thickness_mm)}</strong>{" "}
                {batch.target_pct === undefined ? (
                  <span className="quiet">{batch.isBound ? words.targetWaits : words.noTarget}</span>
                ) : (
                  <span className="pencil">{words.to(batch.target_pct.toFixed(1))}</span>
                )}
                {batch.words && <span className="quiet">; {batch.words}</span>}
              </p>
              <p className="batch-pieces">
                {batch.pieces.map((piece) => (
                  <Link key={piece} href={`/timber/piece/${encodeURIComponent(piece)}`}>
                    {piece}
                  </Link>
                ))}
              </p>
              {(batch.ripe || batch.weighNext) && (
                <p>
                  {batch.ripe && <span className="pencil">{words.from(dayAndTime(batch.ripe.at))}. </span>}
                  {batch.weighNext && words.weighNext(batch.weighNext.piece, dayAndTime(batch.weighNext.at))}
                </p>
              )}
              {batch.ripe && (
                <Measured>{(width) => <RipeningRule now={now} ripe={batch.ripe!} width={width} />}</Measured>
              )}
            </li>
          ))}
        </ol>
      )}
      {(place.what === "plate" || place.what === "chamber") && (
        <p className="caution">
          <CautionMark />
          <span>{place.what === "plate" ? words.cautionPlate : words.cautionRags}</span>
        </p>
      )}
    </section>
  );
}

function CrackLadder({ shelf }: { readonly shelf: TimberShelfView }) {
  const most = Math.max(1, ...shelf.cracks.found.map(({ count }) => count));
  return (
    <ul className="crack-ladder">
      {shelf.cracks.found.map(({ what, count }) => (
        <li key={what}>
          <span>{what}</span>
          <span className="crack-strokes" aria-hidden="true" style={{ "--share": count / most } as React.CSSProperties}>
            {Array.from({ length: count }, (_, i) => (
              // biome-ignore lint/suspicious/noArrayIndexKey: strokes of a tally are alike
              <i key={i} />
            ))}
          </span>
          <span className="figure">{count}</span>
        </li>
      ))}
    </ul>
  );
}
