import { randomBytes, scrypt, timingSafeEqual } from "node:crypto";
import { BadInput } from "../../maths/badInput.ts";

/** What it costs to try one passphrase. */
export interface Cost {
  /** Power of two of the memory-hard rounds. */
  readonly log2N: number;
  readonly r: number;
  readonly p: number;
}

/**
 * 128 MiB and some tenths of a second for each trial.
 *
 * @source OWASP Password Storage Cheat Sheet, scrypt: N = 2^17, r = 8, p = 1 (from memory)
 */
export const usualCost: Cost = { log2N: 17, r: 8, p: 1 };

const hash_bytes = 32;
const salt_bytes = 16;
const least_characters = 12;
const most_characters = 200;
/** So many are worked out at a time; the others wait, so that strangers at the door cost no more memory than this. */
const atOnce = 2;
const mostWaiting = 50;

class TooManyAtTheDoor extends Error {
  readonly statusCode = 503;
  constructor() {
    super("too many are signing in just now; nobody was let in; try again in a minute");
  }
}

let busy = 0;
const waiting: (() => void)[] = [];

async function inTurn<T>(work: () => Promise<T>): Promise<T> {
  if (busy >= atOnce) {
    if (waiting.length >= mostWaiting) throw new TooManyAtTheDoor();
    await new Promise<void>((go) => waiting.push(go));
  } else busy += 1;
  try {
    return await work();
  } finally {
    const next = waiting.shift();
    if (next) next();
    else busy -= 1;
  }
}

/** The same letters however a keyboard composes them. */
const plain = (passphrase: string) => passphrase.normalize("NFKC");

function derive(passphrase: string, salt: Buffer, { log2N, r, p }: Cost): Promise<Buffer> {
  const N = 2 ** log2N;
  return inTurn(
    () =>
      new Promise((done, failed) =>
        scrypt(plain(passphrase), salt, hash_bytes, { N, r, p, maxmem: 256 * N * r * p }, (fault, key) =>
          fault ? failed(fault) : done(key),
        ),
      ),
  );
}

/** What is kept of a passphrase: the way it was worked out, its own salt, and the outcome. */
export async function secretOf(passphrase: string, cost: Cost): Promise<string> {
  const salt = randomBytes(salt_bytes);
  const key = await derive(passphrase, salt, cost);
  return ["scrypt", cost.log2N, cost.r, cost.p, salt.toString("base64url"), key.toString("base64url")].join("$");
}

interface Kept {
  readonly cost: Cost;
  readonly salt: Buffer;
  readonly key: Buffer;
}

function read(secret: string): Kept | undefined {
  const [kind, log2N, r, p, salt, key, ...rest] = secret.split("$");
  if (kind !== "scrypt" || !salt || !key || rest.length > 0) return undefined;
  const cost = { log2N: Number(log2N), r: Number(r), p: Number(p) };
  const isSane = Object.values(cost).every((one) => Number.isInteger(one) && one > 0) && cost.log2N <= 22;
  if (!isSane) return undefined;
  return { cost, salt: Buffer.from(salt, "base64url"), key: Buffer.from(key, "base64url") };
}

/** No passphrase fits this, and finding that out takes as long as for one that somebody has. */
const nobodysSalt = randomBytes(salt_bytes);

/**
 * Whether a passphrase fits what is kept; with nothing kept it takes the same time and fits never.
 *
 * @returns isOld  when it was kept at a lower cost than is asked for now, and should be kept anew
 */
export async function fits(
  passphrase: string,
  secret: string | undefined,
  cost: Cost,
): Promise<{ readonly fits: boolean; readonly isOld: boolean }> {
  const kept = secret === undefined ? undefined : read(secret);
  if (!kept) {
    await derive(passphrase.slice(0, most_characters), nobodysSalt, cost);
    return { fits: false, isOld: false };
  }
  const key = await derive(passphrase.slice(0, most_characters), kept.salt, kept.cost);
  const isSame = key.length === kept.key.length && timingSafeEqual(key, kept.key);
  const { log2N, r, p } = kept.cost;
  return { fits: isSame, isOld: log2N < cost.log2N || r < cost.r || p < cost.p };
}

/**
 * Refuses what a stranger would try first. Length is what makes a passphrase; no kind of character is asked for.
 *
 * @param others  words that must not be all of it: the person's id and name
 * @throws BadInput  which never quotes it
 */
export function requirePassphrase(path: string, passphrase: unknown, others: readonly string[]): string {
  const refuse = (given: string, allowed: string, mend: string) => new BadInput(path, given, allowed, mend);
  if (typeof passphrase !== "string") throw refuse("no passphrase", "a text", "type a passphrase");
  const { length } = [...plain(passphrase)];
  if (length < least_characters)
    throw refuse(`${length} characters`, `at least ${least_characters}`, "take four words that nobody would guess");
  if (length > most_characters)
    throw refuse(`${length} characters`, `at most ${most_characters}`, "take a shorter one");
  const bare = (text: string) =>
    plain(text)
      .toLocaleLowerCase("en")
      .replaceAll(/[\s._-]/g, "");
  const rest = others.reduce((left, word) => left.replaceAll(bare(word) || "\u0000", ""), bare(passphrase));
  if (new Set(rest).size < 5)
    throw refuse(
      "a passphrase that is easily guessed",
      "more than a name and a few characters again and again",
      "take four words that nobody would guess",
    );
  return passphrase;
}
