import type { Evidence } from "../../claims/evidence.ts";
import { isEnough, peopleOf, type Right, rights, type Shop, type Standing } from "../../claims/index.ts";
import { personId } from "../../claims/people/evidence.ts";
import { BadInput, quote } from "../../maths/badInput.ts";
import type { Store } from "../../store/index.ts";
import { People } from "../../store/people.ts";
import { BackOff } from "./backOff.ts";
import { type Cost, fits, requirePassphrase, secretOf, usualCost } from "./passphrase.ts";
import { hashOf, Sessions } from "./sessions.ts";
import type { PersonView, SessionView, SignedIn } from "./views.ts";

export interface PeopleOptions {
  readonly store: Pick<Store, "engine">;
  readonly shop: () => Shop;
  /** When the workshop says it is; an act is dated by it. */
  readonly now: () => string;
  readonly enter: (entries: readonly unknown[]) => Promise<readonly Evidence[]> | readonly Evidence[];
  /** The machine's own time, by which sessions end. */
  readonly now_ms?: () => number;
  readonly cost?: Cost;
}

export interface NewPerson {
  readonly person: unknown;
  readonly name: unknown;
  readonly may: unknown;
  readonly answersForSafety?: unknown;
  readonly passphrase: unknown;
}

export interface PersonChange {
  readonly name?: unknown;
  readonly may?: unknown;
  readonly answersForSafety?: unknown;
}

/** Refused at the door, in words that are the same whether the person or the passphrase was wrong. */
export class NotLetIn extends Error {
  constructor(
    message: string,
    readonly statusCode: 401 | 429,
    readonly wait_s?: number,
  ) {
    super(message);
  }
}

const wrong = "that person and passphrase do not belong together; check both and type them again";

/** The people of a workshop: who they are, what they may do, and who of them is at which browser. */
export class PeopleDesk {
  readonly sessions: Sessions;
  private readonly kept: People;
  private readonly cost: Cost;
  private readonly byPersonAndAddress: BackOff;
  private readonly byAddress: BackOff;
  private readonly byPerson: BackOff;

  constructor(private readonly options: PeopleOptions) {
    const now_ms = options.now_ms ?? Date.now;
    this.kept = new People(options.store.engine);
    this.sessions = new Sessions(this.kept, now_ms);
    this.cost = options.cost ?? usualCost;
    this.byPersonAndAddress = new BackOff({ now_ms, free: 5 });
    this.byAddress = new BackOff({ now_ms, free: 20 });
    this.byPerson = new BackOff({ now_ms, free: 50 });
  }

  /** Whether anybody was entered, so that everybody signs in. */
  get arePresent(): boolean {
    return this.standings.size > 0;
  }

  standing(person: string): Standing | undefined {
    return this.standings.get(person);
  }

  /** Owners, in the order they were entered. */
  get owners(): readonly string[] {
    return [...this.standings].filter(([, { may }]) => may === "owner").map(([person]) => person);
  }

  /**
   * Lets somebody in who knows their passphrase.
   *
   * @param address  where they are; failures count against it too
   * @returns the token of the session
   * @throws NotLetIn
   */
  async signIn(person: unknown, passphrase: unknown, address: string): Promise<{ token: string; person: string }> {
    const given = typeof person === "string" ? person.normalize("NFC").trim().slice(0, 40) : "";
    const known = await this.prove(given, passphrase, address);
    return { token: await this.sessions.begin(known), person: known };
  }

