import { type FormEvent, useState } from "react";
import { numberError, numberOf } from "./fields.tsx";

type Numbers<Name extends string, Optional extends Name> = Readonly<
  Record<Exclude<Name, Optional>, number> & Partial<Record<Optional, number>>
>;

/**
 * Numbers typed into the fields of a reckoner, which writes nothing down: what is wrong is told once somebody asks, and
 * nothing is asked with a field that can't be read. An optional one that is left empty is not among the numbers.
 */
export function useNumbers<Name extends string, Optional extends Name = never>(
  first: Readonly<Record<Name, string>>,
  optional: readonly Optional[] = [],
) {
  const [typed, setTyped] = useState(first);
  const [isTried, setTried] = useState(false);
  const isNeeded = (name: string) => !(optional as readonly string[]).includes(name);
  const entries = Object.entries<string>(typed);
  const errors = Object.fromEntries(entries.map(([name, text]) => [name, numberError(text, isNeeded(name))]));
  const field = (name: Name) => ({
    value: typed[name],
    onChange: (text: string) => setTyped((before) => ({ ...before, [name]: text })),
    numeric: true,
    narrow: true,
    ...(isTried && errors[name] !== undefined ? { error: errors[name] } : {}),
  });
  const submit = (ask: (numbers: Numbers<Name, Optional>) => void) => (event: FormEvent) => {
    event.preventDefault();
    setTried(true);
    if (Object.values(errors).some(Boolean)) return;
    const given = entries.filter(([, text]) => text.trim() !== "");
    ask(Object.fromEntries(given.map(([name, text]) => [name, numberOf(text)])) as Numbers<Name, Optional>);
  };
  return { typed, field, submit };
}
