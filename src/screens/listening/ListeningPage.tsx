import { useQuery } from "@tanstack/react-query";
import { Link } from "wouter";
import type { ListeningIndexView } from "../../workshop/listening/views.ts";
import { get } from "../common/api.ts";
import { Field } from "../common/fields.tsx";
import { plainNumber } from "../common/number.ts";
import { StateSign } from "../common/StateSign.tsx";
import { useComputed } from "../common/useComputed.ts";
import { useNumbers } from "../common/useNumbers.ts";
import { Answer } from "../common/Waiting.tsx";
import { words } from "./messages.ts";
import { SeriesList } from "./SeriesList.tsx";
import { StartSeries } from "./StartSeries.tsx";
import { series } from "./seriesMessages.ts";
import "../common/office.css";
import "./listening.css";

export interface DesignAnswer {
  readonly trials: number;
  readonly needed: number;
  readonly falseAlarm: number;
  readonly power: number;
  readonly others: readonly { readonly trials: number; readonly needed: number; readonly power: number }[];
}

export interface LevelAnswer {
  readonly state: "proven" | "refuted" | "undecided";
  readonly pairs: readonly { readonly difference_dB: number; readonly doubt_dB: number }[];
  readonly trim_dB: number;
  readonly wouldDecide_dB?: number;
}

export interface ScoreAnswer {
  readonly p: number;
  readonly odds: number;
  readonly moreTrials?: number;
  readonly share: { readonly value: number; readonly low: number; readonly high: number };
}

interface Answers {
  readonly design?: DesignAnswer;
  readonly level?: LevelAnswer;
  readonly score?: ScoreAnswer;
}

export default function ListeningPage() {
  const asked = useQuery({ queryKey: ["/api/listening"], queryFn: () => get<ListeningIndexView>("/api/listening") });
  return (
    <Answer asked={asked} what={series.what}>
      {(index) => <Listening index={index} />}
    </Answer>
  );
}

/** Blind series, one to plan, and the reckoning by itself; answers may be given for the examples. */
export function Listening({ index, answers = {} }: { readonly index: ListeningIndexView; readonly answers?: Answers }) {
  return (
    <article className="office listening">
      <h1>{series.title}</h1>
      <p className="lead">{series.lead}</p>
      <ul className="office-ways">
        <li>
          <Link href="/notebook">{words.toNotebook}</Link>
        </li>
      </ul>
      <SeriesList index={index} />
      <section aria-labelledby="start-name">
        <h2 id="start-name">{series.start}</h2>
        <p>{words.lead}</p>
        <StartSeries index={index} />
      </section>
      <Plan given={answers.design} />
      <Level given={answers.level} />
      <Score given={answers.score} />
    </article>
  );
}

const inHundred = (share: number) => words.inHundred(plainNumber(100 * share));

function Refusal({ error }: { readonly error: string | undefined }) {
  return <div role="alert">{error && <p className="outcome-error">{error}</p>}</div>;
}

function Plan({ given }: { readonly given: DesignAnswer | undefined }) {
  const asked = useComputed<DesignAnswer>("listening.design");
  const { field, submit } = useNumbers({ heard: "75", listeners: "1", power: "80" });
  const answer = asked.answer ?? given;
  return (
    <section aria-labelledby="plan-name">
      <h2 id="plan-name">{words.plan}</h2>
      <form
        noValidate
        onSubmit={submit(
          ({ heard, listeners, power }) => void asked.ask({ heard: heard / 100, listeners, power: power / 100 }),
        )}
      >
        <div className="fields">
          <Field label={words.heard} hint={words.heardHint} unit="%" {...field("heard")} />
          <Field label={words.listeners} {...field("listeners")} />
          <Field label={words.power} unit="%" {...field("power")} />
        </div>
        <button type="submit" className="main" disabled={asked.busy}>
          {words.count}
        </button>
        <Refusal error={asked.error} />
      </form>
      <div role="status">
        {answer && (
          <>
            <p className="listening-answer pencil">{words.needs(answer.trials, answer.needed)}</p>
            <p className="pencil">{words.keeps(inHundred(answer.falseAlarm), inHundred(answer.power))}</p>
          </>
        )}
      </div>
      {answer && (
        <div className="office-scroll">
          <table>
            <caption>{words.others}</caption>
            <thead>
              <tr>
                <th scope="col" className="figure">
                  {words.trials}
                </th>
                <th scope="col" className="figure">
                  {words.right}
                </th>
                <th scope="col" className="figure">
                  {words.found}
                </th>
              </tr>
            </thead>
            <tbody>
              {answer.others.map(({ trials, needed, power }) => (
                <tr key={trials}>
                  <td className="figure">{trials}</td>
                  <td className="figure">{needed}</td>
                  <td className="figure pencil">{inHundred(power)}</td>
                </tr>
              ))}
            </tbody>
          </table>
        </div>
      )}
    </section>
  );
}

