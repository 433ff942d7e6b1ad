import { type FormEvent, useState } from "react";
import type { ErasureView, PersonView } from "../../workshop/people/views.ts";
import { post, remove } from "../common/api.ts";
import { Field, FormEnd, Outcome } from "../common/fields.tsx";
import { useSending } from "../common/useSending.ts";
import { door } from "./doorMessages.ts";
import { Mark } from "./Enter.tsx";
import { EraseForm } from "./EraseForm.tsx";
import { words } from "./messages.ts";
import { RegisterLine } from "./RegisterLine.tsx";
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
  const isIn = one.may !== "nothing";
  return (
    <RegisterLine
      id={`person-${one.person}`}
      level="h3"
      name={one.isErased ? words.erasedName : one.name}
      number={one.person}
      mark={one.answersForSafety && isIn ? words.answersShort : undefined}
      here={isIn ? words.here(one.sessions) : words.may.nothing}
      change={one.isErased ? undefined : words.change(one.name)}
      erase={(copies) => erasePerson(one.person, copies)}
      erased={words.erasePersonDone(one.person)}
      desk={(erase) => (
        <>
          <ChangeForm key={`${one.may} ${one.answersForSafety} ${one.name}`} one={one} />
          {isIn && <PassphraseForm one={one} />}
          {!isOneself && isIn && <LeaveForm one={one} />}
          {!isOneself && (
            <EraseForm
              note={words.eraseNote}
              sure={words.eraseSure}
              button={words.erase}
              said={words.erasePersonDone(one.person)}
              erase={erase}
            />
          )}
        </>
      )}
    >
      {isIn && <RightRule may={one.may} />}
    </RegisterLine>
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
      <FormEnd write={words.write} sending={sending} />
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
      <FormEnd write={words.leave} sending={sending} isMain={false} />
    </form>
  );
}
