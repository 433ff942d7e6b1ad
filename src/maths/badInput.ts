/** What is allowed may be a list of names; cut before it would push what to do out of sight. */
const most_allowed = 1400;

/**
 * Input that a person or another program can put right.
 *
 * The message has three parts: what was given, what is allowed, what to do. The path names the field as it
 * stands in the input, `points[3].plate_mA`; it is empty only when the input as a whole is at fault.
 *
 * @example throw new BadInput("parts[2].ohm", "-5", "a resistance above 0", "give ohms as a positive number")
 */
export class BadInput extends Error {
  readonly path: string;

  constructor(path: string, given: string, allowed: string, mend: string) {
    super(`${shorten(given)}; ${shorten(allowed, most_allowed)}; ${mend}`);
    this.name = "BadInput";
    this.path = path;
  }

  /** The same fault, found at another field: what a reader of files says is filed under the field that named the file. */
  static at(path: string, fault: BadInput): BadInput {
    return BadInput.told({ path, message: fault.message });
  }

  /** A fault as it was told by another process or thread, out of which an error comes without its kind. */
  static told({ path, message }: { readonly path: string; readonly message: string }): BadInput {
    const fault = new BadInput(path, "", "", "");
    fault.message = message;
    return fault;
  }
}

/** A value quoted in a message, cut so that a message stays readable whatever was sent. */
export function quote(value: unknown): string {
  if (value === undefined) return "nothing";
  if (typeof value === "number" && !Number.isFinite(value)) return "a number too large to hold";
  const text = typeof value === "string" ? JSON.stringify(value) : (JSON.stringify(value) ?? String(value));
  return shorten(text);
}

function shorten(text: string, most = 120): string {
  return text.length <= most ? text : `${text.slice(0, most - 1)}…`;
}
