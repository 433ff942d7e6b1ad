import { X509Certificate } from "node:crypto";
import { chmodSync, existsSync, mkdirSync, readFileSync, renameSync, writeFileSync } from "node:fs";
import { isIP } from "node:net";
import { join } from "node:path";
import { createSecureContext } from "node:tls";
import { BadInput, quote } from "../../maths/badInput.ts";

export interface Certificate {
  readonly key: string;
  readonly certificate: string;
  /** SHA-256, as browsers show it: `A1:B2:…`. */
  readonly fingerprint: string;
  readonly validUntil: string;
  readonly isOwn: boolean;
  /** Made just now: browsers that knew the one before ask again. */
  readonly isNew: boolean;
}

const day_ms = 86_400_000;
/** Some systems take no longer one even from whoever they were told to trust. */
const valid_days = 800;
const renew_days = 30;

/**
 * A certificate somebody gave.
 *
 * @throws BadInput  when a file can't be read, does not fit the other, or has run out
 */
export function givenCertificate(certificateFile: string, keyFile: string, now_ms: number): Certificate {
  const certificate = readPem("--certificate", certificateFile);
  const key = readPem("--key", keyFile);
  try {
    createSecureContext({ key, cert: certificate });
  } catch (fault) {
    throw new BadInput(
      "--certificate",
      quote(certificateFile),
      `a certificate in PEM that its key fits (${(fault as Error).message})`,
      "give the certificate with those it rests on, and the key it was made for",
    );
  }
  const read = new X509Certificate(certificate);
  if (Date.parse(read.validTo) <= now_ms) {
    throw new BadInput("--certificate", quote(certificateFile), `it ran out on ${read.validTo}`, "renew it");
  }
  return told(certificate, key, { isOwn: false, isNew: false });
}

function readPem(option: string, file: string): string {
  try {
    return readFileSync(file, "utf8");
  } catch (fault) {
    const code = (fault as NodeJS.ErrnoException).code ?? "no reason given";
    throw new BadInput(option, quote(file), `it can't be read (${code})`, "give the path of a file in PEM");
  }
}

/**
 * The workshop's own certificate for the names and addresses it is opened by; made, and kept beside its ledger with a
 * key for its owner's eyes alone. Made anew when a name is lacking or it soon runs out.
 */
export async function ownCertificate(
  dataFolder: string,
  names: readonly string[],
  now_ms: number,
): Promise<Certificate> {
  const folder = join(dataFolder, "https");
  const files = { certificate: join(folder, "certificate.pem"), key: join(folder, "key.pem") };
  const kept = readKept(files, names, now_ms);
  if (kept) return kept;
  const { generate } = await import("selfsigned");
  const made = await generate([{ name: "commonName", value: names.find((name) => isIP(name) === 0) ?? "stillglow" }], {
    keyType: "ec",
    curve: "P-256",
    algorithm: "sha256",
    notBeforeDate: new Date(now_ms - day_ms),
    notAfterDate: new Date(now_ms + valid_days * day_ms),
    extensions: [
      { name: "basicConstraints", cA: false, critical: true },
      { name: "keyUsage", digitalSignature: true, critical: true },
      { name: "extKeyUsage", serverAuth: true },
      {
        name: "subjectAltName",
        altNames: names.map((name) => (isIP(name) === 0 ? { type: 2, value: name } : { type: 7, ip: name })),
      },
    ],
  });
  mkdirSync(folder, { recursive: true, mode: 0o700 });
  for (const [what, pem] of [
    ["key", made.private],
    ["certificate", made.cert],
  ] as const) {
    const half = `${files[what]}.half`;
    writeFileSync(half, pem, { mode: 0o600 });
    chmodSync(half, 0o600);
    renameSync(half, files[what]);
  }
  return told(made.cert, made.private, { isOwn: true, isNew: true });
}

function readKept(
  files: { readonly certificate: string; readonly key: string },
  names: readonly string[],
  now_ms: number,
): Certificate | undefined {
  if (!existsSync(files.certificate) || !existsSync(files.key)) return undefined;
  try {
    const certificate = readFileSync(files.certificate, "utf8");
    const key = readFileSync(files.key, "utf8");
    createSecureContext({ key, cert: certificate });
    const read = new X509Certificate(certificate);
    if (Date.parse(read.validTo) < now_ms + renew_days * day_ms) return undefined;
    const isKnown = (name: string) => (isIP(name) === 0 ? read.checkHost(name) : read.checkIP(name)) !== undefined;
    return names.every(isKnown) ? told(certificate, key, { isOwn: true, isNew: false }) : undefined;
  } catch {
    return undefined;
  }
}

function told(certificate: string, key: string, more: Pick<Certificate, "isOwn" | "isNew">): Certificate {
  const { fingerprint256, validTo } = new X509Certificate(certificate);
  return { key, certificate, fingerprint: fingerprint256, validUntil: new Date(validTo).toISOString(), ...more };
}
