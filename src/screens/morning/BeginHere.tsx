import { Suspense, useState } from "react";
import { fetchedWith } from "../common/fetchedWith.tsx";
import { Waiting } from "../common/Waiting.tsx";
import type { ToBegin } from "../soaks/BeginForm.tsx";
import { words } from "./messages.ts";

const BeginForm = fetchedWith(["soaks"], async () => ({
  default: (await import("../soaks/BeginForm.tsx")).BeginForm,
}));

interface Props {
  readonly what: ToBegin;
  readonly now: string;
  readonly place: string | undefined;
}

/** Writes down where it stands on the card that something was set going; the form is fetched when it is opened. */
export function BeginHere({ what, now, place }: Props) {
  const [isOpened, setOpened] = useState(false);
  return (
    <details className="begin-here" onToggle={({ currentTarget }) => setOpened((was) => was || currentTarget.open)}>
      <summary>{words.begun}</summary>
      {isOpened && (
        <Suspense fallback={<Waiting what={words.begun} />}>
          <BeginForm what={what} now={now} places={place === undefined ? [] : [place]} />
        </Suspense>
      )}
    </details>
  );
}
