import { spoken } from "../languages/spoken.ts";

const list = (names: readonly string[]) => names.join(", ");

export const words = spoken("people", "words", {
  signOutEverywhere: "Sign out at every browser",

  what: "the people of this workshop",
  title: "The people here",
  lead: "Each acts under an id that stays in the ledger for ever. Names stand beside it and can be erased.",
  you: "You",
  rights: { nothing: "left", look: "look", measure: "measure", release: "release", owner: "owner" },
  may: {
    nothing: "may no longer come in",
    look: "may look",
    measure: "may look and measure",
    release: "may look, measure and release",
    owner: "may do everything and enters people",
  },
  rightHints: {
    look: "sees everything and computes",
    measure: "writes readings, recordings and steps down",
    release: "also releases units, gives dates, sets models and limits of valves",
    owner: "also concedes, enters people and erases",
  },
  answers: "Licensed, and answers for the safety limits",
  answersHint: "Only whoever has this mark adopts limits of safety tests.",
  answersShort: "answers for safety limits",
  here: (count: number) =>
    count === 0 ? "signed in nowhere" : count === 1 ? "signed in at one browser" : `signed in at ${count} browsers`,
  erasedName: "name erased",

  ownPassphrase: "A new passphrase of your own",
  present: "The one you have now",
  next: "The new one",
  nextHint: "At least 12 characters; four words that nobody would guess",
  again: "The same again",
  differ: "The two differ. Type them again.",
  changePassphrase: "Take the new one",
  passphraseChanged: "From now on you sign in with the new one. Every other browser of yours is signed out.",

  addTitle: "Enter somebody",
  id: "Id",
  idHint: "Stays in the ledger and can never be erased, so no name: bench-2, owner",
  name: "Name",
  nameHint: "What the others call them",
  mayWhat: "What they may do",
  firstPassphrase: "Their first passphrase",
  firstPassphraseHint: "Tell it to them; they change it on this page",
  add: "Let them in",
  added: (name: string) => `${name} may sign in now.`,

  change: (name: string) => `Change what stands here of ${name}`,
  write: "Write it down",
  changed: (name: string) => `${name} is changed.`,
  newPassphrase: "A new passphrase for them",
  give: "Give it to them",
  given: (name: string) => `${name} signs in with the new one, and is signed out everywhere.`,
  endSessions: "Sign them out everywhere",
  endedSessions: (name: string) => `${name} is signed out everywhere.`,
  leave: "Let them in no more",
  leaveNote: "What they did stays under their id, and so does their name. A right can be given again.",
  left: (name: string) => `${name} may no longer come in.`,
  erase: "Erase the name",
  eraseNote: "For good: the name and the passphrase go, what was done stays under the id. They can't sign in any more.",
  eraseSure: "Yes, erase this name for good",
  copiesToo: "Write the copies that hold it anew, too",
  erasePersonDone: (id: string) => `The name of ${id} is erased.`,

  noneTitle: "Nobody signs in here",
  none: "Whoever sits at this machine may do everything, and no other machine gets in. Enter the owner, and from then on everybody signs in; with people, other machines can be let in too.",
  firstTitle: "Enter the owner",
  firstAdd: "Enter the owner",

  customersWhat: "the customers",
  customersLead:
    "Orders name a customer by an id alone. Name and address stand beside the ledger, so that they can be erased when a customer asks; ledger and dossiers stand as before.",
  findCustomer: "Find by id, name, address or order",
  customersFound: (count: number, all: number) => `${count} of ${all} customers`,
  customersNone: "No order names a customer yet.",
  address: "Address",
  orders: (orders: readonly string[], more: number) =>
    orders.length === 0
      ? "no order"
      : `${orders.length + more === 1 ? "order" : "orders"} ${list(orders)}${more > 0 ? ` and ${more} more` : ""}`,
  noName: "no name kept",
  put: "Name and address",
  putDone: (id: string) => `${id} is written down.`,
  eraseCustomer: "Erase name and address",
  eraseCustomerNote: "For good. Orders, ledger and dossiers stay as they are.",
  eraseCustomerSure: "Yes, erase them for good",
  eraseCustomerDone: (id: string) => `Name and address of ${id} are erased from the workshop’s file and its log.`,
  holding: (count: number) => (count === 1 ? "One copy still holds it:" : `${count} copies still hold it:`),
  rewritten: (count: number) =>
    count === 1
      ? "Taken out of one copy, which was read whole afterwards:"
      : `Taken out of ${count} copies, each read whole afterwards:`,
  unread: (folder: string) => `Not looked into: ${folder}`,
  rewrite: "Take it out of them too",
  alsoKeep:
    "Copies on other disks, backups of the whole machine, e-mails and printed sheets can’t be seen from here; look there too.",
});
