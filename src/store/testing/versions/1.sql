PRAGMA foreign_keys=OFF;
BEGIN TRANSACTION;
CREATE TABLE IF NOT EXISTS "migration" ("version" integer primary key, "name" text not null, "applied_at" text not null);
INSERT INTO migration VALUES(1,'evidence, customers, cached states','2026-03-01T12:00:00.000Z');
CREATE TABLE IF NOT EXISTS "evidence" ("seq" integer primary key, "id" text not null unique, "at" text not null, "recorded_at" text not null, "by" text not null, "kind" text not null, "unit" text, "valve" text, "instrument" text, "body" text not null, "prev_sha256" text not null, "sha256" text not null);
INSERT INTO evidence VALUES(1,'e000001','2026-03-01T12:00:00.000Z','2026-03-01T12:00:00.000Z','bench','headphone',NULL,NULL,NULL,'{"headphone":"a","impedance_ohm":32,"kind":"headphone","sensitivity_dB_per_V":110}','0000000000000000000000000000000000000000000000000000000000000000','4bc9e633ed80c25b15492f740885496f1a0e40d5bf054eec0867bd03fb588ff4');
INSERT INTO evidence VALUES(2,'e000002','2026-03-01T12:00:00.000Z','2026-03-01T12:00:00.000Z','bench','headphone',NULL,NULL,NULL,'{"headphone":"b","impedance_ohm":32,"kind":"headphone","sensitivity_dB_per_V":110}','4bc9e633ed80c25b15492f740885496f1a0e40d5bf054eec0867bd03fb588ff4','eee281f84c9eeb1def01e92c3832c12451e0d1c8a70af4891919cc58b21703e2');
INSERT INTO evidence VALUES(3,'mine','2026-03-01T12:00:00.000Z','2026-03-01T12:00:00.000Z','bench','headphone',NULL,NULL,NULL,'{"headphone":"c","impedance_ohm":32,"kind":"headphone","sensitivity_dB_per_V":110}','eee281f84c9eeb1def01e92c3832c12451e0d1c8a70af4891919cc58b21703e2','e902a689c3429a1b9bbfa6aa10e572b07371645cf6ac385dbcb81a382759702d');
INSERT INTO evidence VALUES(4,'e000004','2026-03-01T12:00:00.000Z','2026-03-01T12:00:00.000Z','bench','headphone',NULL,NULL,NULL,'{"headphone":"Żółw ''n'' Grün","impedance_ohm":32,"kind":"headphone","sensitivity_dB_per_V":110}','e902a689c3429a1b9bbfa6aa10e572b07371645cf6ac385dbcb81a382759702d','42f85e8d801efb0ca61e351782dd51f0b5cb8a3ccf24c630b35e1cbb42f1335c');
CREATE TABLE IF NOT EXISTS "customer" ("customer" text primary key, "name" text not null, "address" text not null);
INSERT INTO customer VALUES('c1','Quarrin Ness Reading Room','1 Harbour Wall');
CREATE TABLE IF NOT EXISTS "cached_state" ("key" text primary key, "seq" integer not null, "state" text not null);
INSERT INTO cached_state VALUES('x',4,'{"a":1}');
CREATE TABLE IF NOT EXISTS "meta" ("key" text primary key, "value" text not null);
CREATE INDEX "evidence_by_kind" on "evidence" ("kind");
CREATE INDEX "evidence_by_unit" on "evidence" ("unit");
CREATE INDEX "evidence_by_valve" on "evidence" ("valve");
CREATE INDEX "evidence_by_instrument" on "evidence" ("instrument");
CREATE TRIGGER evidence_is_never_edited BEFORE UPDATE ON evidence
   BEGIN SELECT RAISE(ABORT, 'evidence is append-only: supersede the entry instead of editing it'); END;
CREATE TRIGGER evidence_is_never_deleted BEFORE DELETE ON evidence
   BEGIN SELECT RAISE(ABORT, 'evidence is append-only: supersede the entry instead of deleting it'); END;
CREATE TRIGGER evidence_grows_at_its_end BEFORE INSERT ON evidence
   WHEN NEW.seq IS NOT (SELECT coalesce(max(seq), 0) + 1 FROM evidence)
     OR NEW.prev_sha256 IS NOT coalesce((SELECT sha256 FROM evidence ORDER BY seq DESC LIMIT 1), '0000000000000000000000000000000000000000000000000000000000000000')
     OR EXISTS (SELECT 1 FROM evidence WHERE id = NEW.id)
   BEGIN SELECT RAISE(ABORT, 'evidence is append-only: an entry follows the newest one'); END;
COMMIT;