  /** @returns the person, once the passphrase fits and they may still look */
  private async prove(person: string, passphrase: unknown, address: string): Promise<string> {
    const counts = [
      [this.byPersonAndAddress, `${person} ${address}`],
      [this.byAddress, address],
      [this.byPerson, person],
    ] as const;
    const wait_s = Math.ceil(Math.max(...counts.map(([backOff, name]) => backOff.wait_ms(name))) / 1000);
    if (wait_s > 0) throw new NotLetIn(`too many wrong passphrases; try again in ${inWords(wait_s)}`, 429, wait_s);
    // Counted before it is known, so that many at once are no way round it.
    for (const [backOff, name] of counts) backOff.failed(name);
    const kept = await this.kept.get(person);
    const standing = this.standings.get(person);
    const mayEnter = standing !== undefined && isEnough(standing, "look");
    const text = typeof passphrase === "string" ? passphrase : "";
    const held = await fits(text, mayEnter ? kept?.secret : undefined, this.cost);
    if (!held.fits || !kept) throw new NotLetIn(wrong, 401);
    this.byPersonAndAddress.succeeded(`${person} ${address}`);
    this.byPerson.succeeded(person);
    if (held.isOld) await this.kept.put({ ...kept, secret: await secretOf(text, this.cost) });
    return person;
  }

  /** The person behind a token, with what they may do now. */
  async signedIn(token: string, isUse = true): Promise<(SignedIn & { readonly token_sha256: string }) | undefined> {
    const token_sha256 = hashOf(token);
    const person = await this.sessions.personOf(token_sha256, isUse);
    const standing = person === undefined ? undefined : this.standings.get(person);
    if (person === undefined || !standing || !isEnough(standing, "look")) return undefined;
    const kept = await this.kept.get(person);
    if (!kept) return undefined;
    const { may, answersForSafety } = standing;
    return { person, name: kept.name, may, answersForSafety, token_sha256 };
  }

  async sessionView(signedIn: SignedIn | undefined): Promise<SessionView> {
    if (!this.arePresent) return { people: false };
    if (!signedIn) return { people: true };
    const names = new Map((await this.kept.all()).map(({ person, name }) => [person, name]));
    const able = (needed: Right | "safety") =>
      [...this.standings]
        .filter(([, standing]) => isEnough(standing, needed))
        .map(([person]) => names.get(person) ?? person);
    const { person, name, may, answersForSafety } = signedIn;
    return {
      people: true,
      signedIn: { person, name, may, answersForSafety },
      able: { measure: able("measure"), release: able("release"), owner: able("owner"), safety: able("safety") },
    };
  }

  async list(): Promise<readonly PersonView[]> {
    const [kept, sessions] = await Promise.all([this.kept.all(), this.kept.sessions()]);
    return [...this.standings].map(([person, { may, answersForSafety, since }]) => {
      const name = kept.find((one) => one.person === person)?.name;
      const at = sessions.filter((one) => one.person === person).map(({ seen_at }) => seen_at);
      const seenAt = at.toSorted().at(-1);
      return {
        person,
        name: name ?? "",
        may,
        answersForSafety,
        since,
        sessions: at.length,
        ...(seenAt !== undefined && { seenAt }),
        isErased: name === undefined,
      };
    });
  }

  /** Enters somebody; the first is the owner. */
  async add(by: string | undefined, given: NewPerson): Promise<void> {
    const person = readId(given.person);
    const name = readName(given.name);
    const may = given.may === undefined && !this.arePresent ? "owner" : readRight(given.may);
    if (may === "nothing") throw new BadInput("may", quote(may), "look, measure, release or owner", "choose a right");
    const known = this.standings.get(person);
    if (known) {
      const mend = known.may === "nothing" ? "choose another id, or give them a right again" : "choose another";
      throw new BadInput("person", quote(person), "acts in the ledger are under this id already", mend);
    }
    const passphrase = requirePassphrase("passphrase", given.passphrase, [person, name]);
    const secret = await secretOf(passphrase, this.cost);
    await this.kept.put({ person, name, secret });
    try {
      await this.enter(by ?? person, { person, may, answersForSafety: readMark(given.answersForSafety) ?? false });
    } catch (fault) {
      await this.kept.forget(person);
      throw fault;
    }
  }

