import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { setImmediate as breathe, setTimeout as pause } from "node:timers/promises";
import type { Answer } from "../calculations/answer.ts";
import type { Evidence } from "../claims/evidence.ts";
import {
  type ClaimState,
  claimStates,
  releaseDecision,
  releaseEntry,
  type Shop,
  type UnitState,
} from "../claims/index.ts";
import type { Layout } from "../dossier/block.ts";
import type { LabelSheet } from "../dossier/labels.ts";
import type { DossierLanguage } from "../dossier/languages/dossierWords.ts";
import { pageOf } from "../dossier/page.ts";
import { paperOf, sheetsPaper } from "../dossier/paper.ts";
import { archiveOf } from "../exchange/archive.ts";
import { BadInput, quote } from "../maths/badInput.ts";
import { openStore, type Store } from "../store/index.ts";
import { openWavFile } from "../store/wavFile.ts";
import { alreadyWritten } from "./alreadyWritten.ts";
import type { UnderWay } from "./answerInThread.ts";
import { benchSheet } from "./bench/sheet.ts";
import type { BenchSheetView } from "./bench/views.ts";
import { CalculatingRoom } from "./calculate.ts";
import { gatherDossier } from "./dossier/gather.ts";
import { labelled, type Place, placeOf } from "./dossier/labels.ts";
import { pageFonts, printPdf } from "./dossier/print.ts";
import { ExchangeDesk, type ExchangeSource } from "./exchange/desk.ts";
import { wholeWorkshop } from "./exchange/whole.ts";
import { fairnessOf, partByFairness } from "./fairness.ts";
import { type FittedNetlist, fittedNetlist } from "./fittedCurves.ts";
import { humHearing, humRecordings } from "./humHearing.ts";
import { gaugeView } from "./instruments/gauge.ts";
import { instrumentsView, type Trials, trialsOf } from "./instruments/instruments.ts";
import { LinkDesk } from "./instruments/linkDesk.ts";
import { unitChartsView } from "./instruments/unitCharts.ts";
import type { GaugeView, InstrumentsView, UnitChartsView } from "./instruments/views.ts";
import { KeptAnswers, type Shelf } from "./keptAnswers.ts";
import { type KeptRecording, readThrough } from "./keptRecording.ts";
import { answerIds, listeningIndex, plannedSeries, seriesView, switchingView } from "./listening/desk.ts";
import type { ListeningIndexView, SeriesView, SwitchingView } from "./listening/views.ts";
import { microphony } from "./microphony.ts";
import { morningCard, morningOf } from "./morningCard.ts";
import { type NotebookDesk, notebookDesk } from "./notebook/desk.ts";
import { ordersView, orderView, packView, shopView } from "./orders/desk.ts";
import { reserveFits, returnView } from "./orders/returned.ts";
import type { OrdersView, OrderView, PackView, ReserveView, ReturnView, ShopView, WorkView } from "./orders/views.ts";
import { workView } from "./orders/work.ts";
import { CustomersDesk } from "./people/customers.ts";
import { PeopleDesk } from "./people/desk.ts";
import type { Cost } from "./people/passphrase.ts";
import { probeCard, standingReadings } from "./probeCard.ts";
import { probeSuspects, probeWindows } from "./probeJudged.ts";
import { checksView } from "./production/checks.ts";
import { costsView } from "./production/costs.ts";
import { dayHands } from "./production/dayPlan.ts";
import { plateLengths } from "./production/plateLength.ts";
import { firstFailsOf, type Records, recordsOf } from "./production/records.ts";
import { neverHeated, soakSorts, soaksView } from "./production/soaks.ts";
import type { SoaksView } from "./production/soakViews.ts";
import type { ChecksView, CostsView } from "./production/views.ts";
import { type Bookkeeping, orderDates, promiseBook } from "./promiseBook.ts";
import { PromiseDesk } from "./promises/desk.ts";
import type { KeptView, LookBackView, OrderingView, WhatIfOptionsView, WhatIfView } from "./promises/views.ts";
import { accusedValve, heatRunWords, propose } from "./proposal.ts";
import { remainingRoute, type Step } from "./remainingWork.ts";
import { safetyLimitsView, safetySheet } from "./safety/sheet.ts";
import type { SafetyLimitsView, SafetySheetView } from "./safety/views.ts";
import { settleFindings, stillMissing } from "./settle.ts";
import { readBand, spectrumColumns } from "./spectrum.ts";
import { type Standing, StandingAnswers } from "./standingAnswers.ts";
import { type LongAnswer, type Progress, type ShelfOptions, TimberDesk } from "./timber/desk.ts";
import type { PastPiece } from "./timber/pastPieces.ts";
import { photoType } from "./timber/photoType.ts";
import { timberRipens } from "./timber/ripens.ts";
import { soon } from "./timber/soon.ts";
import type {
  CaseView,
  CrackLookBackView,
  CutPlanView,
  EarlyWeighingView,
  PieceView,
  RunsView,
  TimberShelfView,
} from "./timber/views.ts";
import { unitFolder } from "./unitFolder.ts";
import { ValveDesk } from "./valveDesk.ts";
import type { ValveVerdict } from "./valveTable.ts";
import { version } from "./version.ts";
import type {
  HumHearingView,
  MorningView,
  ProbeCardView,
  ProbeSuspectsView,
  ProbeWindowsView,
  PromiseView,
  SpectrumView,
  TraysView,
  TrayView,
  UnitView,
  ValveSetsView,
} from "./views.ts";
import { WaitingList } from "./waitingList.ts";

/** What a page shows first: whose workshop, what date it keeps, which units there are. */
export interface Overview {
  readonly title: string;
  readonly now: string;
  readonly demo: boolean;
  readonly version: string;
  readonly head: string;
  /** Numbers of the timber that stands here. */
  readonly pieces: readonly string[];
  /** Those in hand and the newest that left; any other is found by its number. */
  readonly units: readonly UnitLine[];
  readonly unitsInAll: number;
}

/** A unit in a list. */
export interface UnitLine {
  readonly unit: string;
  readonly model: string;
  readonly order: string;
  readonly state: string;
}

