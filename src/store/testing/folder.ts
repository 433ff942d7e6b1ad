import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { onTestFinished } from "vitest";
import { openStore, type Store, type StoreOptions } from "../store.ts";
import { noon } from "./entries.ts";

/** A folder of its own for one test, gone when the test ends. */
export function freshFolder(): string {
  const folder = mkdtempSync(join(tmpdir(), "stillglow-test-"));
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
  return folder;
}

/** A store that is closed when the test ends, at noon unless told otherwise. */
export async function openFor(folder: string, options: StoreOptions = {}): Promise<Store> {
  const store = await openStore(folder, { clock: () => noon, ...options });
  onTestFinished(async () => {
    try {
      await store.close();
    } catch {
      // The test closed it.
    }
  });
  return store;
}
