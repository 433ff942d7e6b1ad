import { type FormEvent, useEffect, useState } from "react";
import type { DraftView, TrialView } from "../../workshop/notebook/views.ts";
import { post, writeDown } from "../common/api.ts";
import { By } from "../common/By.tsx";
import { Field, Outcome, Recalled } from "../common/fields.tsx";
import { common } from "../common/messages.ts";
import { useBy } from "../common/useBy.ts";
import type { useDraft } from "../common/useDraft.ts";
import { useSending } from "../common/useSending.ts";
import { BenchFields } from "./BenchFields.tsx";
import { benchedOf, benchOf, sample, type TypedBench } from "./benched.ts";
import { draftWords } from "./messages.ts";
import { NetlistText } from "./NetlistText.tsx";
import { Spread } from "./Spread.tsx";
import { useReading } from "./useReading.ts";

export type DraftName = "model" | "version" | "why" | "from" | "text" | "bench";
type VersionDraft = ReturnType<typeof useDraft<DraftName>>;

interface Props {
  readonly draft: VersionDraft;
  /** The model whose page this is; a new one asks for its name. */
  readonly model?: string;
  readonly onSaved: (model: string) => void;
}

/** A version being drawn: its net list as text, what it is judged with, why it was drawn. */
export function DrawVersion({ draft, model, onSaved }: Props) {
  const { typed, change } = draft;
  const [by, setBy] = useBy();
  const [asked, setAsked] = useState(false);
  const [seen, setSeen] = useState<TrialView>();
  const { reading, isReading } = useReading(typed.text);
  const saving = useSending();
  const looking = useSending();
  const bench = benchOf(typed.bench);
  const setBench = (now: TypedBench) => change({ bench: JSON.stringify(now) });
  const good = reading?.state === "good" ? reading : undefined;
  const faults = reading?.state === "faulty" && !isReading ? reading.faults : [];

  const guess = good?.guess;
  // biome-ignore lint/correctness/useExhaustiveDependencies: only a new reading puts ends where none were typed
  useEffect(() => {
    if (guess && guess.length > 0 && bench.channels.length === 0) setBench({ ...bench, channels: guess });
  }, [guess]);

  const named = (model ?? typed.model).trim();
  const question = () => ({
    text: typed.text,
    benched: benchedOf(bench),
    ...(model !== undefined && typed.from !== "" && { from: { model, version: typed.from } }),
  });
  const look = () =>
    void looking.send(async () => {
      const answer = await post<TrialView>("/api/notebook-trial", question());
      if (answer.state === "faulty") throw new Error(draftWords.mend);
      setSeen(answer);
      return "";
    });
  const submit = (event: FormEvent) => {
    event.preventDefault();
    setAsked(true);
    if (typed.text.trim() === "") return saving.refuse(draftWords.mend);
    if (named === "" || typed.version.trim() === "" || typed.why.trim() === "" || by.trim() === "") return;
    void saving
      .send(async () => {
        const read = await post<DraftView>("/api/notebook-draft", { text: typed.text });
        if (read.state === "faulty") throw new Error(draftWords.mend);
        const benched = benchedOf(bench.channels.length > 0 ? bench : { ...bench, channels: read.guess });
        await writeDown(by.trim(), [
          {
            kind: "version",
            model: named,
            version: typed.version.trim(),
            netlist: JSON.parse(typed.text) as Record<string, unknown>,
            channels: benched.channels.map((ends) => ({ ...ends })),
            loads: benched.loads.map((load) => ({ ...load })),
            limits: benched.limits,
            ...(typed.from !== "" && { from: typed.from }),
            why: typed.why.trim(),
          },
        ]);
        return draftWords.saved(typed.version.trim());
      })
      .then((done) => {
        if (!done) return;
        setSeen(undefined);
        setAsked(false);
        draft.clear();
        onSaved(named);
      });
  };
  const needed = (value: string) => (asked && value.trim() === "" ? common.needed : undefined);
  const takeFile = async (file: File | undefined) => {
    if (file) change({ text: await file.text() });
  };

  return (
    <section className="draw" id="draft" aria-labelledby="draft-name">
      <h2 id="draft-name">{draftWords.title}</h2>
      <p className="quiet">{draftWords.lead}</p>
      <form onSubmit={submit} noValidate>
        <Recalled isRecalled={draft.isRecalled} clear={() => draft.clear()} />
        <NetlistText text={typed.text} onChange={(text) => change({ text })} faults={faults} />
        <p className="draw-reading" role="status">
          {isReading ? draftWords.reading : good ? draftWords.sound(good.parts.length) : ""}
        </p>
        <div className="draw-ways">
          {typed.text.trim() === "" && (
            <button type="button" onClick={() => change({ text: sample })}>
              {draftWords.sample}
            </button>
          )}
          <label className="draw-file">
            <span>{draftWords.file}</span>
            <input
              type="file"
              accept=".json,application/json,text/plain"
              onChange={(event) => void takeFile(event.target.files?.[0])}
            />
          </label>
        </div>
        <BenchFields bench={bench} onChange={setBench} sources={good?.sources ?? []} nodes={good?.nodes ?? []} />
        <div className="fields">
          {model === undefined && (
            <Field
              label={draftWords.model}
              value={typed.model}
              error={needed(typed.model)}
              onChange={(value) => change({ model: value })}
            />
          )}
          <Field
            label={draftWords.version}
            value={typed.version}
            error={needed(typed.version)}
            onChange={(version) => change({ version })}
          />
          <By label={common.by} value={by} onChange={setBy} error={needed(by)} />
        </div>
        <Field label={draftWords.why} value={typed.why} error={needed(typed.why)} onChange={(why) => change({ why })} />
        <div className="draw-ways">
          <button type="button" disabled={typed.text.trim() === "" || looking.busy} onClick={look}>
            {draftWords.compare}
          </button>
          <button type="submit" className="main" disabled={saving.busy}>
            {draftWords.save}
          </button>
        </div>
        <Outcome busy={saving.busy} said={saving.said} error={saving.error ?? looking.error} />
      </form>
      <div role="status">{looking.busy && <p className="quiet">{draftWords.comparing}</p>}</div>
      {seen?.state === "good" && (
        <section aria-labelledby="draft-comes">
          <h3 id="draft-comes">{draftWords.comes}</h3>
          <Spread spread={seen.spread} pages={[]} caption={draftWords.comes} />
        </section>
      )}
    </section>
  );
}
