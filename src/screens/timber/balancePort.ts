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

/**
 * The last mass in what a balance printed, in grams.
 *
 * @example massIn("ST,GS,+  512.3 g") // 512.3
 */
export function massIn(line: string): number | undefined {
  const found = [...line.matchAll(/([+-]?)\s*(\d+(?:[.,]\d+)?)\s*(kg|g)\b/gi)].at(-1);
  if (!found) return undefined;
  const value = Number(found[2]!.replace(",", ".")) * (found[3]!.toLowerCase() === "kg" ? 1000 : 1);
  return found[1] === "-" || !Number.isFinite(value) ? undefined : Number(value.toFixed(3));
}

/** Usual of bench balances (common practice, no source). */
const baudRate = 9600;

/** Joins a balance by its cable and tells each mass it prints, until it is unplugged. @returns lets it go */
export async function joinBalance(onMass: (mass_g: number) => void, onLost: () => void): Promise<() => void> {
  const port = await serialOf()!.requestPort();
  await port.open({ baudRate });
  const reader = port.readable!.getReader();
  const text = new TextDecoder("latin1");
  let rest = "";
  void (async () => {
    try {
      for (;;) {
        const { value, done } = await reader.read();
        if (done) break;
        const lines = (rest + text.decode(value, { stream: true })).split(/[\r\n]+/);
        rest = lines.pop() ?? "";
        for (const line of lines) {
          const mass_g = massIn(line);
          if (mass_g !== undefined) onMass(mass_g);
        }
      }
    } catch {
      // Unplugged.
    }
    onLost();
  })();
  return () => void reader.cancel().then(() => port.close());
}
