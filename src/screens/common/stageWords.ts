import { tradeWord } from "./tradeMessages.ts";

/** A stage is named as its claim is in the ledger; people write it without the strokes. The last stands with the customer. */
export function stageWords(stage: string): string {
  return tradeWord(stage === "customer" ? "the customer" : stage.replaceAll("-", " "));
}
