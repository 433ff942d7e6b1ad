import { join } from "node:path";
import type { MessagePort } from "node:worker_threads";
import { type Answer, answer } from "../calculations/answer.ts";
import { workshopSurroundings } from "./surroundings.ts";

export interface Question {
  readonly name: string;
  readonly input: unknown;
  /** Folder of the recordings, named by their hashes. */
  readonly recordings: string;
  /** Told how far the answer is, as `UnderWay`. */
  readonly progress?: MessagePort;
}

/** How far a long answer is. */
export interface UnderWay {
  /** 0 to 1. */
  readonly share: number;
  readonly what: string;
}

/** Answers a question away from the thread that serves people. */
export async function answerInThread({ name, input, recordings, progress }: Question): Promise<Answer> {
  const surroundings = workshopSurroundings((sha256) => join(recordings, `${sha256}.wav`));
  try {
    return await answer(name, input, {
      ...surroundings,
      ...(progress && { progress: (share: number, what: string) => progress.postMessage({ share, what }) }),
    });
  } finally {
    progress?.close();
  }
}
