import { common } from "./messages.ts";
import { tradeWord } from "./tradeMessages.ts";

/** A stage is named as its claim is in the ledger; people write it without the strokes. */
export function stageWords(stage: string): string {
  return stage === "customer" ? common.customer : tradeWord(stage.replaceAll("-", " "));
}
