import {
  StoreCorrupted,
  StoreDiskFull,
  StoreError,
  StoreInUse,
  StoreMissing,
  StoreReadOnly,
  StoreUnreachable,
} from "../storeErrors.ts";

/**
 * Whether the line to the database was lost, or the database is going down or coming up: what was not committed then is
 * not there, and the same may be tried again.
 *
 * @source  PostgreSQL 15 documentation, appendix A: classes 08 and 57P, 53300, 25P03, 40001, 40P01
 */
export function isLost(fault: unknown): boolean {
  if (!(fault instanceof Error) || fault instanceof StoreError) return false;
  const code = codeOf(fault);
  return (
    /^(08|57P0[1235]$|53300$|25P0[35]$|40001$|40P01$)/.test(code) ||
    /^(ECONNREFUSED|ECONNRESET|EPIPE|ETIMEDOUT|EHOSTUNREACH|ENETUNREACH|ENOTFOUND|EAI_AGAIN|ENOENT)$/.test(code) ||
    /connection (terminated|error)|not queryable|timeout|client was closed/i.test(fault.message)
  );
}

/** Names a fault of the database in words that say what to do; anything else comes back as it is. */
export function postgresFault(fault: unknown, name: string): unknown {
  if (fault instanceof StoreError || !(fault instanceof Error)) return fault;
  const cause = { cause: fault };
  const code = codeOf(fault);
  if (isLost(fault)) {
    return new StoreUnreachable(
      `${name}: the database does not answer; nothing was kept; start it, or try again`,
      cause,
    );
  }
  if (/^28/.test(code)) {
    return new StoreReadOnly(`${name}: the database refuses this user or password; check STILLGLOW_DATABASE`, cause);
  }
  if (code === "3D000") {
    return new StoreMissing(`${name}: there is no such database; check the name, or make it with createdb`, cause);
  }
  if (/^(42501|25006)$/.test(code)) {
    return new StoreReadOnly(`${name}: it may not be written to; give this user the right to write there`, cause);
  }
  if (/^(53100|53200|58030)$/.test(code)) {
    return new StoreDiskFull(
      `${name}: the database has no room; nothing of this entry was kept; free some space there`,
      cause,
    );
  }
  if (code === "55P03") {
    return new StoreInUse(`${name}: others have been writing for too long; nothing was kept; try again`, cause);
  }
  if (/^XX00[012]$/.test(code)) {
    return new StoreCorrupted(
      `${name}: the database says that its files are damaged; restore the newest backup`,
      cause,
    );
  }
  return fault;
}

function codeOf(fault: Error): string {
  if ("code" in fault && fault.code !== undefined) return String(fault.code);
  // Several addresses of one name may each have refused.
  return fault instanceof AggregateError && fault.errors[0] instanceof Error ? codeOf(fault.errors[0]) : "";
}