export interface WorkshopOptions {
  readonly write: boolean;
  /** Connection string of a shared database that holds the ledger. */
  readonly database?: string | undefined;
  /** What trying a passphrase costs, and the time that sessions end by: other than usual in tests alone. */
  readonly people?: { readonly cost?: Cost; readonly now_ms?: () => number };
  /** Told beforehand what will take long. */
  readonly notice?: (words: string) => void;
}

/** What a workshop's folder says of itself; a workshop that keeps its own date answers alike on any day. */
interface About {
  readonly title?: string;
  readonly ownDate?: string;
}

const aboutFile = "workshop.json";
/** The morning card would rather come late than without the boards that ripen. */
const morningPatience_ms = 3000;
/** Settling reads the whole shop: where benches write all the time, it is done this often. */
const leastApart_ms = 1000;
/** So many answers to screens are kept at a time, and so many spectra. */
const mostAnswers = 600;
const mostSpectra = 24;
/** A list shows so many units that left, and so many that were sought. */
const mostUnitsLeft = 200;
const mostFound = 100;
const hour_ms = 3_600_000;
/** A page that takes an older answer waits so long for the one that holds. */
const pagePatience_ms = 80;
const mostStanding = 200;
/** A page of one piece does not wait for the pieces of before. */
const rankPatience_ms = 100;

/** Opens the workshop in a data folder; an empty folder becomes an empty workshop when opened to write. */
export async function openWorkshop(
  folder: string,
  { write, database, people, notice }: WorkshopOptions,
): Promise<Workshop> {
  const own = readAbout(folder);
  let clock: OwnClock | undefined;
  const now = () => clock?.now ?? new Date().toISOString();
  const store = await openStore(folder, { write, database, clock: now, ...(notice && { notice }) });
  const about = (await store.about<About>()) ?? own;
  if (about.ownDate !== undefined) {
    clock = new OwnClock(about.ownDate);
    clock.notBefore(store.newest()?.recordedAt ?? about.ownDate);
  }
  return new Workshop(store, about, clock, people);
}

/** A clock that keeps its own date and moves on by a minute with every writing, so that answers never depend on the day. */
class OwnClock {
  now: string;

  constructor(start: string) {
    this.now = new Date(start).toISOString();
  }
  notBefore(instant: string): void {
    if (instant > this.now) this.now = instant;
  }
  tick(): void {
    this.now = new Date(Date.parse(this.now) + 60_000).toISOString();
  }
}

/** A workshop at work: its evidence, and every answer that is computed from it, kept until what it rests on grows. */
export class Workshop {
  private readonly room: CalculatingRoom;
  private readonly hearings = new Map<string, UnderWay>();
  private readonly timberDesk: TimberDesk;
  private readonly promiseDesk: PromiseDesk;
  private settling: Promise<void> = Promise.resolve();
  private isSettlingAgain = false;
  private isClosing = false;
  private settledAt_ms = 0;
  /** What screens asked for; spectra, which are large; and small facts of every thing that was ever here. */
  private readonly answers: Shelf;
  private readonly spectra: Shelf;
  private readonly facts: Shelf;
  private readonly standing: StandingAnswers;
  private readonly valveDesk: ValveDesk;
  /** Recorder's files that wait to be given to a unit. */
  readonly waitingFiles: WaitingList;
  /** Instruments on a wire. */
  readonly links: LinkDesk;
  /** Who may come in here, and what they may do. */
  readonly people: PeopleDesk;
  /** Names and addresses outside the ledger. */
  readonly customers: CustomersDesk;
  /** Tables on their way in and out. */
  readonly exchange: ExchangeDesk;

  constructor(
    private readonly store: Store,
    private readonly about: About,
    private readonly ownClock?: { tick(): void },
    people: WorkshopOptions["people"] = {},
  ) {
    const kept = new KeptAnswers(store.shop.ledger.cabinet);
    this.answers = kept.shelf(mostAnswers);
    this.spectra = kept.shelf(mostSpectra);
    this.facts = kept.shelf(Number.POSITIVE_INFINITY);
    this.standing = new StandingAnswers(
      { now: () => store.now(), grown: () => store.shop.ledger.cabinet.grown },
      mostStanding,
    );
    const shop = () => this.shop;
    const enter = (entries: readonly unknown[]) => this.enter(entries);
    this.people = new PeopleDesk({ store, shop, now: () => this.now, enter, ...people });
    this.customers = new CustomersDesk({ store, shop });
    this.exchange = new ExchangeDesk(this.exchangeSource());
    this.room = new CalculatingRoom(
      {
        folder: store.folder,
        ...(store.isShared && { bringRecording: (sha256: string) => store.bringRecording(sha256) }),
      },
      { engine: store.engine },
    );
    this.links = new LinkDesk({
      shop: () => this.shop,
      now: () => this.now,
      write: (entries) => this.enter(entries),
      folder: store.folder,
    });
    this.waitingFiles = new WaitingList({
      folder: store.folder,
      keep: (chunks, name) => this.keepRecording(chunks, name),
      recorded: () => this.recordedFiles(),
    });
    this.valveDesk = new ValveDesk({
      shop: store.shop,
      now: () => this.now,
      stands: () => store.now(),
      calculate: this.room.calculate,
      facts: this.facts,
      answers: this.answers,
    });
    this.promiseDesk = new PromiseDesk({
      shop,
      book: () => this.book(),
      promises: () => this.shop.ledger.ofKind("promise"),
      cracks: () => this.timberCracks(),
      verdicts: (type) => this.valveDesk.verdicts(type),
      calculate: this.room.calculate,
    });
    this.timberDesk = new TimberDesk(
      () => this.shop,
      // Whatever is kept of its answers has the time in its question.
      () => this.store.now(),
      this.room.calculate,
      this.facts,
    );
  }

