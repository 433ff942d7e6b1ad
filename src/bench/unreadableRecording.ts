/**
 * A file that holds no recording this bench can use.
 *
 * Its three parts make a complete error for whoever named the file:
 * `new BadInput(field, fault.given, fault.allowed, fault.mend)`. Nothing of the file's content is ever quoted.
 */
export class UnreadableRecording extends Error {
  readonly given: string;
  readonly allowed: string;
  readonly mend: string;

  constructor(given: string, allowed: string, mend: string) {
    super(`${given}; ${allowed}; ${mend}`);
    this.name = "UnreadableRecording";
    this.given = given;
    this.allowed = allowed;
    this.mend = mend;
  }
}
