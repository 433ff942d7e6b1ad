import type { ErasureView, HoldingCopy } from "../../workshop/people/views.ts";
import { Outcome } from "../common/fields.tsx";
import { useSending } from "../common/useSending.ts";
import { words } from "./messages.ts";

/** What an erasure reached, and plainly what it did not. */
export function ErasureNote({
  said,
  erasure,
  rewrite,
}: {
  readonly said: string;
  readonly erasure: ErasureView;
  /** Takes it out of the copies that still hold it. */
  readonly rewrite: () => Promise<void>;
}) {
  const sending = useSending();
  const { holding, rewritten, unread } = erasure;
  return (
    <div className="erasure">
      <p className="outcome-done">{said}</p>
      {rewritten.length > 0 && <Copies said={words.rewritten(rewritten.length)} copies={rewritten} />}
      {holding.length > 0 && (
        <>
          <Copies said={words.holding(holding.length)} copies={holding} />
          <button
            type="button"
            disabled={sending.busy}
            onClick={() => void sending.send(() => rewrite().then(() => ""))}
          >
            {words.rewrite}
          </button>
          <Outcome busy={sending.busy} error={sending.error} />
        </>
      )}
      {unread.map(({ folder, why }) => (
        <p key={folder}>
          {words.unread(folder)} ({why})
        </p>
      ))}
      <p className="quiet">{words.alsoKeep}</p>
    </div>
  );
}

function Copies({ said, copies }: { readonly said: string; readonly copies: readonly HoldingCopy[] }) {
  return (
    <>
      <p>{said}</p>
      <ul className="copies">
        {copies.map(({ folder, copy }) => (
          <li key={`${folder} ${copy}`}>
            {folder}/{copy}
          </li>
        ))}
      </ul>
    </>
  );
}
