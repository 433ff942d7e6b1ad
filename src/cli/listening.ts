import { BadInput, quote } from "../maths/badInput.ts";
import { listWords, seriesWords, switchingWords } from "./listeningWords.ts";
import { type FolderOption, openToRead } from "./workshopFolder.ts";
import { writer } from "./writer.ts";

interface ListeningOptions extends FolderOption {
  readonly switching?: string;
  readonly answer?: readonly string[];
  readonly close?: boolean;
  readonly why?: string;
  readonly by: string;
  readonly json?: boolean;
}

/** `stillglow listening [SERIES]`: blind series, what one showed, what to play; answers and the end are written first. */
export async function listening(series: string | undefined, options: ListeningOptions): Promise<void> {
  const { switching, answer, close } = options;
  if (series === undefined && (switching !== undefined || answer !== undefined || close)) {
    throw new BadInput("series", "nothing", "the series meant", "name it: stillglow listening SERIES");
  }
  if (series !== undefined && (answer || close)) await write(series, options);
  const workshop = await openToRead(options);
  try {
    const [view, words] =
      series === undefined
        ? told(workshop.listening(), listWords)
        : switching === undefined
          ? told(await workshop.series(series), seriesWords)
          : told(workshop.switching(series, switching), switchingWords);
    process.stdout.write(`${options.json ? JSON.stringify(view) : words}\n`);
  } finally {
    await workshop.close();
  }
}

const told = <T>(view: T, words: (view: T) => string): readonly [unknown, string] => [view, words(view)];

async function write(series: string, options: ListeningOptions): Promise<void> {
  const workshop = await openToRead(options);
  const { now } = workshop;
  const { progress } = await workshop.series(series);
  await workshop.close();
  const given = (options.answer ?? []).map((text) => {
    const [, listener, answers] = /^(.+)=([ab12,\s]+)$/i.exec(text) ?? [];
    if (listener === undefined)
      throw new BadInput("--answer", quote(text), "a listener and answers", 'write --answer "listener 3=a,b,b"');
    return { listener: listener.trim(), answers: answers!.split(",").map((one) => one.trim()) };
  });
  const entries = [
    ...given.flatMap(({ listener, answers }) => {
      const begun = progress.find((one) => one.listener === listener)?.answered ?? 0;
      return answers.map((one, i) => ({
        at: now,
        by: listener,
        kind: "listening-answer",
        series,
        listener,
        trial: begun + i + 1,
        answer: /^[a1]$/i.test(one) ? "first" : "second",
      }));
    }),
    ...(options.close ? [{ at: now, by: options.by, kind: "listening-close", series, why: options.why ?? "" }] : []),
  ];
  const door = await writer(options);
  try {
    await door.enter(entries);
  } finally {
    await door.close();
  }
}
