import { existsSync } from "node:fs";
import { connect } from "node:net";
import type { LinkDescription } from "../claims/links/description.ts";

/** Bytes to and from one instrument, whatever carries them. */
export interface Wire {
  write(text: string): Promise<void>;
  close(): void;
}

interface WireEvents {
  readonly onText: (text: string) => void;
  /** Once, when it is gone and was not closed from here. */
  readonly onLost: (why: string) => void;
}

export type OpenWire = (where: LinkDescription["wire"], patience_ms: number, events: WireEvents) => Promise<Wire>;

/** Opens the port or the connection that a description names. @throws Error saying why it can't be had */
export const openWire: OpenWire = (where, patience_ms, events) =>
  where.kind === "tcp" ? openTcp(where, patience_ms, events) : openSerial(where, patience_ms, events);

type Tcp = Extract<LinkDescription["wire"], { kind: "tcp" }>;
type Serial = Extract<LinkDescription["wire"], { kind: "serial" }>;

function openTcp({ host, port }: Tcp, patience_ms: number, { onText, onLost }: WireEvents): Promise<Wire> {
  return new Promise((resolve, reject) => {
    const socket = connect({ host, port, noDelay: true });
    let isOpen = false;
    let isClosed = false;
    const late = setTimeout(() => fail(`nobody answers at ${host}:${port}`), patience_ms);
    const fail = (why: string) => {
      clearTimeout(late);
      socket.destroy();
      if (isClosed) return;
      isClosed = true;
      if (isOpen) onLost(why);
      else reject(new Error(why));
    };
    socket.on("error", (fault: NodeJS.ErrnoException) =>
      fail(`${host}:${port} ${tcpFaults[fault.code ?? ""] ?? `failed (${fault.code ?? fault.message})`}`),
    );
    socket.on("close", () => fail(`${host}:${port} ended the connection`));
    socket.on("data", (bytes: Buffer) => onText(bytes.toString("latin1")));
    socket.on("connect", () => {
      clearTimeout(late);
      isOpen = true;
      resolve({
        write: (text) =>
          new Promise((done, failed) => socket.write(text, "latin1", (fault) => (fault ? failed(fault) : done()))),
        close: () => {
          isClosed = true;
          socket.destroy();
        },
      });
    });
  });
}

const tcpFaults: Readonly<Record<string, string>> = {
  ECONNREFUSED: "refuses the connection; is the instrument on, and its network port enabled?",
  ENOTFOUND: "is a name that nobody knows; check it, or write the address",
  EHOSTUNREACH: "can't be reached; check the cable and the address",
  ENETUNREACH: "can't be reached; check the cable and the address",
  ECONNRESET: "broke the connection",
  EPIPE: "broke the connection",
  ETIMEDOUT: "does not answer",
};

async function openSerial(
  { path, baud, dataBits, parity, stopBits, flow }: Serial,
  patience_ms: number,
  { onText, onLost }: WireEvents,
): Promise<Wire> {
  // Fetched only where a serial port is really used: its native part is not wanted by every command.
  const { SerialPort } = await import("serialport");
  const port = new SerialPort({
    path,
    baudRate: baud,
    dataBits,
    parity,
    stopBits,
    rtscts: flow === "rts-cts",
    xon: flow === "xon-xoff",
    xoff: flow === "xon-xoff",
    autoOpen: false,
  });
  let isClosed = false;
  const lost = (why: string) => {
    if (isClosed) return;
    close();
    onLost(why);
  };
  // An adapter pulled out may only be read as endless nothing: its entry among the devices goes at once.
  const watch = setInterval(() => {
    if (path.startsWith("/") && !existsSync(path)) lost(`${path} is gone: was it unplugged?`);
  }, 250);
  watch.unref();
  const close = () => {
    isClosed = true;
    clearInterval(watch);
    if (port.isOpen) port.close(() => undefined);
  };
  port.on("error", (fault: Error) => lost(`${path} failed (${fault.message})`));
  port.on("close", () => lost(`${path} is gone: was it unplugged?`));
  port.on("data", (bytes: Buffer) => onText(bytes.toString("latin1")));
  try {
    await new Promise<void>((done, failed) => {
      const late = setTimeout(() => failed(new Error(`${path} does not open`)), patience_ms);
      port.open((fault) => {
        clearTimeout(late);
        if (fault) failed(new Error(`${path} ${serialWords(fault.message)}`));
        else done();
      });
    });
  } catch (fault) {
    close();
    throw fault;
  }
  return {
    write: (text) =>
      new Promise((done, failed) => {
        port.write(text, "latin1");
        port.drain((fault) => (fault ? failed(fault) : done()));
      }),
    close,
  };
}

function serialWords(fault: string): string {
  if (/no such file|file not found/i.test(fault)) return "is not there; is its adapter plugged in?";
  if (/permission denied|access denied/i.test(fault))
    return "may not be opened by this user; add it to the ports' group";
  if (/lock|busy|temporarily unavailable/i.test(fault)) return "is in use by another program";
  return `can't be opened (${fault})`;
}