  /** Lets what was begun end, then leaves the folder as one file. */
  async close(): Promise<void> {
    this.isClosing = true;
    await this.links.close();
    await this.settling.catch(() => undefined);
    await this.room.close();
    await this.store.close();
  }
  head(): string {
    this.shop.ledger.cabinet.openAll();
    return this.store.head();
  }
  /** Everything of the workshop in open form, as one zip archive. */
  async archive(): Promise<NodeJS.ReadableStream> {
    return archiveOf(await wholeWorkshop(this.store));
  }
  /** How many entries the ledger has. */
  get entries(): number {
    return this.store.newest()?.seq ?? 0;
  }
  /** Takes in what other servers of a shared database have written; before each answer, so that it says the newest. */
  current(): Promise<void> {
    return this.store.current();
  }
  subscribe(listener: () => void): () => void {
    const stops = [this.store.subscribe(listener), this.waitingFiles.subscribe(listener)];
    return () => {
      for (const stop of stops) stop();
    };
  }
  announce(address: string, commands?: string): void {
    this.store.announce(address, commands);
  }
  /** One of the published calculations; recordings in the input are named by their content hash. */
  answer(name: string, input: unknown, signal?: AbortSignal): Promise<Answer> {
    return this.room.answer(name, input, undefined, signal);
  }

  overview(): Overview {
    const { shop } = this;
    return {
      title: this.title,
      now: this.now,
      demo: this.about.ownDate !== undefined,
      version,
      head: this.head(),
      pieces: shop.timber.standing,
      units: this.keep("units shown", () => this.unitsShown()),
      unitsInAll: shop.units.size,
    };
  }

  /** Units in hand and the newest of those that left, in the order they were opened. */
  private unitsShown(): readonly UnitLine[] {
    const { shop } = this;
    const all = [...shop.units.values()];
    const cameBack = new Set(shop.returns.map(({ body }) => body.unit));
    const inHand = all.filter(
      ({ unit }) => !shop.isReleased(unit) || (cameBack.has(unit) && shop.cameBackAfter(unit) !== undefined),
    );
    const isHere = new Set(inHand);
    const left = all.filter((unit) => !isHere.has(unit)).slice(-mostUnitsLeft);
    const shown = new Set([...inHand, ...left]);
    return all.filter((unit) => shown.has(unit)).map((unit) => this.unitLine(unit));
  }

  /** Units whose number or model holds a text, the newest first; the one of that very number before all. */
  findUnits(text: unknown): { readonly units: readonly UnitLine[]; readonly inAll: number } {
    if (typeof text !== "string" || text.trim() === "")
      throw new BadInput("find", quote(text), "part of a number or of a model's name", "write what you seek");
    const sought = text.trim().toLowerCase();
    const found = [...this.shop.units.values()]
      .filter(({ unit, model }) => `${unit} ${model}`.toLowerCase().includes(sought))
      .reverse();
    const first = found.filter(({ unit }) => unit.toLowerCase() === sought);
    const units = [...first, ...found.filter((unit) => !first.includes(unit))].slice(0, mostFound);
    return { units: units.map((unit) => this.unitLine(unit)), inAll: found.length };
  }

  private unitLine({ unit, model, order }: UnitState): UnitLine {
    const { shop } = this;
    const isReleased = shop.isReleased(unit);
    // Of the many that have left, nothing is judged anew.
    const missing = isReleased ? 0 : releaseDecision(this.states(unit)).missing.length;
    const state = isReleased
      ? shop.cameBackAfter(unit)
        ? "came back"
        : shop.packed(unit)
          ? "packed"
          : "released"
      : missing === 0
        ? "ready to release"
        : missing === 1
          ? "1 proof missing"
          : `${missing} proofs missing`;
    return { unit, model, order, state };
  }

  /** The workshop as it was set up so far. */
  shopSetUp(): ShopView {
    return shopView(this.shop, this.now, Intl.DateTimeFormat().resolvedOptions().timeZone);
  }

  orders(find: unknown = ""): OrdersView {
    if (typeof find !== "string")
      throw new BadInput("find", quote(find), "part of a number, model, customer or place", "write what you seek");
    return this.byNow(this.keep(`orders ${find}`, () => ordersView(this.shop, this.store.now(), find.trim())));
  }

  order(order: string): OrderView {
    return orderView(this.shop, order, this.now, (unit) => this.states(unit));
  }

  /** A unit under hands: its steps, its valves, what a rework may touch. */
  async work(serial: string): Promise<WorkView> {
    const { shop } = this;
    this.unitNamed(serial);
    const view = await this.keep(`work ${serial}`, async () => {
      const types = new Set(shop.modelOf(serial)!.positions.map(({ type }) => type));
      const verdicts = await this.valveDesk.verdictsOfTypes(types);
      const standing = new Map(verdicts.map(({ id, verdict }) => [id, verdict]));
      return workView(shop, serial, this.store.now(), (valve) => standing.get(valve) ?? "unread");
    });
    return this.byNow(view);
  }

  pack(serial: string): PackView {
    this.unitNamed(serial);
    return packView(this.shop, serial, this.now);
  }

  /** What a unit left with beside what it reads now. */
  returned(serial: string): ReturnView {
    this.unitNamed(serial);
    return returnView(this.shop, serial, this.now, this.states(serial));
  }

  /** The set from the shelf that would balance a unit best. */
  async reserve(serial: string): Promise<ReserveView> {
    const { shop } = this;
    const unit = this.unitNamed(serial);
    return this.keep(`reserve ${serial}`, () =>
      reserveFits(
        {
          shop,
          model: shop.modelOf(serial)!,
          unit,
          states: this.states(serial),
          readings: (type, valves) => this.valveDesk.shelf.readingsOfValves(type, valves),
          verdicts: (type) => this.valveDesk.verdicts(type),
          fitted: () => this.fittedNetlist(serial),
        },
        this.room.calculate,
      ),
    );
  }

  async unit(serial: string): Promise<UnitView> {
    return (await this.unitStanding(serial, false)).answer;
  }

