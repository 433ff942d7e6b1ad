import { useQuery } from "@tanstack/react-query";
import { useState } from "react";
import { Link } from "wouter";
import type { PieceView, TimberShelfView } from "../../workshop/timber/views.ts";
import { get } from "../common/api.ts";
import { dayAndTime } from "../common/calendar.ts";
import { DeskForm } from "../common/DeskForm.tsx";
import { Choice } from "../common/fields.tsx";
import { Measured } from "../common/Measured.tsx";
import { fixed, plainNumber } from "../common/number.ts";
import { Papers } from "../common/Papers.tsx";
import { capital } from "../common/sentence.ts";
import { tradeWord, woodName } from "../common/tradeMessages.ts";
import { useArrival } from "../common/useArrival.ts";
import { Answer } from "../common/Waiting.tsx";
import { CourseChart } from "./CourseChart.tsx";
import { EndGrain } from "./EndGrain.tsx";
import { Finishing } from "./Finishing.tsx";
import { Fold } from "./Fold.tsx";
import { forms } from "./formMessages.ts";
import { CoatForm, FlawForm, KeepForm, MachineForm, MoveForm, OffcutForm, SawForm } from "./forms.tsx";
import { MoistureRule } from "./MoistureRule.tsx";
import { defectWords } from "./marks.ts";
import {
  finishing as finishingWords,
  planning as planWords,
  shelf as shelfWords,
  standingWords,
  piece as words,
} from "./messages.ts";
import { MarksForm, StagesForm } from "./planForms.tsx";
import { Ripens } from "./Ripens.tsx";
import { useShelf } from "./useShelf.ts";
import "./timber.css";

export default function PiecePage({ piece }: { readonly piece: string }) {
  const path = `/api/timber/pieces/${encodeURIComponent(piece)}`;
  const asked = useQuery({
    queryKey: [path],
    queryFn: () => get<PieceView>(path),
    refetchInterval: ({ state }) => (state.data?.rank?.pending ? 2500 : false),
  });
  const { data: shelf } = useShelf();
  return (
    <Answer asked={asked} what={words.what(piece)}>
      {(view) => <Piece view={view} shelf={shelf} />}
    </Answer>
  );
}

type Lists = Pick<TimberShelfView, "places" | "instruments" | "units">;

