import { paperAt } from "../shell/handbook.ts";
import { common } from "./messages.ts";

/** Leads from figures to the papers of the calculations that they come from. */
export function Papers({ of }: { readonly of: readonly string[] }) {
  if (of.length === 0) return null;
  return (
    <p className="papers">
      {common.howComputed}{" "}
      {of.map((name) => (
        <a key={name} href={paperAt(name)}>
          {name}
        </a>
      ))}
    </p>
  );
}
