import type { FastifyInstance } from "fastify";
import { BadInput, quote } from "../../maths/badInput.ts";
import type { CustomersDesk } from "../../workshop/people/customers.ts";
import type { PeopleDesk } from "../../workshop/people/desk.ts";
import type { ErasureView } from "../../workshop/people/views.ts";
import { byOf, fields } from "./peopleRoutes.ts";

/** Names and addresses of customers, and what is erased on request: of customers and of people. */
export function addCustomerRoutes(app: FastifyInstance, customers: CustomersDesk, people: PeopleDesk): void {
  app.get<{ Querystring: { find?: unknown } }>("/api/customers", ({ query }) => customers.view(query.find));
  app.post<{ Params: { customer: string } }>("/api/customers/:customer", { bodyLimit: 8192 }, async (request) => {
    const { name, address } = fields(request.body);
    await customers.put(request.params.customer, name, address);
    return customers.view();
  });
  app.post<{ Params: { customer: string } }>(
    "/api/customers/:customer/erase",
    async ({ params, body }): Promise<ErasureView> => customers.erase(params.customer, copiesOf(body)),
  );
  app.post<{ Params: { person: string } }>("/api/people/:person/erase", async (request): Promise<ErasureView> => {
    const { person } = request.params;
    await people.erase(byOf(request, fields(request.body ?? {}).by, people), person);
    return customers.erasedPerson(person, copiesOf(request.body));
  });
}

function copiesOf(body: unknown): boolean {
  const { copies = false } = fields(body ?? {});
  if (typeof copies === "boolean") return copies;
  throw new BadInput("copies", quote(copies), "true or false", "say whether copies shall be rewritten too");
}
