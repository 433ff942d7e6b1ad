// Started in a thread of its own, where the program was not built: loads it, then answers one calculation at a time.
import { load } from "../../scripts/program.mjs";

export const { answerInThread } = await load("calculationThread");
