import { useState } from "react";
import { door } from "./doorMessages.ts";
import { words } from "./messages.ts";
import { SecretField } from "./SecretField.tsx";

/** A new passphrase as it is typed, twice. */
export function useNewPassphrase() {
  const [passphrase, setPassphrase] = useState("");
  const [again, setAgain] = useState("");
  const errors = {
    passphrase: passphrase === "" ? door.needed : undefined,
    again: again === passphrase ? undefined : words.differ,
  };
  const clear = () => {
    setPassphrase("");
    setAgain("");
  };
  return { passphrase, setPassphrase, again, setAgain, errors, isGood: !errors.passphrase && !errors.again, clear };
}

interface Props {
  readonly label: string;
  readonly hint: string;
  readonly typed: ReturnType<typeof useNewPassphrase>;
  /** Somebody tried to send it, so that what is wrong is told. */
  readonly isTried: boolean;
}

export function NewPassphrase({ label, hint, typed, isTried }: Props) {
  return (
    <>
      <SecretField
        label={label}
        hint={hint}
        value={typed.passphrase}
        onChange={typed.setPassphrase}
        error={isTried ? typed.errors.passphrase : undefined}
        isNew
      />
      <SecretField
        label={words.again}
        value={typed.again}
        onChange={typed.setAgain}
        error={isTried ? typed.errors.again : undefined}
        isNew
      />
    </>
  );
}
