import type { CustomerView, PersonView, SessionView } from "../../workshop/people/views.ts";

const able = {
  measure: ["Inga at the harbour", "Office", "First bench"],
  release: ["Inga at the harbour", "Office"],
  owner: ["Inga at the harbour"],
  safety: ["First bench"],
};

export const owner: SessionView = {
  people: true,
  signedIn: { person: "owner", name: "Inga at the harbour", may: "owner", answersForSafety: false },
  able,
};

export const visitor: SessionView = {
  people: true,
  signedIn: { person: "visitor", name: "Somebody visiting", may: "look", answersForSafety: false },
  able,
};

export const nobody: SessionView = { people: false };

const since = "2027-01-04T09:00:00.000Z";
const person = (id: string, name: string, may: PersonView["may"], more: Partial<PersonView> = {}): PersonView => ({
  person: id,
  name,
  may,
  answersForSafety: false,
  since,
  sessions: 0,
  isErased: false,
  ...more,
});

export const register: readonly PersonView[] = [
  person("owner", "Inga at the harbour", "owner", { sessions: 2, seenAt: since }),
  person("former", "", "nothing", { isErased: true }),
  person("bench technician", "First bench", "measure", { answersForSafety: true, sessions: 1, seenAt: since }),
  person("office", "Office", "release"),
  person("visitor", "Somebody whose name is so long that it will not stand beside anything else on a phone", "look"),
  person("apprentice", "Last year’s apprentice", "nothing"),
];

export const customers: readonly CustomerView[] = [
  { customer: "c-01", name: "A reader on the prairie", address: "Grain Road 4\nPrairie", orders: ["Q-151", "Q-158"] },
  { customer: "c-02", orders: ["Q-152"] },
  { customer: "c-03", name: "Somebody who only asked", address: "Mesa Track 11", orders: [] },
];