  /** A unit's folder as it is now. What an exchange of valves does to dates may be of a moment ago. */
  async unitStanding(serial: string, takesOlder: boolean): Promise<Standing<UnitView>> {
    const { shop } = this;
    const { folder, accused } = await this.keep(`unit ${serial}`, async () => {
      const unit = this.unitNamed(serial);
      const verdicts = await this.valveDesk.verdictsIn(unit.fitted);
      const evidence = shop.ledger.ofUnit(serial);
      const folder = unitFolder({ shop, evidence, unit, states: this.states(serial), verdicts });
      const isGone = folder.released && shop.cameBackAfter(serial) === undefined;
      const accused = isGone ? undefined : accusedValve((await this.humHearing(serial)).verdict, unit);
      return { folder, accused };
    });
    if (!accused) return { answer: folder };
    const question = `proposal ${serial} ${accused.position} ${accused.valve}`;
    const { answer: proposal, ...rest } = await this.asItStands(question, takesOlder, () => {
      const hour = this.nextHour;
      return this.keep(`${question} ${hour}`, () => this.propose(serial, accused, hour));
    });
    return { answer: { ...folder, ...(proposal && { proposal }) }, ...rest };
  }

  async humHearing(serial: string): Promise<HumHearingView> {
    const { shop } = this;
    this.unitNamed(serial);
    return this.keep(`hum ${serial}`, async () => {
      const tell = (under: UnderWay) => void this.hearings.set(serial, under);
      const model = shop.modelOf(serial)!;
      const { ledger } = shop;
      const { calculate } = this.room;
      const made = humRecordings(shop.ledger, serial);
      await this.bringRecordings(serial);
      tell({ share: 0, what: "the supplies it ran on" });
      const supplies = await fairnessOf({ ledger, unit: serial, recordings: made, calculate });
      const { believed: recordings, leftOut } = partByFairness(made, supplies);
      const tapped = await microphony(ledger, serial, calculate);
      return humHearing(
        {
          unit: serial,
          building_Hz: recordings[0]?.body.building_Hz ?? shop.shop?.building_Hz ?? 50,
          ...(model.feeds && { feeds: model.feeds }),
          outputImpedance_ohm: model.outputImpedance_ohm,
          recordings,
          leftOut,
          supplies,
          ...(tapped && { microphony: tapped }),
          headphones: [...shop.headphones.values()].map(({ body }) => body),
          saysOf: (valve) => {
            const type = shop.valve(valve)?.type;
            const readings = type === undefined ? undefined : this.valveDesk.shelf.readingsOfValves(type, [valve]);
            return readings ? heatRunWords(valve, readings) : [];
          },
          lengthOf: (entry) =>
            this.facts.keep(`length ${entry.id}`, () => {
              const { file_sha256, recording } = entry.body;
              const stream = openWavFile(this.store.recordingPath(file_sha256), recording, "recording");
              return { duration_s: stream.frames / stream.rate_Hz, truncated: stream.truncated };
            }),
        },
        this.room.calculate,
        tell,
      ).finally(() => this.hearings.delete(serial));
    });
  }

  /** How far a hum hearing is that is being computed; nothing when none is. */
  humUnderWay(serial: string): UnderWay | undefined {
    return this.hearings.get(serial);
  }

  /**
   * The unit's record, in words and order for paper and page; the same evidence gives the same.
   * @param language  left out, the one that its order names
   */
  async dossier(serial: string, language?: DossierLanguage): Promise<Layout> {
    const { shop } = this;
    this.unitNamed(serial);
    const state = shop.unit(serial)!;
    const spoken = language ?? shop.orders.get(state.order)?.body.language ?? "en";
    return this.keep(`dossier ${serial} ${spoken}`, async () => {
      const model = shop.modelOf(serial)!;
      const state = this.unitNamed(serial);
      const [unit, hum, bench, housed, verdicts] = await Promise.all([
        this.unit(serial),
        this.humHearing(serial),
        this.bench(serial),
        this.unitCase(serial),
        this.valveDesk.verdictsIn(state.fitted),
      ]);
      const { layOut } = await import("../dossier/layout.ts");
      return layOut(
        await gatherDossier({
          title: this.title,
          shop,
          model,
          state,
          evidence: shop.ledger.ofUnit(serial),
          asOf: this.store.newest()?.recordedAt ?? state.openedAt,
          head_sha256: this.head(),
          unit,
          hum,
          bench,
          case: housed,
          verdicts,
          language: spoken,
          spectrum: (recording, channel) => this.spectrum(serial, recording, channel),
        }),
        spoken,
      );
    });
  }

  /** The record as PDF/A: the same bytes for the same evidence, on any machine. */
  async dossierPdf(serial: string, language?: DossierLanguage): Promise<Buffer> {
    const layout = await this.dossier(serial, language);
    return this.keep(`dossier ${serial} ${layout.language} set`, async () =>
      printPdf(paperOf(await this.dossier(serial, language))),
    );
  }

  /** The record as one page that needs nothing beside it. */
  async dossierPage(serial: string, language?: DossierLanguage): Promise<string> {
    return pageOf(await this.dossier(serial, language), pageFonts());
  }

  /** The page that a scanned code opens. */
  codePlace(code: string): Place {
    const place = placeOf(this.shop, code);
    if (place) return place;
    throw new BadInput("code", quote(code), "a unit, valve, batch or board of this workshop", "check the number");
  }

  /** Sheets of labels for A4 paper; the marks on them are codes that `codePlace` reads. */
  async labelsPdf(codes: readonly string[], sheet: LabelSheet, withValves: boolean): Promise<Buffer> {
    const { labelSheets } = await import("../dossier/labels.ts");
    const sheets = labelSheets(labelled(this.shop, codes, withValves), sheet);
    return printPdf(sheetsPaper("Labels", sheets, this.store.newest()?.recordedAt ?? this.now));
  }

  async bench(serial: string): Promise<BenchSheetView> {
    this.unitNamed(serial);
    const now = this.store.now();
    return this.keep(`bench ${serial} ${this.thisHour}`, () => benchSheet(this.shop, serial, now, this.room.calculate));
  }

