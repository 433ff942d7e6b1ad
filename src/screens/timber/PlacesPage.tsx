import { useQuery } from "@tanstack/react-query";
import { Fragment } from "react";
import { Link } from "wouter";
import type { Soon } from "../../workshop/timber/soon.ts";
import type {
  CrackLookBackView,
  EarlyWeighingView,
  RunsView,
  TimberPlaceView,
  TimberShelfView,
} from "../../workshop/timber/views.ts";
import { get } from "../common/api.ts";
import { CautionMark } from "../common/Caution.tsx";
import { dayAndTime } from "../common/calendar.ts";
import { fixed, plainNumber } from "../common/number.ts";
import { useArrival } from "../common/useArrival.ts";
import { Answer, Empty } from "../common/Waiting.tsx";
import { CrackPanel } from "./CrackPanel.tsx";
import { Fold } from "./Fold.tsx";
import { AirForm, MoveForm, PlaceForm } from "./forms.tsx";
import { runs as runWords, shelf as shelfWords, places as words } from "./messages.ts";
import { Run } from "./Run.tsx";
import { TimberHead } from "./TimberHead.tsx";
import { UnderWay } from "./UnderWay.tsx";
import { useShelf } from "./useShelf.ts";
import { useSoon } from "./useSoon.ts";
import "./timber.css";

export default function PlacesPage() {
  const runs = useSoon<RunsView>("/api/timber/runs");
  const early = useSoon<EarlyWeighingView>("/api/timber/early-weighing");
  const cracks = useQuery({
    queryKey: ["/api/timber/cracks"],
    queryFn: () => get<CrackLookBackView>("/api/timber/cracks"),
  });
  return (
    <Answer asked={useShelf()} what={words.what}>
      {(shelf) => (
        <Places
          shelf={shelf}
          runs={runs.data?.ready}
          progress={runs.data?.progress}
          cracks={cracks.data}
          early={early.data?.ready}
          isAwaited={cracks.isPending || early.isPending}
        />
      )}
    </Answer>
  );
}

