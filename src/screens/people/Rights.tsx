import type { Right } from "../../claims/people/right.ts";
import { Choice } from "../common/fields.tsx";
import { words } from "./messages.ts";

export const given = ["look", "measure", "release", "owner"] as const;
export type Given = (typeof given)[number];

/** How far a person's right reaches: a rule with a notch for each, drawn full up to theirs. */
export function RightRule({ may }: { readonly may: Right }) {
  const reach = (given as readonly Right[]).indexOf(may);
  return (
    <div className="right-rule">
      <span className="visually-hidden">{words.may[may]}</span>
      <ol aria-hidden="true">
        {given.map((right, i) => (
          <li key={right} className={i <= reach ? "right-reached" : undefined}>
            {words.rights[right]}
          </li>
        ))}
      </ol>
    </div>
  );
}

interface Props {
  readonly value: Given;
  readonly onChange: (right: Given) => void;
}

export function RightChoice({ value, onChange }: Props) {
  return (
    <div className="right-choice">
      <Choice
        legend={words.mayWhat}
        value={value}
        options={given.map((right) => ({ value: right, label: words.rights[right] }))}
        onChange={(right) => onChange(right as Given)}
      />
      <p className="field-hint">{words.rightHints[value]}</p>
    </div>
  );
}
