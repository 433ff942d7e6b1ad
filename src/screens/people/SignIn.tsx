import { useQueryClient } from "@tanstack/react-query";
import { type FormEvent, type ReactNode, useEffect, useId, useRef, useState } from "react";
import { capital } from "../common/sentence.ts";
import { Waiting } from "../common/Waiting.tsx";
import { shell } from "../shell/messages.ts";
import { Wishes } from "../shell/Wishes.tsx";
import { door } from "./doorMessages.ts";
import "./people.css";
import { checkSession, signIn, useKnown } from "./session.ts";

/** Who signs in and the passphrase, as password managers know such fields. */
export function SignInForm({ first }: { readonly first?: string }) {
  const id = useId();
  const client = useQueryClient();
  const [person, setPerson] = useState(first ?? "");
  const [passphrase, setPassphrase] = useState("");
  const [isShown, setShown] = useState(false);
  const [isBusy, setBusy] = useState(false);
  const [tried, setTried] = useState(false);
  const [error, setError] = useState<string>();
  const secret = useRef<HTMLInputElement>(null);
  const missing = { person: tried && person.trim() === "", passphrase: tried && passphrase === "" };
  const submit = async (event: FormEvent) => {
    event.preventDefault();
    setTried(true);
    setError(undefined);
    if (person.trim() === "" || passphrase === "") return;
    setBusy(true);
    try {
      await signIn(person.trim(), passphrase);
      await client.invalidateQueries();
    } catch (fault) {
      setError(capital(fault instanceof Error ? fault.message : String(fault)));
      setBusy(false);
      secret.current?.focus();
      secret.current?.select();
    }
  };
  return (
    <form className="sign-in" method="post" onSubmit={submit} noValidate>
      <div className="field">
        <label htmlFor={`${id}-person`}>{door.person}</label>
        <span className="field-hint" id={`${id}-hint`}>
          {door.personHint}
        </span>
        <input
          id={`${id}-person`}
          name="username"
          type="text"
          autoComplete="username"
          autoCapitalize="none"
          autoCorrect="off"
          spellCheck={false}
          value={person}
          aria-invalid={missing.person || undefined}
          aria-describedby={`${id}-hint${missing.person ? ` ${id}-needed` : ""}`}
          onChange={({ target }) => setPerson(target.value)}
        />
        {missing.person && (
          <span className="field-error" id={`${id}-needed`}>
            {door.needed}
          </span>
        )}
      </div>
      <div className="field">
        <label htmlFor={`${id}-secret`}>{door.passphrase}</label>
        <input
          id={`${id}-secret`}
          ref={secret}
          name="password"
          type={isShown ? "text" : "password"}
          autoComplete="current-password"
          autoCapitalize="none"
          spellCheck={false}
          value={passphrase}
          aria-invalid={missing.passphrase || undefined}
          aria-describedby={missing.passphrase ? `${id}-secret-needed` : undefined}
          onChange={({ target }) => setPassphrase(target.value)}
        />
        {missing.passphrase && (
          <span className="field-error" id={`${id}-secret-needed`}>
            {door.needed}
          </span>
        )}
      </div>
      <label className="choice-option">
        <input type="checkbox" checked={isShown} onChange={({ target }) => setShown(target.checked)} />
        <span>{door.show}</span>
      </label>
      <button type="submit" className="main" disabled={isBusy}>
        {door.signIn}
      </button>
      <div role="status">{isBusy && <p className="outcome-busy">{door.signingIn}</p>}</div>
      <div role="alert">{error && <p className="outcome-error">{error}</p>}</div>
      <p className="quiet small">{door.forgotten}</p>
    </form>
  );
}

/** The way in. The address stays, so that one comes to the page one asked for. */
function SignInPage() {
  return (
    <div className="way-in">
      <main id="page" className="way-in-sheet">
        <p className="way-in-shop">{shell.name}</p>
        <h1>{door.signIn}</h1>
        <p className="quiet">{door.signInLead}</p>
        <SignInForm />
      </main>
      <footer className="foot">
        <Wishes />
      </footer>
    </div>
  );
}

/** Laid over the page whose session ended, with all that was typed there. */
function SignedOutSheet({ person }: { readonly person?: string }) {
  const sheet = useRef<HTMLDialogElement>(null);
  const id = useId();
  useEffect(() => {
    const { current } = sheet;
    if (current && !current.open) current.showModal();
    // Whoever was here is asked for the passphrase alone.
    if (person !== undefined) current?.querySelector<HTMLInputElement>("input[name=password]")?.focus();
    return () => current?.close();
  }, [person]);
  return (
    <dialog ref={sheet} className="signed-out" aria-labelledby={id} onCancel={(event) => event.preventDefault()}>
      <h2 id={id}>{door.signedOutTitle}</h2>
      <p className="quiet">{door.signedOut}</p>
      <SignInForm {...(person !== undefined && { first: person })} />
    </dialog>
  );
}

/** Shows the workshop to whoever is signed in, or to whoever is there where nobody signs in. */
export function Door({ children }: { readonly children: ReactNode }) {
  const { session, isLost } = useKnown();
  useEffect(() => {
    void checkSession();
  }, []);
  if (!session) return <Waiting what={shell.page} />;
  if (session.people && !session.signedIn && !isLost) return <SignInPage />;
  return (
    <>
      {children}
      {isLost && <SignedOutSheet {...(session.signedIn && { person: session.signedIn.person })} />}
    </>
  );
}
