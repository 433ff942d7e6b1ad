import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import type { WholeWorkshop } from "../../exchange/archive.ts";
import type { Store } from "../../store/index.ts";

/** A workshop as it leaves in its archive: the chain, the names beside it, its files. */
export async function wholeWorkshop(store: Store): Promise<WholeWorkshop> {
  await store.current();
  const file = join(store.folder, "workshop.json");
  const shared = await store.about<unknown>();
  return {
    entries: store.evidence(),
    head: store.head(),
    customers: (await store.customers.all()).toSorted((a, b) => (a.customer < b.customer ? -1 : 1)),
    about: shared ? JSON.stringify(shared) : existsSync(file) ? readFileSync(file, "utf8") : undefined,
    recording: (sha256) => store.bringRecording(sha256),
    photo: (sha256) => store.bringPhoto(sha256),
  };
}
