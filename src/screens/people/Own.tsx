import { useQueryClient } from "@tanstack/react-query";
import { type FormEvent, useState } from "react";
import type { SignedIn } from "../../workshop/people/views.ts";
import { Outcome } from "../common/fields.tsx";
import { useSending } from "../common/useSending.ts";
import { words } from "./messages.ts";
import { RightRule } from "./Rights.tsx";
import { SecretField } from "./SecretField.tsx";
import { changePassphrase, signOut } from "./session.ts";

/** Whoever is signed in: what they may do, their passphrase, the way out. */
export function Own({ signedIn }: { readonly signedIn: SignedIn }) {
  const client = useQueryClient();
  const leave = async (everywhere: boolean) => {
    await signOut(everywhere);
    client.clear();
  };
  return (
    <section className="own" aria-labelledby="own-name">
      <h2 id="own-name">{words.you}</h2>
      <div className="person-head">
        <p className="person-name">{signedIn.name}</p>
        <p className="quiet">{signedIn.person}</p>
        {signedIn.answersForSafety && <p className="person-mark">{words.answersShort}</p>}
      </div>
      <RightRule may={signedIn.may} />
      <div className="form-end">
        <button type="button" onClick={() => void leave(false)}>
          {words.signOut}
        </button>
        <button type="button" onClick={() => void leave(true)}>
          {words.signOutEverywhere}
        </button>
      </div>
      <details>
        <summary>{words.ownPassphrase}</summary>
        <OwnPassphrase person={signedIn.person} />
      </details>
    </section>
  );
}

function OwnPassphrase({ person }: { readonly person: string }) {
  const [present, setPresent] = useState("");
  const [next, setNext] = useState("");
  const [again, setAgain] = useState("");
  const [tried, setTried] = useState(false);
  const sending = useSending();
  const errors = {
    present: present === "" ? words.needed : undefined,
    next: next === "" ? words.needed : undefined,
    again: again === next ? undefined : words.differ,
  };
  const submit = async (event: FormEvent) => {
    event.preventDefault();
    setTried(true);
    if (Object.values(errors).some(Boolean)) return;
    const isDone = await sending.send(async () => {
      await changePassphrase(present, next);
      return words.passphraseChanged;
    });
    if (!isDone) return;
    setPresent("");
    setNext("");
    setAgain("");
    setTried(false);
  };
  return (
    <form className="desk-form" onSubmit={submit} noValidate>
      <input type="text" name="username" autoComplete="username" value={person} readOnly hidden />
      <div className="fields">
        <SecretField
          label={words.present}
          value={present}
          onChange={setPresent}
          error={tried ? errors.present : undefined}
        />
        <SecretField
          label={words.next}
          hint={words.nextHint}
          value={next}
          onChange={setNext}
          error={tried ? errors.next : undefined}
          isNew
        />
        <SecretField
          label={words.again}
          value={again}
          onChange={setAgain}
          error={tried ? errors.again : undefined}
          isNew
        />
      </div>
      <div className="form-end">
        <button type="submit" className="main" disabled={sending.busy}>
          {words.changePassphrase}
        </button>
      </div>
      <Outcome {...sending} />
    </form>
  );
}
