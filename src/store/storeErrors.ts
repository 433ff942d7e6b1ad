/** Something about the data folder itself, which no change to what was handed in would mend. */
export class StoreError extends Error {
  constructor(message: string, options?: ErrorOptions) {
    super(message, options);
    this.name = new.target.name;
  }
}

export class StoreMissing extends StoreError {}
export class StoreInUse extends StoreError {}
export class StoreDiskFull extends StoreError {}
export class StoreReadOnly extends StoreError {}
export class StoreCorrupted extends StoreError {}
export class StoreFromNewerVersion extends StoreError {}
/** The disk or its driver failed in a way that has no name of its own here. */
export class StoreDiskFault extends StoreError {}
/** A shared database does not answer; nothing of what was asked was kept. */
export class StoreUnreachable extends StoreError {}
/** A shared database was lost while it was writing and did not come back to say whether it had. */
export class StoreOutcomeUnknown extends StoreError {}

/**
 * Names a fault of the disk or the database in words that say what to do.
 *
 * Anything that is not such a fault comes back as it is.
 */
export function storeFault(fault: unknown, what: string): unknown {
  if (fault instanceof StoreError || !(fault instanceof Error)) return fault;
  const code = "code" in fault ? String(fault.code) : "";
  const cause = { cause: fault };
  if (/^(SQLITE_FULL|ENOSPC|EDQUOT)/.test(code)) {
    return new StoreDiskFull(
      `${what}: the disk is full; nothing of this entry was kept, all earlier ones are safe; free some space and enter it again`,
      cause,
    );
  }
  if (/^(SQLITE_READONLY|EROFS|EACCES|EPERM)/.test(code)) {
    return new StoreReadOnly(`${what}: it may not be written to; give this user the right to write there`, cause);
  }
  if (/^(SQLITE_NOTADB|SQLITE_CORRUPT)/.test(code)) {
    return new StoreCorrupted(
      `${what}: it is damaged or no Stillglow file; leave it as it is and restore the newest backup`,
      cause,
    );
  }
  if (/^SQLITE_(BUSY|LOCKED)/.test(code)) {
    return new StoreInUse(`${what}: another program keeps it locked; close that program, then try again`, cause);
  }
  if (/^(ENOENT|ENOTDIR)$/.test(code)) return new StoreMissing(`${what}: it is not there; check the path`, cause);
  if (/^(SQLITE_CANTOPEN|EISDIR)/.test(code) || /Unable to open connection/.test(fault.message)) {
    return new StoreReadOnly(`${what}: it can't be opened; check that it is a plain file this user may read`, cause);
  }
  if (/^(SQLITE_IOERR|EIO|EFBIG)/.test(code)) {
    return new StoreDiskFault(`${what}: the disk failed (${code}); nothing of this entry was kept`, cause);
  }
  return fault;
}
