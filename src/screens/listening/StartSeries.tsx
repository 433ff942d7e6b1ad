import type { FormEvent } from "react";
import { useState } from "react";
import { useLocation } from "wouter";
import type { ListeningIndexView } from "../../workshop/listening/views.ts";
import { post } from "../common/api.ts";
import { By } from "../common/By.tsx";
import { Choice, Field, FormEnd, numberError, numberOf, Recalled } from "../common/fields.tsx";
import { Pick } from "../common/Pick.tsx";
import { useBy } from "../common/useBy.ts";
import { useDraft } from "../common/useDraft.ts";
import { useSending } from "../common/useSending.ts";
import { seriesPath } from "./SeriesList.tsx";
import { series as words } from "./seriesMessages.ts";

type Levels = keyof typeof words.levelsHow;

interface Planned {
  readonly entry: { readonly body: { readonly series: string; readonly trials: number } };
}

/** A blind series planned before anybody listens: what is asked, of whom, how often, and how loud both are. */
export function StartSeries({ index }: { readonly index: ListeningIndexView }) {
  const [first] = index.models;
  if (!first) return <p>{words.noModels}</p>;
  return <Form index={index} />;
}

function Form({ index }: { readonly index: ListeningIndexView }) {
  const { models, headphones, levels } = index;
  const newest = models.at(-1)!;
  const blank = {
    series: "",
    model: newest.model,
    first: newest.versions.at(-2)!,
    second: newest.versions.at(-1)!,
    asked: "difference",
    listeners: "",
    heard: "75",
    trials: "",
    through: headphones[0] ?? "",
    source: "",
    levels: "none",
    firstLevel: "",
    secondLevel: "",
    doubt: "0.03",
    shared: "0.02",
    firstReading: "",
    secondReading: "",
  };
  const { typed, change, clear, isRecalled } = useDraft("listening series", blank);
  const [by, setBy] = useBy();
  const [tried, setTried] = useState(false);
  const sending = useSending();
  const [, go] = useLocation();
  const model = models.find((one) => one.model === typed.model) ?? newest;
  const how = typed.levels as Levels;
  const listeners = typed.listeners
    .split(/[\n;]/)
    .map((one) => one.trim())
    .filter(Boolean);
  const typedLevels = how === "typed" ? [typed.firstLevel, typed.secondLevel, typed.doubt, typed.shared] : [];
  const bad =
    typed.first === typed.second ||
    listeners.length === 0 ||
    numberError(typed.heard) !== undefined ||
    numberError(typed.trials, false) !== undefined ||
    typedLevels.some((text) => numberError(text) !== undefined) ||
    (how === "readings" && (typed.firstReading === "" || typed.secondReading === ""));
  const problem = bad ? words.problem : by.trim() === "" ? words.byNeeded : undefined;
  const put = (name: keyof typeof blank) => (text: string) => change({ [name]: text });
  const choose = (name: string) => {
    const versions = models.find((one) => one.model === name)?.versions ?? [];
    change({ model: name, first: versions.at(-2) ?? "", second: versions.at(-1) ?? "" });
  };
  const submit = async (event: FormEvent) => {
    event.preventDefault();
    setTried(true);
    if (problem) return;
    const text = (name: "series" | "through" | "source") =>
      typed[name].trim() === "" ? {} : { [name]: typed[name].trim() };
    await sending.send(async () => {
      const { entry } = await post<Planned>("/api/listening", {
        by: by.trim(),
        model: model.model,
        versions: [typed.first, typed.second],
        asked: typed.asked,
        listeners,
        heard: numberOf(typed.heard) / 100,
        ...(typed.trials.trim() !== "" && { trials: numberOf(typed.trials) }),
        ...text("series"),
        ...text("through"),
        ...text("source"),
        ...(how === "typed" && {
          match: {
            first_dB: numberOf(typed.firstLevel),
            second_dB: numberOf(typed.secondLevel),
            doubt_dB: numberOf(typed.doubt),
            shared_dB: numberOf(typed.shared),
          },
        }),
        ...(how === "readings" && { match: { from: [typed.firstReading, typed.secondReading] } }),
      });
      clear();
      go(seriesPath(entry.body.series));
      return words.planned(entry.body.series, entry.body.trials);
    });
  };
  const readings = levels.map(({ id, what, at }) => ({ value: id, label: `${what}, ${at.slice(0, 10)}` }));
  return (
    <form onSubmit={submit} noValidate aria-label={words.start}>
      <Recalled isRecalled={isRecalled} clear={() => clear()} />
      <div className="fields">
        <Pick label={words.model} value={model.model} onChange={choose} options={models.map((one) => one.model)} />
        <Pick label={words.first} value={typed.first} onChange={put("first")} options={model.versions} />
        <Pick label={words.second} value={typed.second} onChange={put("second")} options={model.versions} />
      </div>
      <Choice
        legend={words.asked}
        value={typed.asked}
        onChange={put("asked")}
        options={[
          { value: "difference", label: words.askDifference },
          { value: "preference", label: words.askPreference },
        ]}
      />
      <div className="field">
        <label htmlFor="series-listeners">{words.listeners}</label>
        <span className="field-hint" id="series-listeners-hint">
          {words.listenersHint}
        </span>
        <textarea
          id="series-listeners"
          aria-describedby="series-listeners-hint"
          rows={4}
          value={typed.listeners}
          onChange={(event) => change({ listeners: event.target.value })}
        />
      </div>
      <div className="fields">
        <Field
          label={words.heard}
          hint={words.heardHint}
          value={typed.heard}
          onChange={put("heard")}
          numeric
          narrow
          {...(tried && numberError(typed.heard) ? { error: numberError(typed.heard)! } : {})}
        />
        <Field
          label={words.trials}
          hint={words.trialsHint}
          value={typed.trials}
          onChange={put("trials")}
          numeric
          narrow
        />
      </div>
      <div className="fields">
        <Field label={words.through} value={typed.through} onChange={put("through")} list={headphones} />
        <Field label={words.source} value={typed.source} onChange={put("source")} />
        <Field label={words.name} hint={words.nameHint} value={typed.series} onChange={put("series")} />
      </div>
      <Choice
        legend={words.levels}
        value={how}
        onChange={put("levels")}
        options={(Object.keys(words.levelsHow) as Levels[]).map((value) => ({ value, label: words.levelsHow[value] }))}
      />
      {how === "typed" && (
        <div className="fields">
          <Field label={words.firstLevel} value={typed.firstLevel} onChange={put("firstLevel")} numeric narrow />
          <Field label={words.secondLevel} value={typed.secondLevel} onChange={put("secondLevel")} numeric narrow />
          <Field label={words.doubt} value={typed.doubt} onChange={put("doubt")} numeric narrow />
          <Field label={words.shared} value={typed.shared} onChange={put("shared")} numeric narrow />
        </div>
      )}
      {how === "readings" &&
        (readings.length < 2 ? (
          <p>{words.noReadings}</p>
        ) : (
          <div className="fields">
            <Pick
              label={words.reading}
              value={typed.firstReading}
              onChange={put("firstReading")}
              options={readings}
              none=""
            />
            <Pick
              label={words.otherReading}
              value={typed.secondReading}
              onChange={put("secondReading")}
              options={readings}
              none=""
            />
          </div>
        ))}
      <By value={by} onChange={setBy} />
      {tried && problem && (
        <p className="field-error" role="alert">
          {problem}
        </p>
      )}
      <FormEnd write={words.seal} sending={sending} />
    </form>
  );
}
