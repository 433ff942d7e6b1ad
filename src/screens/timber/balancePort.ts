/** The part of the browser's Web Serial that a balance needs; few browsers have it. */
interface SerialPort {
  readonly readable: ReadableStream<Uint8Array> | null;
  open(options: { baudRate: number }): Promise<void>;
  close(): Promise<void>;
}
interface Serial {
  requestPort(): Promise<SerialPort>;
}

const serialOf = (): Serial | undefined => (navigator as { readonly serial?: Serial }).serial;

export const hasSerial = (): boolean => serialOf() !== undefined;

/** A line as bench balances print it: words, a sign, the figure, its unit, words (common practice, no source). */
const line = /^[a-z\s,:;]*([+-]?)\s*(\d+(?:[.,]\d+)?)\s*(kg|g)(?![a-z])[a-z\s,:;?]*$/i;
const grams = { g: 1, kg: 1000 } as const;
/** How balances mark a figure that has not come to rest. */
const unsteady = /\b(?:us|sd|dyn|unstable|unsteady|motion)\b|\?/i;

export interface Printed {
  readonly mass_g: number;
  /** It had not come to rest. */
  readonly isUnsteady: boolean;
}

/**
 * The mass in a line that a balance printed, in grams; nothing where the line holds anything that does not belong there.
 *
 * @example printedIn("ST,GS,+  512.3 g") // { mass_g: 512.3, isUnsteady: false }
 * @example printedIn("ST,GS,+  51#.3 g") // undefined
 */
export function printedIn(text: string): Printed | undefined {
  const found = line.exec(text.trim());
  if (!found || found[1] === "-") return undefined;
  const [figure, unit] = [found[2]!, found[3]!.toLowerCase() as keyof typeof grams];
  const mass_g = Number(figure.replace(",", ".")) * grams[unit];
  return { mass_g: Number(mass_g.toFixed(3)), isUnsteady: unsteady.test(text) };
}

/** Bytes that come so soon after the port was opened may begin within a line. */
const midLine_ms = 120;

/** Usual of bench balances (common practice, no source). */
const baudRate = 9600;

/** Joins a balance by its cable and tells each line it prints, until it is unplugged. @returns lets it go */
export async function joinBalance(
  onPrinted: (printed: Printed | undefined) => void,
  onLost: () => void,
): Promise<() => void> {
  const port = await serialOf()!.requestPort();
  await port.open({ baudRate });
  const opened_ms = performance.now();
  const reader = port.readable!.getReader();
  const text = new TextDecoder("latin1");
  let rest = "";
  let isWhole: boolean | undefined;
  void (async () => {
    try {
      for (;;) {
        const { value, done } = await reader.read();
        if (done) break;
        isWhole ??= performance.now() - opened_ms > midLine_ms;
        const lines = (rest + text.decode(value, { stream: true })).split(/[\r\n]+/);
        rest = lines.pop() ?? "";
        if (!isWhole && lines.length > 0) {
          lines.shift();
          isWhole = true;
        }
        for (const one of lines) if (one.trim() !== "") onPrinted(printedIn(one));
      }
    } catch {
      // Unplugged.
    }
    onLost();
  })();
  return () => void reader.cancel().then(() => port.close());
}
