import type { ReactNode } from "react";
import { Link } from "wouter";
import { Trouble } from "./api.ts";
import { common } from "./messages.ts";

export function Waiting({ what }: { readonly what: string }) {
  return (
    <p className="waiting" role="status">
      {common.waiting(what)}
    </p>
  );
}

interface TroubleProps {
  readonly error: unknown;
  readonly again?: () => void;
  /** Nothing else is on the page, so this is its heading. */
  readonly alone?: boolean;
}

/** An error in words, with the way out. */
export function TroubleNote({ error, again, alone = false }: TroubleProps) {
  const said = error instanceof Error ? error.message : String(error);
  const Heading = alone ? "h1" : "h2";
  const path = error instanceof Trouble ? error.path : "";
  const isNoUnit = alone && path === "unit";
  return (
    <div className="trouble" role="alert">
      <Heading>{isNoUnit ? common.noUnitTitle : common.troubleTitle}</Heading>
      <p>
        {said}
        {path !== "" && !isNoUnit && ` (${path})`}
      </p>
      {isNoUnit && (
        <p>
          <Link href="/units">{common.allUnits}</Link>
        </p>
      )}
      {again && !isNoUnit && (
        <button type="button" onClick={again}>
          {common.again}
        </button>
      )}
    </div>
  );
}

export function Empty({
  title,
  children,
  steps,
}: {
  readonly title: string;
  readonly children: ReactNode;
  readonly steps?: ReactNode;
}) {
  return (
    <div className="empty">
      <h2>{title}</h2>
      <p>{children}</p>
      {steps}
    </div>
  );
}

interface Asked<T> {
  readonly data: T | undefined;
  readonly error: unknown;
  readonly refetch: () => unknown;
}

/** Shows what came, keeps showing it when a later ask fails, and says what is awaited before. */
export function Answer<T>({
  asked,
  what,
  children,
}: {
  readonly asked: Asked<T>;
  readonly what: string;
  readonly children: (data: T) => ReactNode;
}) {
  return (
    <>
      {asked.error ? (
        <TroubleNote error={asked.error} again={() => void asked.refetch()} alone={asked.data === undefined} />
      ) : null}
      {asked.data !== undefined ? children(asked.data) : asked.error ? null : <Waiting what={what} />}
    </>
  );
}
