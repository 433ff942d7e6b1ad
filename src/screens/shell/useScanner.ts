import { useEffect } from "react";

const withinBurst_ms = 60;
/** In a field hands type too: a burst counts only where no hand is as fast. */
const withinFieldBurst_ms = 35;
const shortestCode = 3;

type Written = HTMLInputElement | HTMLTextAreaElement | HTMLSelectElement;

/** Fields that wait for codes keep what is scanned into them; nobody looks into a passphrase. */
const takesCodes = "input[list], input[type=password], [data-takes-codes]";

/** A figure as an instrument with keys of its own types it; a serial with letters or a nought in front is none. */
const isFigure = (code: string) => /^[-+−]?(?!0\d)\d*[.,]?\d+$/.test(code);

/** What is written by keys; a tick, a dial or a file's button is not. */
function writtenOf(target: EventTarget | null): Written | undefined {
  const field = (target as HTMLElement | null)?.closest?.("input, textarea, select");
  if (field instanceof HTMLInputElement) {
    return ["checkbox", "radio", "file", "range"].includes(field.type) ? undefined : field;
  }
  return (field as HTMLTextAreaElement | HTMLSelectElement | null) ?? undefined;
}

/** Puts a field back to what stood in it, as if the keys had never come. */
function putBack(field: Written, value: string): void {
  const { set } = Object.getOwnPropertyDescriptor(Object.getPrototypeOf(field), "value") ?? {};
  set?.call(field, value);
  field.dispatchEvent(new Event(field instanceof HTMLSelectElement ? "change" : "input", { bubbles: true }));
}

/** Lets Enter do what it does in a field. */
function enter(field: Written): void {
  if (field instanceof HTMLTextAreaElement) {
    field.setRangeText("\n", field.selectionStart, field.selectionEnd, "end");
    field.dispatchEvent(new Event("input", { bubbles: true }));
  } else field.form?.requestSubmit();
}

/** Where a code leads, by the workshop's own record; nothing where it names nothing. */
export type WhereTo = (code: string) => Promise<(() => void) | undefined>;

/**
 * A barcode scanner types like a keyboard, only faster, and ends with Enter. A burst that lands on no field opens what
 * it names, so that nobody has to aim first. One that lands in a field that waits for something else, a reading or a
 * reason, is looked up: where it names something the field is put back as it was and that is opened; else the keys
 * stand as typed.
 *
 * @param found opens a code that landed on no field
 * @param whereTo looks up one that landed in a field
 */
export function useScanner(found: (code: string) => void, whereTo: WhereTo): void {
  useEffect(() => {
    let code = "";
    let before = "";
    let last_ms = 0;
    let fastest = true;
    const onKey = (event: KeyboardEvent) => {
      if (event.ctrlKey || event.metaKey || event.altKey || event.isComposing) return;
      const field = writtenOf(event.target);
      if (field?.closest(takesCodes)) {
        code = "";
        return;
      }
      const gap_ms = event.timeStamp - last_ms;
      last_ms = event.timeStamp;
      if (gap_ms > withinBurst_ms) {
        code = "";
        fastest = true;
      }
      if (code !== "" && gap_ms > withinFieldBurst_ms) fastest = false;
      if (event.key === "Enter") {
        const scanned = code;
        code = "";
        if (scanned.length < shortestCode) return;
        if (!field) {
          event.preventDefault();
          found(scanned);
        } else if (fastest && !isFigure(scanned)) {
          event.preventDefault();
          void whereTo(scanned).then((go) => {
            if (!go) return enter(field);
            putBack(field, before);
            go();
          });
        }
      } else if (event.key.length === 1) {
        if (code === "") before = field?.value ?? "";
        code += event.key;
      } else if (event.key !== "Shift") {
        // Hands that go on to another field, or mend a letter: no scanner does.
        code = "";
      }
    };
    document.addEventListener("keydown", onKey);
    return () => document.removeEventListener("keydown", onKey);
  }, [found, whereTo]);
}
