import { type ReactNode, useId } from "react";
import { common } from "./messages.ts";
import { readNumber } from "./number.ts";

interface FieldProps {
  readonly label: ReactNode;
  readonly value: string;
  readonly onChange: (typed: string) => void;
  readonly hint?: string;
  readonly error?: string;
  readonly unit?: string;
  readonly numeric?: boolean;
  readonly list?: readonly string[];
  readonly narrow?: boolean;
  /** What stands in for the field when it is left empty. */
  readonly placeholder?: string;
}

/** A label, its field, what is wrong with it. What was typed is never cleared. */
export function Field({
  label,
  value,
  onChange,
  hint,
  error,
  unit,
  numeric = false,
  list,
  narrow = false,
  placeholder,
}: FieldProps) {
  const id = useId();
  const described = [hint && `${id}-hint`, error && `${id}-error`].filter(Boolean).join(" ");
  return (
    <div className={`field${narrow ? " field-narrow" : ""}`}>
      <label htmlFor={id}>{label}</label>
      {hint && (
        <span className="field-hint" id={`${id}-hint`}>
          {hint}
        </span>
      )}
      <span className="field-row">
        <input
          id={id}
          type="text"
          inputMode={numeric ? "decimal" : "text"}
          autoComplete="off"
          spellCheck={false}
          value={value}
          placeholder={placeholder}
          list={list ? `${id}-list` : undefined}
          aria-invalid={error ? true : undefined}
          aria-describedby={described || undefined}
          onChange={(event) => onChange(event.target.value)}
        />
        {unit && <span className="field-unit">{unit}</span>}
      </span>
      {list && (
        <datalist id={`${id}-list`}>
          {list.map((item) => (
            <option key={item} value={item} />
          ))}
        </datalist>
      )}
      {error && (
        <span className="field-error" id={`${id}-error`}>
          {error}
        </span>
      )}
    </div>
  );
}

interface ChoiceProps {
  readonly legend: string;
  readonly value: string;
  readonly options: readonly { readonly value: string; readonly label: string }[];
  readonly onChange: (value: string) => void;
}

/** A few answers as large radio buttons in a line. */
export function Choice({ legend, value, options, onChange }: ChoiceProps) {
  const id = useId();
  return (
    <fieldset className="choice">
      <legend>{legend}</legend>
      <div className="choice-row">
        {options.map((option) => (
          <label key={option.value} className="choice-option">
            <input
              type="radio"
              name={id}
              value={option.value}
              checked={option.value === value}
              onChange={() => onChange(option.value)}
            />
            <span>{option.label}</span>
          </label>
        ))}
      </div>
    </fieldset>
  );
}

/** What is wrong with a typed number, in words; nothing when it can be read. */
export function numberError(typed: string, needed = true): string | undefined {
  const read = readNumber(typed);
  if (read.ok) return undefined;
  if (read.problem === "empty") return needed ? common.needed : undefined;
  return read.problem === "ambiguous" ? common.ambiguous(typed) : common.notANumber(typed);
}

/** The number typed, once it is known to be one. */
export function numberOf(typed: string): number {
  const read = readNumber(typed);
  if (!read.ok) throw new RangeError(common.notANumber(typed));
  return read.value;
}

/** Says that a form holds what was typed before, and offers to begin afresh. */
export function Recalled({ isRecalled, clear }: { readonly isRecalled: boolean; readonly clear: () => void }) {
  if (!isRecalled) return null;
  return (
    <p className="recalled">
      <span>{common.recalled}</span>
      <button type="button" onClick={clear}>
        {common.afresh}
      </button>
    </p>
  );
}

interface EndProps {
  /** What the button does. */
  readonly write: string;
  readonly sending: { readonly busy: boolean; readonly said?: string; readonly error?: string };
  /** Whether it is the one act that the page is for. */
  readonly isMain?: boolean;
  /** Further ways, beside the button. */
  readonly children?: ReactNode;
}

/** The foot of a form: the button that sends it, and how that went. */
export function FormEnd({ write, sending, isMain = true, children }: EndProps) {
  return (
    <>
      <div className="form-end">
        <button type="submit" className={isMain ? "main" : undefined} disabled={sending.busy}>
          {write}
        </button>
        {children}
      </div>
      <Outcome busy={sending.busy} said={sending.said} error={sending.error} />
    </>
  );
}

/** How a sending went; announced to those who do not see it. */
export function Outcome({
  busy,
  said,
  error,
}: {
  readonly busy: boolean;
  readonly said?: string;
  readonly error?: string;
}) {
  return (
    <div className="outcome">
      <div role="status">
        {busy && <p className="outcome-busy">{common.writing}</p>}
        {said && <p className="outcome-done">{said}</p>}
      </div>
      <div role="alert">{error && <p className="outcome-error">{error}</p>}</div>
    </div>
  );
}
