import { type FormEvent, useId, useState } from "react";
import type { NotebookView, ReleaseDraftView } from "../../workshop/notebook/views.ts";
import { type Note, post, writeDown } from "../common/api.ts";
import { By } from "../common/By.tsx";
import { DangerOf } from "../common/Caution.tsx";
import { Field, FormEnd, numberError, Outcome, Recalled } from "../common/fields.tsx";
import { common } from "../common/messages.ts";
import { readNumber } from "../common/number.ts";
import { Pick } from "../common/Pick.tsx";
import { quantitySaid } from "../common/quantity.ts";
import { useBy } from "../common/useBy.ts";
import { useDraft } from "../common/useDraft.ts";
import { useSending } from "../common/useSending.ts";
import { BuildSteps, buildOf, stepsFault, type TypedStep, typedSteps } from "./BuildSteps.tsx";
import { releaseWords, words } from "./messages.ts";

type ModelNote = Extract<Note, { kind: "model" }>;
type Claim = ModelNote["claims"][number];
type Requirement = Claim["requires"][number];

/** A page made a revision of its model: every limit is looked at before it is written down. */
export function ReleaseDesk({ notebook }: { readonly notebook: NotebookView }) {
  const id = useId();
  const { pages, model } = notebook;
  const [version, setVersion] = useState(pages.at(-1)?.version ?? "");
  const [draft, setDraft] = useState<ReleaseDraftView>();
  const sending = useSending();
  const draw = () =>
    void sending.send(async () => {
      const path = `/api/notebook/${encodeURIComponent(model)}/versions/${encodeURIComponent(version)}/release`;
      setDraft(await post<ReleaseDraftView>(path, {}));
      return "";
    });
  return (
    <section className="release" aria-labelledby={`${id}-name`}>
      <h2 id={`${id}-name`}>{releaseWords.title}</h2>
      <p className="quiet">{releaseWords.lead}</p>
      <div className="trial-form">
        <Pick
          narrow
          label={releaseWords.page}
          value={version}
          onChange={setVersion}
          options={pages.map((one) => ({ value: one.version, label: words.page(one.version) }))}
        />
        <button type="button" disabled={sending.busy} onClick={draw}>
          {releaseWords.draw}
        </button>
      </div>
      <div role="status">{sending.busy && <p className="quiet">{releaseWords.drawing}</p>}</div>
      <Outcome busy={false} error={sending.error} />
      {draft && <Limits key={`${draft.version} ${draft.revision}`} draft={draft} />}
    </section>
  );
}

const keyOf = (claim: string, i: number, side: "low" | "high") => `${claim} ${i} ${side}`;

