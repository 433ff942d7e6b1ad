import { type FormEvent, useState } from "react";
import { post } from "../common/api.ts";
import { Field, FormEnd } from "../common/fields.tsx";
import { useDraft } from "../common/useDraft.ts";
import { useSending } from "../common/useSending.ts";
import { door } from "./doorMessages.ts";
import { words } from "./messages.ts";
import { NewPassphrase, useNewPassphrase } from "./NewPassphrase.tsx";
import { type Given, given, RightChoice } from "./Rights.tsx";
import { askForSignIn, checkSession } from "./session.ts";

const blank = { person: "", name: "", may: "measure", answers: "" };

/** Enters somebody; the first is the owner. */
export function Enter({ isFirst = false }: { readonly isFirst?: boolean }) {
  const draft = useDraft("people enter", isFirst ? { ...blank, person: "owner", may: "owner" } : blank);
  const { person, name, may, answers } = draft.typed;
  const secret = useNewPassphrase();
  const [tried, setTried] = useState(false);
  const sending = useSending();
  const errors = {
    person: person.trim() === "" ? door.needed : undefined,
    name: name.trim() === "" ? door.needed : undefined,
  };
  const submit = async (event: FormEvent) => {
    event.preventDefault();
    setTried(true);
    if (Object.values(errors).some(Boolean) || !secret.isGood) return;
    const isDone = await sending.send(async () => {
      await post("/api/people", {
        person: person.trim(),
        name: name.trim(),
        may: isFirst ? "owner" : may,
        answersForSafety: answers === "yes",
        passphrase: secret.passphrase,
      });
      return words.added(name.trim());
    });
    if (!isDone) return;
    draft.clear();
    secret.clear();
    setTried(false);
    if (isFirst) askForSignIn();
    else await checkSession();
  };
  const shown = (error: string | undefined) => (tried && error ? { error } : {});
  const right: Given = given.find((one) => one === may) ?? "measure";
  return (
    <form className="desk-form" onSubmit={submit} noValidate autoComplete="off">
      <div className="fields">
        <Field
          label={words.name}
          hint={words.nameHint}
          value={name}
          onChange={(now) => draft.change({ name: now })}
          {...shown(errors.name)}
        />
        <Field
          label={words.id}
          hint={words.idHint}
          value={person}
          onChange={(now) => draft.change({ person: now })}
          {...shown(errors.person)}
        />
      </div>
      {!isFirst && <RightChoice value={right} onChange={(now) => draft.change({ may: now })} />}
      <Mark isMarked={answers === "yes"} change={(now) => draft.change({ answers: now ? "yes" : "" })} />
      <div className="fields">
        <NewPassphrase
          label={isFirst ? door.passphrase : words.firstPassphrase}
          hint={isFirst ? words.nextHint : words.firstPassphraseHint}
          typed={secret}
          isTried={tried}
        />
      </div>
      <FormEnd write={isFirst ? words.firstAdd : words.add} sending={sending} />
    </form>
  );
}

/** Whether somebody is licensed and answers for safety limits. */
export function Mark({ isMarked, change }: { readonly isMarked: boolean; readonly change: (now: boolean) => void }) {
  return (
    <div>
      <label className="choice-option">
        <input type="checkbox" checked={isMarked} onChange={({ target }) => change(target.checked)} />
        <span>{words.answers}</span>
      </label>
      <p className="field-hint">{words.answersHint}</p>
    </div>
  );
}
