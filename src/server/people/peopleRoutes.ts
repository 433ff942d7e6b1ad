import type { FastifyInstance, FastifyReply, FastifyRequest } from "fastify";
import { BadInput, quote } from "../../maths/badInput.ts";
import type { PeopleDesk } from "../../workshop/people/desk.ts";
import type { PeopleView, SessionView } from "../../workshop/people/views.ts";
import { giveToken, takeToken } from "./cookie.ts";
import { type Door, networkOf } from "./door.ts";

interface OfPerson {
  Params: { person: string };
}
type Fields = Readonly<Record<string, unknown>>;

/** The way in and out, and the owner's page of people. */
export function addPeopleRoutes(app: FastifyInstance, people: PeopleDesk, door: Door): void {
  const view = (request: FastifyRequest): Promise<SessionView> =>
    people.sessionView(request.acting.kind === "person" ? request.acting.signedIn : undefined);

  app.get("/api/session", view);
  app.post("/api/session", { bodyLimit: 4096 }, async (request, reply) => {
    const { person, passphrase } = fields(request.body);
    const { token } = await people.signIn(person, passphrase, networkOf(request.ip));
    giveToken(reply, door, token);
    return people.sessionView(await people.signedIn(token));
  });
  app.delete("/api/session", async ({ acting }, reply) => {
    if (acting.kind === "person") await people.sessions.end(acting.token_sha256);
    return signedOut(reply);
  });
  app.delete("/api/sessions", async ({ acting }, reply) => {
    if (acting.kind === "person") await people.sessions.endAll(acting.signedIn.person);
    return signedOut(reply);
  });
  app.post("/api/session/passphrase", { bodyLimit: 4096 }, async ({ acting, body, ip }, reply) => {
    if (acting.kind !== "person") throw new BadInput("", "nobody signed in", "a person's session", "sign in first");
    const { present, passphrase } = fields(body);
    const token = await people.changeOwnPassphrase(acting.signedIn.person, present, passphrase, networkOf(ip));
    giveToken(reply, door, token);
    return people.sessionView(await people.signedIn(token));
  });

  app.get("/api/people", async (): Promise<PeopleView> => ({ people: await people.list() }));
  app.post("/api/people", { bodyLimit: 8192 }, async (request): Promise<PeopleView> => {
    const { by, person, name, may, answersForSafety, passphrase } = fields(request.body);
    await people.add(byOf(request, by, people, person), { person, name, may, answersForSafety, passphrase });
    return { people: await people.list() };
  });
  app.post<OfPerson>("/api/people/:person", { bodyLimit: 8192 }, async (request): Promise<PeopleView> => {
    const { by, name, may, answersForSafety } = fields(request.body);
    await people.change(byOf(request, by, people), request.params.person, { name, may, answersForSafety });
    return { people: await people.list() };
  });
  app.post<OfPerson>("/api/people/:person/passphrase", { bodyLimit: 8192 }, async ({ params, body }) => {
    await people.setPassphrase(params.person, fields(body).passphrase);
    return { people: await people.list() };
  });
  app.delete<OfPerson>("/api/people/:person/sessions", async ({ params }) => {
    await people.sessions.endAll(params.person);
    return { people: await people.list() };
  });

  function signedOut(reply: FastifyReply): SessionView {
    takeToken(reply, door);
    return { people: people.arePresent };
  }
}

/** Under whom an owner's act stands: who is signed in; a local command says it, or means the only owner. */
export function byOf({ acting }: FastifyRequest, given: unknown, people: PeopleDesk, first?: unknown): string {
  if (acting.kind === "person") {
    if (given === undefined || given === acting.signedIn.person) return acting.signedIn.person;
    throw new BadInput("by", quote(given), `you are signed in as ${acting.signedIn.person}`, "leave it out");
  }
  if (typeof given === "string" && given.trim() !== "") return given.trim();
  const { owners } = people;
  if (owners.length === 1) return owners[0]!;
  if (owners.length === 0 && typeof first === "string") return first;
  throw new BadInput("by", "nothing", `an owner: ${owners.join(", ") || "none yet"}`, "say which owner does it");
}

export function fields(body: unknown): Fields {
  if (typeof body === "object" && body !== null && !Array.isArray(body)) return body as Fields;
  throw new BadInput("", quote(body), "one JSON object", "send the fields as JSON");
}
