import { BadInput } from "../maths/badInput.ts";
import { serverOf } from "../store/lock.ts";
import type { ErasureView, PeopleView, PersonView } from "../workshop/people/views.ts";
import type { Workshop } from "../workshop/workshop.ts";
import { askServer } from "./askServer.ts";
import { keepToOneself } from "./keepToOneself.ts";
import { erasureWords, peopleWords } from "./peopleWords.ts";
import { readPassphrase } from "./readPassphrase.ts";
import { dataFolder, type FolderOption, openToWrite } from "./workshopFolder.ts";

interface PeopleOptions extends FolderOption {
  readonly by?: string;
  readonly json?: boolean;
}

/** What is done about people: by itself when nobody has the workshop open, else through the server that has. */
interface Desk {
  list(): Promise<readonly PersonView[]>;
  add(
    person: string,
    given: { name: string; may?: string; answersForSafety: boolean; passphrase: string },
  ): Promise<void>;
  change(person: string, change: { may?: string; answersForSafety?: boolean; name?: string }): Promise<void>;
  setPassphrase(person: string, passphrase: string): Promise<void>;
  erase(person: string, copies: boolean): Promise<ErasureView>;
  close(): Promise<void>;
}

async function desk(options: PeopleOptions): Promise<Desk> {
  const folder = dataFolder(options);
  const server = serverOf(folder);
  return server === undefined
    ? atHand(await openToWrite(options), options.by)
    : remote({ address: server, folder }, options.by);
}

function atHand(workshop: Workshop, by?: string): Desk {
  const { people, customers } = workshop;
  const owner = () => {
    if (by !== undefined) return by;
    const { owners } = people;
    if (owners.length === 1) return owners[0]!;
    throw new BadInput("--by", "nothing", `an owner: ${owners.join(", ") || "none yet"}`, "say which owner does it");
  };
  return {
    list: () => people.list(),
    add: (person, given) => people.add(people.arePresent ? owner() : undefined, { person, may: undefined, ...given }),
    change: (person, change) => people.change(owner(), person, change),
    setPassphrase: (person, passphrase) => people.setPassphrase(person, passphrase),
    erase: async (person, copies) => {
      await people.erase(owner(), person);
      return customers.erasedPerson(person, copies);
    },
    close: () => workshop.close(),
  };
}

function remote(server: { readonly address: string; readonly folder: string }, by?: string): Desk {
  const send = <T>(path: string, body: object) =>
    askServer<T>(server, path, { method: "POST", body: JSON.stringify({ ...(by !== undefined && { by }), ...body }) });
  const at = (person: string) => `/api/people/${encodeURIComponent(person)}`;
  return {
    list: async () => (await askServer<PeopleView>(server, "/api/people")).people,
    add: async (person, given) => void (await send("/api/people", { person, ...given })),
    change: async (person, change) => void (await send(at(person), change)),
    setPassphrase: async (person, passphrase) => void (await send(`${at(person)}/passphrase`, { passphrase })),
    erase: (person, copies) => send<ErasureView>(`${at(person)}/erase`, { copies }),
    close: async () => undefined,
  };
}

async function withDesk<T>(options: PeopleOptions, use: (open: Desk) => Promise<T>): Promise<T> {
  const open = await desk(options);
  try {
    return await use(open);
  } finally {
    await open.close();
    keepToOneself(dataFolder(options));
  }
}

/** `stillglow people` */
export async function listPeople(options: PeopleOptions): Promise<void> {
  const people = await withDesk(options, (open) => open.list());
  process.stdout.write(`${options.json ? JSON.stringify({ people }) : peopleWords(people)}\n`);
}

/** `stillglow people add ID` */
export async function addPerson(
  person: string,
  options: PeopleOptions & { readonly name: string; readonly may?: string; readonly answersForSafety?: boolean },
): Promise<void> {
  const { name, may, answersForSafety = false } = options;
  const passphrase = await readPassphrase(`of ${person}`);
  await withDesk(options, (open) =>
    open.add(person, { name, answersForSafety, passphrase, ...(may !== undefined && { may }) }),
  );
  process.stdout.write(`${person} may sign in now.\n`);
}

/** `stillglow people role ID RIGHT` */
export async function changePerson(
  person: string,
  may: string | undefined,
  options: PeopleOptions & { readonly answersForSafety?: boolean; readonly name?: string },
): Promise<void> {
  const { answersForSafety, name } = options;
  await withDesk(options, (open) =>
    open.change(person, {
      ...(may !== undefined && { may }),
      ...(answersForSafety !== undefined && { answersForSafety }),
      ...(name !== undefined && { name }),
    }),
  );
  process.stdout.write(`${person} is changed.\n`);
}

/** `stillglow people remove ID`: may no longer sign in; with `--erase` the name is gone too. */
export async function removePerson(
  person: string,
  options: PeopleOptions & { readonly erase?: boolean; readonly copies?: boolean },
): Promise<void> {
  const { erase = false, copies = false } = options;
  const outcome = await withDesk(options, async (open) => {
    if (erase) return open.erase(person, copies);
    await open.change(person, { may: "nothing" });
    return undefined;
  });
  if (outcome === undefined)
    process.stdout.write(`${person} may no longer sign in; what they did stays under ${person}.\n`);
  else
    process.stdout.write(
      `${options.json ? JSON.stringify(outcome) : erasureWords(`The name of ${person}`, outcome)}\n`,
    );
}

/** `stillglow people passphrase ID` */
export async function newPassphrase(person: string, options: PeopleOptions): Promise<void> {
  const passphrase = await readPassphrase(`of ${person}`);
  await withDesk(options, (open) => open.setPassphrase(person, passphrase));
  process.stdout.write(`${person} signs in with the new passphrase; every browser of theirs was signed out.\n`);
}
