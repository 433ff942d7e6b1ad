import { useRef, useState } from "react";

type Typed<Name extends string> = Readonly<Record<Name, string>>;

const keyOf = (form: string) => `stillglow.draft ${form}`;

/** What of a form's fields was kept on this machine; anything else that lies there is left alone. */
export function keptOf<Name extends string>(text: string | null, blank: Typed<Name>): Partial<Typed<Name>> {
  let found: unknown;
  try {
    found = JSON.parse(text ?? "");
  } catch {
    return {};
  }
  if (typeof found !== "object" || found === null) return {};
  const fields = Object.entries(found).filter(([name, typed]) => name in blank && typeof typed === "string");
  return Object.fromEntries(fields) as Partial<Typed<Name>>;
}

function recall<Name extends string>(form: string, blank: Typed<Name>): Partial<Typed<Name>> {
  try {
    return keptOf(localStorage.getItem(keyOf(form)), blank);
  } catch {
    return {};
  }
}

function keep(form: string, fields: Readonly<Record<string, string>>): void {
  try {
    if (Object.keys(fields).length === 0) localStorage.removeItem(keyOf(form));
    else localStorage.setItem(keyOf(form), JSON.stringify(fields));
  } catch {
    // A browser that keeps nothing still lets people type.
  }
}

/**
 * What is being typed into a form, kept on this machine under the form's name until it is sent, so that neither a
 * reload nor a stopped workshop loses it. Only what differs from the blank form is kept.
 */
export function useDraft<Name extends string>(form: string, blank: Typed<Name>) {
  const [kept] = useState(() => recall(form, blank));
  const [typed, setTyped] = useState<Typed<Name>>({ ...blank, ...kept });
  const [isRecalled, setRecalled] = useState(Object.keys(kept).length > 0);
  // Several fields may change in one turn, as when an instrument fills in its reading; none may undo another.
  const latest = useRef(typed);
  const change = (part: Partial<Typed<Name>>) => {
    const now = { ...latest.current, ...part };
    latest.current = now;
    setTyped(now);
    const names = Object.keys(now) as Name[];
    keep(form, Object.fromEntries(names.filter((name) => now[name] !== blank[name]).map((name) => [name, now[name]])));
  };
  const clear = (next: Typed<Name> = blank) => {
    latest.current = next;
    setTyped(next);
    setRecalled(false);
    keep(form, {});
  };
  return { typed, change, clear, isRecalled };
}
