import type { Evidence } from "../claims/evidence.ts";
import { serverOf } from "../store/lock.ts";
import type { LinksView, SupplyView, TakenView } from "../workshop/instruments/linkViews.ts";
import type { Workshop } from "../workshop/workshop.ts";
import { askServer } from "./askServer.ts";
import { databaseOf, dataFolder, type FolderOption, openToWrite } from "./workshopFolder.ts";

type Fields = Readonly<Record<string, unknown>>;

/** What a command asks of instruments: of the server that has the folder open, whose ports they are, else by itself. */
export interface LinkDoor {
  view(): Promise<LinksView>;
  link(file: unknown, by: string): Promise<{ readonly instrument: string }>;
  enter(entries: readonly object[]): Promise<readonly Evidence[]>;
  read(instrument: string, body: Fields): Promise<TakenView>;
  keep(measurement: string, body: Fields): Promise<{ readonly entry: Evidence }>;
  startLog(instrument: string, body: Fields): Promise<{ readonly log: string }>;
  stopLog(log: string, by: string): Promise<void>;
  set(instrument: string, body: Fields): Promise<SupplyView>;
  output(instrument: string, body: Fields): Promise<SupplyView>;
  now(): Promise<string>;
  /** Set when no server runs it, so that a log lasts only as long as this command. */
  readonly own?: Workshop;
  close(): Promise<void>;
}

export async function linkDoor(options: FolderOption): Promise<LinkDoor> {
  const folder = dataFolder(options);
  const server = databaseOf(options) === undefined ? serverOf(folder) : undefined;
  return server === undefined ? own(await openToWrite(options)) : remote({ address: server, folder });
}

function own(workshop: Workshop): LinkDoor {
  const { links } = workshop;
  const more = ({ unit, id }: Fields) => ({
    ...(typeof unit === "string" && { unit }),
    ...(typeof id === "string" && { id }),
  });
  return {
    own: workshop,
    view: async () => links.view(),
    link: async (file, by) => ({ instrument: await links.link(file, by) }),
    enter: async (entries) => workshop.enter(entries),
    read: (instrument, { quantity, id }) => links.read(instrument, quantity, id as string | undefined),
    keep: async (measurement, { by, about, as }) => ({
      entry: await links.keep(measurement, by as string, about as Fields, as as string | undefined),
    }),
    startLog: async (instrument, { by, id, ...wish }) => {
      const log = { instrument, ...wish } as Parameters<typeof links.startLog>[0];
      return { log: await links.startLog(log, by as string, id as string | undefined) };
    },
    stopLog: (log, by) => links.stopLog(log, by),
    set: (instrument, body) =>
      links.set(instrument, body.settings as Readonly<Record<string, number>>, body.by as string, more(body)),
    output: (instrument, body) => links.switchOutput(instrument, body.on as boolean, body.by as string, more(body)),
    now: async () => workshop.now,
    close: () => workshop.close(),
  };
}

function remote(server: { readonly address: string; readonly folder: string }): LinkDoor {
  const ask = <T>(path: string, body?: object): Promise<T> =>
    askServer<T>(server, path, body === undefined ? undefined : { method: "POST", body: JSON.stringify(body) });
  const at = (instrument: string) => `/api/instruments/${encodeURIComponent(instrument)}`;
  return {
    view: () => ask("/api/instruments/links"),
    link: (file, by) => ask("/api/instruments/links", { file, by }),
    enter: async (entries) => (await ask<{ entries: readonly Evidence[] }>("/api/evidence", { entries })).entries,
    read: (instrument, body) => ask(`${at(instrument)}/read`, body),
    keep: (measurement, body) => ask(`/api/instruments/measurements/${encodeURIComponent(measurement)}`, body),
    startLog: (instrument, body) => ask(`${at(instrument)}/logs`, body),
    stopLog: (log, by) => ask(`/api/instruments/logs/${encodeURIComponent(log)}/stop`, { by }),
    set: (instrument, body) => ask(`${at(instrument)}/supply`, body),
    output: (instrument, body) => ask(`${at(instrument)}/output`, body),
    now: async () => (await ask<{ readonly now: string }>("/api/workshop")).now,
    close: async () => undefined,
  };
}