  /** Levels against frequency; of a part of the axis alone with `band`, such as `40,400`. */
  async spectrum(serial: string, recording: string, channel?: string, band?: string): Promise<SpectrumView> {
    await this.bringRecordings(serial);
    const part = readBand(band);
    this.unitNamed(serial);
    const entry = this.shop.ledger
      .about("recording", serial)
      .findLast(({ body, id }) => body.recording === recording || id === recording);
    if (!entry) {
      const known = this.shop.ledger.about("recording", serial).map(({ body }) => body.recording);
      throw new BadInput(
        "recording",
        quote(recording),
        `unit ${serial} has ${known.join(", ") || "no recording yet"}`,
        "name one of its recordings",
      );
    }
    const asked = channel ?? entry.body.channels[0]!;
    const index = entry.body.channels.indexOf(asked);
    if (index < 0)
      throw new BadInput(
        "channel",
        quote(asked),
        `one of ${entry.body.channels.join(", ")}`,
        "name a channel of the recording",
      );
    const levels = await this.spectra.keep(`${entry.id} ${asked}`, () =>
      this.room.levelSpectrum({
        path: this.store.recordingPath(entry.body.file_sha256),
        given: entry.body.recording,
        channel: index,
        fullScale_Vpk: entry.body.fullScale_Vpk,
      }),
    );
    return { recording: entry.body.recording, channel: asked, ...spectrumColumns(levels, part) };
  }

  async morning(): Promise<MorningView> {
    const { shop } = this;
    const now = this.store.now();
    const statesOf = (unit: string) => this.states(unit);
    const card = this.keep("morning card", () => morningCard(shop, statesOf));
    const hands = await this.keep(`hands ${this.thisMinute}`, () =>
      dayHands(shop, now, statesOf, this.room.calculate, () => this.keepByRecords("records", (records) => records)),
    );
    return morningOf({ ...card, ...hands, ripens: [...card.ripens, ...(await this.timberRipens(now))] }, now);
  }

  /** What ripens on the shelf; kept once no piece is left to be computed. */
  private async timberRipens(now: string): Promise<MorningView["ripens"]> {
    const ripens = ({ pieces }: TimberShelfView) => timberRipens(this.shop, pieces, now, this.room.calculate);
    const shelf = await this.timber({ patience_ms: morningPatience_ms });
    if (shelf.computing > 0) return ripens(shelf);
    return this.keep(`timber ripens ${now.slice(0, 13)}`, async () => ripens(await this.timber({ wait: true })));
  }

  /** Instruments with their trials, and the proofs that stand or fell with them. */
  async instruments(): Promise<InstrumentsView> {
    const view = await this.keep("instruments", () =>
      instrumentsView(
        this.shop,
        this.store.now(),
        (unit) => this.states(unit),
        (instrument) => this.trialsOf(instrument),
      ),
    );
    return this.byNow(view);
  }

  private trialsOf(instrument: string): Promise<Trials> {
    return this.facts.keep(`trials ${instrument}`, () => trialsOf(this.shop, instrument, this.room.calculate));
  }

  /** Gauge studies, and what each leaves of the windows it is used for. */
  gaugeStudies(): Promise<GaugeView> {
    return this.keep("gauge", () => gaugeView(this.shop, this.room.calculate));
  }

  /** What units of each model left with, charted over their serial numbers. */
  unitCharts(): Promise<UnitChartsView> {
    const birthsKept = <T>(unit: string, births: () => T) => this.facts.keep(`births ${unit}`, births);
    return this.keep("unit charts", () =>
      unitChartsView(this.shop, (unit) => this.states(unit), this.room.calculate, birthsKept),
    );
  }

  /** The safety tests of a unit, in the order that protects whoever makes them. */
  safety(serial: string): SafetySheetView {
    this.unitNamed(serial);
    return this.keep(`safety ${serial}`, () => safetySheet(this.shop, serial, this.states(serial)));
  }

  /** Limits of the safety tests as they were adopted for each market. */
  safetyLimits(): SafetyLimitsView {
    return safetyLimitsView(this.shop);
  }

  /** Where checks belong, by the faults of the past. */
  checks(): Promise<ChecksView> {
    const hour = this.thisHour;
    return this.keepByRecords(`checks ${hour}`, (records) => {
      const lengths = this.keepByRecords("plate lengths", (same) => plateLengths(this.shop, same));
      return checksView(this.shop, hour, this.room.calculate, records, lengths);
    });
  }

  /** What goes on by itself now, and what the hours on record say of each sort of soak. */
  async soaks(): Promise<SoaksView> {
    const hour = this.thisHour;
    const sorts = () =>
      this.keepByRecords(`soak sorts ${hour}`, (records) => soakSorts(this.shop, hour, this.room.calculate, records));
    const view = await this.keep(`soaks ${hour}`, async () =>
      soaksView(
        {
          shop: this.shop,
          now: hour,
          statesOf: (unit) => this.states(unit),
          unheated: this.facts.keep("never heated", () => neverHeated(this.shop)),
        },
        await sorts(),
      ),
    );
    return this.byNow(view);
  }

  /** Blind series, and what a new one may be made of. */
  listening(): ListeningIndexView {
    return this.byNow(
      this.keep("listening", () => {
        const { shop, room } = this;
        return listeningIndex({ shop, now: this.store.now(), calculate: room.calculate });
      }),
    );
  }

  /** A blind series while it runs, and what it showed once it is closed. */
  async series(series: string): Promise<SeriesView> {
    return this.keep(`series ${series}`, () => seriesView(series, this.listeningCase()));
  }

  /** What to play one listener of a series; for whoever switches. */
  switching(series: string, listener: string): SwitchingView {
    return switchingView(series, listener, this.shop);
  }

  answerIds(series: string, listener: string) {
    return answerIds(series, listener, this.shop);
  }

  /** Plans a blind series: its number of trials reckoned, its levels read, its lot drawn and sealed. */
  async planSeries(question: unknown): Promise<Evidence> {
    const [entry] = await this.enter([await plannedSeries(question, this.listeningCase())]);
    return entry!;
  }

  private listeningCase() {
    const { shop, now } = this;
    return { shop, now, calculate: this.room.calculate };
  }

  /** What a unit of each model costs, and what each choice really costs. */
  costs(): Promise<CostsView> {
    return this.keepByRecords("costs", (records) => costsView(this.shop, this.room.calculate, records));
  }

  /** The timber shelf, as wood moves: by the hour; with `wait` no piece is left to be computed later. */
  async timber({ wait = false, patience_ms }: ShelfOptions = {}): Promise<TimberShelfView> {
    const whole = this.keep(`timber ${this.store.now().slice(0, 13)}`, () => this.timberDesk.shelf({ wait: true }));
    if (wait) return whole;
    const { ready } = await soon(whole, patience_ms);
    return ready ?? this.timberDesk.shelf({ patience_ms: 0 });
  }

