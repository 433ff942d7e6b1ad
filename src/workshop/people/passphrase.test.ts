import { scryptSync } from "node:crypto";
import { describe, expect, test } from "vitest";
import { BackOff } from "./backOff.ts";
import { fits, requirePassphrase, secretOf, usualCost } from "./passphrase.ts";

const light = { log2N: 4, r: 8, p: 1 };

describe("a passphrase", () => {
  test("is kept as scrypt of it with a salt of its own", async () => {
    const [a, b] = [await secretOf("four plain words here", light), await secretOf("four plain words here", light)];
    expect(a).not.toBe(b);
    const [kind, log2N, r, p, salt, key] = a.split("$");
    expect([kind, log2N, r, p]).toEqual(["scrypt", "4", "8", "1"]);
    expect(Buffer.from(salt!, "base64url")).toHaveLength(16);
    // source: the same function of node, called in one go
    const again = scryptSync("four plain words here", Buffer.from(salt!, "base64url"), 32, { N: 16, r: 8, p: 1 });
    expect(again.toString("base64url")).toBe(key);
    expect(await fits("four plain words here", a, light)).toEqual({ fits: true, isOld: false });
    expect(await fits("four plain words there", a, light)).toEqual({ fits: false, isOld: false });
    expect(await fits("four plain words here", a, { ...light, log2N: 5 })).toEqual({ fits: true, isOld: true });
  });

  test("is the same however its letters were composed", async () => {
    const kept = await secretOf("caf\u00e9 am Hafen, abends", light);
    expect((await fits("cafe\u0301 am Hafen, abends", kept, light)).fits).toBe(true);
  });

  // source: OWASP's table for scrypt, from memory: N = 2^17, r = 8, p = 1
  test("costs as much to try as is usual, unless told otherwise", () => {
    expect(usualCost).toEqual({ log2N: 17, r: 8, p: 1 });
  });

  test("never fits what is broken, cut or too costly to be ours", async () => {
    const kept = await secretOf("four plain words here", light);
    const costly = kept.replace("scrypt$4$", "scrypt$40$");
    for (const secret of [
      "",
      "scrypt$4$8$1$$",
      kept.slice(0, -4),
      `${kept}$x`,
      costly,
      kept.replace("scrypt", "plain"),
    ]) {
      expect((await fits("four plain words here", secret, light)).fits, secret).toBe(false);
    }
  });

  test("takes as long for somebody unknown as for a wrong one", async () => {
    const cost = { log2N: 13, r: 8, p: 1 };
    const kept = await secretOf("four plain words here", cost);
    const median = async (secret: string | undefined) => {
      const times: number[] = [];
      for (let i = 0; i < 7; i += 1) {
        const begun = process.cpuUsage();
        await fits("another one altogether", secret, cost);
        const { user, system } = process.cpuUsage(begun);
        times.push(user + system);
      }
      return times.toSorted((a, b) => a - b)[3]!;
    };
    await median(kept);
    const [known, unknown] = [await median(kept), await median(undefined)];
    // Not derived at all, it would be a hundredth.
    expect(unknown / known).toBeGreaterThan(0.4);
    expect(unknown / known).toBeLessThan(2.5);
  });

  test("is refused when it is short, long, or the name and little more, and never quoted", () => {
    const refused = (passphrase: unknown) => {
      try {
        return requirePassphrase("passphrase", passphrase, ["bench-2", "Second bench"]);
      } catch (fault) {
        return (fault as Error).message;
      }
    };
    expect(refused("kettle, gull")).toBe("kettle, gull");
    for (const bad of [
      "eleven char",
      "x".repeat(201),
      "aaaaaaaaaaaaaaaa",
      "Second Bench 1",
      "bench2bench2bench2",
      123456789012,
    ]) {
      expect(refused(bad), String(bad)).toMatch(/; /);
      expect(refused(bad), String(bad)).not.toContain(String(bad));
    }
  });
});

describe("the wait after wrong passphrases", () => {
  test("doubles up to a quarter of an hour, is forgotten by a success and forgiven with time", () => {
    let now_ms = 1_000_000;
    const back = new BackOff({ now_ms: () => now_ms, free: 3 });
    const waits = Array.from({ length: 16 }, () => {
      back.failed("a");
      return back.wait_ms("a") / 1000;
    });
    expect(waits).toEqual([0, 0, 1, 2, 4, 8, 16, 32, 64, 128, 256, 512, 900, 900, 900, 900]);
    expect(back.wait_ms("b")).toBe(0);
    now_ms += 900_000;
    expect(back.wait_ms("a")).toBe(0);
    now_ms += 14 * 900_000;
    back.failed("a");
    expect(back.wait_ms("a")).toBe(0);
    back.failed("a");
    back.failed("a");
    expect(back.wait_ms("a")).toBeGreaterThan(0);
    back.succeeded("a");
    expect(back.wait_ms("a")).toBe(0);
  });

  test("remembers many names and no more than it can hold", () => {
    const back = new BackOff({ now_ms: () => 0, free: 1 });
    for (let i = 0; i <= 10_000; i += 1) back.failed(`n${i}`);
    expect([back.wait_ms("n0"), back.wait_ms("n1"), back.wait_ms("n10000")]).toEqual([0, 1000, 1000]);
  });
});
