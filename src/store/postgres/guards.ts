import { chainStart } from "../chain.ts";

/** Where servers hear that the chain has grown; the message is the newest place in it. */
export const grownChannel = "stillglow_grown";

/**
 * What keeps the chain whole against any program that writes to the database, ours included; the same rules as a folder's
 * own file has, and truncation besides. `ENABLE ALWAYS` holds them for replayed writing too.
 */
export const evidenceGuards = [
  `CREATE FUNCTION evidence_is_never_changed() RETURNS trigger LANGUAGE plpgsql AS $$
   BEGIN
     RAISE EXCEPTION 'evidence is append-only: supersede the entry instead of changing it' USING ERRCODE = 'restrict_violation';
   END $$`,
  `CREATE TRIGGER evidence_is_never_edited BEFORE UPDATE OR DELETE OR TRUNCATE ON evidence
   FOR EACH STATEMENT EXECUTE FUNCTION evidence_is_never_changed()`,
  `CREATE FUNCTION evidence_follows_the_newest() RETURNS trigger LANGUAGE plpgsql AS $$
   DECLARE newest RECORD;
   BEGIN
     IF EXISTS (SELECT 1 FROM meta WHERE key = 'moved') THEN
       RAISE EXCEPTION 'this workshop was moved out of this database' USING ERRCODE = 'read_only_sql_transaction';
     END IF;
     SELECT seq, sha256 INTO newest FROM evidence ORDER BY seq DESC LIMIT 1;
     IF NEW.seq IS DISTINCT FROM coalesce(newest.seq, 0) + 1
       OR NEW.prev_sha256 IS DISTINCT FROM coalesce(newest.sha256, '${chainStart}') THEN
       RAISE EXCEPTION 'evidence is append-only: an entry follows the newest one' USING ERRCODE = 'restrict_violation';
     END IF;
     RETURN NEW;
   END $$`,
  `CREATE TRIGGER evidence_grows_at_its_end BEFORE INSERT ON evidence
   FOR EACH ROW EXECUTE FUNCTION evidence_follows_the_newest()`,
  `CREATE FUNCTION evidence_is_told() RETURNS trigger LANGUAGE plpgsql AS $$
   BEGIN
     PERFORM pg_notify('${grownChannel}', (SELECT max(seq)::text FROM evidence));
     RETURN NULL;
   END $$`,
  `CREATE TRIGGER evidence_is_told AFTER INSERT ON evidence
   FOR EACH STATEMENT EXECUTE FUNCTION evidence_is_told()`,
  ...["evidence_is_never_edited", "evidence_grows_at_its_end", "evidence_is_told"].map(
    (guard) => `ALTER TABLE evidence ENABLE ALWAYS TRIGGER ${guard}`,
  ),
] as const;

/** Files by their content, cut into pieces that fit a row, and answers under the hash of their question. */
export const sharedTables = [
  `CREATE TABLE kept_file (
     kind text NOT NULL, name text NOT NULL, size_bytes bigint NOT NULL, pieces integer NOT NULL,
     PRIMARY KEY (kind, name))`,
  `CREATE TABLE kept_piece (
     kind text NOT NULL, name text NOT NULL, piece integer NOT NULL, bytes bytea NOT NULL,
     PRIMARY KEY (kind, name, piece))`,
  // Samples hardly shrink; trying costs more than it saves.
  "ALTER TABLE kept_piece ALTER COLUMN bytes SET STORAGE EXTERNAL",
  "CREATE TABLE answer (key text PRIMARY KEY, output text NOT NULL, kept_at timestamptz NOT NULL DEFAULT now())",
] as const;