function Level({ given }: { readonly given: LevelAnswer | undefined }) {
  const asked = useComputed<LevelAnswer>("listening.level");
  const { field, submit } = useNumbers({ first: "", second: "", doubt: "0.03", shared: "0.02", within: "0.1" });
  const answer = asked.answer ?? given;
  const pair = answer?.pairs[0];
  return (
    <section aria-labelledby="level-name">
      <h2 id="level-name">{words.level}</h2>
      <p>{words.levelLead}</p>
      <form
        noValidate
        onSubmit={submit(
          ({ first, second, doubt, shared, within }) =>
            void asked.ask({
              pairs: [{ at: "1 kHz", first_dB: first, second_dB: second, doubt_dB: doubt, shared_dB: shared }],
              within_dB: within,
            }),
        )}
      >
        <div className="fields">
          <Field label={words.first} {...field("first")} />
          <Field label={words.second} {...field("second")} />
          <Field label={words.doubt} {...field("doubt")} />
          <Field label={words.shared} {...field("shared")} />
          <Field label={words.within} {...field("within")} />
        </div>
        <button type="submit" className="main" disabled={asked.busy}>
          {words.compare}
        </button>
        <Refusal error={asked.error} />
      </form>
      <div role="status">
        {answer && pair && (
          <p>
            <StateSign state={answer.state} />{" "}
            <span className="pencil">
              {words.level_states[answer.state]}{" "}
              {words.difference(`${plainNumber(pair.difference_dB)} ± ${plainNumber(pair.doubt_dB)}`)}{" "}
              {answer.state === "refuted" && words.trim(plainNumber(answer.trim_dB))}
              {answer.wouldDecide_dB !== undefined && words.would(plainNumber(answer.wouldDecide_dB))}
            </span>
          </p>
        )}
      </div>
    </section>
  );
}

function Score({ given }: { readonly given: ScoreAnswer | undefined }) {
  const asked = useComputed<ScoreAnswer>("listening.blind");
  const { field, submit } = useNumbers({ trials: "", right: "" });
  const answer = asked.answer ?? given;
  return (
    <section aria-labelledby="score-name">
      <h2 id="score-name">{words.score}</h2>
      <form noValidate onSubmit={submit((numbers) => void asked.ask(numbers))}>
        <div className="fields">
          <Field label={words.made} {...field("trials")} />
          <Field label={words.got} {...field("right")} />
        </div>
        <button type="submit" className="main" disabled={asked.busy}>
          {words.weigh}
        </button>
        <Refusal error={asked.error} />
      </form>
      <div role="status">
        {answer && (
          <p className="pencil">
            {words.p(inHundred(answer.p))}{" "}
            {answer.odds >= 1
              ? words.odds(words.times(plainNumber(answer.odds)))
              : words.oddsAgainst(words.times(plainNumber(1 / Math.max(1e-300, answer.odds))))}{" "}
            {words.share(
              plainNumber(100 * answer.share.value),
              plainNumber(100 * answer.share.low),
              plainNumber(100 * answer.share.high),
            )}{" "}
            {answer.moreTrials ? words.more(answer.moreTrials) : words.enough}
          </p>
        )}
      </div>
    </section>
  );
}
