import { join } from "node:path";
import { type Answer, answer } from "../calculations/answer.ts";
import { workshopSurroundings } from "./surroundings.ts";

export interface Question {
  readonly name: string;
  readonly input: unknown;
  /** Folder of the recordings, named by their hashes. */
  readonly recordings: string;
}

/** Answers a question away from the thread that serves people. */
export function answerInThread({ name, input, recordings }: Question): Promise<Answer> {
  return answer(
    name,
    input,
    workshopSurroundings((sha256) => join(recordings, `${sha256}.wav`)),
  );
}
