import { type FormEvent, useState } from "react";
import type { ErasureView, PersonView } from "../../workshop/people/views.ts";
import { post, remove } from "../common/api.ts";
import { Field, Outcome } from "../common/fields.tsx";
import { useSending } from "../common/useSending.ts";
import { door } from "./doorMessages.ts";
import { Mark } from "./Enter.tsx";
import { EraseForm } from "./EraseForm.tsx";
import { ErasureNote } from "./ErasureNote.tsx";
import { words } from "./messages.ts";
import { type Given, given, RightChoice, RightRule } from "./Rights.tsx";
import { SecretField } from "./SecretField.tsx";

interface Props {
  readonly one: PersonView;
  /** Their own right is not for them to take away by a slip. */
  readonly isOneself: boolean;
}

const erasePerson = (person: string, copies: boolean) => post<ErasureView>(`${at(person)}/erase`, { copies });
const at = (person: string) => `/api/people/${encodeURIComponent(person)}`;

/** Somebody as the owner sees them, with all that can be changed of them. */
export function PersonLine({ one, isOneself }: Props) {
  const [erasure, setErasure] = useState<ErasureView>();
  return (
    <li className="person" id={`person-${one.person}`}>
      <div className="person-head">
        <h3 className="person-name">{one.isErased ? words.erasedName : one.name}</h3>
        <p className="quiet">{one.person}</p>
        {one.answersForSafety && one.may !== "nothing" && <p className="person-mark">{words.answersShort}</p>}
        <p className="quiet person-here">{one.may === "nothing" ? words.may.nothing : words.here(one.sessions)}</p>
      </div>
      {one.may !== "nothing" && <RightRule may={one.may} />}
      {!one.isErased && (
        <details>
          <summary>{words.change(one.name)}</summary>
          <div className="person-desk">
            <ChangeForm key={`${one.may} ${one.answersForSafety} ${one.name}`} one={one} />
            {one.may !== "nothing" && <PassphraseForm one={one} />}
            {!isOneself && one.may !== "nothing" && <LeaveForm one={one} />}
            {!isOneself && (
              <EraseForm
                note={words.eraseNote}
                sure={words.eraseSure}
                button={words.erase}
                said={words.erasePersonDone(one.person)}
                erase={async (copies) => setErasure(await erasePerson(one.person, copies))}
              />
            )}
          </div>
        </details>
      )}
      {erasure && (
        <div role="status">
          <ErasureNote
            said={words.erasePersonDone(one.person)}
            erasure={erasure}
            rewrite={async () => setErasure(await erasePerson(one.person, true))}
          />
        </div>
      )}
    </li>
  );
}

function ChangeForm({ one }: { readonly one: PersonView }) {
  const [name, setName] = useState(one.name);
  const [may, setMay] = useState<Given>(given.find((right) => right === one.may) ?? "look");
  const [isMarked, setMarked] = useState(one.answersForSafety);
  const sending = useSending();
  const submit = (event: FormEvent) => {
    event.preventDefault();
    if (name.trim() === "") return sending.refuse(door.needed);
    void sending.send(async () => {
      await post(at(one.person), { name: name.trim(), may, answersForSafety: isMarked });
      return words.changed(name.trim());
    });
  };
  return (
    <form className="desk-form" onSubmit={submit} noValidate>
      <div className="fields">
        <Field label={words.name} value={name} onChange={setName} />
      </div>
      <RightChoice value={may} onChange={setMay} />
      <Mark isMarked={isMarked} change={setMarked} />
      <div className="form-end">
        <button type="submit" className="main" disabled={sending.busy}>
          {words.write}
        </button>
      </div>
      <Outcome {...sending} />
    </form>
  );
}

function PassphraseForm({ one }: { readonly one: PersonView }) {
  const [passphrase, setPassphrase] = useState("");
  const sending = useSending();
  const ending = useSending();
  const submit = async (event: FormEvent) => {
    event.preventDefault();
    if (passphrase === "") return sending.refuse(door.needed);
    const isDone = await sending.send(async () => {
      await post(`${at(one.person)}/passphrase`, { passphrase });
      return words.given(one.name);
    });
    if (isDone) setPassphrase("");
  };
  const end = () =>
    ending.send(async () => {
      await remove(`${at(one.person)}/sessions`);
      return words.endedSessions(one.name);
    });
  return (
    <form className="desk-form" onSubmit={submit} noValidate autoComplete="off">
      <div className="fields">
        <SecretField
          label={words.newPassphrase}
          hint={words.nextHint}
          value={passphrase}
          onChange={setPassphrase}
          isNew
        />
      </div>
      <div className="form-end">
        <button type="submit" disabled={sending.busy}>
          {words.give}
        </button>
        <button type="button" disabled={ending.busy} onClick={() => void end()}>
          {words.endSessions}
        </button>
      </div>
      <Outcome {...sending} />
      <Outcome {...ending} />
    </form>
  );
}

function LeaveForm({ one }: { readonly one: PersonView }) {
  const sending = useSending();
  const submit = (event: FormEvent) => {
    event.preventDefault();
    void sending.send(async () => {
      await post(at(one.person), { may: "nothing" });
      return words.left(one.name);
    });
  };
  return (
    <form className="desk-form" onSubmit={submit} noValidate>
      <p>{words.leaveNote}</p>
      <div className="form-end">
        <button type="submit" disabled={sending.busy}>
          {words.leave}
        </button>
      </div>
      <Outcome {...sending} />
    </form>
  );
}
