import { readFileSync } from "node:fs";
import { createInterface } from "node:readline";
import { Writable } from "node:stream";
import { BadInput } from "../maths/badInput.ts";

/** Longer is no passphrase. */
const most_bytes = 4096;

/**
 * A passphrase from the keyboard, not shown and typed twice; or the first line of stdin where nobody types. Never from
 * the command's words, which every user of the machine can list.
 */
export async function readPassphrase(what: string): Promise<string> {
  if (!process.stdin.isTTY) return firstLine(readFileSync(0).subarray(0, most_bytes).toString("utf8"));
  const first = await ask(`Passphrase ${what}: `);
  const second = await ask("The same again: ");
  if (first === second) return first;
  throw new BadInput("passphrase", "two that differ", "the same twice", "type it again");
}

function firstLine(text: string): string {
  const [line = ""] = text.split(/\r?\n/);
  if (line !== "") return line;
  throw new BadInput("passphrase", "nothing on stdin", "one line", "type it at the prompt, or send it on stdin");
}

function ask(question: string): Promise<string> {
  const silent = new Writable({ write: (_chunk, _encoding, done) => done() });
  const lines = createInterface({ input: process.stdin, output: silent, terminal: true, historySize: 0 });
  process.stderr.write(question);
  return new Promise((typed, failed) => {
    lines.question("", (line) => {
      process.stderr.write("\n");
      lines.close();
      typed(line);
    });
    lines.on("SIGINT", () => {
      lines.close();
      process.stderr.write("\n");
      failed(new BadInput("passphrase", "nothing", "a passphrase", "nothing was changed; begin again"));
    });
  });
}
