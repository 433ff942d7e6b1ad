export { type Backup, backupsIn, restoreBackup, takeBackup, thinBackups, verifyBackup } from "./backup.ts";
export { serverOf } from "./lock.ts";
export { moveIntoDatabase, moveIntoFolder } from "./move.ts";
export { type EvidenceFilter, type Listener, openStore, type Store, type StoreOptions } from "./store.ts";
export * from "./storeErrors.ts";
export type { CustomerTable } from "./tables.ts";
export type { Verification } from "./verify.ts";