/** One piece: what it holds, how it came to that, what happens next, and the work to be written down. */
export function Piece({ view, shelf }: { readonly view: PieceView; readonly shelf?: Lists | undefined }) {
  useArrival();
  const { card, course, events, notes } = view;
  const { moisture, band } = card;
  const faces = shelf?.places.find(({ place }) => place === card.place)?.faces ?? "both";
  const isGone = view.into.length > 0;
  const [span, setSpan] = useState(
    isGone || view.stays.filter(({ isPlanned }) => !isPlanned).length < 2 ? "life" : "stay",
  );
  return (
    <article className="timber">
      <h1>{card.piece}</h1>
      <p className="lead">
        {woodName(card.species)}, {words.size(card.length_mm, card.width_mm, card.thickness_mm)},{" "}
        {words.ring(card.ringAngle_deg)}
        {isGone ? "" : `; ${card.place}`}.
      </p>
      <ul className="timber-ways">
        <li>
          <Link href="/timber">{words.back}</Link>
        </li>
        {!isGone && (
          <li>
            <Link href={`/timber/weigh#${encodeURIComponent(card.piece)}`} className="way-main">
              {shelfWords.weigh}
            </Link>
          </li>
        )}
        {card.from && (
          <li>
            <Link href={`/timber/piece/${encodeURIComponent(card.from)}`}>{words.from(card.from)}</Link>
          </li>
        )}
        {view.inCase && (
          <li>
            {view.inCase.unit === undefined ? (
              <span>{words.inCase(view.inCase.case, tradeWord(view.inCase.panel))}</span>
            ) : (
              <Link href={`/unit/${encodeURIComponent(view.inCase.unit)}/case`}>
                {words.inCase(view.inCase.case, tradeWord(view.inCase.panel))}
              </Link>
            )}
          </li>
        )}
      </ul>
      {isGone && (
        <p className="batch-pieces">
          {words.into}:{" "}
          {view.into.map((one) => (
            <Link key={one} href={`/timber/piece/${encodeURIComponent(one)}`}>
              {one}
            </Link>
          ))}
        </p>
      )}
      <div className="piece-head">
        <div className="piece-drawn">
          <EndGrain piece={card} faces={faces} scale={Math.min(0.95, 300 / card.width_mm)} />
          <MoistureRule moisture={moisture} band={band} target_pct={card.target_pct} width={286} />
        </div>
        <div className="piece-says">
          {moisture && moisture.basis !== "approach" && (
            <p className="piece-holds pencil">
              {fixed(moisture.mean_pct, 1)} ± {fixed((moisture.high_pct - moisture.low_pct) / 2, 1)} %
              <span className="quiet small">
                {" "}
                {words.skin} {fixed(moisture.surface_pct, 1)}, {words.core} {fixed(moisture.core_pct, 1)}
              </span>
            </p>
          )}
          {card.stands && <p className="piece-stands">{standingWords[card.stands]}</p>}
          <p>{card.advice}</p>
          {card.ripe && <p className="pencil">{words.ripe(dayAndTime(card.ripe.at))}.</p>}
          {card.nextWeighing && (
            <p>
              {words.next(dayAndTime(card.nextWeighing.at))}: {card.nextWeighing.why}.
            </p>
          )}
          {card.check && <p className="quiet small">{words.check(plainNumber(card.check.index), card.check.words)}</p>}
          {view.rank && <p className="small">{view.rank.pending ? words.rankWaits : view.rank.words}</p>}
          {view.papersAsked && <p className="timber-note">{view.papersAsked}</p>}
          {view.defects.length > 0 && <p className="small">{capital(defectWords(view.defects))}.</p>}
          {view.figure !== undefined && (
            <p className="small">
              {planWords.figure}: {planWords.figures[view.figure]?.toLowerCase()}.
            </p>
          )}
          {view.papers.length > 0 && <p className="small">{view.papers.join(", ")}</p>}
        </div>
      </div>
      <section aria-labelledby="course-name">
        <h2 id="course-name">{words.course}</h2>
        <Papers of={["timber.piece"]} />
        {course ? (
          <>
            {view.stays.length > 1 && (
              <Choice
                legend={words.span}
                value={span}
                onChange={setSpan}
                options={[
                  { value: "stay", label: words.thisStay },
                  { value: "life", label: words.wholeLife },
                ]}
              />
            )}
            <Measured>
              {(width) => <CourseChart view={{ ...view, course }} width={width} isWhole={span === "life"} />}
            </Measured>
            <p className="quiet small">{words.courseHow}</p>
          </>
        ) : (
          <p className="quiet">{words.noCourse}</p>
        )}
        {view.aside.length > 0 && (
          <div className="timber-note">
            <h3>{words.aside}</h3>
            <ul>
              {view.aside.map(({ at, mass_g, why }) => (
                <li key={`${at} ${mass_g}`}>
                  {dayAndTime(at)}, {mass_g} g: {why}
                </li>
              ))}
            </ul>
          </div>
        )}
      </section>
      {(view.ripens.length > 0 || view.planWanting !== undefined) && (
        <section aria-labelledby="ripens-name">
          <h2 id="ripens-name">{planWords.title}</h2>
          <Ripens ripens={view.ripens} />
          {view.planWanting && <p className="timber-note">{view.planWanting}</p>}
        </section>
      )}
      {view.finishing && (
        <section aria-labelledby="finish-name">
          <h2 id="finish-name">{finishingWords.title}</h2>
          <Finishing view={view.finishing} />
        </section>
      )}
      {!isGone && shelf && (
        <div className="timber-desk">
          <h2>{words.work}</h2>
          <Work title={words.move}>
            <MoveForm places={shelf.places.map(({ place }) => place)} pieces={[card.piece]} />
          </Work>
          {!view.inCase && (
            <Work title={planWords.plan}>
              <StagesForm key={view.ripens.length} view={view} places={shelf.places.map(({ place }) => place)} />
            </Work>
          )}
          <Work title={words.keep}>
            <KeepForm pieces={[card.piece]} units={shelf.units.map(({ unit }) => unit)} />
          </Work>
          <Work title={words.offcut}>
            <OffcutForm piece={card.piece} instruments={shelf.instruments} />
          </Work>
          <Work title={words.machine}>
            <MachineForm view={view} />
          </Work>
          <Work title={planWords.marks}>
            <MarksForm view={view} />
          </Work>
          <Work title={words.saw}>
            <SawForm view={view} />
          </Work>
          <Work title={words.coat}>
            <CoatForm pieces={[card.piece]} {...(view.inCase?.unit !== undefined && { unit: view.inCase.unit })} />
          </Work>
          <Work title={words.flaw}>
            <FlawForm piece={card.piece} />
          </Work>
        </div>
      )}
      <section className="piece-history" aria-labelledby="history-name">
        <h2 id="history-name">{words.history}</h2>
        <ol>
          {events.map((event) => (
            <Event key={event.id} event={event} piece={card.piece} />
          ))}
        </ol>
      </section>
      {notes.length > 0 && (
        <details className="piece-notes">
          <summary>{words.notes}</summary>
          <ul>
            {notes.map((note) => (
              <li key={note}>{note}</li>
            ))}
          </ul>
        </details>
      )}
    </article>
  );
}

function Work({ title, children }: { readonly title: string; readonly children: React.ReactNode }) {
  return (
    <section>
      <Fold title={title}>{children}</Fold>
    </section>
  );
}

function Event({ event, piece }: { readonly event: PieceView["events"][number]; readonly piece: string }) {
  const [isOpen, setOpen] = useState(false);
  return (
    <li>
      <time dateTime={event.at}>{dayAndTime(event.at)}</time>
      <div>
        <div className="event-says">
          <p>
            {event.words} <span className="quiet small">{event.by}</span>
          </p>
          {event.mass_g !== undefined && event.instrument !== undefined && (
            <button type="button" aria-expanded={isOpen} onClick={() => setOpen(!isOpen)}>
              {words.correct}
            </button>
          )}
        </div>
        {event.photo_sha256 && (
          <a href={`/api/photos/${event.photo_sha256}`}>
            <img className="flaw-photo" src={`/api/photos/${event.photo_sha256}`} alt={words.photo} loading="lazy" />
          </a>
        )}
        {isOpen && event.mass_g !== undefined && (
          <DeskForm
            form={`timber correct ${event.id}`}
            at={event.at}
            fields={{
              mass_g: { label: forms.correct.mass, kind: "number", unit: "g", first: String(event.mass_g) },
            }}
            write={forms.correct.write}
            entries={(typed) => [
              {
                kind: "weighing",
                piece,
                mass_g: typed.number("mass_g"),
                instrument: event.instrument!,
                supersedes: event.id,
              },
            ]}
            done={() => forms.correct.done}
          />
        )}
      </div>
    </li>
  );
}