/** The claims of a revision not yet written, each limit open to the pen. */
export function Limits({ draft }: { readonly draft: ReleaseDraftView }) {
  const entry = draft.entry as unknown as ModelNote;
  const [by, setBy] = useBy();
  const form = useDraft(`release ${draft.model} ${draft.version}`, {
    revision: draft.revision,
    title: entry.title,
    numbers: "{}",
    left: "[]",
    steps: JSON.stringify(typedSteps(entry.build)),
  });
  const steps = JSON.parse(form.typed.steps) as readonly TypedStep[];
  const { revision, title } = form.typed;
  const typed = JSON.parse(form.typed.numbers) as Readonly<Record<string, string>>;
  const left: ReadonlySet<string> = new Set(JSON.parse(form.typed.left) as readonly string[]);
  const [asked, setAsked] = useState(false);
  const sending = useSending();
  const kept = entry.claims.filter(({ claim }) => !left.has(claim));
  const at = (key: string, value: number | undefined) => typed[key] ?? (value === undefined ? "" : String(value));

  const submit = (event: FormEvent) => {
    event.preventDefault();
    setAsked(true);
    if (revision.trim() === "" || title.trim() === "" || by.trim() === "") return;
    if (Object.values(typed).some((text) => numberError(text, false))) return sending.refuse(releaseWords.limitsWrong);
    const fault = stepsFault(steps);
    if (fault !== undefined) return sending.refuse(fault);
    const names = new Set(kept.map(({ claim }) => claim));
    const claims = kept.map((claim) => ({
      ...claim,
      requires: claim.requires.map((need, i) => limited(claim.claim, need, i, typed)),
      check: { ...claim.check, after: (claim.check.after ?? []).filter((name) => names.has(name)) },
    }));
    const build = buildOf(steps, entry.build);
    void sending
      .send(async () => {
        await writeDown(by.trim(), [{ ...entry, revision: revision.trim(), title: title.trim(), claims, build }]);
        return releaseWords.done(draft.model, revision.trim());
      })
      .then((done) => done && form.clear(form.typed));
  };
  const needed = (value: string) => (asked && value.trim() === "" ? common.needed : undefined);
  const number = (label: string, key: string, value: number | undefined, unit: string) => (
    <Field
      label={label}
      value={at(key, value)}
      unit={unit}
      numeric
      narrow
      error={numberError(at(key, value), false)}
      onChange={(now) => form.change({ numbers: JSON.stringify({ ...typed, [key]: now }) })}
    />
  );
  return (
    <form className="limits" onSubmit={submit} noValidate>
      <Recalled isRecalled={form.isRecalled} clear={() => form.clear()} />
      <p>{releaseWords.claims(kept.length)}</p>
      {draft.carried.length > 0 && <p className="quiet">{releaseWords.carried(draft.carried)}</p>}
      {entry.claims.map((claim) => (
        <details key={claim.claim} className="limits-claim" open={claim.safety || undefined}>
          <summary>
            {claim.title}
            {left.has(claim.claim) && <span className="quiet"> ({releaseWords.leaveOut.toLowerCase()})</span>}
          </summary>
          <p className="small quiet">{claim.check.how}</p>
          <DangerOf danger={claim.check.danger ?? "none"} />
          {claim.requires.map((need, i) => {
            const { name, unit } = quantitySaid(need.quantity);
            const where = [name, need.position, need.section, need.point, need.channel].filter(Boolean).join(", ");
            return (
              // biome-ignore lint/suspicious/noArrayIndexKey: a need is its place in the claim
              <fieldset key={i} className="limits-need">
                <legend>{where}</legend>
                {need.low !== undefined && number(releaseWords.low, keyOf(claim.claim, i, "low"), need.low, unit)}
                {need.high !== undefined && number(releaseWords.high, keyOf(claim.claim, i, "high"), need.high, unit)}
              </fieldset>
            );
          })}
          {claim.safety ? (
            <p className="small">{releaseWords.safety}</p>
          ) : (
            <label className="choice-option">
              <input
                type="checkbox"
                checked={left.has(claim.claim)}
                onChange={(event) => {
                  const now = new Set(left);
                  if (event.target.checked) now.add(claim.claim);
                  else now.delete(claim.claim);
                  form.change({ left: JSON.stringify([...now]) });
                }}
              />
              <span>{releaseWords.leaveOut}</span>
            </label>
          )}
        </details>
      ))}
      <details className="limits-claim">
        <summary>{releaseWords.build}</summary>
        <BuildSteps steps={steps} change={(now) => form.change({ steps: JSON.stringify(now) })} />
      </details>
      <details>
        <summary>{words.notes}</summary>
        <ul className="outlook-list small">
          {draft.notes.map((note) => (
            <li key={note}>{note}</li>
          ))}
        </ul>
      </details>
      <ul className="limits-cautions">
        {draft.cautions.map((caution) => (
          <li key={caution} className="caution">
            {caution}
          </li>
        ))}
      </ul>
      <div className="fields">
        <Field
          label={releaseWords.revision}
          value={revision}
          onChange={(now) => form.change({ revision: now })}
          error={needed(revision)}
        />
        <Field
          label={releaseWords.name}
          value={title}
          onChange={(now) => form.change({ title: now })}
          error={needed(title)}
        />
        <By need="release" label={common.by} value={by} onChange={setBy} error={needed(by)} />
      </div>
      <FormEnd write={releaseWords.go(revision.trim() || "…")} sending={sending} />
    </form>
  );
}

function limited(claim: string, need: Requirement, i: number, typed: Readonly<Record<string, string>>): Requirement {
  const { low, high, ...rest } = need;
  const read = (side: "low" | "high", value: number | undefined) => {
    const text = typed[keyOf(claim, i, side)];
    if (text === undefined) return value;
    const number = readNumber(text);
    return number.ok ? number.value : undefined;
  };
  const [now, most] = [read("low", low), read("high", high)];
  return { ...rest, ...(now !== undefined && { low: now }), ...(most !== undefined && { high: most }) };
}
