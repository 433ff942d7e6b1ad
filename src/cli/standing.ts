import { isIP } from "node:net";
import { hostname, networkInterfaces } from "node:os";
import { BadInput, quote } from "../maths/badInput.ts";
import { type Certificate, givenCertificate, ownCertificate } from "../server/people/certificate.ts";
import type { Door } from "../server/people/door.ts";

export interface StandingOptions {
  readonly listen?: string;
  readonly name?: readonly string[];
  readonly certificate?: string;
  readonly key?: string;
  readonly behindProxy?: boolean;
}

export interface Standing {
  readonly host: string;
  readonly door: Door;
  readonly certificate?: Certificate;
}

const year_s = 365 * 86_400;
/** A certificate of one's own may be made anew, and then a browser must let itself be asked again. */
const day_s = 86_400;

interface Place {
  readonly folder: string;
  readonly arePeople: boolean;
  readonly localToken: string;
  readonly now_ms: number;
}

/**
 * Where a server stands and how it is reached: on loopback for whoever sits there; on the network over HTTPS alone, and
 * only once people sign in.
 */
export async function standing(options: StandingOptions, place: Place): Promise<Standing> {
  const host = options.listen ?? "127.0.0.1";
  const isWildcard = host === "0.0.0.0" || host === "::";
  const isLoopback = host === "localhost" || host === "::1" || /^127\./.test(host);
  const { behindProxy = false } = options;
  const given = (options.name ?? []).map(readName);
  if (isIP(host) === 0 && host !== "localhost") {
    throw new BadInput(
      "--listen",
      quote(host),
      "an address of this machine",
      "write 0.0.0.0 for all of them, and give names with --name",
    );
  }
  if ((options.certificate === undefined) !== (options.key === undefined)) {
    const missing = options.key === undefined ? "--key" : "--certificate";
    throw new BadInput(
      missing,
      "nothing",
      "a certificate and its key go together",
      "give both, or neither for one of our own",
    );
  }
  if (behindProxy && options.certificate !== undefined) {
    throw new BadInput(
      "--certificate",
      quote(options.certificate),
      "the proxy has the certificate",
      "leave it out here",
    );
  }
  if (behindProxy && given.length === 0) {
    throw new BadInput("--name", "nothing", "the name that browsers open at the proxy", "write --name bench.example");
  }
  const isExposed = !isLoopback || behindProxy || given.length > 0;
  if (isExposed && !place.arePeople) {
    throw new BadInput(
      options.listen === undefined ? "--name" : "--listen",
      quote(options.listen ?? given[0]),
      "on the network only once people sign in, and nobody is entered here",
      `enter the owner first: stillglow people add owner --name "…" --data ${place.folder}`,
    );
  }
  const own = isExposed && !behindProxy ? (isWildcard ? machineNames() : isLoopback ? [] : [host]) : [];
  const names = new Set([...given, ...own.map((name) => (isIP(name) === 6 ? `[${name}]` : name))]);
  const isSecure = options.certificate !== undefined || (isExposed && !behindProxy);
  const certificate = !isSecure
    ? undefined
    : options.certificate !== undefined
      ? givenCertificate(options.certificate, options.key!, place.now_ms)
      : await ownCertificate(place.folder, ["localhost", "127.0.0.1", "::1", ...given.map(bare), ...own], place.now_ms);
  const insist_s = certificate ? (certificate.isOwn ? day_s : year_s) : undefined;
  return {
    host,
    door: {
      names,
      isExposed,
      https: behindProxy ? "proxy" : certificate ? "own" : "none",
      localToken: place.localToken,
      ...(insist_s !== undefined && { insist_s }),
    },
    ...(certificate && { certificate }),
  };
}

/** Names and addresses that other machines may find this one by. */
function machineNames(): readonly string[] {
  const name = hostname().toLowerCase();
  const addresses = Object.values(networkInterfaces()).flatMap((all) =>
    (all ?? []).filter(({ internal, scopeid }) => !internal && !scopeid).map(({ address }) => address.toLowerCase()),
  );
  const names = /^[a-z0-9-]{1,63}$/.test(name) ? [name, `${name}.local`] : name.includes(".") ? [name] : [];
  return [...new Set([...names, ...addresses])];
}

function readName(name: string): string {
  const plain = name.trim().toLowerCase().replace(/\.$/, "");
  if (isIP(plain) === 6) return `[${plain}]`;
  if (isIP(plain) === 4 || /^[a-z0-9](?:[a-z0-9.-]{0,251}[a-z0-9])?$/.test(plain)) return plain;
  throw new BadInput(
    "--name",
    quote(name),
    "a host name or an address, without https:// and port",
    "write bench.example",
  );
}

const bare = (name: string) => name.replace(/^\[|\]$/g, "");

/** Addresses to open it by, as browsers write them. */
export function opened({ host, door, certificate }: Standing, port: number): readonly string[] {
  if (door.https === "proxy") return [...door.names].map((name) => `https://${name}`);
  const scheme = certificate ? "https" : "http";
  const names = door.names.size > 0 ? [...door.names] : [isIP(host) === 6 ? `[${host}]` : host];
  return names.map((name) => `${scheme}://${name}:${port}`);
}
