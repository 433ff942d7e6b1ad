/** Where a server stands and by which names it is opened. */
export interface Door {
  /** Names and addresses in lower case, without a port, that a request may be addressed to; loopback ones are always. */
  readonly names: ReadonlySet<string>;
  /** Reached from other machines, so that nobody gets in who does not sign in. */
  readonly isExposed: boolean;
  /** What speaks HTTPS to the browser: nothing, this server, or a proxy before it. */
  readonly https: "none" | "own" | "proxy";
  /** Whether browsers may be told to insist on HTTPS for so long. */
  readonly insist_s?: number;
  /** How often in a minute an address may ask that nobody is signed in at; 600 when left out. */
  readonly strangersPerMinute?: number;
  /** Known to who may read the data folder: commands on this machine act with it. */
  readonly localToken?: string;
}

export const loopbackDoor: Door = { names: new Set(), isExposed: false, https: "none" };

const loopbackNames: ReadonlySet<string> = new Set(["127.0.0.1", "localhost", "[::1]"]);

/** A request's host without its port, in lower case; `[::1]` keeps its brackets. */
function hostName(host: string): string {
  return host.toLowerCase().replace(/:\d+$/, "").replace(/\.$/, "");
}

export function isLoopbackName(host: string): boolean {
  return loopbackNames.has(hostName(host));
}

export function isKnownName(host: string, { names }: Door): boolean {
  return isLoopbackName(host) || names.has(hostName(host));
}

/** Whether a page of this origin is the server's own. */
export function isOwnOrigin(origin: string, host: string, { https }: Door): boolean {
  const schemes = https === "own" ? ["https"] : https === "proxy" ? ["https", "http"] : ["http"];
  return schemes.some((scheme) => {
    try {
      // Browsers leave the usual port out.
      return new URL(origin).origin === origin && origin === new URL(`${scheme}://${host}`).origin;
    } catch {
      return false;
    }
  });
}

/** Connections from this machine itself. */
export function isFromHere(address: string | undefined): boolean {
  return address !== undefined && /^(127\.\d+\.\d+\.\d+|::1|::ffff:127\.\d+\.\d+\.\d+)$/.test(address);
}

/** What failures are counted by: an address, or of IPv6 the network that one subscriber has to themselves. */
export function networkOf(address: string): string {
  const mapped = /^::ffff:(\d+\.\d+\.\d+\.\d+)$/i.exec(address)?.[1];
  if (mapped !== undefined || !address.includes(":")) return mapped ?? address;
  const [head = "", tail] = address.replace(/%.*$/, "").split("::");
  const parts = (text: string) => text.split(":").filter((part) => part !== "");
  const [left, right] = [parts(head), parts(tail ?? "")];
  const between = tail === undefined ? 0 : Math.max(0, 8 - left.length - right.length);
  const all = [...left, ...Array.from({ length: between }, () => "0"), ...right];
  const network = all.slice(0, 4).map((part) => Number.parseInt(part, 16).toString(16));
  return `${network.join(":")}::/64`;
}
