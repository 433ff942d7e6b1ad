import { answer } from "../calculations/answer.ts";
import { BadInput, quote } from "../maths/badInput.ts";
import { guessEnds } from "../workshop/notebook/draft.ts";
import type { FaultView, NotebookIndexView, SpreadView, TrialView } from "../workshop/notebook/views.ts";
import { readText } from "./readText.ts";
import { outlookWords, versionsWords } from "./versionsWords.ts";
import { type FolderOption, openToRead } from "./workshopFolder.ts";

interface Options extends FolderOption {
  readonly json?: boolean;
  readonly yield?: boolean;
  readonly text?: string;
  readonly try?: string;
  readonly of?: string;
  readonly release?: string;
  readonly revision?: string;
  readonly draw?: string;
  readonly as?: string;
  readonly why?: string;
  readonly by?: string;
}

/** `stillglow versions [MODEL]`: the prototype notebook in words; what it writes out, `enter` takes in. */
export async function versions(model: string | undefined, options: Options): Promise<void> {
  if (model !== undefined && options.draw !== undefined) return draw(model, options.draw, options);
  const workshop = await openToRead(options);
  const say = (view: unknown, words: () => string): void => {
    process.stdout.write(options.json ? `${JSON.stringify(view)}\n` : `${words()}\n`);
  };
  try {
    const desk = workshop.notebook();
    if (model === undefined) return say(desk.index(), () => indexWords(desk.index()));
    if (options.release !== undefined) {
      const question = options.revision === undefined ? {} : { revision: options.revision };
      const draft = await desk.release(model, options.release, question);
      for (const note of [...draft.notes, ...draft.cautions]) process.stderr.write(`note: ${note}\n`);
      process.stdout.write(`${JSON.stringify({ at: workshop.now, by: options.by ?? "owner", ...draft.entry })}\n`);
      return;
    }
    const view = await desk.model(model);
    const page = pageOf(view.pages, options.text ?? options.of);
    if (options.text !== undefined) {
      process.stdout.write(page.text);
      return;
    }
    if (options.try !== undefined) {
      const { text, channels, loads, limits, version } = page;
      const question = {
        text,
        benched: { channels, loads, limits },
        from: { model, version },
        change: changeOf(options.try),
      };
      const tried: TrialView = await desk.trial(question);
      if (tried.state === "faulty") {
        throw new BadInput("--try", quote(options.try), tried.faults[0]?.message ?? "a value", "try another value");
      }
      const outlooks = options.yield ? await desk.trialOutlook(question) : [];
      return say({ ...tried.spread, outlooks }, () => words(tried.spread, outlooks));
    }
    const outlooks = options.yield ? await desk.outlooks(model) : [];
    say({ ...view, ...(options.yield && { outlooks }) }, () => words(view, outlooks));
  } finally {
    await workshop.close();
  }
}

/** Needs no workshop: the first version of the first model is drawn before there is one. */
async function draw(model: string, file: string, options: Options): Promise<void> {
  const text = readText(file);
  const checked = await answer("circuits.check", { text }, { recording: () => never() });
  const read = (checked.ok ? checked.output : { state: "faulty", faults: [] }) as Checked;
  if (read.state === "faulty") {
    const faults = read.faults.map(({ line, part, message }) => `line ${line}${part ? `, ${part}` : ""}: ${message}`);
    process.stderr.write(`stillglow: ${file}\n${faults.map((fault) => `  ${fault}\n`).join("")}`);
    process.exitCode = 2;
    return;
  }
  const { netlist } = read;
  const entry = {
    at: new Date().toISOString(),
    by: options.by ?? "owner",
    kind: "version",
    model,
    version: options.as ?? "1",
    netlist,
    channels: guessEnds(netlist),
    ...(options.of !== undefined && { from: options.of }),
    why: options.why ?? "",
  };
  process.stdout.write(`${JSON.stringify(entry)}\n`);
}

type Checked =
  | { readonly state: "good"; readonly netlist: Readonly<Record<string, unknown>> }
  | { readonly state: "faulty"; readonly faults: readonly FaultView[] };

function never(): never {
  throw new Error("a net list holds no recording");
}

function words(spread: SpreadView, outlooks: readonly Parameters<typeof outlookWords>[0][]): string {
  return [versionsWords(spread), ...outlooks.map(outlookWords)].join("\n\n");
}

function indexWords({ models }: NotebookIndexView): string {
  if (models.length === 0) {
    return "The notebook is empty. Draw a first version: stillglow versions MODEL --draw netlist.json --as 1 --why '…' | stillglow enter";
  }
  return models
    .map(({ model, versions: count, newest, revisions }) => {
      const released = revisions.length > 0 ? `revisions ${revisions.join(", ")}` : "not released";
      return `${model}: ${count === 1 ? "1 version" : `${count} versions`}, newest ${newest.version} (${newest.why}); ${released}`;
    })
    .join("\n");
}

function pageOf<P extends { readonly version: string }>(pages: readonly P[], version: string | undefined): P {
  const found = version === undefined ? pages.at(-1) : pages.find((page) => page.version === version);
  if (found) return found;
  const known = pages.map((page) => page.version).join(", ");
  throw new BadInput("version", quote(version), `one of ${known}`, "name a version of the model");
}

/** `R4.ohm=39000`, with a decimal comma or point. */
function changeOf(typed: string): { part: string; field: string; value: number | string } {
  const [, part, field, value] = /^(.+)\.([A-Za-z_]+)=(.+)$/.exec(typed) ?? [];
  if (part === undefined || field === undefined || value === undefined) {
    throw new BadInput("--try", quote(typed), "a part, its field and a value", "write it like R4.ohm=39000");
  }
  const number = Number(value.replace(",", "."));
  return { part, field, value: Number.isFinite(number) && field !== "type" ? number : value };
}
