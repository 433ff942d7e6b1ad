import type { Engine } from "./engine.ts";
import { build, type CustomerTable } from "./tables.ts";

/** Names and addresses, which the chain knows by an id alone. */
export class Customers {
  private readonly engine: Engine;

  constructor(engine: Engine) {
    this.engine = engine;
  }

  async put(customer: CustomerTable): Promise<void> {
    const { name, address } = customer;
    await this.engine.do(
      build
        .insertInto("customer")
        .values(customer)
        .onConflict((conflict) => conflict.column("customer").doUpdateSet({ name, address })),
    );
  }

  async get(customer: string): Promise<CustomerTable | undefined> {
    const [found] = await this.engine.all(build.selectFrom("customer").selectAll().where("customer", "=", customer));
    return found;
  }

  all(): Promise<readonly CustomerTable[]> {
    return this.engine.all(build.selectFrom("customer").selectAll().orderBy("customer"));
  }

  /** Erases name and address from the database's files too; the orders keep the id. */
  async forget(customer: string): Promise<void> {
    await this.engine.do(build.deleteFrom("customer").where("customer", "=", customer));
    await this.engine.scrub("customer");
  }
}
