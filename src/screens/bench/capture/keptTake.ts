/** One recording for each name, kept by the browser on this machine until it is written down or thrown away. */
const [database, takes] = ["stillglow", "takes"];

function opened(): Promise<IDBDatabase> {
  return new Promise((done, fail) => {
    const asking = indexedDB.open(database, 1);
    asking.onupgradeneeded = () => asking.result.createObjectStore(takes);
    asking.onsuccess = () => done(asking.result);
    asking.onerror = () => fail(asking.error);
  });
}

async function within<T>(mode: IDBTransactionMode, ask: (store: IDBObjectStore) => IDBRequest<T>): Promise<T> {
  const open = await opened();
  try {
    return await new Promise((done, fail) => {
      const transaction = open.transaction(takes, mode);
      const asking = ask(transaction.objectStore(takes));
      // Only then is it on disk.
      transaction.oncomplete = () => done(asking.result);
      transaction.onerror = () => fail(transaction.error);
      transaction.onabort = () => fail(transaction.error);
    });
  } finally {
    open.close();
  }
}

/** @returns whether it is kept; a browser that keeps nothing, or has no room, still lets people record */
export async function keepTake(name: string, take: unknown): Promise<boolean> {
  try {
    await within("readwrite", (store) => store.put(take, name));
    return true;
  } catch {
    return false;
  }
}

export async function keptTake<T>(name: string): Promise<T | undefined> {
  try {
    return (await within("readonly", (store) => store.get(name))) as T | undefined;
  } catch {
    return undefined;
  }
}

export async function dropTake(name: string): Promise<void> {
  try {
    await within("readwrite", (store) => store.delete(name));
  } catch {
    // What was never kept needs no dropping.
  }
}