  /** What is in the chamber and on the plate, what goes in next, and what to weigh; takes some seconds at first. */
  timberRuns(): Promise<RunsView> {
    return this.keep(`runs ${this.nextHour}`, () => this.timberDesk.runs());
  }

  /** Which piece of which board becomes which panel, over all cases not made yet; takes some seconds at first. */
  timberCuts(): Promise<CutPlanView> {
    return this.keep(`cuts ${this.thisHour}`, () => this.timberDesk.cuts());
  }

  /** How far an answer over many pieces of timber is. */
  timberProgress(answer: LongAnswer): Progress | undefined {
    return this.timberDesk.progress(answer);
  }

  /** A piece of timber: its course, its weighings, where it stood and what was done to it. */
  async timberPiece(piece: string): Promise<PieceView> {
    const { ready } = await soon(this.pastTimber(), rankPatience_ms);
    return this.timberDesk.piece(piece, ready);
  }

  private pastTimber(): Promise<readonly PastPiece[]> {
    return this.keep("past timber", () => this.timberDesk.past());
  }

  /** In which stage pieces cracked, and by which hour on the plate. */
  timberCracks(): Promise<CrackLookBackView> {
    return this.keep("cracks", () => this.timberDesk.cracks());
  }

  /** What a weighing before the plate would have told of the pieces that cracked there. */
  async earlyWeighing(): Promise<EarlyWeighingView> {
    return this.keep("early weighing", async () => this.timberDesk.early(await this.pastTimber()));
  }

  /** The case of a unit, opened or only ordered, over the year at its destination. */
  async unitCase(serial: string): Promise<CaseView> {
    if (this.shop.orderNaming(serial) === undefined) this.unitNamed(serial);
    return this.keep(`case ${serial} ${this.thisMinute}`, () => this.timberDesk.caseOf(serial, this.store.now()));
  }

  /** Keeps a photo of a flaw by its content. */
  async keepPhoto(bytes: Uint8Array): Promise<string> {
    if (photoType(bytes) === undefined) {
      throw new BadInput(
        "photo",
        "no picture",
        "a JPEG, PNG or WebP picture",
        "send the picture as the camera made it",
      );
    }
    return this.store.putPhoto(bytes);
  }

  /** A kept photo, with what kind of picture it is. */
  async photo(sha256: string): Promise<{ readonly bytes: Uint8Array; readonly type: string }> {
    if (!/^[0-9a-f]{64}$/.test(sha256)) {
      throw new BadInput("photo", quote(sha256), "the SHA-256 of a kept photo", "check the address");
    }
    const bytes = readFileSync(await this.store.bringPhoto(sha256));
    return { bytes, type: photoType(bytes) ?? "application/octet-stream" };
  }

  async promises(): Promise<readonly PromiseView[]> {
    const from = this.nextHour;
    return this.keep(`promises ${from}`, () => promiseBook(this.book({ from }), this.room.calculate));
  }

  /** What can be put to `whatIf` in this shop, and what its own records suggest. */
  async whatIfOptions(): Promise<WhatIfOptionsView> {
    return this.keep(`what-if options ${this.nextHour}`, () => this.promiseDesk.options());
  }

  /** What a change of the shop does to every promised date. */
  whatIf(question: unknown, signal?: AbortSignal): Promise<WhatIfView> {
    return this.promiseDesk.whatIf(question, signal);
  }

  /** What to order for the open orders, and by when. */
  async ordering(): Promise<OrderingView> {
    return this.keep(`ordering ${this.nextHour}`, () => this.promiseDesk.ordering());
  }

  /** Whether promises were kept as often as was said. */
  async promisesKept(): Promise<KeptView> {
    return this.keep("promises kept", () => this.promiseDesk.kept());
  }

  /** From where faults were found to where they could have been. */
  async lookBack(): Promise<LookBackView> {
    return this.keep("look-back", () => this.promiseDesk.lookBack());
  }

  /** Gives a date for an order, written down with what it was worked out from. */
  async givePromise(order: string, by: unknown, question: unknown): Promise<Evidence> {
    if (typeof by !== "string" || by.trim() === "")
      throw new BadInput("by", quote(by), "who gives the date", "name the role, such as owner");
    const body = await this.promiseDesk.toGive(order, question);
    const [entry] = await this.enter([{ at: this.now, by, ...body }]);
    return entry!;
  }

  /** The test points of a unit with what was read there; quick, as nothing is computed for it. */
  probe(serial: string): ProbeCardView {
    const unit = this.unitNamed(serial);
    return probeCard(this.shop, this.shop.modelOf(serial)!, unit, this.now);
  }

  /** Where good units lie at each test point, with the valves that stand in this one. */
  async probeWindows(serial: string): Promise<ProbeWindowsView> {
    const { meter_Mohm } = this.probe(serial);
    return this.keep(`windows ${serial} ${meter_Mohm}`, async () =>
      probeWindows(this.shop.modelOf(serial)!, await this.fittedNetlist(serial), meter_Mohm, this.room.calculate),
    );
  }

  /** Which fault the unit's probe readings speak for, and where to probe next. */
  async probeSuspects(serial: string): Promise<ProbeSuspectsView> {
    const { meter_Mohm } = this.probe(serial);
    return this.keep(`suspects ${serial} ${meter_Mohm}`, async () => {
      const model = this.shop.modelOf(serial)!;
      const readings = standingReadings(this.shop, model, serial);
      return probeSuspects(model, await this.fittedNetlist(serial), readings, meter_Mohm, this.room.calculate);
    });
  }

  /** The prototype notebook, as the ledger stands. */
  notebook(): NotebookDesk {
    const { shop, now } = this;
    return notebookDesk({ shop, now, calculate: this.room.calculate });
  }

  /** Trays of valves, the newest first, of those that a text is found in. */
  trays(find: unknown = ""): Promise<TraysView> {
    return this.valveDesk.trays(find);
  }
  /** A tray with all that was read of its valves, and what follows from it. */
  tray(name: string): Promise<TrayView> {
    return this.valveDesk.tray(name);
  }
  /** Sets for the open orders from one tray, or from the whole shelf of its type. */
  valveSets(name: string, from: unknown = "tray"): Promise<ValveSetsView> {
    return this.valveDesk.sets(name, from);
  }