/** What ripens where and when, what to weigh, and what the plate did to pieces so far. */
export function Places({
  shelf,
  runs,
  progress,
  cracks,
  early,
  isAwaited = false,
}: {
  readonly shelf: TimberShelfView;
  readonly runs?: RunsView | undefined;
  readonly progress?: Soon<RunsView>["progress"];
  readonly cracks?: CrackLookBackView | undefined;
  readonly early?: EarlyWeighingView | undefined;
  /** Something of it was asked for and has not come yet. */
  readonly isAwaited?: boolean;
}) {
  useArrival();
  const warm = shelf.places.filter(({ what }) => what !== "room" && what !== "outside");
  // What is planned stands above what is known at once. Until it is there, its room pushes that out of sight.
  const isPlanned = (warm.length === 0 || runs !== undefined) && !isAwaited;
  const rooms = shelf.places.filter((place) => !warm.includes(place));
  return (
    <article className="timber">
      <TimberHead at="/timber/places" title={words.title} lead={words.lead} main="/timber/weigh" />
      {shelf.places.length === 0 && <Empty title={words.emptyTitle}>{words.empty}</Empty>}
      {isPlanned ? (
        runs && <WeighNext runs={runs} />
      ) : (
        <div className="places-awaited">
          <UnderWay what={runWords.waits} progress={progress} />
        </div>
      )}
      <Fragment key={isPlanned ? "planned" : "as they stand"}>
        {warm.map((place) => (
          <PlaceBoard
            key={place.place}
            place={place}
            runs={runs}
            plan={runs?.places.find((one) => one.place === place.place)}
          />
        ))}
        {rooms.map((place) => (
          <PlaceBoard key={place.place} place={place} runs={runs} />
        ))}
        {runs && runs.notes.length > 0 && (
          <details className="piece-notes">
            <summary>{runWords.notes}</summary>
            <ul>
              {runs.notes.map((note) => (
                <li key={note}>{note}</li>
              ))}
            </ul>
          </details>
        )}
        <CrackPanel counts={shelf.cracks} back={cracks} early={early} />
      </Fragment>
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

const mostToWeigh = 4;

/** The weighings that tell most for the hands they take. */
function WeighNext({ runs }: { readonly runs: RunsView }) {
  if (runs.weigh.length === 0) return null;
  return (
    <section aria-labelledby="weigh-next">
      <h2 id="weigh-next">{runWords.weigh}</h2>
      <ol className="weigh-next">
        {soonestFirst(runs.weigh.slice(0, mostToWeigh)).map(({ piece, place, at, why }) => (
          <li key={piece}>
            <Link href={`/timber/weigh#${encodeURIComponent(piece)}`}>{piece}</Link>
            <span>
              <span className="pencil">{dayAndTime(at)}</span>, {place}. <span className="quiet">{sentence(why)}</span>
            </span>
          </li>
        ))}
      </ol>
    </section>
  );
}

const soonestFirst = (weigh: RunsView["weigh"]) => weigh.toSorted((a, b) => (a.at < b.at ? -1 : 1));

const sentence = (words: string) =>
  `${words.charAt(0).toUpperCase()}${words.slice(1)}${words.endsWith(".") ? "" : "."}`;

function PlaceBoard({
  place,
  plan,
  runs,
}: {
  readonly place: TimberPlaceView;
  readonly plan?: RunsView["places"][number] | undefined;
  readonly runs?: RunsView | undefined;
}) {
  const { air } = place;
  const id = `place-${place.place.replace(/\W+/g, "-")}`;
  const isWarm = place.what !== "room" && place.what !== "outside";
  return (
    <section className="place-board" aria-labelledby={id}>
      <h2 id={id}>{place.place}</h2>
      <p className="place-air">
        {[
          place.set_C === undefined ? "" : words.set(plainNumber(place.set_C)),
          place.faces === "one" ? words.oneFace : "",
          place.holds === undefined ? "" : words.holds(place.holds),
        ]
          .filter(Boolean)
          .map((one) => (
            <span key={one}>{one}; </span>
          ))}
        {air
          ? words.air(fixed(air.temperature_C, 0), fixed(air.humidity_pct, 0), fixed(air.emc_pct, 1))
          : place.what === "plate" || place.what === "amplifier"
            ? words.roomAir
            : words.noAir}
        .
      </p>
      {place.warning && <p className="timber-note">{place.warning}</p>}
      {place.pieces.length === 0 && <p className="quiet">{words.empty1}</p>}
      {plan && runs && (
        <>
          {plan.wanting && <p className="timber-note">{plan.wanting}</p>}
          {plan.ripe.length > 0 && <Named title={runWords.ripe} pieces={plan.ripe} />}
          {plan.runs.map((run) => (
            <Run key={run.begins} run={run} from={runs.from} title={runWords.inside} />
          ))}
          {plan.never.length > 0 && (
            <ul className="timber-note">
              {plan.never.map(({ piece, why }) => (
                <li key={piece}>
                  {piece}: {why}.
                </li>
              ))}
            </ul>
          )}
          {plan.noTarget.length > 0 && <Named title={runWords.noTarget} pieces={plan.noTarget} />}
          {plan.next.map((run) => (
            <Run key={run.begins} run={run} from={runs.from} title={runWords.next(dayAndTime(run.begins))} />
          ))}
        </>
      )}
      {!isWarm && place.pieces.length > 0 && <Named title={words.stands} pieces={place.pieces} />}
      {(place.what === "plate" || place.what === "chamber") && (
        <p className="caution">
          <CautionMark />
          <span>{place.what === "plate" ? words.cautionPlate : words.cautionRags}</span>
        </p>
      )}
    </section>
  );
}

function Named({ title, pieces }: { readonly title: string; readonly pieces: readonly string[] }) {
  return (
    <p className="batch-pieces">
      <span>{title}:</span>
      {pieces.map((piece) => (
        <Link key={piece} href={`/timber/piece/${encodeURIComponent(piece)}`}>
          {piece}
        </Link>
      ))}
    </p>
  );
}
