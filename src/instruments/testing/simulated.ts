import { type ChildProcess, spawn } from "node:child_process";
import { createServer, type Socket } from "node:net";

/** What a simulated instrument does wrong with its next answer. */
export type Slip =
  | "none"
  | "drop mid-line"
  | "garble"
  | "echo"
  | "silent"
  | "late"
  | "two lines"
  | "second line later"
  | "no end"
  | "overload"
  | "far out";

export interface Simulated {
  /** Where it is found, as a description's `wire`. */
  readonly wire: { readonly kind: "tcp"; readonly host: string; readonly port: number };
  /** What it was sent, line by line. */
  readonly heard: string[];
  /** How often somebody connected. */
  readonly calls: () => number;
  /** What it does wrong with answers from now on, in turn; then nothing. */
  slips: Slip[];
  /** Goes off the air and comes back. */
  unplug(): Promise<void>;
  plug(): Promise<void>;
  /** Says something unasked. */
  say(text: string): void;
  close(): Promise<void>;
}

/**
 * An instrument on loopback TCP that answers line by line and can do wrong what instruments do wrong.
 *
 * @param answer  what it says to a line; nothing for a command without an answer
 */
export async function simulated(answer: (line: string) => string | undefined): Promise<Simulated> {
  const sockets = new Set<Socket>();
  const heard: string[] = [];
  let calls = 0;
  let port = 0;
  const state: { slips: Slip[] } = { slips: [] };
  const respond = (socket: Socket, line: string) => {
    const said = answer(line);
    if (said === undefined) return;
    const slip = state.slips.shift() ?? "none";
    const put = (text: string) => socket.write(text, "latin1");
    switch (slip) {
      case "none":
        return put(`${said}\n`);
      case "drop mid-line":
        socket.end(said.slice(0, Math.ceil(said.length / 2)), "latin1");
        return;
      case "garble":
        return put(`${said.slice(0, 2)}\u00ff#${said.slice(3)}\n`);
      case "echo":
        return put(`${line}\n${said}\n`);
      case "silent":
        return;
      case "late":
        setTimeout(() => put(`${said}\n`), 1300);
        return;
      case "two lines":
        return put(`${said}\n${said.replace(/\d(?=\D*$)/, (digit) => String((Number(digit) + 1) % 10))}\n`);
      case "second line later":
        put(`${said}\n`);
        setTimeout(() => put("7.77\n"), 60);
        return;
      case "no end":
        return put("1".repeat(900));
      case "overload":
        return put("9.9E+37\n");
      case "far out":
        return put("123456.0\n");
    }
  };
  const server = createServer((socket) => {
    calls += 1;
    sockets.add(socket);
    socket.on("close", () => sockets.delete(socket));
    socket.on("error", () => undefined);
    let rest = "";
    socket.on("data", (bytes) => {
      const lines = (rest + bytes.toString("latin1")).split("\n");
      rest = lines.pop() ?? "";
      for (const line of lines) {
        heard.push(line.trim());
        respond(socket, line.trim());
      }
    });
  });
  const plug = () =>
    new Promise<void>((done, failed) => {
      server.once("error", failed);
      server.listen(port, "127.0.0.1", () => {
        port = (server.address() as { port: number }).port;
        done();
      });
    });
  const unplug = () =>
    new Promise<void>((done) => {
      server.close(() => done());
      for (const socket of sockets) socket.destroy();
    });
  await plug();
  return {
    wire: { kind: "tcp", host: "127.0.0.1", port },
    heard,
    calls: () => calls,
    get slips() {
      return state.slips;
    },
    set slips(slips) {
      state.slips = slips;
    },
    unplug,
    plug,
    say: (text) => {
      for (const socket of sockets) socket.write(text, "latin1");
    },
    close: () => (server.listening ? unplug() : Promise.resolve()),
  };
}

export interface Terminal {
  /** The serial port that the instrument hangs on. */
  readonly path: string;
  /** What was sent to it so far. */
  heard(): string;
  onHeard(listener: (text: string) => void): void;
  say(text: string): void;
  /** Pulls the plug. */
  close(): Promise<void>;
}

/**
 * A pseudo-terminal that stands for a serial port: `script`, which every Debian has, holds its other end and joins it to
 * pipes. Where there is none, undefined.
 */
export async function pseudoTerminal(): Promise<Terminal | undefined> {
  if (process.platform !== "linux") return undefined;
  const child: ChildProcess = spawn("script", ["-qfc", "stty raw -echo; tty; exec sleep 600", "/dev/null"], {
    stdio: ["pipe", "pipe", "ignore"],
  });
  let said = "";
  const path = await new Promise<string | undefined>((done) => {
    const late = setTimeout(() => done(undefined), 10_000);
    const end = (found: string | undefined) => {
      clearTimeout(late);
      done(found);
    };
    child.on("error", () => end(undefined));
    child.stdout!.on("data", function hear(bytes: Buffer) {
      said += bytes.toString("latin1");
      const found = /(\/dev\/\S+)\s/.exec(said)?.[1];
      if (found === undefined) return;
      child.stdout!.off("data", hear);
      end(found);
    });
  });
  if (path === undefined) {
    child.kill("SIGKILL");
    return undefined;
  }
  let heard = "";
  const listeners: ((text: string) => void)[] = [];
  child.stdout!.on("data", (bytes: Buffer) => {
    heard += bytes.toString("latin1");
    for (const listener of listeners) listener(bytes.toString("latin1"));
  });
  child.stdin!.on("error", () => undefined);
  return {
    path,
    heard: () => heard,
    onHeard: (listener) => listeners.push(listener),
    say: (text) => child.stdin!.write(text, "latin1"),
    close: () =>
      new Promise((done) => {
        if (child.exitCode !== null || child.signalCode !== null) return done();
        child.once("exit", () => done());
        child.kill("SIGKILL");
      }),
  };
}
