import { type FormEvent, type ReactNode, useState } from "react";
import { type Note, post, Trouble, writeDown } from "./api.ts";
import { By } from "./By.tsx";
import { Field, FormEnd, numberError, numberOf, Recalled } from "./fields.tsx";
import { common } from "./messages.ts";
import { Pick } from "./Pick.tsx";
import { useBy } from "./useBy.ts";
import { useDraft } from "./useDraft.ts";
import { useSending } from "./useSending.ts";
import "./desk.css";

export interface Asked {
  readonly label: string;
  readonly kind?: "number" | "words" | "choice";
  readonly hint?: string;
  readonly unit?: string;
  readonly list?: readonly string[];
  readonly choices?: readonly { readonly value: string; readonly label: string }[];
  /** Stands in the field to begin with. */
  readonly first?: string;
  readonly optional?: boolean;
  /** Takes the whole line. */
  readonly wide?: boolean;
}

interface Typed<Name extends string> {
  text(name: Name): string;
  /** Of a number field that was filled in. */
  number(name: Name): number;
  optional(name: Name): number | undefined;
}

interface Props<Name extends string> {
  /** What the typed words are kept under until they are sent. */
  readonly form: string;
  readonly fields: Readonly<Record<Name, Asked>>;
  readonly write: string;
  readonly children?: ReactNode;
  /** What is written down; a text is a refusal in words. */
  entries(typed: Typed<Name>): readonly Note[] | string | Promise<readonly Note[] | string>;
  done(typed: Typed<Name>): string;
  readonly after?: (typed: Typed<Name>) => void;
  /** When it was done, where that is not now. */
  readonly at?: string;
  /** What it takes to write this down. */
  readonly need?: "release" | "owner";
}

/** A form that writes entries down: fields with what is wrong beside them, who writes, and what came of it. */
export function DeskForm<Name extends string>({
  form,
  fields,
  write,
  children,
  entries,
  done,
  after,
  at,
  need,
}: Props<Name>) {
  const names = Object.keys(fields) as Name[];
  const blank = Object.fromEntries(names.map((name) => [name, fields[name].first ?? ""])) as Record<Name, string>;
  const draft = useDraft(form, blank);
  const [by, setBy] = useBy();
  const [isTried, setTried] = useState(false);
  const [refused, setRefused] = useState<{ readonly name: string; readonly typed: string; readonly why: string }>();
  const sending = useSending();
  const errorOf = (name: Name): string | undefined => {
    const { kind = "words", optional = false, choices } = fields[name];
    // A choice is made from the beginning, be it of nothing.
    if (choices) return undefined;
    const typed = draft.typed[name];
    // What the workshop refused stays refused until it is typed otherwise.
    if (refused?.name === name && refused.typed === typed) return refused.why;
    if (kind === "number") return numberError(typed, !optional);
    return typed.trim() === "" && !optional ? common.needed : undefined;
  };
  const typed: Typed<Name> = {
    text: (name) => draft.typed[name].trim(),
    number: (name) => numberOf(draft.typed[name]),
    optional: (name) => (draft.typed[name].trim() === "" ? undefined : numberOf(draft.typed[name])),
  };
  const submit = (event: FormEvent) => {
    event.preventDefault();
    setTried(true);
    if (by.trim() === "" || names.some((name) => refused?.name !== name && errorOf(name) !== undefined))
      return sending.refuse(common.mend);
    void sending
      .send(async () => {
        const notes = await entries(typed);
        if (typeof notes === "string") throw new Error(notes);
        try {
          if (at === undefined) await writeDown(by.trim(), notes);
          else await post("/api/evidence", { entries: notes.map((note) => ({ at, by: by.trim(), ...note })) });
        } catch (fault) {
          const name = names.find((one) => fault instanceof Trouble && fault.path.split(".").at(-1) === one);
          if (name && fault instanceof Error) setRefused({ name, typed: draft.typed[name], why: fault.message });
          throw fault;
        }
        return done(typed);
      })
      .then((isDone) => {
        if (!isDone) return;
        after?.(typed);
        draft.clear();
        setTried(false);
      });
  };
  return (
    <form className="desk-form" onSubmit={submit} noValidate>
      <Recalled isRecalled={draft.isRecalled} clear={() => draft.clear()} />
      <div className="fields">
        {names.map((name) => (
          <OneField
            key={name}
            asked={fields[name]}
            value={draft.typed[name]}
            error={isTried ? errorOf(name) : undefined}
            change={(now) => draft.change({ [name]: now } as Partial<Record<Name, string>>)}
          />
        ))}
        <By {...(need && { need })} value={by} onChange={setBy} isTried={isTried} />
      </div>
      {children}
      <FormEnd write={write} sending={sending} />
    </form>
  );
}

function OneField({
  asked,
  value,
  error,
  change,
}: {
  readonly asked: Asked;
  readonly value: string;
  readonly error: string | undefined;
  readonly change: (now: string) => void;
}) {
  if (asked.choices) {
    return <Pick label={asked.label} value={value} onChange={change} options={asked.choices} />;
  }
  const field = (
    <Field
      label={asked.label}
      value={value}
      onChange={change}
      numeric={asked.kind === "number"}
      {...(asked.hint !== undefined && { hint: asked.hint })}
      {...(asked.unit !== undefined && { unit: asked.unit })}
      {...(asked.list && { list: asked.list })}
      {...(error !== undefined && { error })}
    />
  );
  return asked.wide ? <div className="field-wide">{field}</div> : field;
}

/** Names in a list as people type them: by commas, spaces or lines. */
export function namesOf(typed: string): string[] {
  return typed
    .split(/[\s,;]+/)
    .map((one) => one.trim())
    .filter(Boolean);
}
