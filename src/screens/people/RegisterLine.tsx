import { type ReactNode, useState } from "react";
import type { ErasureView } from "../../workshop/people/views.ts";
import { ErasureNote } from "./ErasureNote.tsx";

interface Props {
  readonly id?: string;
  readonly name: string;
  /** What the ledger calls them by. */
  readonly number: string;
  /** A mark of theirs, drawn before what is said of them. */
  readonly mark?: string | undefined;
  /** What is known of them in a line: their orders, where they are signed in. */
  readonly here: string;
  readonly level: "h2" | "h3";
  readonly children?: ReactNode;
  /** What opens the desk where they are changed; left out where nothing can be. */
  readonly change?: string | undefined;
  /** The forms of that desk. What erases them says so by `erase`, with the copies or without. */
  readonly desk: (erase: (copies: boolean) => Promise<void>) => ReactNode;
  readonly erase: (copies: boolean) => Promise<ErasureView>;
  readonly erased: string;
}

/** Somebody in a register: name, number, what is known of them, and the desk where it is changed or erased. */
export function RegisterLine({
  id,
  name,
  number,
  mark,
  here,
  level: Name,
  children,
  change,
  desk,
  erase,
  erased,
}: Props) {
  const [erasure, setErasure] = useState<ErasureView>();
  // A register of hundreds carries no form that nobody opened; once opened it stays, with what was typed.
  const [wasOpened, setOpened] = useState(false);
  const eraseNow = async (copies: boolean) => setErasure(await erase(copies));
  return (
    <li className="person" id={id}>
      <div className="person-head">
        <Name className="person-name">{name}</Name>
        <p className="quiet">{number}</p>
        {mark !== undefined && <p className="person-mark">{mark}</p>}
        <p className="quiet person-here">{here}</p>
      </div>
      {children}
      {change !== undefined && (
        <details onToggle={({ currentTarget }) => currentTarget.open && setOpened(true)}>
          <summary>{change}</summary>
          {wasOpened && <div className="person-desk">{desk(eraseNow)}</div>}
        </details>
      )}
      <div role="status">
        {erasure && <ErasureNote said={erased} erasure={erasure} rewrite={() => eraseNow(true)} />}
      </div>
    </li>
  );
}