  async change(by: string, person: string, change: PersonChange): Promise<void> {
    const before = this.requireKnown(person);
    const may = change.may === undefined ? before.may : readRight(change.may);
    const answersForSafety = readMark(change.answersForSafety) ?? before.answersForSafety;
    const name = change.name === undefined ? undefined : readName(change.name);
    const kept = await this.kept.get(person);
    if (!kept && (name !== undefined || may !== "nothing"))
      throw new BadInput("person", quote(person), "this person was erased", "enter them anew under another id");
    if (may !== before.may || answersForSafety !== before.answersForSafety)
      await this.enter(by, { person, may, answersForSafety });
    if (may === "nothing") await this.sessions.endAll(person);
    if (kept && name !== undefined) await this.kept.put({ ...kept, name });
  }

  /** Their acts stay under their id; name and passphrase are gone for good. */
  async erase(by: string, person: string): Promise<void> {
    const before = this.requireKnown(person);
    if (before.may !== "nothing") await this.enter(by, { person, may: "nothing", answersForSafety: false });
    await this.sessions.endAll(person);
    await this.kept.forget(person);
  }

  /** A new passphrase ends every session of the person. */
  async setPassphrase(person: string, passphrase: unknown): Promise<void> {
    const { may } = this.requireKnown(person);
    // A workshop that came out of an archive has its people in the chain, and their names and secrets nowhere.
    const kept = (await this.kept.get(person)) ?? (may === "nothing" ? undefined : { person, name: person });
    if (!kept)
      throw new BadInput("person", quote(person), "this person was erased", "enter them anew under another id");
    const good = requirePassphrase("passphrase", passphrase, [person, kept.name]);
    const secret = await secretOf(good, this.cost);
    await this.kept.put({ ...kept, secret });
    await this.sessions.endAll(person);
  }

  /** One's own, once the present one was typed. @returns the token of a fresh session */
  async changeOwnPassphrase(person: string, present: unknown, next: unknown, address: string): Promise<string> {
    try {
      await this.prove(person, present, address);
    } catch (fault) {
      if (!(fault instanceof NotLetIn) || fault.statusCode !== 401) throw fault;
      throw new BadInput("present", "another passphrase", "the one that you sign in with now", "type it again");
    }
    await this.setPassphrase(person, next);
    return this.sessions.begin(person);
  }

  private get standings() {
    return peopleOf(this.options.shop().ledger);
  }

  private requireKnown(person: string): Standing {
    const known = this.standings.get(person);
    if (known) return known;
    const some = [...this.standings.keys()].slice(0, 12).join(", ");
    throw new BadInput("person", quote(person), `people here: ${some || "nobody yet"}`, "check the id");
  }

  private async enter(by: string, body: { person: string } & Standing): Promise<void> {
    try {
      await this.options.enter([{ at: this.options.now(), by, kind: "person", ...body }]);
    } catch (fault) {
      if (!(fault instanceof BadInput)) throw fault;
      throw BadInput.at(fault.path.replace(/^entries\[0\]\.?/, ""), fault);
    }
  }
}

function readId(person: unknown): string {
  const read = personId.safeParse(typeof person === "string" ? person.normalize("NFC").trim() : person);
  if (read.success) return read.data;
  throw new BadInput(
    "person",
    quote(person),
    "up to 40 letters and digits, with blanks, dots, - or _ between them",
    "take what the ledger shall say for ever, such as bench-2; the name stands apart and can be erased",
  );
}

function readName(name: unknown): string {
  const text = typeof name === "string" ? name.normalize("NFC").trim() : "";
  if (text !== "" && text.length <= 120) return text;
  throw new BadInput("name", quote(name), "1 to 120 characters", "write what the others call them");
}

function readRight(may: unknown): Right {
  const right = rights.find((one) => one === may);
  if (right) return right;
  throw new BadInput("may", quote(may), `one of ${rights.join(", ")}`, "choose a right");
}

function readMark(mark: unknown): boolean | undefined {
  if (mark === undefined || typeof mark === "boolean") return mark;
  throw new BadInput(
    "answersForSafety",
    quote(mark),
    "true or false",
    "say whether they are licensed and answer for them",
  );
}

const inWords = (wait_s: number) => (wait_s < 90 ? `${wait_s} s` : `${Math.ceil(wait_s / 60)} min`);
