import { type FormEvent, useState } from "react";
import { Outcome } from "../common/fields.tsx";
import { useSending } from "../common/useSending.ts";
import { words } from "./messages.ts";

interface Props {
  readonly note: string;
  readonly sure: string;
  readonly button: string;
  /** What is told where the register does not say it by itself. */
  readonly said?: string;
  readonly erase: (copies: boolean) => Promise<void>;
}

/** Erases a name for good: confirmed by a mark of its own, the copies that hold it along with it. */
export function EraseForm({ note, sure, button, said = "", erase }: Props) {
  const [isSure, setSure] = useState(false);
  const [copies, setCopies] = useState(true);
  const sending = useSending();
  const submit = (event: FormEvent) => {
    event.preventDefault();
    if (!isSure) return;
    void sending.send(async () => {
      await erase(copies);
      return said;
    });
  };
  return (
    <form className="desk-form" onSubmit={submit} noValidate>
      <p>{note}</p>
      <label className="choice-option">
        <input type="checkbox" checked={copies} onChange={({ target }) => setCopies(target.checked)} />
        <span>{words.copiesToo}</span>
      </label>
      <label className="choice-option">
        <input type="checkbox" checked={isSure} onChange={({ target }) => setSure(target.checked)} />
        <span>{sure}</span>
      </label>
      <div className="form-end">
        <button type="submit" disabled={sending.busy || !isSure}>
          {button}
        </button>
      </div>
      <Outcome {...sending} />
    </form>
  );
}
