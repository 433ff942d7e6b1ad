import { serverOf } from "../store/lock.ts";
import type { CustomersView, CustomerView, ErasureView } from "../workshop/people/views.ts";
import { askServer } from "./askServer.ts";
import { customersWords, erasureWords } from "./peopleWords.ts";
import { dataFolder, type FolderOption, openToRead, openToWrite } from "./workshopFolder.ts";

interface CustomersOptions extends FolderOption {
  readonly json?: boolean;
}

/** `stillglow customers` */
export async function listCustomers(options: CustomersOptions): Promise<void> {
  const workshop = await openToRead(options);
  try {
    const customers: readonly CustomerView[] = await workshop.customers.list();
    process.stdout.write(`${options.json ? JSON.stringify({ customers }) : customersWords(customers)}\n`);
  } finally {
    await workshop.close();
  }
}

/** `stillglow customers put ID --name … --address …` */
export async function putCustomer(
  customer: string,
  options: CustomersOptions & { readonly name: string; readonly address: string },
): Promise<void> {
  const { name, address } = options;
  const folder = dataFolder(options);
  const server = serverOf(folder);
  if (server !== undefined) {
    await askServer<CustomersView>({ address: server, folder }, `/api/customers/${encodeURIComponent(customer)}`, {
      method: "POST",
      body: JSON.stringify({ name, address }),
    });
  } else {
    const workshop = await openToWrite(options);
    try {
      await workshop.customers.put(customer, name, address);
    } finally {
      await workshop.close();
    }
  }
  process.stdout.write(`${customer} is written down.\n`);
}

/** `stillglow customers erase ID`: name and address, and with `--copies` in every copy that can be reached. */
export async function eraseCustomer(
  customer: string,
  options: CustomersOptions & { readonly copies?: boolean },
): Promise<void> {
  const { copies = false } = options;
  const outcome = await erased(customer, copies, options);
  process.stdout.write(
    `${options.json ? JSON.stringify(outcome) : erasureWords(`Name and address of ${customer}`, outcome)}\n`,
  );
}

async function erased(customer: string, copies: boolean, options: FolderOption): Promise<ErasureView> {
  const folder = dataFolder(options);
  const server = serverOf(folder);
  if (server !== undefined) {
    const path = `/api/customers/${encodeURIComponent(customer)}/erase`;
    return askServer<ErasureView>({ address: server, folder }, path, {
      method: "POST",
      body: JSON.stringify({ copies }),
    });
  }
  const workshop = await openToWrite(options);
  try {
    return await workshop.customers.erase(customer, copies);
  } finally {
    await workshop.close();
  }
}