  /** Where a recording of this unit would be made now: what the command line fills in by itself. */
  conditions(serial: string): { building_Hz: number; fitted: Readonly<Record<string, string>>; now: string } {
    const { fitted } = this.unitNamed(serial);
    return { building_Hz: this.shop.shop?.building_Hz ?? 50, fitted, now: this.now };
  }

  /**
   * Writes evidence down, all or none. What the calculations draw from it follows by itself, and is told to listeners;
   * `settled` waits for it.
   * @throws BadInput naming the entry and the field
   */
  async enter(entries: unknown): Promise<readonly Evidence[]> {
    if (!Array.isArray(entries)) {
      throw new BadInput("entries", quote(entries), "a list of entries", 'send {"entries": [ … ]}');
    }
    const before = alreadyWritten(this.shop, entries);
    if (before) return before;
    this.ownClock?.tick();
    const written = await this.store.append(entries).catch((fault: unknown) => {
      // Another server may have written the very same just before.
      const same = alreadyWritten(this.shop, entries);
      if (same) return same;
      throw fault;
    });
    this.settleSoon();
    return written;
  }

  /** Draws findings after what was written last; many writings in a row are settled together. */
  private settleSoon(): void {
    if (this.isSettlingAgain) return;
    this.isSettlingAgain = true;
    this.settling = this.settled().then(async () => {
      const rest_ms = this.settledAt_ms + leastApart_ms - Date.now();
      if (rest_ms > 0) await pause(rest_ms);
      this.isSettlingAgain = false;
      await this.settle().finally(() => {
        this.settledAt_ms = Date.now();
      });
    });
    this.settling.catch((fault: Error) => process.emitWarning(`findings could not be drawn: ${fault.message}`));
  }

  /** What takes a while to be worked out anew. */
  private readonly slow = {
    morning: () => this.morning(),
    promises: () => this.promises(),
    ordering: () => this.ordering(),
    "what-if options": () => this.whatIfOptions(),
    "promises kept": () => this.promisesKept(),
    "look-back": () => this.lookBack(),
    instruments: () => this.instruments(),
    "unit charts": () => this.unitCharts(),
    checks: () => this.checks(),
    soaks: () => this.soaks(),
    costs: () => this.costs(),
    runs: () => this.timberRuns(),
    cuts: () => this.timberCuts(),
    "early weighing": () => this.earlyWeighing(),
  };

  /** An answer for whoever takes one of a moment ago, and says so beside it, rather than wait for the one that holds. */
  stands<K extends keyof Workshop["slow"]>(
    question: K,
    takesOlder: boolean,
  ): Promise<Standing<Awaited<ReturnType<Workshop["slow"][K]>>>> {
    const answer = this.slow[question] as () => Promise<Awaited<ReturnType<Workshop["slow"][K]>>>;
    return this.asItStands(question, takesOlder, answer);
  }

  private async asItStands<T>(question: string, takesOlder: boolean, answer: () => Promise<T>): Promise<Standing<T>> {
    return takesOlder ? this.standing.ask(question, answer, pagePatience_ms) : { answer: await answer() };
  }

  /** Waits until all findings from what was written down are written too. */
  async settled(): Promise<void> {
    await this.settling.catch(() => undefined);
  }

  /**
   * Keeps a WAV file of any size by its content, as its bytes come; what is no recording is refused and leaves nothing.
   *
   * @param given  the file's name, quoted when it is refused
   */
  async keepRecording(chunks: AsyncIterable<Uint8Array>, given?: string): Promise<KeptRecording> {
    let about: Omit<KeptRecording, "file_sha256"> | undefined;
    const file_sha256 = await this.store.putRecordingStream(chunks, async (path) => {
      about = await readThrough(path, given);
    });
    return { file_sha256, ...about! };
  }

  /** Content hashes that recordings of units and calibrations name. */
  private recordedFiles(): ReadonlySet<string> {
    return this.keep("recorded files", () => {
      const { ledger } = this.shop;
      return new Set([
        ...ledger.ofKind("recording").map(({ body }) => body.file_sha256),
        ...ledger.ofKind("recorder-calibration").flatMap(({ body }) => body.files_sha256),
      ]);
    });
  }

  async release(serial: string, by: unknown): Promise<{ granted: boolean; missing: UnitView["release"]["missing"] }> {
    this.unitNamed(serial);
    if (typeof by !== "string" || by.trim() === "")
      throw new BadInput("by", quote(by), "who releases the unit", "name the role, such as owner");
    await this.settled();
    let decision = releaseDecision(this.states(serial));
    if (decision.granted) {
      // Decided anew once nobody can write meanwhile: a release rests on the newest that is known.
      await this.store.append(() => {
        const states = this.states(serial);
        decision = releaseDecision(states);
        return decision.granted ? [{ at: this.now, by, ...releaseEntry(serial, states, version, this.head()) }] : [];
      });
    }
    return { granted: decision.granted, missing: decision.missing };
  }

  /** Draws the findings that the evidence allows, and writes them down. */
  async settle(): Promise<void> {
    const findings = await this.unwrittenFindings();
    if (findings.length === 0) return;
    // Another server may have drawn the same from the same evidence.
    await this.store.append(() => stillMissing(this.shop, findings));
  }

  private unwrittenFindings(): ReturnType<typeof settleFindings> {
    return settleFindings({
      shop: this.shop,
      hearing: (unit) => this.humHearing(unit),
      panelsOf: (unit) => this.timberDesk.panelsOf(unit),
      facts: this.facts,
      missingOfType: (type, claims) => this.valveDesk.missingOfType(type, claims),
      calculate: this.room.calculate,
    });
  }

  /** What the workshop calls itself. */
  private get title(): string {
    return this.shop.shop?.title ?? this.about.title ?? "A new workshop";
  }

  get now(): string {
    this.shop.ledger.cabinet.openAll();
    return this.store.now();
  }

  /** How far this machine's clock stands behind what was written down last; 0 where it does not. */
  clockBehind_ms(): number {
    return this.store.clockBehind_ms();
  }

