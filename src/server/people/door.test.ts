import { X509Certificate } from "node:crypto";
import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { temporaryFolder } from "../../../tests/helpers.ts";
import { opened, type StandingOptions, standing } from "../../cli/standing.ts";
import { ownCertificate } from "./certificate.ts";
import { isFromHere, isKnownName, isOwnOrigin, loopbackDoor, networkOf } from "./door.ts";
import { Turns } from "./turns.ts";

const now_ms = Date.parse("2027-01-04T09:00:00Z");
const stand = (options: StandingOptions, folder: string, arePeople = true) =>
  standing(options, { folder, arePeople, localToken: "t", now_ms });

describe("where a server stands", () => {
  test("is loopback without people, in plain HTTP, and known by loopback names alone", async () => {
    const here = await stand({}, temporaryFolder(), false);
    expect(here).toMatchObject({ host: "127.0.0.1", door: { isExposed: false, https: "none" } });
    expect(opened(here, 4171)).toEqual(["http://127.0.0.1:4171"]);
    for (const name of ["127.0.0.1:4171", "localhost", "LOCALHOST.", "[::1]:80"]) {
      expect(isKnownName(name, here.door), name).toBe(true);
    }
    for (const name of [
      "",
      "127.0.0.1.elsewhere.example",
      "localhost.elsewhere.example",
      "10.0.0.1",
      "127.0.0.1:80:80",
    ]) {
      expect(isKnownName(name, here.door), name).toBe(false);
    }
  });

  test("is the network only with people, in HTTPS unless a proxy speaks it", async () => {
    const folder = temporaryFolder();
    await expect(stand({ listen: "0.0.0.0" }, folder, false)).rejects.toMatchObject({
      path: "--listen",
      message: expect.stringMatching(/once people sign in.*stillglow people add owner/),
    });
    await expect(stand({ name: ["bench.example"] }, folder, false)).rejects.toMatchObject({ path: "--name" });
    await expect(stand({ behindProxy: true }, folder)).rejects.toMatchObject({ path: "--name" });
    await expect(stand({ listen: "bench.example" }, folder)).rejects.toMatchObject({ path: "--listen" });
    await expect(stand({ certificate: "a.pem" }, folder)).rejects.toMatchObject({ path: "--key" });
    await expect(stand({ certificate: "/nowhere.pem", key: "/nowhere.key" }, folder)).rejects.toMatchObject({
      path: "--certificate",
    });
    await expect(stand({ name: ["https://bench.example"] }, folder)).rejects.toMatchObject({ path: "--name" });

    const proxied = await stand({ behindProxy: true, name: ["Bench.Example"] }, folder);
    expect(proxied.certificate).toBeUndefined();
    expect(proxied.door).toMatchObject({ isExposed: true, https: "proxy" });
    expect(opened(proxied, 4171)).toEqual(["https://bench.example"]);

    const open = await stand({ listen: "0.0.0.0", name: ["bench.example"] }, folder);
    expect(open.door).toMatchObject({ isExposed: true, https: "own", insist_s: 86_400 });
    expect(opened(open, 4171)).toContain("https://bench.example:4171");
    const { key, certificate } = open.certificate!;
    const files = { certificate: join(folder, "given.pem"), key: join(folder, "given.key") };
    writeFileSync(files.certificate, certificate);
    writeFileSync(files.key, key);
    const given = await stand({ listen: "0.0.0.0", ...files }, folder);
    expect(given.certificate).toMatchObject({ isOwn: false });
    expect(given.door.insist_s).toBe(365 * 86_400);
    writeFileSync(files.key, (await ownCertificate(temporaryFolder(), ["other"], now_ms)).key);
    await expect(stand({ listen: "0.0.0.0", ...files }, folder)).rejects.toThrow(/its key fits/);
  });

  test("has a certificate for its names that stays until a name is lacking or it runs out", async () => {
    const folder = temporaryFolder();
    const names = ["localhost", "bench.example", "192.168.1.20", "fd00::20"];
    const made = await ownCertificate(folder, names, now_ms);
    const read = new X509Certificate(readFileSync(join(folder, "https", "certificate.pem")));
    expect([
      read.checkHost("bench.example"),
      read.checkIP("192.168.1.20"),
      read.checkHost("elsewhere.example"),
    ]).toEqual(["bench.example", "192.168.1.20", undefined]);
    expect(read.checkIP("fd00::20")).toBeDefined();
    expect(read.ca).toBe(false);
    expect(made).toMatchObject({ isNew: true, isOwn: true, fingerprint: read.fingerprint256 });
    const month_ms = 30 * 86_400_000;
    const kept = await ownCertificate(folder, names.slice(1), now_ms + month_ms);
    expect([kept.isNew, kept.fingerprint]).toEqual([false, made.fingerprint]);
    const more = await ownCertificate(folder, [...names, "second.example"], now_ms + month_ms);
    expect([more.isNew, more.fingerprint === made.fingerprint]).toEqual([true, false]);
    const late = await ownCertificate(folder, names, now_ms + 27 * month_ms);
    expect(late.isNew).toBe(true);
    writeFileSync(join(folder, "https", "certificate.pem"), "broken");
    expect((await ownCertificate(folder, names, now_ms)).isNew).toBe(true);
  });
});

