import type { Engine } from "./engine.ts";
import { build, type CustomerTable } from "./tables.ts";

/** Names and addresses, which the chain knows by an id alone. */
export class Customers {
  private readonly engine: Engine;

  constructor(engine: Engine) {
    this.engine = engine;
  }

  put(customer: CustomerTable): void {
    const { name, address } = customer;
    this.engine.do(
      build
        .insertInto("customer")
        .values(customer)
        .onConflict((conflict) => conflict.column("customer").doUpdateSet({ name, address })),
    );
  }

  get(customer: string): CustomerTable | undefined {
    return this.engine.all(build.selectFrom("customer").selectAll().where("customer", "=", customer))[0];
  }

  all(): readonly CustomerTable[] {
    return this.engine.all(build.selectFrom("customer").selectAll().orderBy("customer"));
  }

  /** Erases name and address from the file and its log; the orders keep the id. */
  forget(customer: string): void {
    this.engine.do(build.deleteFrom("customer").where("customer", "=", customer));
    this.engine.checkpoint();
  }
}
