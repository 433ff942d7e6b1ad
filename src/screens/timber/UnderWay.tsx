import { underWay as words } from "./messages.ts";

/** What is still being worked out, and how far it is. */
export function UnderWay({
  what,
  progress,
}: {
  readonly what: string;
  readonly progress?: { readonly done: number; readonly of: number } | undefined;
}) {
  const isCounted = progress !== undefined && progress.of > 0;
  return (
    <div className="under-way" role="status">
      <p>{what}</p>
      {isCounted && (
        <>
          <progress max={progress.of + 1} value={progress.done + 0.5} aria-label={what} />
          <p className="quiet small">
            {progress.done < progress.of ? words.pieces(progress.done, progress.of) : words.last}
          </p>
        </>
      )}
    </div>
  );
}
