import { useId } from "react";
import type { Note } from "../common/api.ts";
import { Field, numberError, numberOf } from "../common/fields.tsx";
import { common, stepName } from "../common/messages.ts";
import { readNumber } from "../common/number.ts";
import { stepWords as words } from "./messages.ts";

type Build = Extract<Note, { kind: "model" }>["build"];

/** A step of building as it is typed. */
export interface TypedStep {
  readonly step: string;
  readonly skill: string;
  readonly place: string;
  readonly fast: string;
  readonly usual: string;
  readonly slow: string;
  readonly isByItself: boolean;
}

export const typedSteps = (build: Build): readonly TypedStep[] =>
  build.map(({ step, skill = "", place = "", hours, unattended = false }) => ({
    step,
    skill,
    place,
    fast: String(hours.fast),
    usual: String(hours.usual),
    slow: String(hours.slow),
    isByItself: unattended,
  }));

const blank: TypedStep = { step: "", skill: "", place: "", fast: "", usual: "", slow: "", isByItself: false };

/** What keeps the steps from being written down, in words. */
export function stepsFault(steps: readonly TypedStep[]): string | undefined {
  const named = steps.filter(({ step }) => step.trim() !== "");
  const names = named.map(({ step }) => step.trim());
  const twice = names.find((name, i) => names.indexOf(name) !== i);
  if (twice !== undefined) return words.twice(twice);
  const unread = named.find(({ fast, usual, slow }) =>
    [fast, usual, slow].some((typed) => numberError(typed) !== undefined),
  );
  return unread && words.hoursOf(unread.step.trim());
}

/** The steps as a model holds them; what a step had besides, it keeps. */
export function buildOf(steps: readonly TypedStep[], before: Build): Build {
  return steps
    .filter(({ step }) => step.trim() !== "")
    .map(({ step, skill, place, fast, usual, slow, isByItself }) => {
      const known = before.find((one) => one.step === step.trim());
      return {
        step: step.trim(),
        ...(!isByItself && skill.trim() !== "" && { skill: skill.trim() }),
        ...(place.trim() !== "" && { place: place.trim() }),
        hours: { fast: numberOf(fast), usual: numberOf(usual), slow: numberOf(slow) },
        ...(isByItself && { unattended: true }),
        ...(known?.failOdds !== undefined && { failOdds: known.failOdds }),
      };
    });
}

/** The steps of building, each open to the pen, more of them, fewer, or in another order. */
export function BuildSteps({
  steps,
  change,
}: {
  readonly steps: readonly TypedStep[];
  readonly change: (now: readonly TypedStep[]) => void;
}) {
  const id = useId();
  return (
    <>
      <p className="small quiet">{words.lead}</p>
      {steps.map((one, i) => {
        const set = (part: Partial<TypedStep>) => change(steps.with(i, { ...one, ...part }));
        const hours = (label: string, name: "fast" | "usual" | "slow") => (
          <Field
            label={label}
            value={one[name]}
            unit="h"
            numeric
            narrow
            onChange={(now) => set({ [name]: now })}
            {...(!readNumber(one[name]).ok && one[name] !== "" && { error: numberError(one[name]) ?? common.needed })}
          />
        );
        return (
          // biome-ignore lint/suspicious/noArrayIndexKey: a step is its place in the list
          <fieldset key={i} className="limits-need">
            <legend>
              {i + 1}. {stepName(one.step)}
            </legend>
            <Field label={words.step} value={one.step} onChange={(step) => set({ step })} />
            {!one.isByItself && <Field label={words.skill} value={one.skill} onChange={(skill) => set({ skill })} />}
            <Field label={words.place} value={one.place} onChange={(place) => set({ place })} />
            {hours(words.fast, "fast")}
            {hours(words.usual, "usual")}
            {hours(words.slow, "slow")}
            <label className="choice-option" htmlFor={`${id}-${i}`}>
              <input
                id={`${id}-${i}`}
                type="checkbox"
                checked={one.isByItself}
                onChange={({ target }) => set({ isByItself: target.checked })}
              />
              <span>{words.byItself}</span>
            </label>
            {i > 0 && (
              <button type="button" onClick={() => change(steps.with(i - 1, one).with(i, steps[i - 1]!))}>
                {words.earlier}
                <span className="visually-hidden"> {one.step}</span>
              </button>
            )}
            <button type="button" onClick={() => change(steps.toSpliced(i, 1))}>
              {words.drop}
              <span className="visually-hidden"> {one.step}</span>
            </button>
          </fieldset>
        );
      })}
      <button type="button" onClick={() => change([...steps, blank])}>
        {words.more}
      </button>
    </>
  );
}
