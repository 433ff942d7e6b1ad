import { BadInput, quote } from "../maths/badInput.ts";
import type { AskedChange } from "../workshop/promises/views.ts";
import { keptWords, lookBackWords, orderingWords, whatIfWords } from "./promisesWords.ts";
import { promiseWords } from "./words.ts";
import { type FolderOption, openToRead, openToWrite } from "./workshopFolder.ts";

interface PromisesOptions extends FolderOption {
  readonly whatIf?: readonly string[];
  readonly ordering?: boolean;
  readonly kept?: boolean;
  readonly give?: string;
  readonly date?: string;
  readonly share: string;
  readonly by: string;
  readonly json?: boolean;
}

/** `stillglow promises`: the book, what a change does to it, what to order and by when, what was kept; or a date given. */
export async function promises(options: PromisesOptions): Promise<void> {
  const asked = (["whatIf", "ordering", "kept", "give"] as const).filter((one) => options[one] !== undefined);
  if (asked.length > 1) {
    const names = asked.map((one) => `--${one.replace("whatIf", "what-if")}`);
    throw new BadInput(names[1]!, names.join(" and "), "one question at a time", "leave all but one out");
  }
  const print = (view: unknown, words: string) =>
    process.stdout.write(`${options.json ? JSON.stringify(view) : words}\n`);
  if (options.give !== undefined) {
    print(...(await given(options.give, options)));
    return;
  }
  const workshop = await openToRead(options);
  try {
    if (options.whatIf) {
      const view = await workshop.whatIf({ changes: options.whatIf.map(readChange) });
      print(view, whatIfWords(view));
    } else if (options.ordering) {
      const view = await workshop.ordering();
      print(view, orderingWords(view));
    } else if (options.kept) {
      const view = await workshop.promisesKept();
      print(view, keptWords(view));
    } else {
      const view = await workshop.promises();
      print(view, promiseWords(view));
    }
  } finally {
    await workshop.close();
  }
}

/** `stillglow look-back`. */
export async function lookBack(options: FolderOption & { readonly json?: boolean }): Promise<void> {
  const workshop = await openToRead(options);
  try {
    const view = await workshop.lookBack();
    process.stdout.write(`${options.json ? JSON.stringify(view) : lookBackWords(view)}\n`);
  } finally {
    await workshop.close();
  }
}

async function given(order: string, options: PromisesOptions): Promise<[unknown, string]> {
  const share_pct = Number(options.share);
  const workshop = await openToWrite(options);
  try {
    const entry = await workshop.givePromise(order, options.by, {
      share_pct,
      ...(options.date !== undefined && { date: `${options.date}T17:00:00Z` }),
    });
    const { body } = entry;
    if (body.kind !== "promise") throw new Error("a promise was asked for");
    return [
      entry,
      `Order ${order} is promised for ${body.date.slice(0, 10)} at ${share_pct} in 100. ${body.assumptions}.`,
    ];
  } finally {
    await workshop.close();
  }
}

const form =
  "one of place:NAME=+1, place:NAME=24h, holiday:DATE, rush:MODEL=DATE, fail:SERIAL=STEP, late:PART=DAYS, away:PERSON=DATE..DATE, hands:PERSON";

/** A change as it is written on the command line, `late:chassis plates=5`. */
function readChange(text: string): AskedChange {
  const [, kind, rest = ""] = /^([a-z]+):(.*)$/s.exec(text) ?? [];
  const cut = rest.lastIndexOf("=");
  const [what, how] = cut < 0 ? [rest, ""] : [rest.slice(0, cut), rest.slice(cut + 1)];
  const number = Number(how.replace(",", ".").replace(/h$/, ""));
  const dates = how.split("..");
  if (kind === "place" && what !== "" && how.endsWith("h") && number >= 0)
    return { kind, place: what, cycle_h: number };
  if (kind === "place" && what !== "" && Number.isInteger(number) && how !== "")
    return { kind, place: what, slots: number };
  if (kind === "holiday" && rest !== "") return { kind, date: rest };
  if (kind === "rush" && how !== "") return { kind, model: what, units: 1, due: how };
  if (kind === "fail" && how !== "") return { kind, unit: what, step: how };
  if (kind === "late" && how !== "" && Number.isFinite(number)) return { kind, part: what, days: number };
  if (kind === "away" && dates.length === 2) return { kind, person: what, from: dates[0]!, to: dates[1]! };
  if (kind === "hands" && rest !== "") return { kind, like: rest };
  throw new BadInput("--what-if", quote(text), form, "write it like --what-if 'late:Flood chokes=7'");
}
