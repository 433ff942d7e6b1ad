import { useQueryClient } from "@tanstack/react-query";
import { type FormEvent, useState } from "react";
import type { SignedIn } from "../../workshop/people/views.ts";
import { FormEnd } from "../common/fields.tsx";
import { useSending } from "../common/useSending.ts";
import { door } from "./doorMessages.ts";
import { words } from "./messages.ts";
import { NewPassphrase, useNewPassphrase } from "./NewPassphrase.tsx";
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
          {door.signOut}
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
  const next = useNewPassphrase();
  const [tried, setTried] = useState(false);
  const sending = useSending();
  const submit = async (event: FormEvent) => {
    event.preventDefault();
    setTried(true);
    if (present === "" || !next.isGood) return;
    const isDone = await sending.send(async () => {
      await changePassphrase(present, next.passphrase);
      return words.passphraseChanged;
    });
    if (!isDone) return;
    setPresent("");
    next.clear();
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
          error={tried && present === "" ? door.needed : undefined}
        />
        <NewPassphrase label={words.next} hint={words.nextHint} typed={next} isTried={tried} />
      </div>
      <FormEnd write={words.changePassphrase} sending={sending} />
    </form>
  );
}