test("an origin is one's own by scheme, name and port together", () => {
  const own = { ...loopbackDoor, https: "own" as const };
  expect(isOwnOrigin("https://bench.example", "bench.example:443", own)).toBe(true);
  expect(isOwnOrigin("https://bench.example:443", "bench.example:443", own)).toBe(false);
  expect(isOwnOrigin("http://bench.example", "bench.example", own)).toBe(false);
  expect(isOwnOrigin("https://bench.example", "bench.example", { ...own, https: "proxy" })).toBe(true);
  expect(isOwnOrigin("https://bench.example", "bench.example", loopbackDoor)).toBe(false);
  for (const origin of ["null", "", "https://", "https://bench.example/", "https://user@bench.example"]) {
    expect(isOwnOrigin(origin, "bench.example", own), origin).toBe(false);
  }
  expect(["127.0.0.1", "::1", "::ffff:127.0.0.1", "10.0.0.1", "::ffff:10.0.0.1", undefined].map(isFromHere)).toEqual([
    true,
    true,
    true,
    false,
    false,
    false,
  ]);
});

test("each has so many turns at a time, in order; who has gone gives theirs up; one too many is sent away", async () => {
  const turns = new Turns(2, 2);
  const here = () => new AbortController().signal;
  const first = await turns.take("a", here());
  const second = await turns.take("a", here());
  const leaving = new AbortController();
  const order: string[] = [];
  const third = turns.take("a", leaving.signal).then((end) => order.push(end ? "third" : "third left"));
  const fourth = turns.take("a", here()).then((end) => {
    order.push("fourth");
    return end;
  });
  expect(await turns.take("a", here())).toBeUndefined();
  expect(await turns.take("b", here())).toBeDefined();
  leaving.abort();
  await third;
  first!();
  first!();
  const end = await fourth;
  expect(order).toEqual(["third left", "fourth"]);
  // Ended twice, the first gave one turn back and no more.
  const waits = turns.take("a", here());
  second!();
  expect(await waits).toBeDefined();
  end!();
  expect(await turns.take("a", here())).toBeDefined();
});

test("failures are counted by address, and of IPv6 by the network that one subscriber has", () => {
  for (const [address, network] of [
    ["192.168.1.20", "192.168.1.20"],
    ["::ffff:192.168.1.20", "192.168.1.20"],
    ["2001:db8:0:7::1", "2001:db8:0:7::/64"],
    ["2001:0DB8:0000:0007:ffff:1:2:3", "2001:db8:0:7::/64"],
    ["2001:db8::1", "2001:db8:0:0::/64"],
    ["fe80::1%eth0", "fe80:0:0:0::/64"],
    ["::1", "0:0:0:0::/64"],
  ] as const) {
    expect(networkOf(address), address).toBe(network);
  }
});
