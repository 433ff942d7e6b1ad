import { type ReactNode, useId } from "react";

interface Props {
  readonly label: ReactNode;
  readonly value: string;
  readonly onChange: (value: string) => void;
  /** A bare text is its own label. */
  readonly options: readonly (string | { readonly value: string; readonly label: string })[];
  /** What stands first for nothing chosen; left out where something always is. */
  readonly none?: string | undefined;
  readonly narrow?: boolean;
}

/** One of a list that may be long. */
export function Pick({ label, value, onChange, options, none, narrow = false }: Props) {
  const id = useId();
  return (
    <div className={`field${narrow ? " field-narrow" : ""}`}>
      <label htmlFor={id}>{label}</label>
      <select id={id} value={value} onChange={({ target }) => onChange(target.value)}>
        {none !== undefined && <option value="">{none}</option>}
        {options
          .map((option) => (typeof option === "string" ? { value: option, label: option } : option))
          .map((option) => (
            <option key={option.value} value={option.value}>
              {option.label}
            </option>
          ))}
      </select>
    </div>
  );
}