  private get shop(): Shop {
    return this.store.shop;
  }

  private unitNamed(serial: string) {
    const unit = this.shop.unit(serial);
    if (unit) return unit;
    const known = [...this.shop.units.keys()];
    throw new BadInput(
      "unit",
      quote(serial),
      known.length === 0
        ? "this workshop has no unit yet"
        : `known units are ${known.slice(0, 20).join(", ")}${known.length > 20 ? ", …" : ""}`,
      "check the serial number",
    );
  }

  /** A unit's net list with its own valves, drawn by the readings of the trays they came from. */
  private fittedNetlist(serial: string): Promise<FittedNetlist> {
    const { shop } = this;
    const { shelf } = this.valveDesk;
    return fittedNetlist(
      shop.modelOf(serial)!,
      this.unitNamed(serial).fitted,
      (type, valve) => shelf.readingsOfValves(type, [valve]),
      this.room.calculate,
    );
  }

  private states(unit: string): readonly ClaimState[] {
    // No entry is let in from the future, so that the clock's going on changes no state.
    const now = this.store.now();
    return this.facts.keep(`states ${unit}`, () => claimStates(this.shop.modelOf(unit)!, this.shop.ledger, unit, now));
  }

  /** From here on a server answers people: what computes aside gives way to that. */
  giveWay(): void {
    this.room.giveWay();
  }

  /**
   * Works out what screens ask for, so that nobody waits for it: the units in hand, every tray, the newest first, and
   * what takes a while.
   */
  async warmUp(): Promise<void> {
    for (const { unit } of this.shop.openUnits) this.states(unit);
    await this.valveDesk.drawCards(() => this.isClosing);
    const slow = Object.keys(this.slow) as (keyof Workshop["slow"])[];
    const asks: readonly (() => Promise<unknown>)[] = [
      // Or the first writing would be followed by a look at every tray.
      () => this.unwrittenFindings(),
      // For the early weighing every board that ever was on the plate is worked out: that is begun when somebody asks.
      ...slow.filter((question) => question !== "early weighing").map((question) => () => this.stands(question, true)),
      ...this.shop.openUnits.map(
        ({ unit }) =>
          () =>
            this.unitStanding(unit, true),
      ),
    ];
    for (const ask of asks) {
      if (this.isClosing) return;
      // What can't be worked out is told to whoever asks for it.
      await ask().catch(() => undefined);
      await breathe();
    }
  }

  /** Verdicts of every valve of every type around its heat run. */
  allVerdicts(): Promise<readonly ValveVerdict[]> {
    return this.valveDesk.verdictsOfTypes();
  }

  private book({ from = this.nextHour, instead }: Pick<Bookkeeping, "from" | "instead"> = {}): Bookkeeping {
    const workshop = this;
    return {
      shop: this.shop,
      from,
      // Whoever asks for the moment itself is asked again with every entry.
      get now() {
        return workshop.now;
      },
      statesOf: (unit) => this.states(unit),
      ...(instead && { instead }),
    };
  }

  private propose(serial: string, accused: { position: string; valve: string }, from: string) {
    const { shop } = this;
    const model = shop.modelOf(serial)!;
    const unit = this.unitNamed(serial);
    const dateOf = async (book: Bookkeeping) =>
      (await orderDates(book, this.room.calculate)).find(({ id }) => id === unit.order);
    return propose(
      {
        shop,
        readings: (type, valves) => this.valveDesk.shelf.readingsOfValves(type, valves),
        verdicts: (type) => this.valveDesk.verdicts(type),
        model,
        unit,
        accused,
        states: this.states(serial),
        now: from,
        datesNow: () => dateOf(this.book({ from })),
        datesWith: (_unit, states, first: readonly Step[]) =>
          dateOf(this.book({ from, instead: { [serial]: remainingRoute(model, unit, states, first) } })),
      },
      this.room.calculate,
    );
  }

  /** Sees to it that a unit's recordings are on this machine, wherever they came in. */
  private exchangeSource(): ExchangeSource {
    return {
      shop: () => this.shop,
      now: () => this.now,
      evidence: (kind) => this.shop.ledger.ofKind(kind),
      states: (unit) => this.states(unit),
      trays: () => this.valveDesk.trays("", Number.POSITIVE_INFINITY),
      tray: (batch) => this.tray(batch),
      timber: () => this.timber(),
      promises: () => this.promises(),
      instruments: () => this.instruments(),
    };
  }

  private async bringRecordings(serial: string): Promise<void> {
    if (!this.store.isShared) return;
    for (const { body } of this.shop.ledger.about("recording", serial))
      await this.store.bringRecording(body.file_sha256);
  }

  /** As `keep`, for answers from the book of faults: of the many figures that units read they ask what was refuted first. */
  private keepByRecords<T>(question: string, answer: (records: Records) => T): T {
    const { shop } = this;
    const fails = this.facts.keep("first fails", () => firstFailsOf(shop));
    return this.keep(`${question} ${JSON.stringify([...fails])}`, () => answer(recordsOf(shop, fails)));
  }

  /** An answer in which the clock is only told, by the clock of whoever asks. */
  private byNow<T extends { readonly now: string }>(view: T): T {
    return { ...view, now: this.now };
  }

  /** The clock's last whole minute, for questions whose answers change as it goes on. */
  private get thisMinute(): string {
    return this.store.now().slice(0, 16);
  }

  /** The clock's last whole hour, for answers that need it no finer. */
  private get thisHour(): string {
    return `${this.store.now().slice(0, 13)}:00:00.000Z`;
  }

  /** The clock's next full hour, from which what is planned ahead is reckoned; at the full hour that one. */
  private get nextHour(): string {
    return new Date(Math.ceil(Date.parse(this.store.now()) / hour_ms) * hour_ms).toISOString();
  }

  /** The answer to a question, computed once for as long as nothing that it was drawn from grows. */
  private keep<T>(question: string, answer: () => T): T {
    return this.answers.keep(question, answer);
  }
}

function readAbout(folder: string): About {
  const file = join(folder, aboutFile);
  if (!existsSync(file)) return {};
  return JSON.parse(readFileSync(file, "utf8")) as About;
}
