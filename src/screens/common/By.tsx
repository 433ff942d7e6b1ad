import { useId } from "react";
import { NotYours } from "../people/NotYours.tsx";
import { useMay, useSession } from "../people/session.ts";
import { Field } from "./fields.tsx";
import { common } from "./messages.ts";

interface Props {
  readonly label?: string;
  readonly value: string;
  readonly onChange: (typed: string) => void;
  readonly hint?: string | undefined;
  readonly error?: string | undefined;
  /** Somebody tried to send the form: an empty name is told from then on. */
  readonly isTried?: boolean;
  readonly list?: readonly string[];
  /** What it takes to write this down. */
  readonly need?: "measure" | "release" | "owner" | "safety";
}

/** Who writes down: typed where nobody signs in; else whoever is signed in, and if they may not, who may. */
export function By({ label = common.by, need = "measure", hint, error, isTried = false, ...field }: Props) {
  const id = useId();
  const { signedIn } = useSession();
  const { may } = useMay(need);
  if (!signedIn) {
    const wrong = error ?? (isTried && field.value.trim() === "" ? common.needed : undefined);
    return (
      <Field
        label={label}
        {...field}
        {...(hint !== undefined && { hint })}
        {...(wrong !== undefined && { error: wrong })}
      />
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
