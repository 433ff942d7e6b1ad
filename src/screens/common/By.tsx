import { useId } from "react";
import { NotYours } from "../people/NotYours.tsx";
import { useMay, useSession } from "../people/session.ts";
import { Field } from "./fields.tsx";

interface Props {
  readonly label: string;
  readonly value: string;
  readonly onChange: (typed: string) => void;
  readonly hint?: string | undefined;
  readonly error?: string | undefined;
  readonly list?: readonly string[];
  /** What it takes to write this down. */
  readonly need?: "measure" | "release" | "owner" | "safety";
}

/** Who writes down: typed where nobody signs in; else whoever is signed in, and if they may not, who may. */
export function By({ label, need = "measure", hint, error, ...field }: Props) {
  const id = useId();
  const { signedIn } = useSession();
  const { may } = useMay(need);
  if (!signedIn) {
    return (
      <Field label={label} {...field} {...(hint !== undefined && { hint })} {...(error !== undefined && { error })} />
    );
  }
  if (!may) return <NotYours need={need} />;
  return (
    <div className="by-line">
      <span id={id}>{label}</span>
      <output aria-labelledby={id}>{signedIn.name}</output>
    </div>
  );
}
