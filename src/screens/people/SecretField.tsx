import { useId } from "react";

interface Props {
  readonly label: string;
  readonly hint?: string;
  readonly error?: string | undefined;
  readonly value: string;
  readonly onChange: (typed: string) => void;
  /** A password manager keeps a new one, and fills in the present. */
  readonly isNew?: boolean;
}

/** A passphrase being typed, never shown. */
export function SecretField({ label, hint, error, value, onChange, isNew = false }: Props) {
  const id = useId();
  const described = [hint && `${id}-hint`, error && `${id}-error`].filter(Boolean).join(" ");
  return (
    <div className="field">
      <label htmlFor={id}>{label}</label>
      {hint && (
        <span className="field-hint" id={`${id}-hint`}>
          {hint}
        </span>
      )}
      <input
        id={id}
        type="password"
        autoComplete={isNew ? "new-password" : "current-password"}
        value={value}
        aria-invalid={error ? true : undefined}
        aria-describedby={described || undefined}
        onChange={({ target }) => onChange(target.value)}
      />
      {error && (
        <span className="field-error" id={`${id}-error`}>
          {error}
        </span>
      )}
    </div>
  );
}
